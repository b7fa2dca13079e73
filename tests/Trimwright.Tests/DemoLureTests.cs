using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Tests;

/// <summary>
/// The demo lures against an independent program that worked from the same outlines (hydrostatics checked on a sphere
/// and by sampling; not measured on real lures): within 0.5 g and 3° (popper 5°) for everything that floats or rests, or
/// the term that differs is named here and in docs/method/demo-lures.md.
/// </summary>
public class DemoLureTests
{
    private const double Grams = 0.5;

    private static Prediction Of(string lure, Stage stage, Rig rig, WaterState water) =>
        Prediction.Of(Lures.Demo(lure), new Circumstances(stage, rig, water));

    private static void Near(double expected, double actual, double allowed, string what)
    {
        TestContext.Current.TestOutputHelper?.WriteLine($"{what}: {actual:F2} against {expected:F2}, allowed {allowed}");
        Assert.True(Math.Abs(actual - expected) <= allowed, $"{what}: {actual:F3} against {expected}, allowed {allowed}");
    }

    private static double Trim(Prediction p) => Units.ToDegrees(p.Posture.Trim);

    private static double GluedIn(Prediction finished) => finished.Ledger.Parts.Where(p => p.Group == PartGroup.Glue).Sum(p => p.Mass);

    // What is threaded on the wire: its weight, and its weight under water.
    private static (double Mass, double Wet) OnWire(Prediction p)
    {
        Part[] captive = [.. p.Ledger.Of(PartKind.Captive)];
        return (captive.Sum(c => c.Mass), captive.Sum(c => c.Mass - (p.Circumstances.Water.Density - Units.AirDensity) * c.Displaces));
    }

    [Fact]
    public void The_sinking_stickbait()
    {
        Prediction sea = Of("tidegate-185", Stage.Finished, Rig.Rigged, WaterState.Ocean);
        Prediction tap = Of("tidegate-185", Stage.Finished, Rig.Rigged, WaterState.Tap);
        Prediction bare = Of("tidegate-185", Stage.Finished, Rig.Bare, WaterState.Tap);
        Prediction dry = Of("tidegate-185", Stage.DryFit, Rig.Bare, WaterState.Tap);

        Near(104.2, sea.Ledger.Weight, Grams, "rigged, g");
        Near(-3.9, sea.SpareBuoyancy, Grams, "rigged in the sea, g to spare");
        Near(-6.4, tap.SpareBuoyancy, Grams, "rigged in tap water, g to spare");
        // There a swivel on the wire is hardware and comes off; here it stays on.
        Near(81.3, bare.Ledger.Weight - OnWire(bare).Mass, Grams, "bare, without the swivel on its wire, g");
        Near(13.6, bare.SpareBuoyancy + OnWire(bare).Wet, Grams, "bare in tap water, without the swivel on its wire, g to spare");
        Near(-3, Trim(bare), 3, "bare in tap water, trim");
        Near(8, bare.Posture.BackProud, 1, "bare in tap water, back proud, mm");
        // There the filler and the glue line are in at dry-fit already; here they come with gluing.
        Near(71.7, dry.Ledger.Weight - OnWire(dry).Mass + GluedIn(bare), Grams, "dry-fit with its later filler and glue, without the swivel, g");
        // Falling: rates within 15 %; the trim differs by the hardware's drag along the axis (docs/decisions).
        Near(163, 1000 * sea.Descent!.First!.Rate, 0.15 * 163, "falls in the sea, mm/s");
        Near(208, 1000 * tap.Descent!.First!.Rate, 0.15 * 208, "falls in tap water, mm/s");
    }

    [Fact]
    public void The_standing_pencil()
    {
        Prediction sea = Of("mooring-post-210", Stage.Finished, Rig.Rigged, WaterState.Ocean);
        Prediction tap = Of("mooring-post-210", Stage.Finished, Rig.Rigged, WaterState.Tap);
        Prediction bare = Of("mooring-post-210", Stage.Finished, Rig.Bare, WaterState.Tap);

        Near(82.5, sea.Ledger.Weight, Grams, "rigged, g");
        Near(5.0, sea.SpareBuoyancy, Grams, "rigged in the sea, g to spare");
        Near(72, Trim(sea), 3, "rigged in the sea, trim");
        Near(30, sea.Posture.NoseShows, 2, "rigged in the sea, nose shows, mm");
        Near(79, Trim(tap), 3, "rigged in tap water, trim");
        Near(22, tap.Posture.NoseShows, 2, "rigged in tap water, nose shows, mm");
        Near(63.9, bare.Ledger.Weight, Grams, "bare, g");
        Near(4, Trim(bare), 3, "bare in tap water, trim");
    }

    [Fact]
    public void The_cupped_popper()
    {
        Prediction sea = Of("slipway-150", Stage.Finished, Rig.Rigged, WaterState.Ocean);
        Prediction tap = Of("slipway-150", Stage.Finished, Rig.Rigged, WaterState.Tap);
        Prediction bare = Of("slipway-150", Stage.Finished, Rig.Bare, WaterState.Tap);
        // There the cup is not taken off the wood's weight: 2.4 cm³ of 0.42 g/cm³.
        double cup = Trimwright.Core.Shape.Solids.Cap(33, 5.5) / Units.CubicCentimetre * 0.42;

        Near(98.1, sea.Ledger.Weight + cup, Grams, "rigged with the cup's wood, g");
        Near(19.6, sea.SpareBuoyancy - cup, Grams, "rigged in the sea less the cup's wood, g to spare");
        Near(45, Trim(sea), 5, "rigged in the sea, trim");
        Near(56, Trim(tap), 5, "rigged in tap water, trim");
        Near(75.2, bare.Ledger.Weight - OnWire(bare).Mass + cup, Grams, "bare with the cup's wood, without the swivel on its wire, g");
        Near(0, Trim(bare), 5, "bare in tap water, trim");
    }

    [Fact]
    public void Volumes_and_skins_agree_with_two_other_programs()
    {
        // Wood cm³ and skin cm²: the independent program, and a cruder third one.
        foreach ((string lure, double[] volumes, double[] areas) in new (string, double[], double[])[]
                 { ("tidegate-185", [87.9, 88.0], [139, 138.8]), ("mooring-post-210", [75.3, 75.2], []), ("slipway-150", [107.2 - 2.44], []) })
        {
            WeightLedger blank = Of(lure, Stage.Blank, Rig.Bare, WaterState.Tap).Ledger;
            foreach (double volume in volumes) Near(volume, blank.SkinProperties.Volume / 1000, 0.003 * volume, $"{lure}, wood, cm³");
            foreach (double area in areas) Near(area, blank.SkinProperties.Area / 100, 0.003 * area, $"{lure}, skin, cm²");
        }
    }

    [Fact]
    public void Swaps_and_changes_go_the_same_way_by_the_same_size()
    {
        // The standing pencil's tail weight: 12, 13, 14, 15, 17 g sits at 10, 26, 60, 72, 81°: a cliff.
        var lure = Lures.Demo("mooring-post-210");
        double last = 0;
        foreach (double grams in new[] { 12.0, 13, 14, 15, 17 })
        {
            Prediction p = Prediction.Of(lure with { Ballast = [lure.Ballast[0] with { MassG = grams }] }, Circumstances.InTheSea);
            TestContext.Current.TestOutputHelper?.WriteLine($"tail weight {grams} g: {Trim(p):F1}°");
            Assert.True(Trim(p) > last);
            last = Trim(p);
        }
        Assert.True(last > 78);
    }
}
