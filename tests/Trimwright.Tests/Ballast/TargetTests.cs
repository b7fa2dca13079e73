using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;

namespace Trimwright.Tests.Ballast;

/// <summary>The target of what a lure does is what its own weights add up to; and it misses as the target says when they change.</summary>
public class TargetTests
{
    [Fact]
    public void What_a_piece_adds_is_the_difference_of_two_ledgers()
    {
        double worst = 0;
        int count = Tier.Count(quick: 12, ci: 200);
        for (int i = 0; i < count; i++)
        {
            LureDesign design = PlanCases.Lure(i);
            BallastModel model = PlanCases.Places(design, PlanCases.Kitchen, 15, PlanLimits.Usual with { Step = 10 });
            var random = new Random(i);
            if (PlanCases.Draw(model, random, 1) is not [var seat]) continue;
            foreach (Stage stage in new[] { Stage.DryFit, Stage.Finished })
            {
                double Weight(LureDesign d) => Bookkeeper.Of(d, stage, Rig.Bare, 0.001, Core.Shape.MeshSize.Coarse).Weight;
                BallastPiece piece = model.Offers[seat.Offer].At(seat.X, seat.Z);
                double net = Bookkeeper.NetOf(design, [piece], stage)[0];
                worst = Math.Max(worst, Math.Abs(Weight(design with { Ballast = [piece] }) - Weight(design) - net));
            }
        }
        Console.WriteLine($"what a piece adds: worst {worst:E1} g");
        Assert.True(worst < 1e-9, $"worst {worst} g");
    }

    [Fact]
    public void The_weights_of_a_lure_meet_the_target_of_what_it_does()
    {
        int met = 0, tried = 0, wanted = Tier.Count(quick: 12, ci: 150);
        double worstWeight = 0, worstTrim = 0;
        var manners = new Dictionary<string, int>();
        for (int i = 0; met < wanted; i++)
        {
            tried++;
            var random = new Random(i);
            LureDesign design = PlanCases.Lure(i);
            BallastModel places = PlanCases.Places(design, PlanCases.Kitchen, 25, PlanLimits.Usual with { Step = 10 });
            if (PlanCases.Draw(places, random, random.Next(1, 4)) is not { } seats) continue;
            if (PlanCases.AsItIs(PlanCases.With(design, places, seats), Circumstances.InTheSea with { Mesh = Core.Shape.MeshSize.Coarse }) is not { } want) continue;
            (Target? target, _, _) = Target.Of(design, want);
            Assert.NotNull(target);
            var model = new BallastModel(target, want, PlanLimits.Usual, places.Offers, offer => [.. seats.Where(s => places.Offers[s.Offer] == offer).Select(s => (s.X, s.Z))]);
            Sums sums = seats.Aggregate(default(Sums), (sum, s) =>
                sum + model.SumsOf(model.Seats.SelectMany(x => x).First(x => model.Offers[x.Offer] == places.Offers[s.Offer] && x.X == s.X && x.Z == s.Z)));
            worstWeight = Math.Max(worstWeight, Math.Abs(sums.Weight - target.Weight));
            // A touchy lure shows a rounding of its moment as an angle.
            worstTrim = Math.Max(worstTrim, Math.Abs(model.MomentLeft(sums)) / (target.WholeWeight * 0.3));
            string manner = $"{want.Manner} {(Math.Abs(want.Trim) > 0.8 ? "steep" : "flat")}";
            manners[manner] = manners.GetValueOrDefault(manner) + 1;
            met++;
        }
        Console.WriteLine($"{met} of {tried} drawn: {string.Join(", ", manners.Select(m => $"{m.Key} {m.Value}"))}; worst {worstWeight:E1} g, {Units.ToDegrees(worstTrim):E1}° at a GM of 0.3 mm");
        Assert.True(manners.Keys.Any(m => m.StartsWith("Falls", StringComparison.Ordinal)) && manners.Keys.Any(m => m.StartsWith("Floats", StringComparison.Ordinal)));
        Assert.True(worstWeight < 1e-5 && worstTrim < Units.FromDegrees(0.01), $"{worstWeight} g, {Units.ToDegrees(worstTrim)}°");
    }

    [Fact]
    public void Too_heavy_a_lure_says_by_how_much()
    {
        LureDesign design = PlanCases.Stripped(Lures.Demo("tidegate-185"));
        (Target? target, NoTarget reason, double amount) = Target.Of(design, Want.Floating(0, 40));
        double spare = Prediction.Of(design, Circumstances.InTheSea).SpareBuoyancy;
        Assert.Null(target);
        Assert.Equal(NoTarget.TooHeavy, reason);
        Assert.Equal(40 - spare, amount, 0.01);
    }
}
