using Trimwright.Core.Floating;

namespace Trimwright.Core.Sinking;

/// <summary>What a lure does when it is let go.</summary>
public enum Verdict
{
    Floats,
    Suspends,
    SinksSlowly,
    Sinks,
    SinksFast,
}

/// <summary>The limits between verdicts; common practice, no source.</summary>
public static class Verdicts
{
    /// <summary>Spare buoyancy within this share of the displacement suspends.</summary>
    public const double SuspendsWithin = 0.005;

    /// <summary>Falling no faster than this, mm/ms, is slow.</summary>
    public const double SlowUpTo = 0.250;

    /// <summary>Falling faster than this, mm/ms, is fast.</summary>
    public const double FastFrom = 0.450;

    /// <summary>The verdict on a body, with its fall if it sinks.</summary>
    public static Verdict Of(FloatingBody body, Descent? descent)
    {
        double share = body.SpareBuoyancy / (body.Water * body.Volume);
        return Of(share, descent?.TypicalRate ?? 0);
    }

    /// <summary>By spare buoyancy as a share of the displacement, and the rate of the fall, mm/ms (0 without one).</summary>
    public static Verdict Of(double share, double rate)
    {
        if (Math.Abs(share) <= SuspendsWithin) return Verdict.Suspends;
        if (share > 0) return Verdict.Floats;
        return rate <= SlowUpTo ? Verdict.SinksSlowly : rate <= FastFrom ? Verdict.Sinks : Verdict.SinksFast;
    }
}
