using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Ballast;

/// <summary>At dry-fit, pockets cut and weights in hand: leave it, or the change of one weight that cuts the least.</summary>
public class SmallestChangeTests
{
    private static Want Own(LureDesign lure) => WantWords.Parse(Sentence.Of(Prediction.Of(lure, Circumstances.InTheSea), Notation.Metric)).Want!;

    private static SmallestChange? Of(LureDesign lure, Want want, MakersBox? box = null) => SmallestChange.Of(lure, box ?? PlanCases.Kitchen, want, PlanLimits.Usual, []);

    private static readonly MakersBox Empty = PlanCases.Kitchen with { Weights = [], Stock = [] };

    private static LureDesign Shifted(LureDesign lure, int piece, double aft)
    {
        BallastPiece old = lure.Ballast[piece];
        return lure with { Ballast = lure.Ballast.SetItem(piece, old with { AtMm = [old.AtMm[0] + aft, old.AtMm[1], old.AtMm[2]] }) };
    }

    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("mooring-post-210")]
    [InlineData("slipway-150")]
    public void A_lure_that_does_what_is_wanted_is_left_as_it_is(string demo)
    {
        LureDesign lure = Lures.Demo(demo);
        SmallestChange change = Of(lure, Own(lure))!;
        Assert.Equal(ChangeOf.Nothing, change.What);
        Assert.Equal("Leave it as it is: it does what is wanted.", PlanWords.Of(change, lure, Notation.Metric));
        PlanMade made = Assert.IsType<Reply<PlanMade>.Found>(new WhichWeights(lure, PlanCases.Kitchen, Own(lure)) { At = Stage.DryFit }.Answer(Pace.Free)).Value;
        Assert.Equal(ChangeOf.Nothing, made.Smallest!.What);
    }

    [Fact]
    public void A_weight_that_slipped_goes_back_where_nothing_else_is_in_the_box()
    {
        LureDesign drawn = Lures.Demo("tidegate-185");
        for (int piece = 0; piece < drawn.Ballast.Length; piece++)
        {
            LureDesign slipped = Shifted(drawn, piece, 9);
            SmallestChange change = Of(slipped, Own(drawn), Empty)!;
            Assert.Equal(ChangeOf.Moved, change.What);
            Holds(slipped, Own(drawn), change);
            // No farther than back, and the wood of the move only.
            Assert.InRange(change.Design.Ballast.Sum(p => p.AtMm[0]) - slipped.Ballast.Sum(p => p.AtMm[0]), -18, 0);
            Assert.StartsWith("The smallest change: move ", PlanWords.Of(change, slipped, Notation.Metric), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void One_weight_too_many_comes_out_and_one_too_few_goes_in()
    {
        LureDesign drawn = Lures.Demo("tidegate-185");
        LureDesign more = drawn with { Ballast = drawn.Ballast.Add(new BallastPiece { Name = "too much", Form = BallastForm.Ball, DiameterMm = 6, DensityGPerCm3 = 11.3, AtMm = [80, 0, -8] }) };
        SmallestChange less = Of(more, Own(drawn))!;
        Assert.Equal((ChangeOf.TakenOut, 0.0), (less.What, less.NewWood));
        Holds(more, Own(drawn), less);
        // Without one of its weights the drawing's sentence needs one more, or another in the place of the other.
        LureDesign fewer = drawn with { Ballast = drawn.Ballast.RemoveAt(0) };
        SmallestChange? back = Of(fewer, Own(drawn), PlanCases.Kitchen);
        Assert.NotNull(back);
        Assert.NotEqual(ChangeOf.Nothing, back.What);
        Holds(fewer, Own(drawn), back);
    }

    // By the front door, and with no weight touched but the one that is named.
    private static void Holds(LureDesign lure, Want want, SmallestChange change)
    {
        Prediction p = Prediction.Of(LureFile.Read(LureFile.Write(change.Design)).Value!, want.Circumstances);
        Assert.True(BallastPlan.Does(p, want));
        Assert.Equal(Sentence.Of(p, Notation.Metric), Sentence.Of(change.Prediction, Notation.Metric));
        Assert.True(Math.Abs(change.SpareMiss) <= want.WeightWithin && Math.Abs(change.TrimMiss) <= want.TrimWithin);
        BallastPiece[] kept = [.. lure.Ballast.Where((_, i) => i != change.Own)];
        Assert.Equal(kept.Select(k => (k.Name, k.Mass, k.Middle)), change.Design.Ballast.Take(kept.Length).Select(k => (k.Name, k.Mass, k.Middle)));
        Assert.Equal(change.New is null ? 0 : 1, change.Design.Ballast.Length - kept.Length);
    }

    [Fact]
    public void Of_random_slips_no_change_of_less_wood_is_overlooked()
    {
        var random = new Random(4);
        int found = 0;
        for (int i = 0; i < Tier.Count(quick: 4, ci: 40); i++)
        {
            LureDesign drawn = Lures.Demo(i % 2 == 0 ? "mooring-post-210" : "tidegate-185");
            int piece = random.Next(drawn.Ballast.Length);
            LureDesign slipped = Shifted(drawn, piece, Math.Round(20 * random.NextDouble() - 10));
            Want want = Own(drawn);
            if (Of(slipped, want) is not { } change) continue;
            found++;
            Holds(slipped, want, change);
            if (change.What == ChangeOf.Nothing) continue;
            // Going straight back is one change of many: if that is sound and does it, nothing larger is told.
            BallastPiece back = slipped.Ballast[piece], home = drawn.Ballast[piece];
            double apart = Math.Abs(home.AtMm[0] - back.AtMm[0]);
            Vec3 room = home.Box + home.Clearance * new Vec3(1, 1, 1);
            if (BallastPlan.Does(Prediction.Of(drawn, want.Circumstances), want)) Assert.True(change.NewWood <= apart * room.Y * room.Z + 1e-6 || change.What != ChangeOf.Moved, $"{change.NewWood} > {apart * room.Y * room.Z}");
        }
        Assert.True(found > 0);
    }
}
