using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Check 5: a long square log's heel against its density ratio. Source: Reid 1963, American Journal of Physics 31, 565, by
/// <c>square_log_heel.csv</c> (closed form and polygon clipping). Both branches (one corner and two corners wet) and the
/// mirror above one half. Allowed 0.05°, and 0.2° within 0.001 of a branch point.
/// </summary>
public class SquareLogTest
{
    private const double Side = 30, Length = 20 * Side;
    private static readonly double[] BranchPoints = [(3 - Math.Sqrt(3)) / 6, 0.25, 9.0 / 32];

    private static IEnumerable<(double Ratio, double Heel, bool Near)> Cases()
    {
        foreach (IReadOnlyDictionary<string, string> row in ReferenceTable.Rows("square_log_heel.csv"))
        {
            double s = row.Number("density_ratio"), heel = row.Number("heel_deg_closed_form");
            bool near = BranchPoints.Any(point => Math.Abs(point - s) <= 0.001);
            yield return (s, heel, near);
            yield return (row.Number("mirror_density_ratio"), heel, near);
        }
    }

    private static void Compare(double heel, double expected, bool near, string row)
    {
        Tolerances.Check(near ? "square log, heel near a branch point, degrees" : "square log, heel, degrees", heel, expected, row);
        if (!near) Tolerances.Check("square log, heel to the printed digits, degrees", heel, expected, row);
    }

    [Fact]
    public void A_square_log_handed_over_as_a_mesh_heels_as_reid_says()
    {
        ClosedMesh box = Box();
        double water = WaterState.Tap.Density - Units.AirDensity, volume = Side * Side * Length;
        int rows = 0;
        foreach ((double s, double expected, bool near) in Cases())
        {
            var log = new FloatingBody(box, s * water * volume, new Vec3(Length / 2, 0, 0), water);
            foreach (Rest rest in RestSearch.All(log).All)
            {
                Vec3 n = rest.Balance.N;
                Assert.Equal(0, n.X, 1e-6);
                Compare(FaceToWater(n), expected, near, FormattableString.Invariant($"mesh, s {s}"));
            }
            rows++;
        }
        Assert.True(rows >= 2 * 33);
    }

    [Fact]
    public void A_log_on_its_corner_through_a_design_file_heels_as_reid_says()
    {
        const double HalfDiagonal = 20;
        // Straight edges and flat ends: the coarsest mesh is the square itself.
        MeshSize exact = new(8, 8);
        foreach ((double s, double expected, bool near) in Cases())
        {
            Prediction log = Forms.Afloat(density => Forms.LogOnItsCorner(density, HalfDiagonal, 600), s, exact);
            Assert.Equal(2 * HalfDiagonal * HalfDiagonal * 600, log.Ledger.SkinProperties.Volume, 1e-6);
            foreach (Posture posture in log.Postures)
            {
                Assert.Equal(0, posture.Trim, 1e-6);
                Vec3 n = posture.Plane.N;
                // Turned by 45°: from corner to face.
                Compare(FaceToWater(n.Turned(Vec3.UnitX, Math.PI / 4)), expected, near, FormattableString.Invariant($"design file, s {s}"));
            }
        }
    }

    /// <summary>Least angle between a face and the water, degrees, 0 to 45.</summary>
    private static double FaceToWater(Vec3 n)
    {
        double angle = Units.ToDegrees(Math.Atan2(Math.Abs(n.Y), Math.Abs(n.Z)));
        return Math.Min(angle, 90 - angle);
    }

    private static ClosedMesh Box()
    {
        const double h = Side / 2;
        Vec3[] corners =
        [
            new(0, -h, -h), new(0, h, -h), new(0, h, h), new(0, -h, h),
            new(Length, -h, -h), new(Length, h, -h), new(Length, h, h), new(Length, -h, h),
        ];
        int[] quads = [3, 2, 1, 0, 4, 5, 6, 7, 0, 1, 5, 4, 1, 2, 6, 5, 2, 3, 7, 6, 3, 0, 4, 7];
        var box = new ClosedMesh(corners, [.. Enumerable.Range(0, 6).SelectMany(f =>
            new[] { quads[4 * f], quads[4 * f + 1], quads[4 * f + 2], quads[4 * f], quads[4 * f + 2], quads[4 * f + 3] })]);
        Assert.Equal(0, box.Defects());
        Assert.Equal(Side * Side * Length, SolidProperties.Of(box).Volume, 1e-6);
        return box;
    }
}
