using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>What holds for anything afloat: Archimedes, and symmetry. Sources: Archimedes, On Floating Bodies I, proposition 5.</summary>
[Collection(DemosAfloat.Name)]
public class PlainFormulaTest
{
    private static Prediction InTheSea(LureDesign demo, Rig rig) => DemosAfloat.Of(demo, rig, WaterState.Ocean);

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
                Compare(InTheSea(lure, rig), $"{lure.Name}, {rig}");
        for (int seed = 1; seed <= Tier.Count(6, 100, 1000); seed++)
            Compare(RandomSolid.Afloat(seed, 0.1 + 0.8 * new Random(seed).NextDouble()), $"seed {seed}");
        Assert.True(rests > 6);
    }

    [Fact]
    public void A_lure_with_equal_halves_upright_has_no_heel_exactly()
    {
        int upright = 0, afloat = 0;
        foreach (LureDesign lure in Lures.Demos)
            foreach (Rig rig in Enum.GetValues<Rig>())
            {
                Prediction prediction = InTheSea(lure, rig);
                foreach (Posture posture in prediction.Postures)
                {
                    TestContext.Current.TestOutputHelper?.WriteLine(
                        $"{lure.Name}, {rig}, spare {prediction.SpareBuoyancy:F2} g: trim {Units.ToDegrees(posture.Trim):F2}°, heel {posture.Heel:R} rad, n_y {posture.Plane.N.Y:R}");
                    if (posture.Heel is not { } heel || Math.Abs(heel) > Units.FromDegrees(1)) continue;
                    Assert.Equal(0, posture.Plane.N.Y);
                    Assert.Equal(0, heel);
                    upright++;
                    if (prediction.SpareBuoyancy > 0) afloat++;
                }
            }
        Assert.True(upright >= 3 && afloat >= 2);
    }

    [Fact]
    public void A_lure_with_equal_halves_afloat_upright_feels_no_heeling_moment()
    {
        foreach (LureDesign lure in Lures.Demos)
        {
            WeightLedger ledger = Bookkeeper.Of(lure, Stage.Finished, Rig.Rigged, WaterState.Ocean.Density, MeshSize.Live);
            var body = new FloatingBody(ledger, WaterState.Ocean.Density);
            Balance level = body.At(WaterPlane.Up(0.1, 0), -1);
            // Port and starboard are summed in different orders: what is left is the arithmetic's own rounding.
            Tolerances.Check("mirror symmetry: heeling moment, share of weight × reach", level.Pull.Y / (body.Weight * body.Reach), 0, lure.Name);
        }
    }
}
