namespace Trimwright.Core.Carving;

/// <summary>
/// Flats between the sawn rectangle and the final section, tangent to it, so that nothing is cut too deep.
/// <para>
/// In a quadrant measured in its own half-breadth and rise the section is uⁿ + vⁿ = 1 inside the square 0 … 1. A line
/// u·cos a + v·sin a = H touches it without cutting it when H is the section's greatest reach that way. By Hölder's
/// inequality H(a) = (cosᵐa + sinᵐa)^(1/m) with 1/n + 1/m = 1; for a diamond (n = 1) the larger of cosine and sine.
/// Scaling back to b and h keeps tangents tangent, so this holds for any breadth, rise and fullness.
/// </para>
/// <para>
/// Eight sides take the flat at 45°, H = 2^(1−1/n)·cos 45°: it crosses top and side of the square at u = v = 2^(1−1/n) − 1,
/// √2 − 1 for an oval (the spar gauge's 7 : 10 : 7). Sixteen sides add 22.5° and 67.5°.
/// </para>
/// </summary>
public static class TangentFlats
{
    /// <summary>H(a): how far the unit quadrant of this fullness reaches in the direction a.</summary>
    /// <param name="fullness">n, 1 or more.</param>
    /// <param name="angle">a, radians from the side (0) to the top (π/2).</param>
    public static double Reach(double fullness, double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        double larger = Math.Max(sin, cos), smaller = Math.Min(sin, cos);
        if (fullness <= 1) return larger;
        double m = fullness / (fullness - 1);
        // The larger taken out, so that no power overflows near a diamond.
        return larger * Math.Pow(1 + Math.Pow(smaller / larger, m), 1 / m);
    }

    /// <summary>Where the eight-side flat crosses top and side, as a share of b from the seam and of h from the widest line.</summary>
    public static double Eight(double fullness) => Math.Max(Math.Pow(2, 1 - 1 / fullness) - 1, 0);

    /// <summary>
    /// Where the sixteen-side flats meet the faces that eight sides have: on the top and on the side as shares like
    /// <see cref="Eight"/>, and on the 45° flat as a point of the unit square nearest to the top; that nearest to the side is its mirror image.
    /// </summary>
    public static (double OnFace, double FlatU, double FlatV) Sixteen(double fullness)
    {
        const double Steep = 3 * Math.PI / 8;
        (double sin, double cos) = Math.SinCos(Steep);
        double reach = Reach(fullness, Steep), sum = 1 + Eight(fullness);
        // On the top v = 1; on the flat u + v = sum.
        double onFace = Math.Max((reach - sin) / cos, 0);
        double u = Math.Clamp((sum * sin - reach) / (sin - cos), 0, 1);
        return (onFace, u, sum - u);
    }
}
