using System.Diagnostics;
using System.Runtime.InteropServices;
using Trimwright.App.Questions;
using Trimwright.App.Sessions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;

namespace Trimwright.Benchmarks;

/// <summary>
/// How soon long work ends when nobody wants it any more. Of each kind: how often it asks, the longest that a thread works between two
/// times of asking (its own processor time, so that whatever else the machine does stays out), and how long it took to end when
/// it was cancelled at moments spread over its run. Last, what asking costs.
/// </summary>
internal static partial class Stops
{
    // So many times each, in the first seconds of its run.
    private const int Cancels = 10;
    private const double First = 10_000;

    [ThreadStatic]
    private static double last;

    public static void Run()
    {
        foreach ((string name, Action<Pace> work) in Works())
        {
            (double whole, long steps, double longest, string where) = Gaps(work);
            Console.Write($"{name,-30} {whole,7:0} ms of one core, asks {steps,8} times, at most {longest,5:0.0} ms of work between");
            double[] ended = [.. Enumerable.Range(0, Cancels).Select(i => Ended(work, Math.Min(whole, First) * (i + 0.5) / Cancels)).Where(t => t >= 0).Order()];
            Console.WriteLine(ended.Length > 0 ? $"; cancelled, it ended after {ended[ended.Length / 2]:0.0} ms at the median, {ended[^1]:0.0} at most" : "");
            if (longest > 50) Console.WriteLine(where);
        }
        Cost();
    }

    private static IEnumerable<(string, Action<Pace>)> Works()
    {
        LureDesign stick = Demo.Lure("tidegate-185"), pencil = Demo.Lure("old-pencil-210"), post = Demo.Lure("mooring-post-210");
        MakersBox box = Catalogue.Starter;
        TubLog stickLog = Demo.Log("tidegate-185"), pencilLog = Demo.Log("old-pencil-210");
        LureDesign bare = stick with { Ballast = [] };
        Want slowly = WantWords.Parse("sinks slowly, level").Want!;
        yield return ("how sure", pace => new HowSure(stick, Circumstances.InTheSea).Answer(pace));
        yield return ("how sure, of one that floats", pace => new HowSure(post, Circumstances.InTheSea).Answer(pace));
        yield return ("what readings say", pace => Knowing.Of(new BuildModel(stick), stickLog, Circumstances.InTheSea, pace: pace));
        Knowing known = Knowing.Of(new BuildModel(stick), stickLog, Circumstances.InTheSea);
        yield return ("what to read next", pace => Candidates.Of(known, Core.Ledger.Stage.Finished, null, pace));
        yield return ("plan", pace => Planner.Of(bare, box, slowly, PlanLimits.Usual, pace));
        yield return ("plan that takes many pockets", pace => Planner.Of(bare, box, slowly, PlanLimits.Usual with { MostPockets = 8 }, pace));
        yield return ("why there is no plan", pace => Planner.Of(bare, box, slowly, PlanLimits.Usual with { Sound = new SoundWood(9, 6) }, pace));
        yield return ("remedies", pace => new Remedies(stick, box, pace).All());
        yield return ("copy", pace => Unseen.Of(pencil, pencilLog, Circumstances.InTheSea, 1000, pace: pace).MostTelling(null, pace));
    }

    private static (double Whole, long Steps, double Longest, string Where) Gaps(Action<Pace> work)
    {
        long steps = 0;
        double longest = 0;
        string where = "";
        // One thread: the same work between two steps as on several.
        double from = last = ThreadTime();
        work(new Pace(CancellationToken.None, 1, () =>
        {
            double now = ThreadTime(), gap = now - last;
            steps++;
            if (gap > longest) (longest, where) = (gap, gap > 50 ? Environment.StackTrace : "");
            last = ThreadTime();
        }));
        return (ThreadTime() - from, steps, Math.Max(longest, ThreadTime() - last), where);
    }

    private static double Ended(Action<Pace> work, double after)
    {
        using var stop = new CancellationTokenSource();
        long asked = 0;
        var thread = new Thread(() =>
        {
            Thread.Sleep(TimeSpan.FromMilliseconds(after));
            Volatile.Write(ref asked, Stopwatch.GetTimestamp());
            stop.Cancel();
        });
        thread.Start();
        try
        {
            work(stop.Token);
            thread.Join();
            return -1;
        }
        catch (OperationCanceledException)
        {
            double took = Stopwatch.GetElapsedTime(Volatile.Read(ref asked)).TotalMilliseconds;
            thread.Join();
            return took;
        }
    }

    private static void Cost()
    {
        using var never = new CancellationTokenSource();
        int turns = 0;
        foreach ((string what, Pace pace) in new[] { ("nobody to ask", Pace.Free), ("a token", new Pace(never.Token)), ("a token and a turn", new Pace(never.Token, 1, () => turns++)) })
        {
            const int Steps = 20_000_000;
            double best = double.MaxValue;
            for (int round = 0; round < 5; round++)
            {
                double from = ThreadTime();
                for (int i = 0; i < Steps; i++) pace.Step();
                best = Math.Min(best, 1e6 * (ThreadTime() - from) / Steps);
            }
            Console.WriteLine($"one step, {what}: {best:0.00} ns");
        }
    }

    /// <summary>Processor time of this thread, ms; on other systems than Linux that of the clock.</summary>
    private static double ThreadTime()
    {
        if (!OperatingSystem.IsLinux()) return Stopwatch.GetTimestamp() * 1000.0 / Stopwatch.Frequency;
        _ = Now(3, out TimeSpec time);
        return time.Seconds * 1e3 + time.Nanoseconds / 1e6;
    }

    [StructLayout(LayoutKind.Sequential)]
    private struct TimeSpec
    {
        public long Seconds;
        public long Nanoseconds;
    }

    // CLOCK_THREAD_CPUTIME_ID, POSIX.1-2008.
    [LibraryImport("libc", EntryPoint = "clock_gettime")]
    private static partial int Now(int clock, out TimeSpec time);
}
