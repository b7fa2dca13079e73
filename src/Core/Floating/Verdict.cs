namespace Trimwright.Core.Floating;

/// <summary>What a lure does when it is let go.</summary>
public enum Verdict
{
    Floats,
    Suspends,
    Sinks,
}

/// <summary>The limits between verdicts; common practice, no source.</summary>
public static class Verdicts
{
    /// <summary>Spare buoyancy within this share of the displacement suspends.</summary>
    public const double SuspendsWithin = 0.005;

    public static Verdict Of(FloatingBody body)
    {
        double share = body.SpareBuoyancy / (body.Water * body.Volume);
        return Math.Abs(share) <= SuspendsWithin ? Verdict.Suspends : share > 0 ? Verdict.Floats : Verdict.Sinks;
    }
}
