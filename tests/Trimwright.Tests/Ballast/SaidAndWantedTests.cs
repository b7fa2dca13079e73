using System.Text.RegularExpressions;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Ballast;

/// <summary>What a prediction says is understood as a want, and the lure that it was said of meets it.</summary>
public class SaidAndWantedTests
{
    // By how much a lure as it is misses a want: in nothing means that it is met.
    private static string? Missed(LureDesign design, Prediction p, Want want)
    {
        // As a plan has it: what is lighter than its wood lifts, and stays.
        double[] net = Bookkeeper.NetOf(design, design.Ballast, want.Circumstances.Stage);
        LureDesign bare = design with { Ballast = [.. design.Ballast.Where((_, i) => net[i] <= 0)], Joint = design.Joint ?? new JointDesign() };
        (Target? target, NoTarget reason, double amount) = Target.Of(bare, want);
        if (target is null) return $"{reason} {amount}";
        double grams = target.WholeWeight - Prediction.Of(design with { Joint = design.Joint ?? new JointDesign() }, want.Circumstances).Ledger.Weight;
        double trim = BallastPlan.Seen(p, want) - want.Trim;
        if (!BallastPlan.Does(p, want)) return "does something else";
        return Math.Abs(grams) > want.WeightWithin || Math.Abs(trim) > want.TrimWithin ? $"{grams} g, {Units.ToDegrees(trim)}°" : null;
    }

    [Fact]
    public void Every_demos_sentence_is_a_want_that_it_meets_itself()
    {
        string[] demos = [.. Directory.GetFiles(Path.Combine(Here.Root, "demo"), "*.lure.json", SearchOption.AllDirectories)];
        Assert.True(demos.Length >= 8);
        foreach (string demo in demos)
        {
            LureDesign design = Lures.Read(File.ReadAllText(demo));
            Prediction p = Prediction.Of(design, Circumstances.InTheSea);
            foreach (Notation notation in (Notation[])[Notation.Metric, new(Inches: true)])
            {
                string said = Sentence.Of(p, notation);
                (Want? want, string unknown) = WantWords.Parse(said);
                Assert.True(want is not null, $"{said}: {unknown}");
                Assert.True(Missed(design, p, want) is null, $"{said}: {WantWords.Of(want, notation)}: {Missed(design, p, want)}");
            }
        }
    }

    [Fact]
    public void Every_sentence_is_understood_or_what_no_weights_are_planned_for_is_named()
    {
        int met = 0, named = 0;
        var missed = new List<string>();
        for (int seed = 0; seed < Tier.Count(quick: 40, ci: 400, @long: 2000); seed++)
        {
            // A lure that gets weights is split and glued, and so is the one that says it: glue alone made one in four hundred too heavy for what it
            // had said in one piece.
            LureDesign drawn = RandomLures.Of(700_000 + seed).Design, design = drawn with { Joint = drawn.Joint ?? new JointDesign() };
            Prediction p = Prediction.Of(design, Circumstances.InTheSea with { Mesh = MeshSize.Coarse });
            // By turns in either units.
            string said = Sentence.Of(p, seed % 2 == 0 ? Notation.Metric : new Notation(Inches: true));
            (Want? want, string unknown) = WantWords.Parse(said);
            if (want is null)
            {
                if (!WantWords.Next(unknown).StartsWith("No weights", StringComparison.Ordinal)) missed.Add($"lure {seed}: {said}: {unknown}");
                named++;
                continue;
            }
            want = want with { Circumstances = want.Circumstances with { Mesh = MeshSize.Coarse } };
            if (Missed(design, p, want) is { } why)
                missed.Add($"lure {seed}: {said}: {WantWords.Of(want, Notation.Metric)}: {why} [{string.Join(", ", design.Ballast.Select(b => $"{b.Form.Word} {b.Mass:0.00} g in {b.Pocket * design.Wood.DensityGPerCm3 / 1000:0.00} g of wood"))}]");
            met++;
        }
        // Of CI's 400 three are left. One, in inches, says seconds a yard and ounces that no weights bring together to 0.4 g. One falls on end with a gram (its trim to a degree and its grams to a tenth tell its seconds to a twelfth); one stands
        // on its nose at 75° with its belly where its back should be, which its words don't tell. Each that is mended lowers the bound; none may come to them.
        Assert.True(missed.Count <= 0.0075 * Tier.Count(quick: 40, ci: 400, @long: 2000), string.Join('\n', missed));
        Assert.True(met > 10 && named > 5, $"{met} met, {named} named");
    }

    /// <summary>"A little" and "upright" mean all that a prediction calls so, and nothing else.</summary>
    [Theory]
    [InlineData("floats a little tail down", "a little tail down")]
    [InlineData("floats a little nose down", "a little nose down")]
    [InlineData("floats level", "level")]
    [InlineData("stands upright, 5 g to spare", "stands upright")]
    [InlineData("stands upright on its nose, 5 g to spare", "stands upright on its nose")]
    public void A_word_means_one_thing_wanted_and_told(string wanted, string told)
    {
        Want want = WantWords.Parse(wanted).Want!;
        for (int tenths = -899; tenths < 900; tenths++)
        {
            double trim = Units.FromDegrees(tenths / 10.0 + 0.05);
            var posture = new Posture { Plane = new WaterPlane(WaterPlane.Up(trim, 0), 0), Trim = trim, Heel = 0, HeelIsFree = false, Mirror = false, Submerged = 0 };
            string word = Regex.Match(Words.Posture(posture, Notation.Metric, "floats"), "^(?:floats )?(a little (?:tail|nose) down|level|stands upright(?: on its nose)?)(?:,|$)").Groups[1].Value;
            Assert.Equal(word == told, Math.Abs(trim - want.Trim) <= want.TrimWithin);
        }
    }

