namespace Trimwright.Core.Shape;

/// <summary>
/// The body's cross-section at one station: a curve above its widest line and another below it, each in its own half-breadth b and rise h
/// (ζ measured from that line); of a superellipse |y/b|ⁿ + |ζ/h|ⁿ = 1. Lengths in mm, body axes.
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
    /// <summary>What curve it is made of.</summary>
    public SectionCurve Curve { get; init; } = SectionCurve.Superellipse;

    public double RiseAbove => Back - Widest;

    public double RiseBelow => Widest - Belly;

    /// <summary>Exact area, mm².</summary>
    public double Area => 2 * HalfBreadth
        * (RiseAbove * Curve.Area(FullAbove) + RiseBelow * Curve.Area(FullBelow));

    /// <summary>Whether a point (mm) lies inside or on the section.</summary>
    public bool Contains(double y, double z)
    {
        double zeta = z - Widest;
        double h = zeta >= 0 ? RiseAbove : RiseBelow;
        if (HalfBreadth <= 0 || h <= 0) return Math.Abs(y) <= HalfBreadth && Math.Abs(zeta) <= h;
        return Curve.Contains(Math.Abs(y) / HalfBreadth, Math.Abs(zeta) / h, zeta >= 0 ? FullAbove : FullBelow);
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
        return u > 1 ? 0 : HalfBreadth * Curve.Breadth(u, n);
    }

    private double Chord(double y, double n)
    {
        double u = HalfBreadth > 0 ? Math.Abs(y) / HalfBreadth : 2;
        return u >= 1 ? 0 : Curve.Height(u, n);
    }
}
