using System.Diagnostics;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;

namespace Trimwright.Tests.Doubt;

public class UpdateTests
{
    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    public static TheoryData<string> Demos => Tier.IsCi ? ["tidegate-185", "mooring-post-210", "slipway-150"] : ["tidegate-185"];

    /// <summary>
    /// The promise before gluing: with usual priors and weighed hooks, the blank's weight, its weight under water and the
    /// needle point leave 95 of 100 within so many grams of spare buoyancy, rigged in the sea.
    /// </summary>
    [Theory]
    [MemberData(nameof(Demos))]
    public void Blank_weighed_in_air_and_under_water_leaves_a_gram_and_a_half(string name)
    {
        LureDesign design = Lures.Demo(name);
        var build = new BuildModel(design);
        LogReading[] readings =
        [
            .. design.Hardware.Select(h => new LogReading { Kind = ReadingKind.Part, Part = $"{h.Name} at {h.HangsFrom}", MassG = h.MassG }),
            .. Simulation.Readings(design, 1).Where(r => r.Kind != ReadingKind.Part),
        ];
        TubLog log = Simulation.Log(build, readings, new double[build.Unknowns.Count], seed: 1, width: 0);
        Knowing knowing = Knowing.Of(build, log, Circumstances.InTheSea, count: 4000);
        double before = Half(knowing.Before.Spare), after = Half(knowing.After.Spare);
        Say($"{name}: drawing board ±{before:F2} g, before gluing ±{after:F2} g (95 %), {before / after:F1} times sharper; effective {knowing.Effective:F2}");
        foreach (Share share in knowing.Causes) Say($"  {share.Cause}: {share.Part:P0}, else ±{share.Left:F2} g");
        Assert.Empty(knowing.Flags);
        Assert.True(after < before / 3);
        Assert.True(after <= 1.5, $"{name}: ±{after:F2} g");
    }

    private static double Half(Ranged r) => (r.High95 - r.Low95) / 2;

    [Fact]
    public void A_lure_weighed_without_its_wire_is_flagged_and_the_wire_is_named()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        var build = new BuildModel(design);
        double[] none = new double[build.Unknowns.Count];
        TubLog log = Simulation.Log(build, Simulation.Readings(design, 2), none, seed: 4, width: 0);
        int weighed = log.Readings.Index().First(r => r.Item.Kind == ReadingKind.Weight && r.Item.Stage == Stage.DryFit).Index;
        log = log with { Readings = log.Readings.SetItem(weighed, log.Readings[weighed] with { MassG = log.Readings[weighed].MassG - 4.5 }) };
        Knowing knowing = Knowing.Of(build, log, Circumstances.InTheSea, count: 1000);
        foreach (Flag flag in knowing.Flags) Say(Core.Telling.DoubtWords.Of(flag, log.Readings[flag.Reading], Core.Telling.Notation.Metric));
        Flag only = Assert.Single(knowing.Flags);
        Assert.Equal(weighed, only.Reading);
        Assert.Contains(only.Suspects, s => s is { Kind: SuspectKind.PartMissing, Part: "wire" });
        // And the forecast stays where the other readings put it.
        Assert.Equal(Prediction.Of(design, Circumstances.InTheSea).SpareBuoyancy, knowing.After.Spare.Median, 0.5);
    }

    [Fact]
    public void One_weight_under_water_is_taken_in_as_least_squares_in_closed_form_has_it()
    {
        // Only the scale's digits and the prior of the spare buoyancy meet: m = (m₀/s₀² + y/s²)/(1/s₀² + 1/s²), nearly linear.
        var build = new BuildModel(Lures.Demo("tidegate-185"));
        var log = new TubLog { Name = "one", Readings = [new LogReading { Kind = ReadingKind.Weight, MassG = 47 }] };
        var observations = new Observations(build, log);
        Observation o = observations.All[0];
        double prior = Core.Numerics.Propagation.Linear(x => o.Shows(x), observations.Unknowns.Length), at = o.Shows(new double[observations.Unknowns.Length]);
        double closed = (at / (prior * prior) + 47 / (o.Sd * o.Sd)) / (1 / (prior * prior) + 1 / (o.Sd * o.Sd));
        Belief belief = Knowing.Learn(build, log);
        Say($"prior {at:F3} ± {prior:F3}, read 47 ± {o.Sd:F3}: closed {closed:F4}, updated {o.Shows(belief.Mean):F4}");
        Assert.Equal(closed, o.Shows(belief.Mean), 0.002);
    }

    [Fact]
    public void A_word_for_how_it_sat_settles_a_posture_that_can_flip()
    {
        // Two grams less of lead and the pencil sits anywhere between lying and standing.
        LureDesign design = Lures.Demo("mooring-post-210");
        design = design with { Ballast = [design.Ballast[0] with { MassG = 13.5 }] };
        var build = new BuildModel(design);
        TubLog Sat(Sat sat) => new() { Name = "sat", Readings = [new LogReading { Kind = ReadingKind.Tub, Stage = Stage.DryFit, Rig = Rig.StandIns, TemperatureC = 15, Soap = true, Sat = sat }] };
        double Stands(TubLog log)
        {
            Knowing k = Knowing.Of(build, log, new Circumstances(Stage.DryFit, Rig.StandIns, Core.Water.WaterState.Tap), Tier.Count(400, 1000));
            double chance = k.After.Ways.Where(w => w.Way == Core.Doubt.Sat.Stands).Sum(w => w.Chance);
            Say($"{(log.Readings.IsEmpty ? "nothing" : log.Readings[0].Sat.ToString())}: {k.Trust}, effective {k.Effective:F2}; stands {chance:P0}; {string.Join(", ", k.After.Ways.Select(w => $"{w.Way} {w.Chance:P0} {Units.ToDegrees(w.Trim.Median):F0}°"))}");
            return chance;
        }
        double before = Stands(new TubLog { Name = "none" }), stood = Stands(Sat(Core.Doubt.Sat.Stands)), lay = Stands(Sat(Core.Doubt.Sat.Level));
        Assert.True(stood > before + 0.1);
        Assert.True(lay < before - 0.1);
    }

    [Fact]
    public void The_ladder_falls_with_every_rung()
    {
        foreach (string name in new[] { "tidegate-185", "mooring-post-210", "slipway-150" })
        {
            var ladder = Candidates.Ladder(new BuildModel(Lures.Demo(name)), new TubLog { Name = "none" }, Circumstances.InTheSea);
            Say($"{name}: {string.Join(" → ", ladder.Select(r => $"{r.What} ±{r.Grams:F2}"))}");
            for (int i = 1; i < ladder.Length; i++) Assert.True(ladder[i].Grams <= ladder[i - 1].Grams + 1e-6);
        }
    }
}
