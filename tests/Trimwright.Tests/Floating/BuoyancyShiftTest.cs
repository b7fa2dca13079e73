using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Check 7c: turned at constant displacement towards a direction e of the water plane, the centre of buoyancy moves by
/// −I·e/V a radian, I being the waterplane's second moments about its own centroid. Source: naval architecture, closed form.
/// </summary>
public class BuoyancyShiftTest
{
    [Fact]
    public void The_centre_of_buoyancy_moves_with_attitude_by_the_waterplane_s_second_moment_over_the_volume()
    {
        const double Step = 1e-5;
        int cases = Tier.Count(10, 100, 1000);
        for (int seed = 1; seed <= cases; seed++)
        {
            var random = new Random(seed);
            ClosedMesh skin = RandomSolid.Skin(seed);
            SolidProperties solid = SolidProperties.Of(skin);
            var body = new FloatingBody(skin, (0.1 + 0.8 * random.NextDouble()) * 1e-3 * solid.Volume, solid.Centroid, 1e-3);
            Vec3 n = new Vec3(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5).Unit();
            Balance here = Equilibrium.Afloat(body, n);
            double turn = 2 * Math.PI * random.NextDouble(), c1 = Math.Cos(turn), c2 = Math.Sin(turn);
            Vec3 axis = Vec3.Cross(n, c1 * here.E1 + c2 * here.E2);
            Vec3 moved = Centre(body, n.Turned(axis, Step), here) - Centre(body, n.Turned(axis, -Step), here);
            (double i11, double i12, double i22) = SecondMoments(body, here);
            double by1 = -(i11 * c1 + i12 * c2) / here.SkinVolume, by2 = -(i12 * c1 + i22 * c2) / here.SkinVolume;
            double size = Math.Sqrt(by1 * by1 + by2 * by2);
            Tolerances.Check("shift of the centre of buoyancy, share of it", Vec3.Dot(moved, here.E1) / (2 * Step) / size, by1 / size, $"seed {seed}, first axis");
            Tolerances.Check("shift of the centre of buoyancy, share of it", Vec3.Dot(moved, here.E2) / (2 * Step) / size, by2 / size, $"seed {seed}, second axis");
        }
    }

    private static Vec3 Centre(FloatingBody body, Vec3 n, in Balance near)
    {
        Balance there = Equilibrium.Afloat(body, n, near.Offset);
        return there.SkinMoment / there.SkinVolume;
    }

    // About the waterplane's centroid, taken back from the stiffnesses of a body with nothing hung on it.
    private static (double I11, double I12, double I22) SecondMoments(FloatingBody body, in Balance b) =>
        ((b.K11 - b.Kd1 * b.Kd1 / b.Kdd) / body.Water, (b.K12 - b.Kd1 * b.Kd2 / b.Kdd) / body.Water, (b.K22 - b.Kd2 * b.Kd2 / b.Kdd) / body.Water);
}