    [Theory]
    [InlineData("sinks level, a foot in 2 s", "sinks level, 6.5617 s a metre")]
    [InlineData("sinks level, 10 ft in 18 s", "sinks level, 5.9055 s a metre")]
    [InlineData("sinks level, a yard in about 5.5 s", "sinks level, 6.0149 s a metre")]
    [InlineData("sinks level, 6 in/s", "sinks level, 152.4 mm/s")]
    [InlineData("falls 2 s a foot, 10 deg tail down", "falls 6.5617 s a metre, 10 deg tail down")]
    [InlineData("floats level, 1/4 oz to spare", "floats level, 7.0874 g to spare")]
    [InlineData("floats level, 0.25 ounces to spare", "floats level, 7.0874 g to spare")]
    [InlineData("stands at 70 deg, 1 1/4 in of nose out", "stands at 70 deg, 31.75 mm of nose out")]
    [InlineData("stands at 70 deg, 1 1/4\" of nose out", "stands at 70 deg, 31.75 mm of nose out")]
    public void Inches_feet_yards_and_ounces_are_wanted_as_well(string inches, string metric)
    {
        (Want? want, string unknown) = WantWords.Parse(inches);
        Assert.True(want is not null, unknown);
        Want same = WantWords.Parse(metric).Want!;
        Assert.Equal((same.Manner, same.Trim), (want.Manner, want.Trim));
        Assert.Equal(same.Rate, want.Rate, 1e-4 * Math.Abs(same.Rate));
        Assert.Equal(same.Spare ?? -1, want.Spare ?? -1, 1e-3);
        Assert.Equal(same.NoseOut ?? -1, want.NoseOut ?? -1, 1e-3);
    }

    [Fact]
    public void Eyes_at_the_waterline_are_planned_for_and_lie_there()
    {
        LureDesign lure = Lures.Demo("slipway-150") with { Ballast = [] };
        Want want = WantWords.Parse("floats level, eyes at the waterline").Want!;
        PlanAnswer answer = Planner.Of(lure, Catalogue.Starter, want, PlanLimits.Usual with { MostPockets = 2 });
        Assert.NotEmpty(answer.Plans);
        foreach (BallastPlan plan in answer.Plans)
        {
            Posture p = plan.Prediction.Posture;
            double under = p.Plane.D - Vec3.Dot(p.Plane.N, new Vec3(lure.Eyes!.XMm, 0, lure.Eyes.ZMm));
            // As near as the weight and the trim of a plan may miss: 0.3 g over the waterplane, 3° over the way from eyes to the middle.
            Assert.InRange(under, -5, 5);
            Assert.True(Math.Abs(plan.TrimMiss) > 0.01 || Math.Abs(under) < 0.5, $"{under} mm under at {plan.TrimMiss} rad");
        }
        Reply<PlanMade> blind = new WhichWeights(lure with { Eyes = null }, Catalogue.Starter, want).Answer(Pace.Free);
        Assert.Contains("eyes", Assert.IsType<Reply<PlanMade>.Wrong>(blind).Flaw.Fault.Got, StringComparison.Ordinal);
    }

    [Fact]
    public void A_weight_that_is_lighter_than_its_wood_stays_where_it_lifts()
    {
        LureDesign demo = Lures.Demo("slipway-150");
        LureDesign lure = demo with
        {
            Ballast = demo.Ballast.Add(new BallastPiece { Name = "cork", Form = BallastForm.Rod, DiameterMm = 10, LengthMm = 30, DensityGPerCm3 = 0.2, AtMm = [100, 0, 4] }),
        };
        PlanMade made = Assert.IsType<Reply<PlanMade>.Found>(new WhichWeights(lure, Catalogue.Starter, WantWords.Parse("floats level, 6 g to spare").Want!).Answer(Pace.Free)).Value;
        Assert.DoesNotContain(made.Left, p => p.Name == "cork");
        Assert.NotEmpty(made.Left);
        Assert.All(made.Answer.Plans, plan => Assert.Single(plan.Design.Ballast, p => p.Name == "cork"));
    }

    [Fact]
    public void Grams_that_fall_at_another_rate_than_wanted_are_told_with_their_seconds()
    {
        LureDesign lure = Lures.Demo("tidegate-185") with { Ballast = [] };
        PlanAnswer answer = Planner.Of(lure, Catalogue.Starter, WantWords.Parse("sinks level, a metre in 6 s, 20 g heavy").Want!, PlanLimits.Usual);
        string said = PlanWords.Of(answer.WhyNot!, answer, lure, Notation.Metric);
        Assert.Matches(@"20\.0.g heavy takes a metre in \d\.\d.s, not in 6\.0.s", said);
    }
}
