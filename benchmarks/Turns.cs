using System.Diagnostics;
using Trimwright.App.Work;

namespace Trimwright.Benchmarks;

/// <summary>
/// How long a word of the page waits for a thread while one or two long works, loops over all cores, are under way: as .NET starts,
/// and after <see cref="Machine.KeepThreadsFree"/>.
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
