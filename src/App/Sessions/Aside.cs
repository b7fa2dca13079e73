using Trimwright.App.Work;
using Trimwright.Core;
using Trimwright.Core.Design;

namespace Trimwright.App.Sessions;

/// <summary>
/// The one place beside the hand where long work is done, for all tabs: one piece at a time, begun when a lure has lain still
/// for a moment, ended by the next edit.
/// </summary>
public sealed class Aside
{
    private static readonly TimeSpan Still = TimeSpan.FromMilliseconds(600);

    private readonly SemaphoreSlim place = new(1);

    /// <summary>How sure a lure is; throws when it is cancelled first.</summary>
    public async Task<Unsure> HowSure(LureDesign design, Circumstances where, CancellationToken cancel)
    {
        await Task.Delay(Still, cancel);
        await place.WaitAsync(cancel);
        try
        {
            return await Task.Run(() => Unsure.Of(design, where, cancel), cancel);
        }
        finally
        {
            place.Release();
        }
    }
}
