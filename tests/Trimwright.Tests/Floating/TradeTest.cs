using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Sinking;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>Check 26: facts of the trade that nobody who makes lures doubts. Common practice, no source; direction and size.</summary>
[Collection(DemosAfloat.Name)]
public class TradeTest
{
    private static readonly MeshSize Mesh = MeshSize.Coarse;

    private static Prediction Of(LureDesign demo, Rig rig, WaterState water) => DemosAfloat.Of(demo, rig, water);

    private static Prediction Afresh(LureDesign design, Rig rig, WaterState water) => DemosAfloat.Afresh(design, rig, water);

    // Spare buoyancy needs no search for rests.
    private static FloatingBody Body(LureDesign design, Rig rig, WaterState water)
    {
        double effective = water.Density - Units.AirDensity;
        return new FloatingBody(Bookkeeper.Of(design, Stage.Finished, rig, effective, Mesh), effective);
    }

    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    private static double Displacement(Prediction p) => p.Body.Water * p.Body.Volume;

    [Fact]
    public void Salt_floats_a_lure_higher_than_fresh_water()
    {
        int afloat = 0;
        foreach (LureDesign lure in Lures.Demos)
        {
            Prediction fresh = Of(lure, Rig.Bare, WaterState.Tap), salt = Of(lure, Rig.Bare, WaterState.Ocean);
            double gain = salt.SpareBuoyancy - fresh.SpareBuoyancy;
            Say($"{lure.Name}: spare {fresh.SpareBuoyancy:F2} g fresh, {salt.SpareBuoyancy:F2} g salt");
            // 24.5 g more for each litre: what salt at 24 °C weighs over fresh at 15 °C.
            Tolerances.Check("trade: sea water's gain in spare buoyancy, share of the displacement", gain / Displacement(fresh), 0.025, lure.Name);
            if (fresh.SpareBuoyancy <= 0) continue;
            Assert.True(salt.Posture.Submerged < fresh.Posture.Submerged);
            Assert.True(DryVolume(salt) > DryVolume(fresh));
            afloat++;
        }
        Assert.True(afloat >= 2);
    }

    private static double DryVolume(Prediction p) => p.Body.Volume - p.Posture.Submerged;

    [Fact]
    public void Hooks_settle_a_lure()
    {
        int afloat = 0;
        foreach (LureDesign lure in Lures.Demos)
        {
            Prediction bare = Of(lure, Rig.Bare, WaterState.Ocean), rigged = Of(lure, Rig.Rigged, WaterState.Ocean);
            // A swivel on the wire is there bare too.
            double hooks = lure.Hardware.Where((_, i) => !lure.IsCaptive(i)).Sum(h => h.MassG - bare.Body.Water * h.MassG / Units.FromGramsPerCm3(h.DensityGPerCm3));
            Say($"{lure.Name}: spare {bare.SpareBuoyancy:F2} g bare, {rigged.SpareBuoyancy:F2} g rigged; hardware weighs {hooks:F2} g under water");
            Assert.Equal(bare.SpareBuoyancy - hooks, rigged.SpareBuoyancy, 1e-9);
            Assert.True(hooks > 10);
            if (rigged.SpareBuoyancy <= 0) continue;
            Assert.True(SkinUnder(rigged) > SkinUnder(bare));
            Assert.True(DryVolume(rigged) < DryVolume(bare));
            afloat++;
        }
        Assert.True(afloat >= 1);
    }

    private static double SkinUnder(Prediction p) => Equilibrium.Afloat(p.Body, p.Posture.Plane.N).SkinVolume;

    [Fact]
    public void Fluorocarbon_pulls_the_nose_down_and_nylon_hardly()
    {
        int compared = 0;
        foreach (LureDesign lure in Lures.Demos)
        {
            Prediction Carrying(double density, double carried) => Afresh(
                lure with { Leader = new LeaderDesign { DiameterMm = 1.05, DensityGPerCm3 = density, CarriedMm = carried } }, Rig.Rigged, WaterState.Ocean);
            Prediction without = Of(lure, Rig.Rigged, WaterState.Ocean);
            if (without.SpareBuoyancy <= 1) continue;
            double fluorocarbon = NoseDown(without, Carrying(1.78, 400)), nylon = NoseDown(without, Carrying(1.14, 400));
            Say($"{lure.Name}: 400 mm of fluorocarbon {fluorocarbon:F3}° nose down, nylon {nylon:F3}°");
            Assert.True(fluorocarbon > 0.05);
            // Their wet weights are as 0.756 to 0.116 g/cm³.
            Assert.True(nylon > 0 && nylon < 0.25 * fluorocarbon);
            compared++;
        }
        Assert.True(compared >= 1);
    }

