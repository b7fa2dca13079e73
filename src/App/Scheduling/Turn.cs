using Trimwright.Core.Numerics;

namespace Trimwright.App.Scheduling;

/// <summary>
/// One question's right to be worked out. Whoever works on it comes by between steps, and is kept as long as others go first.
/// </summary>
internal sealed class Turn(Scheduler scheduler, Claim claim, IProgress<double>? progress, CancellationToken cancellation, Action? begin = null)
{
    private const int Waiting = 0, Begun = 1, GivenUp = 2;

    private readonly ManualResetEventSlim gate = new();
    private Roster? seen;
    private int state;

    public Claim Claim => claim;

    /// <summary>For the work itself; on as many cores as it was given.</summary>
    public Pace Pace() => new(cancellation, scheduler.Roster.CoresOf(claim.Number), Step, progress);

    /// <summary>It may go on, or begin.</summary>
    public void Wake()
    {
        gate.Set();
        if (begin is not null && Interlocked.CompareExchange(ref state, Begun, Waiting) == Waiting) begin();
    }

    /// <summary>Nobody wants it any more; false when it has begun, and will see for itself.</summary>
    public bool GiveUp() => Interlocked.CompareExchange(ref state, GivenUp, Waiting) == Waiting;

    /// <summary>Returns when it is this one's turn.</summary>
    public void Wait()
    {
        while (true)
        {
            Roster now = scheduler.Roster;
            if (now.IsWorking(claim.Number))
            {
                seen = now;
                return;
            }
            gate.Reset();
            // Whoever resets looks again: what came between would wake nobody.
            if (scheduler.Roster.IsWorking(claim.Number)) gate.Set();
            gate.Wait(cancellation);
        }
    }

    private void Step()
    {
        Roster now = scheduler.Roster;
        if (now.Due != TimeSpan.MaxValue && scheduler.Now >= now.Due) scheduler.EndTurns();
        else if (ReferenceEquals(seen, now)) return;
        Wait();
    }
}
