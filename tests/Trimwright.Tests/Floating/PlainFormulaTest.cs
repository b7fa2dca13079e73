using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>What holds for anything afloat: Archimedes, and symmetry. Sources: Archimedes, On Floating Bodies I, proposition 5.</summary>
public class PlainFormulaTest
{
    private static Prediction InTheSea(LureDesign design, Rig rig, MeshSize mesh) =>
        Prediction.Of(design, new Circumstances(Stage.Finished, rig, WaterState.Ocean) { Mesh = mesh });

    [Fact]
    public void What_floats_displaces_its_own_weight()
    {
        int rests = 0;
        void Compare(Prediction afloat, string row)
        {
            foreach (Posture posture in afloat.Postures.Where(_ => afloat.SpareBuoyancy > 0))
            {
                Tolerances.Check("Archimedes: lift over weight", afloat.Body.Water * posture.Submerged / afloat.Body.Weight, 1, row);
                rests++;
            }
        }
        foreach (LureDesign lure in Lures.Demos)
            foreach (Rig rig in Enum.GetValues<Rig>())
                Compare(InTheSea(lure, rig, MeshSize.Coarse), $"{lure.Name}, {rig}");
        for (int seed = 1; seed <= Tier.Count(6, 100, 1000); seed++)
            Compare(RandomSolid.Afloat(seed, 0.1 + 0.8 * new Random(seed).NextDouble()), $"seed {seed}");
        Assert.True(rests > 6);
    }

    [Fact]
    public void A_lure_with_equal_halves_afloat_upright_has_no_heel_exactly()
    {
        int upright = 0;
        foreach (LureDesign lure in Lures.Demos)
            foreach (Rig rig in Enum.GetValues<Rig>())
                foreach (Posture posture in InTheSea(lure, rig, MeshSize.Coarse).Postures)
                {
                    if (posture.Heel is not { } heel || Math.Abs(heel) > Units.FromDegrees(1)) continue;
                    TestContext.Current.TestOutputHelper?.WriteLine($"{lure.Name}, {rig}: heel {heel:R} rad, n_y {posture.Plane.N.Y:R}");
                    Assert.Equal(0, posture.Plane.N.Y);
                    Assert.Equal(0, heel);
                    upright++;
                }
        Assert.True(upright >= 3);
    }

    [Fact]
    public void A_lure_with_equal_halves_afloat_upright_feels_no_heeling_moment_exactly()
    {
        foreach (LureDesign lure in Lures.Demos)
        {
            Prediction prediction = InTheSea(lure, Rig.Bare, MeshSize.Coarse);
            Assert.Equal(0, prediction.Body.Cg.Y);
            Balance level = prediction.Body.At(WaterPlane.Up(0.1, 0), -1);
            // Port and starboard are summed in different orders: what is left is the arithmetic's own rounding.
            Assert.Equal(0, level.Pull.Y / (prediction.Body.Weight * prediction.Body.Reach), 1e-15);
        }
    }

    [Fact]
    public void A_sphere_rolls_freely()
    {
        Prediction sphere = Forms.Afloat(density => Lures.Round(density, 60, [(0, 0), (30, 30), (60, 0)]), 0.37, MeshSize.Coarse);
        Assert.Single(sphere.Postures);
        Assert.True(sphere.Posture.HeelIsFree);
        Assert.Null(sphere.Posture.Heel);
    }
}
