using System.Collections.Concurrent;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Ballast;

/// <summary>What is left after gluing: each remedy does what its changed design is predicted to do, no more and no less.</summary>
public class RemedyTests
{
    private static readonly double Sea = WaterState.Ocean.Density - Units.AirDensity;

    private static MakersBox Kitchen => BoxFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo", "kitchen.box.json"))).Value!;

    private static LureDesign Random(int seed) => RandomLures.Of(600_000 + seed).Design;

    [Fact]
    public void A_remedys_effect_is_the_prediction_of_its_changed_design_read_back_from_its_file()
    {
        int lures = Tier.Count(8, 120, 800);
        var wrong = new ConcurrentBag<string>();
        int tried = 0;
        Parallel.For(0, lures, seed =>
        {
            LureDesign design = seed < 3 ? Lures.Demos.ElementAt(seed) : Random(seed);
            var lure = new GluedLure(design);
            Prediction before = Prediction.Of(design, Circumstances.InTheSea);
            Remedy[] all = [.. new Remedies(design, seed % 2 == 0 ? Kitchen : Catalogue.Starter).All()];
            // A handful, of every kind in turn.
            foreach (Remedy remedy in all.Where((_, i) => i % Math.Max(1, all.Length / 5) == seed % 3))
            {
                Reading<LureDesign> reading = LureFile.Read(LureFile.Write(remedy.Design));
                if (reading.Value is not { } read)
                {
                    wrong.Add($"lure {seed}, {remedy.Kind} {remedy.Item}: {string.Join("; ", reading.Faults)}");
                    continue;
                }
                Interlocked.Increment(ref tried);
                Prediction told = lure.Predict(remedy.Design, WaterState.Ocean), done = Prediction.Of(read, Circumstances.InTheSea);
                foreach (string difference in GluedLureTests.Differences(told, done)) wrong.Add($"lure {seed}, {remedy.Kind} {remedy.Item}: {difference}");
                double grams = SwapEffect.Of(before, told).Spare;
                if (Math.Abs(grams - (done.SpareBuoyancy - before.SpareBuoyancy)) > 1e-9) wrong.Add($"lure {seed}, {remedy.Item}: {grams} g told");
            }
        });
        TestContext.Current.TestOutputHelper?.WriteLine($"{tried} remedies on {lures} lures");
        foreach (string line in wrong.Take(20)) Console.WriteLine("wrong: " + line);
        Assert.Empty(wrong);
        Assert.True(tried > 2 * lures);
    }

    [Fact]
    public void A_hole_filled_with_the_woods_own_density_changes_nothing()
    {
        int holes = 0;
        for (int seed = 0; seed < Tier.Count(12, 120); seed++)
        {
            LureDesign design = Random(seed);
            if (design.Wire is null) continue;
            var lure = new GluedLure(design);
            double wood = Units.ToGramsPerCm3(lure.WoodDensity);
            Prediction before = lure.Predict(design, WaterState.Ocean);
            foreach (SafeSpot spot in new SafeSpots(design).Along(new DrillBit(6, 1.8), design.Body.LengthMm / 5).Take(3))
            {
                (BallastPiece filling, BallastPiece stopper) = spot.Filled("its own wood", wood, wood, spot.Room);
                Prediction after = lure.Predict(design with { Ballast = [.. design.Ballast, filling, stopper] }, WaterState.Ocean);
                Assert.Equal(before.SpareBuoyancy, after.SpareBuoyancy, 1e-9);
                Assert.Equal(before.Posture.Trim, after.Posture.Trim, 1e-6);
                Assert.Equal(before.Descent?.First?.Rate ?? 0, after.Descent?.First?.Rate ?? 0, 1e-9);
                holes++;
            }
        }
        Assert.True(holes >= 12, $"only {holes} holes");
    }

