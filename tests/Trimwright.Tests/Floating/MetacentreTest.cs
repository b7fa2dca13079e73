using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Check 9: with its axis level, any body of revolution has its transverse metacentre on the axis, at every draft. Source:
/// follows from its circular sections. A mesh has polygons for circles: 3e-3 of the diameter at 64 sides, second order.
/// </summary>
public class MetacentreTest
{
    private const double Widest = 18;

    private static LureDesign Spindle(double density) =>
        Lures.Round(density, 160, [(0, 0), (10, 8), (40, 15), (90, Widest), (140, 9), (160, 0)]);

    /// <summary>The metacentre's greatest distance from the axis over drafts and rolls, share of the diameter.</summary>
    private static double Error(int sides)
    {
        ClosedMesh skin = Prediction.Of(Spindle(Forms.Heavy), Forms.Tap(new MeshSize(161, sides))).Ledger.Skin;
        SolidProperties solid = SolidProperties.Of(skin);
        double worst = 0;
        foreach (double s in new[] { 0.15, 0.4, 0.5, 0.65, 0.9 })
        {
            var body = new FloatingBody(skin, s * 1e-3 * solid.Volume, solid.Centroid, 1e-3);
            for (int k = 0; k <= 4; k++)
            {
                (double sin, double cos) = Math.SinCos(Math.PI / sides * k / 4);
                Balance level = Equilibrium.Afloat(body, new Vec3(0, -sin, cos), tolerance: 1e-10);
                double gm = level.CurvatureAlong(Vec3.Cross(Vec3.UnitX, level.N).Unit()) / body.Weight;
                worst = Math.Max(worst, Math.Abs(gm) / (2 * Widest));
            }
        }
        return worst;
    }

    [Fact]
    public void A_body_of_revolution_has_its_metacentre_on_the_axis_to_second_order()
    {
        double coarse = Error(16), middle = Error(32), fine = Error(64);
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant(
            $"16, 32, 64 sides: {coarse:G3}, {middle:G3}, {fine:G3} of the diameter; orders {Math.Log2(coarse / middle):F2}, {Math.Log2(middle / fine):F2}"));
        Tolerances.Check("metacentre of a body of revolution off its axis, share of the diameter", fine, 0);
        Assert.True(Math.Log2(coarse / middle) > 1.8 && Math.Log2(middle / fine) > 1.8);
    }

    [Fact]
    public void Ballast_below_the_axis_gives_as_much_metacentric_height_as_it_lowers_the_centre_of_gravity()
    {
        LureDesign lure = Lures.Read("""
            { "trimwright": 1, "name": "dowel",
              "body": { "length_mm": 160,
                "back": { "points_mm": [[0, 15], [160, 15]] }, "belly": { "points_mm": [[0, -15], [160, -15]] }, "plan": { "points_mm": [[0, 15], [160, 15]] } },
              "wood": { "density_g_cm3": 0.45 },
              "ballast": [ { "name": "strip", "form": "strip", "axis": "x", "length_mm": 60, "width_mm": 6, "thickness_mm": 3, "density_g_cm3": 11.3, "at_mm": [80, 0, -10] } ] }
            """);
        Prediction level = Prediction.Of(lure, Forms.Tap(new MeshSize(17, 64)));
        Assert.Equal(0, level.Posture.Trim, 1e-9);
        double depth = -level.Body.Cg.Z;
        Assert.True(depth > 1);
        Tolerances.Check("metacentre of a ballasted dowel, GM against the depth of G, share of the diameter", level.Tipping!.HeelGm / 30, depth / 30);
    }
}
