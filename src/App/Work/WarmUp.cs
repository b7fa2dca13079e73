using Trimwright.Core.Telling;
using Trimwright.Drawing;

namespace Trimwright.App.Work;

/// <summary>
/// Looks at the starters in the background until the machine code of prediction and drawing is the fast one. Untried code
/// runs several times slower for its first hundred calls, and these would otherwise be the maker's first drag.
/// </summary>
internal static class WarmUp
{
    private const int Looks = 33;

    // The runtime improves code only after a pause in which nothing new was met.
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);

    /// <summary>Begins after a wait, on a thread that gives way to every other; ends early when asked to.</summary>
    public static Thread Start(TimeSpan wait, CancellationToken ending)
    {
        var thread = new Thread(() => Run(wait, ending)) { IsBackground = true, Priority = ThreadPriority.Lowest, Name = "warming up" };
        thread.Start();
        return thread;
    }

    private static void Run(TimeSpan wait, CancellationToken ending)
    {
        if (ending.WaitHandle.WaitOne(wait)) return;
        for (int round = 0; round < 2; round++)
        {
            for (int i = 0; i < Looks && !ending.IsCancellationRequested; i++)
            {
                var design = Starters.All[i % Starters.All.Length].Design;
                Core.Design.LureFile.Read(Core.Design.LureFile.Write(design));
                Look.Following(design, Look.At(design, Switches.InTheSea.Circumstances, Notation.Metric), Notation.Metric);
                Drawn.Outlines(new OutlineSheet(design.Body), design, null, Notation.Metric);
            }
            if (ending.WaitHandle.WaitOne(Pause)) return;
        }
    }
}
