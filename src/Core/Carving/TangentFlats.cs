using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

/// <summary>
/// Flats between the sawn rectangle and the final section, tangent to it, so that nothing is cut too deep.
/// <para>
/// In a quadrant measured in its own half-breadth and rise the section lies inside the square 0 … 1. A line u·cos a + v·sin a = H touches it
/// without cutting it when H is the curve's greatest reach that way. Scaling back to b and h keeps tangents tangent, so this holds for any
/// breadth, rise and fullness.
/// </para>
/// <para>
/// Eight sides take the flat at 45°; sixteen sides add 22.5° and 67.5°.
/// </para>
/// </summary>
internal static class TangentFlats
{
    /// <summary>
    /// Where the sixteen-side flats meet the faces that eight sides have: on the top and on the side as shares like
    /// <see cref="SectionCurve.Eight"/>, and on the 45° flat as a point of the unit square nearest to the top; that nearest to the side is its mirror image.
    /// </summary>
    public static (double OnFace, double FlatU, double FlatV) Sixteen(SectionCurve curve, double fullness)
    {
        const double Steep = 3 * Math.PI / 8;
        (double sin, double cos) = Math.SinCos(Steep);
        double reach = curve.Reach(fullness, Steep), sum = 1 + curve.Eight(fullness);
        // On the top v = 1; on the flat u + v = sum.
        double onFace = Math.Max((reach - sin) / cos, 0);
        double u = Math.Clamp((sum * sin - reach) / (sin - cos), 0, 1);
        return (onFace, u, sum - u);
    }
}
