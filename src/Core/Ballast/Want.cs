using Trimwright.Core.Quantities;

namespace Trimwright.Core.Ballast;

/// <summary>What the finished lure is to do when it is let go.</summary>
public enum Manner
{
    /// <summary>Rests at the surface.</summary>
    Floats,

    /// <summary>Rests under water, neither rising nor falling.</summary>
    Suspends,

    /// <summary>Falls steadily on a slack leader.</summary>
    Falls,
}

/// <summary>
/// How a maker wants a lure to sit or fall, in which water, at which stage and with which rig. Of a floating lure either
/// the grams to spare or the length of nose out is wanted; the other follows.
/// </summary>
public sealed record Want
{
    public required Manner Manner { get; init; }

    /// <summary>Radians, positive nose up (tail down).</summary>
    public double Trim { get; init; }

    /// <summary>Floating: displacement less weight when pushed fully under, g; null where <see cref="NoseOut"/> is wanted.</summary>
    public double? Spare { get; init; }

    /// <summary>Floating: how much of the nose stands out along the back, as a ruler reads it, mm.</summary>
    public double? NoseOut { get; init; }

    /// <summary>Falling: steady downward speed, mm/ms.</summary>
    public double Rate { get; init; }

    /// <summary>Where, how far built and how rigged.</summary>
    public Circumstances Circumstances { get; init; } = Circumstances.InTheSea;

    /// <summary>How far from the wanted weight in the water a plan may be, g.</summary>
    public double WeightWithin { get; init; } = 0.3;

    /// <summary>How far from the wanted trim, radians.</summary>
    public double TrimWithin { get; init; } = Units.FromDegrees(3);

    /// <summary>Seconds that a fall of a metre takes.</summary>
    public double SecondsPerMetre => Units.ToSeconds(1000 / Rate);

    public static Want Falling(double secondsPerMetre, double trim = 0) => new() { Manner = Manner.Falls, Rate = 1 / secondsPerMetre, Trim = trim };

    public static Want Floating(double trim, double spare) => new() { Manner = Manner.Floats, Trim = trim, Spare = spare };

    public static Want Standing(double trim, double noseOut) => new() { Manner = Manner.Floats, Trim = trim, NoseOut = noseOut };

    public static Want Suspending(double trim = 0) => new() { Manner = Manner.Suspends, Trim = trim };
}
