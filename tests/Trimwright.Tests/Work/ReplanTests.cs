using Trimwright.App.Work;
using Trimwright.Core;
using Trimwright.Core.Numerics;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Tests.Doubt;

namespace Trimwright.Tests.Work;

/// <summary>After readings: planned anew with what is still free, odds before and after.</summary>
public class ReplanTests
{
    private const string Lure = "demo/tidegate-185.lure.json";

    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    // A blank of wood a seventh heavier than drawn, weighed in air and under water.
    private static string HeavyWood(int stages)
    {
        LureDesign design = Lures.Demo("tidegate-185");
        var build = new BuildModel(design, mesh: Simulation.Mesh);
        double[] truth = new double[build.Unknowns.Count];
        truth[Unknowns.Density] = 1.4;
        string file = Path.Combine(Directory.CreateTempSubdirectory("trimwright-replan").FullName, "t.log.json");
        File.WriteAllBytes(file, LogFile.Write(Simulation.Log(build, Simulation.Readings(design, stages), truth, seed: 3, width: 1) with { Name = design.Name }));
        return file;
    }

    private static PlanMade Planned(string log, string? at = null) =>
        Plan.Run(new PlanRequest(Path.Combine(Here.Root, Lure), "sinks slowly, level", Path.Combine(Here.Root, "demo/kitchen.box.json"), [], 4, null, null, 1, null, false, Log: log, At: at), Pace.Free);

    [Fact]
    public void A_plan_by_the_readings_has_better_odds_than_the_drawing_and_keeps_them()
    {
        PlanMade made = Planned(HeavyWood(1));
        Now now = made.Now!;
        Say($"as it is {now.AsItIs.Chance:F2} at {now.AsItIs.Spare.Median:F1} g; plans {string.Join(", ", now.Plans.Select(p => $"{p.Chance:F2}"))}");
        Assert.Equal(Stage.Blank, now.Stage);
        Assert.True(now.AsItIs.Spare.Median < now.Wanted - 2);
        Assert.True(now.Plans[0].Chance > now.AsItIs.Chance + 0.2);

        // Another way to the same odds: builds written back into designs, and predicted by the front door.
        (Knowing knowing, _, _, _) = Replan.Believe(made.Design, HeavyWood(1), null, made.Answer.Want, Pace.Free);
        int builds = Tier.Count(20, 60), met = 0;
        for (int i = 0; i < builds; i++)
        {
            double[] xi = knowing.Builds[i * knowing.Builds.Length / builds];
            LureDesign planned = Believed.Of(knowing.Build, xi) with { Ballast = [.. made.Answer.Plans[0].Pieces.Select(p => p.Piece)] };
            Prediction p = Prediction.Of(planned, made.Answer.Want.Circumstances);
            if (Math.Abs(p.SpareBuoyancy - now.Wanted) <= Odds.Grams(p.Ledger.Weight) && Math.Abs(BallastPlan.TrimOf(p) - made.Answer.Want.Trim) <= Odds.Angle) met++;
        }
        Say($"{met} of {builds} by the front door, {now.Plans[0].Chance:F2} promised");
        // Weights lie exactly where they are planned here, so it may do a little better; four deviations of a count worse.
        Assert.InRange((double)met / builds, now.Plans[0].Chance - 4 * Math.Sqrt(0.25 / builds), 1);
    }

    [Fact]
    public void Once_it_is_glued_only_remedies_are_left_and_none_worse_than_nothing()
    {
        string log = Path.Combine(Here.Root, "demo/tidegate-185.log.json");
        PlanMade made = Planned(log, at: "glued");
        Now now = made.Now!;
        Assert.Empty(made.Answer.Plans);
        Assert.Empty(now.Plans);
        Assert.NotEmpty(now.Remedies);
        LureDesign believed = Replan.Believe(made.Design, log, null, made.Answer.Want, Pace.Free).Believed;
        foreach (RemedyOdds r in now.Remedies)
        {
            Say($"{r.Remedy.Remedy.Kind} {r.Remedy.Remedy.Item}: {r.Odds.Chance:F2}, {r.Remedy.Effect.Spare:F2} g");
            Assert.True(r.Odds.Chance > now.AsItIs.Chance);
            // What is in the wood stays there.
            Assert.Equal(believed.Ballast.Select(b => b.Mass), r.Remedy.Remedy.Design.Ballast.Take(believed.Ballast.Length).Select(b => b.Mass));
        }
    }

    [Fact]
    public void What_can_t_be_met_says_which_limit_binds()
    {
        PlanMade made = Plan.Run(new PlanRequest(Path.Combine(Here.Root, Lure), "floats level, 60 g to spare", Path.Combine(Here.Root, "demo/kitchen.box.json"), [], 4, null, null, 1, null, false, Log: HeavyWood(1)), Pace.Free);
        Assert.Empty(made.Answer.Plans);
        Assert.NotNull(made.Answer.WhyNot);
        Assert.Empty(made.Now!.Plans);
    }
}
