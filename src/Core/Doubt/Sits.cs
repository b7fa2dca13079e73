using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>The ways to sit that a maker tells apart at a glance.</summary>
public static class Sits
{
    private static readonly double Standing = Units.FromDegrees(60);
    private static readonly double Slanted = Units.FromDegrees(15);
    private static readonly double Tipped = Units.FromDegrees(45);
    private static readonly double Over = Units.FromDegrees(120);

    /// <summary>Half of what one word covers, degrees.</summary>
    public const double WidthDeg = 15;

    /// <summary>The word for a posture.</summary>
    /// <param name="up">The world's up in body axes.</param>
    public static Sat Of(Vec3 up)
    {
        double trim = WaterPlane.Trim(up), heel = Math.Abs(WaterPlane.Heel(up));
        if (trim > Standing) return Sat.Stands;
        if (trim < -Slanted) return Sat.NoseDown;
        if (heel > Over) return Sat.BellyUp;
        if (heel > Tipped) return Sat.OnSide;
        return trim > Slanted ? Sat.Slanted : Sat.Level;
    }

    /// <summary>How far a posture's heel lies outside of what a word covers, radians; 0 for words that say nothing of heel.</summary>
    public static double HeelOff(Sat sat, Vec3 up)
    {
        double heel = Math.Abs(WaterPlane.Heel(up));
        (double from, double to) = sat switch
        {
            Sat.Level or Sat.Slanted => (0, Tipped),
            Sat.OnSide => (Tipped, Over),
            Sat.BellyUp => (Over, Math.PI),
            Sat.Stands or Sat.NoseDown => (0, Math.PI),
        };
        return Math.Max(Math.Max(from - heel, heel - to), 0);
    }

    /// <summary>The middle of the trims that a word covers, radians.</summary>
    public static double Typical(Sat sat) => Units.FromDegrees(sat switch
    {
        Sat.Stands => 75,
        Sat.Slanted => 38,
        Sat.NoseDown => -45,
        Sat.Level or Sat.OnSide or Sat.BellyUp => 0,
    });
}
