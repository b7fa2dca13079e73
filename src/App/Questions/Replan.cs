using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Questions;

/// <summary>A remedy that is left after gluing, with its odds.</summary>
internal sealed record RemedyOdds(RemedyEffect Remedy, Odds Odds);

/// <summary>What can be changed now, by what the readings say.</summary>
/// <param name="Stage">How far the build is.</param>
/// <param name="Readings">How many readings that rests on.</param>
/// <param name="Wanted">Spare buoyancy that is wanted, g.</param>
/// <param name="AsItIs">Odds with nothing changed.</param>
/// <param name="Plans">Odds of each plan; empty after gluing.</param>
/// <param name="Remedies">What is left after gluing, best first; empty before.</param>
internal sealed record Now(Stage Stage, int Readings, double Wanted, Odds AsItIs, ImmutableArray<Odds> Plans, ImmutableArray<RemedyOdds> Remedies);

/// <summary>
/// What to change now: the lure as its readings have it is planned anew, and each plan is held against every build that
/// agrees with them. Once it is glued only remedies are left.
/// </summary>
internal static class Replan
{
    private const int Most = 6;
    private const int Tried = 24;

    // A remedy that gains less is not worth its while.
    private const double Worth = 0.01;
    internal const int Samples = 1000;

    /// <summary>The odds with nothing changed, and of each plan.</summary>
    public static Now Plans(Knowing knowing, LureDesign bare, Stage stage, PlanAnswer answer, IReadOnlyList<int> kept, Pace pace)
    {
        LureDesign own = knowing.Build.Design;
        double wanted = Odds.Wanted(bare, answer.Want) ?? Prediction.Of(bare, answer.Want.Circumstances).SpareBuoyancy;
        ImmutableArray<int> hardware = Odds.Change.None(own).Hardware;
        return new Now(stage, knowing.Log.Readings.Length, wanted, Odds.Of(knowing, Odds.Change.None(own), answer.Want, wanted, pace),
            [.. answer.Plans.Select(plan => Odds.Of(knowing, new Odds.Change(
                own with { Ballast = [.. kept.Select(i => own.Ballast[i]), .. plan.Pieces.Select(p => p.Piece)] },
                [.. kept, .. plan.Pieces.Select(_ => -1)], hardware), answer.Want, wanted, pace))], []);
    }

    /// <summary>The odds of a change of one weight.</summary>
    public static Odds Of(Knowing knowing, SmallestChange change, LureDesign bare, Want want, Pace pace)
    {
        LureDesign own = knowing.Build.Design;
        double wanted = Odds.Wanted(bare, want) ?? Prediction.Of(bare, want.Circumstances).SpareBuoyancy;
        int[] stay = [.. Enumerable.Range(0, own.Ballast.Length).Where(i => i != change.Own)];
        BallastPiece[] put = change.New is { } piece ? [piece.Piece] : [];
        return Odds.Of(knowing, new Odds.Change(own with { Ballast = [.. stay.Select(i => own.Ballast[i]), .. put] },
            [.. stay, .. put.Select(_ => -1)], Odds.Change.None(own).Hardware), want, wanted, pace);
    }

    /// <summary>The remedies that bring a glued lure nearest to what is wanted, with their odds; null when no weights could ever meet that.</summary>
    public static Now? Remedies(Knowing knowing, LureDesign believed, Stage stage, MakersBox box, Want want, Pace pace)
    {
        LureDesign own = knowing.Build.Design;
        if (Odds.Wanted(believed with { Ballast = [] }, want) is not { } wanted) return null;
        Odds asItIs = Odds.Of(knowing, Odds.Change.None(own), want, wanted, pace);
        var lure = new GluedLure(believed with { Leader = null });
        Prediction before = lure.Predict(lure.Design, want.Circumstances.Water);
        double Off(Prediction p) => Math.Abs(p.SpareBuoyancy - wanted) / want.WeightWithin + Math.Abs(BallastPlan.TrimOf(p) - want.Trim) / want.TrimWithin;
        double now = Off(before);
        RemedyEffect[] nearest = [.. pace.Each(new Core.Ballast.Remedies(lure.Design, box, pace).All(), r => (Remedy: r, Prediction: lure.Predict(r.Design, want.Circumstances.Water)))
            .Where(r => Off(r.Prediction) < now).OrderBy(r => Off(r.Prediction)).Take(Tried)
            .Select(r => new RemedyEffect(r.Remedy, r.Prediction, SwapEffect.Of(before, r.Prediction)))];
        RemedyOdds[] odds = [.. nearest.Select(r => new RemedyOdds(r, Odds.Of(knowing, With(own, lure.Design, r.Remedy.Design), want, wanted, pace)))];
        return new Now(stage, knowing.Log.Readings.Length, wanted, asItIs, [],
            // Of holes side by side the best one is enough.
            [.. odds.Where(r => r.Odds.Chance > asItIs.Chance + Worth).OrderByDescending(r => r.Odds.Chance)
                .DistinctBy(r => (r.Remedy.Remedy.Kind, r.Remedy.Remedy.Place, r.Remedy.Remedy.Spot?.From)).Take(Most)]);
    }

    // The same change made to the design itself, whose builds are known.
    private static Odds.Change With(LureDesign own, LureDesign believed, LureDesign changed)
    {
        int[] hardware = [.. changed.Hardware.Select(h => believed.Hardware.IndexOf(h))];
        return new Odds.Change(
            own with
            {
                Ballast = [.. own.Ballast, .. changed.Ballast.Skip(own.Ballast.Length)],
                Hardware = [.. changed.Hardware.Zip(hardware, (h, i) => i < 0 ? h : own.Hardware[i])],
            },
            [.. Enumerable.Range(0, own.Ballast.Length), .. changed.Ballast.Skip(own.Ballast.Length).Select(_ => -1)], [.. hardware]);
    }
}
