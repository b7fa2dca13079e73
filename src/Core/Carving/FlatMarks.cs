using System.Collections.Immutable;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

/// <summary>
/// The marks of one quadrant at one station, mm, on the sawn rectangle and then on the eight-sided blank.
/// </summary>
/// <param name="EightFromSeam">On the top (or bottom), from the seam: cut away what lies beyond.</param>
/// <param name="EightFromWidest">On the side, from the widest line.</param>
/// <param name="SixteenFromSeam">On what is left of the top, from the seam.</param>
/// <param name="SixteenFromWidest">On what is left of the side, from the widest line.</param>
/// <param name="FlatWidth">Of the flat that eight sides have made.</param>
/// <param name="SixteenFromTopEdge">On that flat, from its edge with the top (or bottom).</param>
/// <param name="SixteenFromSideEdge">On that flat, from its edge with the side.</param>
public readonly record struct QuadrantMarks(
    double EightFromSeam, double EightFromWidest, double SixteenFromSeam, double SixteenFromWidest,
    double FlatWidth, double SixteenFromTopEdge, double SixteenFromSideEdge)
{
    internal static QuadrantMarks Of(SectionCurve curve, double breadth, double rise, double fullness)
    {
        double eight = curve.Eight(fullness);
        (double onFace, double u, double v) = TangentFlats.Sixteen(curve, fullness);
        // The mirror image of a flat's point swaps u and v.
        double Length(double du, double dv) => double.Hypot(du * breadth, dv * rise);
        return new(eight * breadth, eight * rise, onFace * breadth, onFace * rise,
            Length(1 - eight, 1 - eight), Length(u - eight, 1 - v), Length(1 - v, u - eight));
    }
}

/// <summary>The marks of one station: back and belly, the same to left and right.</summary>
/// <param name="X">Station, mm from the nose.</param>
/// <param name="Section">The final section there.</param>
/// <param name="Back">Above the widest line.</param>
/// <param name="Belly">Below it.</param>
public sealed record FlatMarks(double X, Section Section, QuadrantMarks Back, QuadrantMarks Belly)
{
    public static FlatMarks At(Body body, double x)
    {
        Section section = body.SectionAt(x);
        return new(x, section,
            QuadrantMarks.Of(section.Curve, section.HalfBreadth, section.RiseAbove, section.FullAbove),
            QuadrantMarks.Of(section.Curve, section.HalfBreadth, section.RiseBelow, section.FullBelow));
    }

    /// <summary>The starboard side of the blank with 4, 8 or 16 sides in all, (y, z) from the back's middle to the belly's, mm.</summary>
    public ImmutableArray<(double Y, double Z)> Half(int sides)
    {
        IEnumerable<(double Y, double Z)> above = Quadrant(Section.Curve, sides, Section.FullAbove)
            .Select(p => (p.U * Section.HalfBreadth, Section.Widest + p.V * Section.RiseAbove));
        IEnumerable<(double Y, double Z)> below = Quadrant(Section.Curve, sides, Section.FullBelow)
            .Select(p => (p.U * Section.HalfBreadth, Section.Widest - p.V * Section.RiseBelow));
        return [.. above, .. below.Reverse()];
    }

    private static IEnumerable<(double U, double V)> Quadrant(SectionCurve curve, int sides, double fullness)
    {
        double eight = curve.Eight(fullness);
        (double onFace, double u, double v) = TangentFlats.Sixteen(curve, fullness);
        return sides switch
        {
            4 => [(0, 1), (1, 1), (1, 0)],
            8 => [(0, 1), (eight, 1), (1, eight), (1, 0)],
            _ => [(0, 1), (onFace, 1), (u, v), (v, u), (1, onFace), (1, 0)],
        };
    }
}
