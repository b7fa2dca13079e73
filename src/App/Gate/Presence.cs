using Microsoft.AspNetCore.Components.Server.Circuits;

namespace Trimwright.App.Gate;

/// <summary>
/// Whether anybody looks at this tab. One that was dropped, by a closed lid or a killed browser, is kept for a while so that it can come
/// back; nothing is worked out for it meanwhile.
/// </summary>
public sealed class Presence : CircuitHandler
{
    /// <summary>Its line went.</summary>
    public event Action? Left;

    /// <summary>It is there, or there again.</summary>
    public event Action? Back;

    public override Task OnConnectionDownAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Left?.Invoke();
        return Task.CompletedTask;
    }

    public override Task OnConnectionUpAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Back?.Invoke();
        return Task.CompletedTask;
    }
}
