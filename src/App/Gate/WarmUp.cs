using Trimwright.App.Carried;
using Trimwright.App.Questions;
using Trimwright.App.Scheduling;

namespace Trimwright.App.Gate;

/// <summary>
/// Looks at the starters in the background until the machine code of prediction and drawing is the fast one. Untried code
/// runs several times slower for its first hundred calls, and these would otherwise be the maker's first drag.
/// </summary>
internal static class WarmUp
{
    private const int Looks = 33;

    // The runtime improves code only after a pause in which nothing new was met.
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);

    /// <summary>Begins after a wait, and gives way to every other question; ends early when asked to.</summary>
    public static Thread Start(Scheduler scheduler, TimeSpan wait, CancellationToken ending)
    {
        var thread = new Thread(() => Run(scheduler, wait, ending)) { IsBackground = true, Priority = ThreadPriority.Lowest, Name = "warming up" };
        thread.Start();
        return thread;
    }

    private static void Run(Scheduler scheduler, TimeSpan wait, CancellationToken ending)
    {
        var owner = new Owner();
        if (ending.WaitHandle.WaitOne(wait)) return;
        for (int round = 0; round < 2; round++)
        {
            for (int i = 0; i < Looks && !ending.IsCancellationRequested; i++)
                scheduler.Do(new TrialLook(Starters.All[i % Starters.All.Length].Design), Priority.Sampling, owner, CancellationToken.None);
            if (ending.WaitHandle.WaitOne(Pause)) return;
        }
    }
}
