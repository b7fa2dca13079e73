using Microsoft.AspNetCore.Components.Server;

namespace Trimwright.App.Gate;

/// <summary>
/// How long the program remembers a tab whose line went. A tab that is closed says so, and is given back at once; what is meant
/// here are lids, sleeping machines and killed browsers. Whoever comes back later loads the address again, which holds all that
/// was saved, and what was typed stays in the browser.
/// </summary>
internal static class DroppedTabs
{
    /// <summary>The most that are kept.</summary>
    public const int Most = 20;

    /// <summary>Each for so long.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromMinutes(2);

    public static void Keep(CircuitOptions options)
    {
        (options.DisconnectedCircuitMaxRetained, options.DisconnectedCircuitRetentionPeriod) = (Most, Kept);
        // Only for pages that ask for it by a call that ours doesn't make.
        options.PersistedCircuitInMemoryMaxRetained = 0;
    }
}
