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
        if (Math.Abs(share) <= SuspendsWithin) return Verdict.Suspends;
        if (share > 0) return Verdict.Floats;
        double rate = descent?.TypicalRate ?? 0;
        return rate <= SlowUpTo ? Verdict.SinksSlowly : rate <= FastFrom ? Verdict.Sinks : Verdict.SinksFast;
    }
}
