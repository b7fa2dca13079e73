using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>The ways to sit that a maker tells apart at a glance.</summary>
public static class Sits
{
    private static readonly double Standing = Units.FromDegrees(60);
    private static readonly double Slanted = Units.FromDegrees(15);

    /// <summary>Half of what one word covers, degrees.</summary>
    public const double WidthDeg = 15;

    /// <summary>The word for a posture.</summary>
    /// <param name="up">The world's up in body axes.</param>
    public static Sat Of(Vec3 up)
    {
        double trim = WaterPlane.Trim(up), heel = Math.Abs(WaterPlane.Heel(up));
        if (trim > Standing) return Sat.Stands;
        if (trim < -Slanted) return Sat.NoseDown;
        if (heel > Units.FromDegrees(120)) return Sat.BellyUp;
        if (heel > Units.FromDegrees(45)) return Sat.OnSide;
        return trim > Slanted ? Sat.Slanted : Sat.Level;
    }

    /// <summary>The middle of the trims that a word covers, radians.</summary>
    public static double Typical(Sat sat) => Units.FromDegrees(sat switch
    {
        Sat.Stands => 75,
        Sat.Slanted => 38,
        Sat.NoseDown => -45,
        _ => 0,
    });
}