    [Fact]
    public void Cork_lightens_and_lead_adds_by_what_the_hole_holds()
    {
        int cork = 0, lead = 0;
        for (int seed = 0; seed < Tier.Count(20, 300); seed++)
        {
            LureDesign design = seed < 3 ? Lures.Demos.ElementAt(seed) : Random(seed);
            WeightLedger Books(LureDesign d) => Bookkeeper.Of(d, Stage.Finished, Rig.Rigged, Sea, MeshSize.Coarse);
            double before = Books(design).Weight, wood = 1000 * Bookkeeper.WoodDensity(design, MeshSize.Coarse);
            foreach (Remedy remedy in new Remedies(design, Catalogue.Starter).All().Where(r => r.BreaksSeal).Where((_, i) => i % 9 == 0))
            {
                double added = Books(remedy.Design).Weight - before;
                double bore = Math.PI / 4 * remedy.Spot!.Bit.Diameter * remedy.Spot.Bit.Diameter / 1000;
                BallastPiece filling = remedy.Filling!, stopper = remedy.Design.Ballast[^1];
                double expected = bore * (filling.LengthMm * (filling.DensityGPerCm3!.Value - wood) + stopper.LengthMm * (stopper.DensityGPerCm3!.Value - wood));
                Assert.Equal(expected, added, 1e-9);
                if (remedy.Kind == RemedyKind.Cork) cork++;
                else lead++;
                // Wood is that of a weighed half here, so that cork is only offered where it is lighter than the mean of both.
                Assert.True(remedy.Kind == RemedyKind.Cork ? added < 0 : added > 0, $"lure {seed}: {SwapWords.Of(remedy, Notation.Metric)}: {added} g");
                Assert.Equal(remedy.Grams, bore * filling.LengthMm * filling.DensityGPerCm3.Value, 1e-9);
            }
        }
        Assert.True(cork > 20 && lead > 20, $"{cork} of cork, {lead} of lead");
    }

    /// <summary>Grams of lead to a centimetre of hole, as the trade reckons them (arithmetic at 11.34 g/cm³; common practice, no source).</summary>
    [Theory]
    [InlineData(5, 2.2)]
    [InlineData(6, 3.2)]
    [InlineData(8, 5.7)]
    [InlineData(10, 8.9)]
    [InlineData(12, 12.8)]
    [InlineData(16, 22.8)]
    public void A_centimetre_of_hole_holds_the_lead_that_the_trade_says(double diameter, double grams)
    {
        var spot = new SafeSpot(DrilledFrom.Belly, new(80, 0, -15), Core.Numerics.Vec3.UnitZ, new DrillBit(diameter, 0), 0, 3, 15, null);
        Assert.Equal(grams, spot.Filled("lead", 11.34, 1.1, 10).Filling.Mass, 0.051);
    }

    [Fact]
    public void Hooks_and_shank_wire_cost_their_wet_weight()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        var lure = new GluedLure(design);
        Prediction before = lure.Predict(design, WaterState.Ocean);
        foreach (Remedy remedy in new Remedies(design, Kitchen).All().Where(r => !r.BreaksSeal))
        {
            SwapEffect effect = SwapEffect.Of(before, lure.Predict(remedy.Design, WaterState.Ocean));
            bool wire = remedy.Kind == RemedyKind.ShankWire;
            if (wire) Assert.Equal(remedy.Grams, effect.Weight, 1e-9);
            Assert.Equal(-effect.Weight * (1 - Sea / (wire ? 11.34e-3 : 7.8e-3)), effect.Spare, 1e-9);
        }
    }

    [Fact]
    public void Without_lead_nothing_is_filled_or_wound_with_it()
    {
        LureDesign design = Lures.Demo("slipway-150");
        Remedy[] with = [.. new Remedies(design, Kitchen).All()], without = [.. new Remedies(design, Kitchen with { NoLead = true }).All()];
        Assert.Contains(with, r => r.Kind == RemedyKind.HeavyPlug && r.Item == "lead");
        Assert.DoesNotContain(without, r => r.Item.Contains("lead", StringComparison.OrdinalIgnoreCase));
        Assert.Contains(without, r => r.Kind == RemedyKind.HeavyPlug && r.Item == "brass bar 8");
        Assert.Contains(without, r => r.Kind == RemedyKind.ShankWire && r.Item == "tin wire 2");
    }

    [Fact]
    public void A_remedy_serves_a_use_by_how_purely_it_does_it()
    {
        Remedy remedy = new(RemedyKind.Ring, "line_tie", "ring", null, Lures.Demo("slipway-150"));
        RemedyEffect Of(double grams, double? degrees) => new(remedy, null!, new SwapEffect(0, grams, degrees is { } d ? Units.FromDegrees(d) : null, null, null, Turned.Nothing));
        Assert.Equal(1, Of(3, 0).For(RemedyUse.Lighter), 1e-12);
        Assert.Equal(0.5, Of(-0.6, 6).For(RemedyUse.Heavier), 1e-12);
        Assert.Equal(0.5, Of(-0.6, 6).For(RemedyUse.NoseUp), 1e-12);
        Assert.Equal(0, Of(-0.6, 6).For(RemedyUse.NoseDown));
        Assert.Equal(0, Of(0.2, 0).For(RemedyUse.Lighter));
        Assert.Equal(0, Of(5, null).For(RemedyUse.NoseUp));
        Assert.True(Of(6, null).For(RemedyUse.Lighter) < Of(6, 20).For(RemedyUse.Lighter));
    }
}
