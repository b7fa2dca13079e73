using MathNet.Numerics;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>
/// The body's cross-section at one station: a superellipse |y/b|ⁿ + |ζ/h|ⁿ = 1 above its widest line and another
/// below it (ζ measured from that line). Lengths in mm, body axes.
/// </summary>
/// <param name="HalfBreadth">b, from the centreline to the side.</param>
/// <param name="Back">Height of the top.</param>
/// <param name="Belly">Height of the bottom.</param>
/// <param name="Widest">Height of the widest line.</param>
/// <param name="FullAbove">Fullness n above the widest line: 1 diamond, 2 oval, larger boxier.</param>
/// <param name="FullBelow">Fullness n below it.</param>
public readonly record struct Section(
    double HalfBreadth, double Back, double Belly, double Widest, double FullAbove, double FullBelow)
{
    public double RiseAbove => Back - Widest;

    public double RiseBelow => Widest - Belly;

    /// <summary>Exact area, mm²: 2b·h·Γ(1+1/n)²/Γ(1+2/n) above the widest line, and the same below.</summary>
    public double Area => 2 * HalfBreadth
        * (RiseAbove * QuadrantArea(FullAbove) + RiseBelow * QuadrantArea(FullBelow));

    /// <summary>Whether a point (mm) lies inside or on the section.</summary>
    public bool Contains(double y, double z)
    {
        double zeta = z - Widest;
        double h = zeta >= 0 ? RiseAbove : RiseBelow;
        double n = zeta >= 0 ? FullAbove : FullBelow;
        if (HalfBreadth <= 0 || h <= 0) return Math.Abs(y) <= HalfBreadth && Math.Abs(zeta) <= h;
        return Math.Pow(Math.Abs(y) / HalfBreadth, n) + Math.Pow(Math.Abs(zeta) / h, n) <= 1;
    }

    /// <summary>Height of the upper side at distance y from the centreline, mm; the widest line beyond the side.</summary>
    public double TopAt(double y) => Widest + RiseAbove * Chord(y, FullAbove);

    /// <summary>Height of the lower side at distance y from the centreline, mm.</summary>
    public double BottomAt(double y) => Widest - RiseBelow * Chord(y, FullBelow);

    /// <summary>Half-breadth at height z, mm; 0 above the back and below the belly.</summary>
    public double BreadthAt(double z)
    {
        double zeta = z - Widest, h = zeta >= 0 ? RiseAbove : RiseBelow, n = zeta >= 0 ? FullAbove : FullBelow;
        double u = h > 0 ? Math.Abs(zeta) / h : zeta == 0 ? 0 : 2;
        return u > 1 ? 0 : HalfBreadth * Math.Pow(1 - Math.Pow(u, n), 1 / n);
    }

    /// <summary>Area of the quadrant of the unit superellipse, Γ(1+1/n)²/Γ(1+2/n): ½ at 1, π/4 at 2, 1 at ∞.</summary>
    public static double QuadrantArea(double fullness) => fullness switch
    {
        1 => 0.5,
        2 => Math.PI / 4,
        _ => Math.Exp(2 * SpecialFunctions.GammaLn(1 + 1 / fullness) - SpecialFunctions.GammaLn(1 + 2 / fullness)),
    };

    private double Chord(double y, double n)
    {
        double u = HalfBreadth > 0 ? Math.Abs(y) / HalfBreadth : 2;
        return u >= 1 ? 0 : Math.Pow(1 - Math.Pow(u, n), 1 / n);
    }

    /// <summary>
    /// Area of the unit quadrant beyond c, ∫ (1 − uⁿ)^(1/n) du from c to 1, as an incomplete beta function (t = 1 − uⁿ):
    /// precise to the very tip, where the whole less the strip before c would be rounding and nothing else.
    /// </summary>
    internal static double AreaBeyond(double c, double fullness)
    {
        if (c <= 0) return QuadrantArea(fullness);
        if (c >= 1) return 0;
        // 1 − cⁿ without loss of digits near c = 1.
        double t = -double.ExpM1(fullness * Math.Log(c));
        return QuadrantArea(fullness) * SpecialFunctions.BetaRegularized(1 + 1 / fullness, 1 / fullness, t);
    }
}
