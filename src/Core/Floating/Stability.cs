using System.Collections.Immutable;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Floating;

/// <summary>One point of the righting curve.</summary>
/// <param name="Angle">Turned away from rest, radians.</param>
/// <param name="Arm">Righting arm, mm; positive turns it back.</param>
public readonly record struct RightingPoint(double Angle, double Arm);

/// <summary>How a floating body answers when it is tipped.</summary>
public static class Stability
{
    // Nearer the vertical than this a heel angle says nothing.
    private const double Standing = 80 * Math.PI / 180;

    /// <summary>
    /// Metacentric heights at rest, mm: the energy's curvature about the body's long axis laid level (heel) and about
    /// the level axis across it (trim), over the weight. Standing lures have their least and greatest instead.
    /// Hardware counts as a weight at its hang point.
    /// </summary>
    public static (double Heel, double Trim) MetacentricHeights(FloatingBody body, in Balance rest)
    {
        Vec3 n = rest.N;
        if (Math.Abs(WaterPlane.Trim(n)) > Standing)
        {
            (double h11, double h12, double h22) = rest.Curvature;
            double mean = 0.5 * (h11 + h22), spread = Math.Sqrt(0.25 * (h11 - h22) * (h11 - h22) + h12 * h12);
            return ((mean - spread) / body.Weight, (mean + spread) / body.Weight);
        }
        Vec3 ahead = (Vec3.UnitX - n.X * n).Unit();
        // Turning about the level axis "ahead" moves n along ahead × n, and about the other along "ahead".
        return (rest.CurvatureAlong(Vec3.Cross(ahead, n)) / body.Weight, rest.CurvatureAlong(ahead) / body.Weight);
    }

    /// <summary>
    /// Righting arms over a whole turn, every <paramref name="step"/> radians: about the long axis with trim left free,
    /// or for a standing lure tipped in the plane of its back and belly.
    /// </summary>
    public static ImmutableArray<RightingPoint> Curve(FloatingBody body, in Balance rest, double step)
    {
        int half = (int)Math.Round(Math.PI / step);
        var points = ImmutableArray.CreateBuilder<RightingPoint>();
        bool standing = Math.Abs(WaterPlane.Trim(rest.N)) > Standing;
        double trim = WaterPlane.Trim(rest.N), heel = WaterPlane.Heel(rest.N);
        Vec3 across = Vec3.UnitY;
        for (int k = -half; k <= half; k++)
        {
            double angle = k * step;
            Balance b;
            Vec3 along;
            if (standing)
            {
                Vec3 n = rest.N.Turned(across, angle);
                b = Equilibrium.Afloat(body, n, rest.Offset);
                along = Vec3.Cross(across, n);
            }
            else
            {
                double follow = trim;
                b = RestSearch.TrimmedAt(body, ref follow, heel + angle, rest.Offset);
                // ∂n/∂φ at the trim it found.
                along = new Vec3(0, -b.N.Z, b.N.Y);
            }
            points.Add(new RightingPoint(angle, Vec3.Dot(b.Pull, along) / body.Weight));
        }
        return points.ToImmutable();
    }

    /// <summary>
    /// Estimate of the time of one free roll, ms: 2π√(I/(W·g·GM)), I about the long axis through the centre of gravity
    /// with the added inertia of the wetted sections, π/8·ρ(b² − h²)² a length (Newman 1977, Marine Hydrodynamics,
    /// table 4.3), half of it afloat. Null when it rolls freely.
    /// </summary>
    /// <param name="body">The floating body.</param>
    /// <param name="gm">Metacentric height in heel, mm.</param>
    /// <param name="inertia">Of the fixed parts about the long axis through the centre of gravity, g·mm².</param>
    /// <param name="added">Added inertia of the whole body deeply under, g·mm².</param>
    public static double? RollPeriod(FloatingBody body, double gm, double inertia, double added) =>
        gm > 1e-3 ? 2 * Math.PI * Math.Sqrt((inertia + 0.5 * added) / (body.Weight * Quantities.Units.Gravity * gm)) : null;
}
