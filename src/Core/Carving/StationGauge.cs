using System.Collections.Immutable;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

/// <summary>Half a section as a card sees it, from the back round the side to the belly; turned over it is the other half.</summary>
public static class StationGauge
{
    /// <summary>(y, z) mm, y from the seam.</summary>
    public static ImmutableArray<(double Y, double Z)> Half(Section section, int count = 48) =>
        [.. Quadrant(section.Curve, section.FullAbove, count).Select(p => (p.U * section.HalfBreadth, section.Widest + p.V * section.RiseAbove)),
            .. Quadrant(section.Curve, section.FullBelow, count).Reverse().Skip(1).Select(p => (p.U * section.HalfBreadth, section.Widest - p.V * section.RiseBelow))];

    // At even polar angles, so that the corners of a boxy section are met; from the top to the side.
    private static IEnumerable<(double U, double V)> Quadrant(SectionCurve curve, double n, int count)
    {
        for (int k = 0; k <= count; k++)
        {
            (double sin, double cos) = Math.SinCos(0.5 * Math.PI * k / count);
            double r = curve.Radius(sin, cos, n);
            yield return k == 0 ? (0, 1) : k == count ? (1, 0) : (r * sin, r * cos);
        }
    }
}
