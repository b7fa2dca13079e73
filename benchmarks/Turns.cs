using System.Diagnostics;
using Trimwright.App.Scheduling;
using Trimwright.App.Edits;
using Trimwright.App.Faults;
using Trimwright.App.Gate;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Benchmarks;

/// <summary>
/// How long a word of the page waits for a thread while one or two long works, loops over all cores, are under way: as .NET starts,
/// and after <see cref="Machine.KeepThreadsFree"/>. Then 500 gestures through the scheduler, alone and while two plans and a sampling
/// run, turn about in one run.
/// </summary>
internal static class Turns
{
    public static void Run()
    {
        foreach (bool free in new[] { false, true })
        {
            if (free) Machine.KeepThreadsFree();
            foreach (int works in new[] { 1, 2 }) Wait(works, free ? "threads kept free" : "as .NET starts");
        }
        Beside();
    }

    private sealed record PlanIt(LureDesign Bare) : IQuestion<PlanAnswer>
    {
        public PlanAnswer Answer(Pace pace) => Planner.Of(Bare, Catalogue.Starter, WantWords.Parse("sinks slowly, level").Want!, PlanLimits.Usual, pace);
    }

    private static void Beside()
    {
        LureDesign lure = Demo.Lure("tidegate-185");
        var scheduler = new Scheduler();
        var hand = new Owner();
        Look look = scheduler.Do(new LookAt(lure, Circumstances.InTheSea, Notation.Metric), Priority.Preview, hand);
        OutlinePoint p = lure.Body.Belly.Points[4];
        Gestures(100);
        for (int round = 0; round < 2; round++)
        {
            Tell("alone", Gestures(500));
            using var stop = new CancellationTokenSource();
            int answered = 0;
            Task[] beside = [Again(new PlanIt(lure with { Ballast = [] }), Priority.Plan), Again(new PlanIt(lure with { Ballast = [] }), Priority.Plan), Again(new HowSure(lure, Circumstances.InTheSea), Priority.Sampling)];
            Tell("beside two plans and a sampling", Gestures(500));
            long from = Stopwatch.GetTimestamp();
            stop.Cancel();
            Task.WaitAll(beside);
            Console.WriteLine($"  {answered} answered meanwhile; all ended {Stopwatch.GetElapsedTime(from).TotalMilliseconds:0} ms after they were given up");

            async Task Again<T>(IQuestion<T> question, Priority priority)
            {
                var owner = new Owner();
                try
                {
                    while (true)
                    {
                        await scheduler.Ask(question, priority, owner, cancellation: stop.Token).ConfigureAwait(false);
                        Interlocked.Increment(ref answered);
                    }
                }
                catch (OperationCanceledException)
                {
                    // Enough.
                }
            }
        }

        // Each: what a word waits for a thread, and what a picture under the hand takes from the word to its being there.
        List<(double Word, double Picture)> Gestures(int count)
        {
            var all = new List<(double, double)>();
            using var done = new SemaphoreSlim(0);
            for (int i = 0; i < count; i++)
            {
                long from = Stopwatch.GetTimestamp();
                double word = 0;
                ThreadPool.UnsafeQueueUserWorkItem(_ =>
                {
                    word = Stopwatch.GetElapsedTime(from).TotalMilliseconds;
                    look = scheduler.Do(new LookInHand(Reshape.Move(lure, Line.Belly, 4, p.X, p.Value + 3 * Math.Sin(0.05 * i)), look, Notation.Metric), Priority.Hand, hand);
                    done.Release();
                }, null);
                done.Wait();
                all.Add((word, Stopwatch.GetElapsedTime(from).TotalMilliseconds));
                // A hand at 125 moves a second.
                Thread.Sleep(8);
            }
            return all;
        }

        static void Tell(string how, List<(double Word, double Picture)> all)
        {
            double At(Func<(double Word, double Picture), double> of, double share) => all.Select(of).Order().ElementAt((int)(share * (all.Count - 1)));
            Console.WriteLine($"500 gestures {how}: a word waits {At(g => g.Word, 0.5):0.0} ms at the median, {At(g => g.Word, 0.99):0.0} at the 99th, {At(g => g.Word, 1):0.0} at most; "
                + $"a picture takes {At(g => g.Picture, 0.5):0.0}, {At(g => g.Picture, 0.99):0.0}, {At(g => g.Picture, 1):0.0}");
        }
    }

    private static void Wait(int works, string how)
    {
        using var done = new CancellationTokenSource();
        Thread[] all = [.. Enumerable.Range(0, works).Select(_ => new Thread(() =>
        {
            while (!done.IsCancellationRequested)
                Parallel.For(0, 100, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, _ => Work(TimeSpan.FromMilliseconds(25)));
        }))];
        foreach (Thread work in all) work.Start();
        Thread.Sleep(1000);
        var waited = new List<double>();
        for (int i = 0; i < 60; i++)
        {
            using var turn = new ManualResetEventSlim();
            long from = Stopwatch.GetTimestamp();
            ThreadPool.QueueUserWorkItem(_ => turn.Set());
            turn.Wait();
            waited.Add(Stopwatch.GetElapsedTime(from).TotalMilliseconds);
            Thread.Sleep(100);
        }
        done.Cancel();
        foreach (Thread work in all) work.Join();
        Console.WriteLine($"{how}, {works} long: median {waited.Order().ElementAt(30):0} ms, longest {waited.Max():0} ms");
    }

    private static void Work(TimeSpan time)
    {
        long from = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(from) < time) Thread.SpinWait(100);
    }
}