    // Degrees by which the nose went down, in the rest next to the one it lay in.
    private static double NoseDown(Prediction before, Prediction after)
    {
        Posture next = after.Postures.MinBy(p => Vec3.Angle(p.Plane.N, before.Posture.Plane.N))!;
        return Units.ToDegrees(before.Posture.Trim - next.Trim);
    }

    [Fact]
    public void A_lure_neutral_in_the_sea_sinks_in_tap_water()
    {
        foreach (LureDesign lure in Lures.Demos)
        {
            LureDesign neutral = Neutral(lure);
            Prediction sea = Afresh(neutral, Rig.Rigged, WaterState.Ocean), tap = Afresh(neutral, Rig.Rigged, WaterState.Tap);
            double share = tap.SpareBuoyancy / Displacement(tap);
            Say($"{lure.Name}: wood {neutral.Wood.DensityGPerCm3:F4} g/cm³, spare {sea.SpareBuoyancy:G3} g in the sea, {tap.SpareBuoyancy:F2} g in tap water, {100 * share:F2} %");
            Assert.Equal(0, sea.SpareBuoyancy, 1e-6);
            Assert.Equal(Verdict.Suspends, sea.Verdict);
            Assert.Equal(Verdict.SinksSlowly, tap.Verdict);
            Tolerances.Check("trade: neutral in the sea, heavy in tap water, share of the displacement", -share, 0.025, lure.Name);
        }
    }

    // Weight is linear in the wood's density.
    private static LureDesign Neutral(LureDesign lure)
    {
        LureDesign With(double density) => lure with { Wood = lure.Wood with { DensityGPerCm3 = density } };
        double at = lure.Wood.DensityGPerCm3;
        double here = Body(With(at), Rig.Rigged, WaterState.Ocean).SpareBuoyancy, there = Body(With(at + 0.1), Rig.Rigged, WaterState.Ocean).SpareBuoyancy;
        return With(at + 0.1 * here / (here - there));
    }

    [Fact]
    public void Ten_grams_of_epoxy_film_cost_about_one_when_sunk_and_ten_soaked_in_cost_ten()
    {
        foreach (LureDesign lure in Lures.Demos)
        {
            LureDesign bare = lure with { Finish = [], SoakedG = 0 };
            FloatingBody Sunk(LureDesign design) => Body(design, Rig.Rigged, WaterState.Ocean);
            FloatingBody none = Sunk(bare);
            double thickness = Roots.Between(mm => Sunk(Coated(bare, mm)).Weight - none.Weight - 10, 0.1, 3, 1e-9);
            FloatingBody coated = Sunk(Coated(bare, thickness)), soaked = Sunk(bare with { SoakedG = 10 });
            double film = none.SpareBuoyancy - coated.SpareBuoyancy, soak = none.SpareBuoyancy - soaked.SpareBuoyancy;
            Say($"{lure.Name}: 10 g of film ({thickness:F2} mm) cost {film:F2} g under water, 10 g soaked in {soak:F2} g");
            Assert.Equal(10, coated.Weight - none.Weight, 1e-6);
            Tolerances.Check("trade: 10 g of epoxy film, net when sunk, g", film);
            Tolerances.Check("trade: 10 g soaked in, net when sunk, g", soak);
        }
    }

    private static LureDesign Coated(LureDesign lure, double thickness) =>
        lure with { Finish = [new Coat { Name = "epoxy", ThicknessMm = thickness, DensityGPerCm3 = 1.15 }] };

    [Fact]
    public void Paulownia_is_a_little_heavier_than_balsa()
    {
        double Density(string species) =>
            ReferenceTable.Rows("wood_density.csv").Single(row => row["species"] == species).Number("rho12_kg_m3_from_table_or_eq4-13");
        double balsa = Density("balsa"), paulownia = Density("paulownia (kiri)");
        Assert.InRange(paulownia / balsa, 1.2, 2);
        Assert.InRange(paulownia, balsa, Density("western redcedar"));
        // And a lure of it floats a little lower.
        LureDesign lure = Lures.Demo("slipway-150");
        Prediction Wooden(double kgPerM3) => Afresh(lure with { Wood = lure.Wood with { DensityGPerCm3 = kgPerM3 / 1000 } }, Rig.Bare, WaterState.Tap);
        Assert.True(Wooden(paulownia).Posture.Submerged > Wooden(balsa).Posture.Submerged);
    }
}
