using System.Globalization;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Commands;

/// <summary>
/// A command at work. On a terminal a line of its own says how far it has come and how long it will take, once that is more than half a
/// second; it is gone when the answer comes. Into a pipe or a file it says nothing.
/// </summary>
internal sealed class AtWork : IProgress<double>, IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.5), Between = TimeSpan.FromSeconds(0.25);

    // Before this much is done, what is left can't be told.
    private const double Enough = 0.05;

    private readonly TextWriter? line;
    private readonly TimeProvider clock;
    private readonly long start;
    private readonly ITimer? timer;
    private readonly Lock gate = new();
    private double done;
    private int width;

    /// <param name="cancellation">Ends the work.</param>
    public AtWork(CancellationToken cancellation)
        : this(cancellation, Console.IsErrorRedirected ? null : Console.Error, TimeProvider.System)
    {
    }

    /// <param name="cancellation">Ends the work.</param>
    /// <param name="line">Where the line stands; null: nowhere.</param>
    /// <param name="clock">Its clock.</param>
    internal AtWork(CancellationToken cancellation, TextWriter? line, TimeProvider clock)
    {
        (this.line, this.clock, start) = (line, clock, clock.GetTimestamp());
        Pace = new Pace(cancellation, progress: this);
        if (line is not null) timer = clock.CreateTimer(_ => Tell(), null, Patience, Between);
    }

    /// <summary>How to go about the work.</summary>
    public Pace Pace { get; }

    public void Report(double value)
    {
        // Threads report out of order; what is done stays done.
        for (double seen = done; value > seen; seen = done)
            if (Interlocked.CompareExchange(ref done, value, seen) == seen) return;
    }

    /// <summary>The line as it would stand now.</summary>
    internal string Said
    {
        get
        {
            double seconds = clock.GetElapsedTime(start).TotalSeconds, share = Math.Min(Volatile.Read(ref done), 1);
            string so = share < Enough ? string.Create(CultureInfo.InvariantCulture, $"at work for {seconds:0} s")
                : string.Create(CultureInfo.InvariantCulture, $"{100 * share:0} %, about {Math.Max(1, Math.Ceiling(seconds * (1 - share) / share)):0} s left");
            return so + "; Ctrl+C ends it";
        }
    }

    private void Tell()
    {
        lock (gate)
        {
            if (width < 0) return;
            string said = Said;
            line!.Write("\r" + said.PadRight(width));
            line.Flush();
            width = said.Length;
        }
    }

    public void Dispose()
    {
        timer?.Dispose();
        lock (gate)
        {
            if (width > 0)
            {
                line!.Write("\r" + new string(' ', width) + "\r");
                line.Flush();
            }
            width = -1;
        }
    }
}
