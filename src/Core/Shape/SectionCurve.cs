using System.Collections.Immutable;

namespace Trimwright.Core.Shape;

/// <summary>
/// The curve of a section in one quadrant, measured in its own half-breadth and rise: from the side (1, 0) to the top (0, 1), convex, inside
/// the unit square, fuller with its fullness n. All that others ask of a curve, in a file of its own. A new one is such a file, a place in
/// <see cref="All"/>, and its word in the schema of the lure.
/// </summary>
public abstract class SectionCurve
{
    public static readonly SectionCurve Superellipse = new Superellipse();

    /// <summary>Every curve, in the order in which files list them.</summary>
    public static ImmutableArray<SectionCurve> All { get; } = [Superellipse];

    private protected SectionCurve()
    {
    }

    /// <summary>By which files know it.</summary>
    public abstract string Word { get; }

    /// <summary>Whether a point lies inside or on it.</summary>
    internal abstract bool Contains(double u, double v, double fullness);

    /// <summary>Its height at a distance u from the middle, 0 to below 1.</summary>
    internal abstract double Height(double u, double fullness);

    /// <summary>Its distance from the middle at a height v, 0 to 1.</summary>
    internal abstract double Breadth(double v, double fullness);

    /// <summary>How far out it lies in the direction of (u, v), of length 1.</summary>
    internal abstract double Radius(double u, double v, double fullness);

    /// <summary>Exact area under it: ½ for a diamond, 1 for a square.</summary>
    internal abstract double Area(double fullness);

    /// <summary>Exact area under it beyond a distance c from the middle; precise to the very tip.</summary>
    internal abstract double AreaBeyond(double c, double fullness);

    /// <summary>H(a): how far it reaches in the direction a, radians from the side (0) to the top (π/2).</summary>
    internal abstract double Reach(double fullness, double angle);

    /// <summary>Where a flat at 45° that touches it crosses the top of the square, from the middle.</summary>
    internal virtual double Eight(double fullness) => Math.Max(Math.Sqrt(2) * Reach(fullness, Math.PI / 4) - 1, 0);

    /// <summary>How the drag of such a section across the flow compares with a circle's.</summary>
    internal abstract double Drag(double fullness);
}
