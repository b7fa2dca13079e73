namespace Trimwright.Core.Numerics;

/// <summary>
/// How a long computation goes about it: on how many cores, and whom it asks between two steps whether to go on. It changes no
/// number: the same comes out at any pace, or nothing does. A token alone will do where one is asked for.
/// </summary>
public sealed class Pace
{
#pragma warning disable RS0030 // Core asks the machine for nothing that a number could hang on; this one changes none.
    private static readonly int Cores = Environment.ProcessorCount;
#pragma warning restore RS0030

    /// <summary>On all cores, to the end.</summary>
    public static readonly Pace Free = new(CancellationToken.None);

    private readonly Action? turn;
    private readonly IProgress<double>? progress;
    private readonly double from;
    private readonly double part = 1;

    /// <param name="cancellation">Ends it, with an <see cref="OperationCanceledException"/>, within a few steps.</param>
    /// <param name="cores">Loops side by side, 1 or more; −1: as many as the machine has cores.</param>
    /// <param name="turn">Called between steps, by whichever thread has come to one; it may return late, when others go first.</param>
    /// <param name="progress">Told how far it has come, 0 to 1.</param>
    public Pace(CancellationToken cancellation, int cores = -1, Action? turn = null, IProgress<double>? progress = null)
    {
        (Cancellation, this.turn, this.progress) = (cancellation, turn, progress);
        // Left to itself, a loop takes every thread that the pool has, and there are more of those than cores.
        Loops = new ParallelOptions { CancellationToken = cancellation, MaxDegreeOfParallelism = cores < 0 ? Cores : cores };
    }

    private Pace(Pace whole, double begin, double end) => (Cancellation, Loops, turn, progress, from, part) =
        (whole.Cancellation, whole.Loops, whole.turn, whole.progress, whole.from + begin * whole.part, (end - begin) * whole.part);

    /// <summary>What ends it.</summary>
    public CancellationToken Cancellation { get; }

    /// <summary>For a loop on several cores.</summary>
    public ParallelOptions Loops { get; }

    /// <summary>Between two steps; cheap enough for an inner loop (two reads of memory).</summary>
    /// <exception cref="OperationCanceledException">Nobody wants the answer any more.</exception>
    public void Step()
    {
        Cancellation.ThrowIfCancellationRequested();
        turn?.Invoke();
    }

    /// <summary>It has come so far; may be called from several threads, and out of order.</summary>
    /// <param name="share">0 to 1.</param>
    public void Come(double share) => progress?.Report(from + part * share);

    /// <summary>The pace of a part of the work, whose own progress goes from one share of the whole to another.</summary>
    public Pace Part(double begin, double end) => new(this, begin, end);

    /// <summary>What each of many comes to, in their order, worked out side by side.</summary>
    /// <param name="many">What there is.</param>
    /// <param name="one">Of one of them; called from several threads at once.</param>
    public TResult[] Each<T, TResult>(IEnumerable<T> many, Func<T, TResult> one)
    {
        T[] all = [.. many];
        var results = new TResult[all.Length];
        Parallel.For(0, all.Length, Loops, i =>
        {
            Step();
            results[i] = one(all[i]);
        });
        return results;
    }

    /// <summary>A token, and all cores.</summary>
    public static implicit operator Pace(CancellationToken cancellation) => new(cancellation);

    /// <summary>A token, and all cores.</summary>
    public static Pace FromCancellationToken(CancellationToken cancellation) => cancellation;
}
