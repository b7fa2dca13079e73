using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Ballast;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>Which weights, and where, so that a lure does what is wanted; or why there are none.</summary>
/// <param name="Name">The lure's own.</param>
/// <param name="Box">Name of the box that was planned from.</param>
/// <param name="Wanted">What was wanted.</param>
/// <param name="Ways">Ways to make a weight from the box that fit somewhere.</param>
/// <param name="Places">Candidate places in all, 1 mm apart.</param>
/// <param name="Plans">Plans that really differ, best first, those on a cliff last; empty when there is none.</param>
/// <param name="WhyNot">Without plans, the limit that binds; null with them, and once it is glued.</param>
/// <param name="TrimHole">
/// What each plug would do in one hole that can be drilled after gluing; empty when it was not asked for, or there is no sound spot.
/// </param>
/// <param name="Now">What the readings say can be changed now, with odds; null without a log.</param>
/// <param name="SmallestChange">Only at dry-fit, and where one does it: the change of one weight that needs the least wood to be cut.</param>
/// <param name="Caution">What to take care of.</param>
/// <param name="Warnings">Of the files.</param>
[Answer("plan")]
internal sealed record PlanJson(
    string Name, string Box, WantJson Wanted, int Ways, int Places, ImmutableArray<BallastPlanJson> Plans, WhyNotJson? WhyNot,
    ImmutableArray<TrimHoleJson> TrimHole, NowJson? Now, [property: LeftOut] SmallestChangeJson? SmallestChange, string Caution, ImmutableArray<WarningJson> Warnings)
{
    public static PlanJson Of(PlanMade made, IReadOnlyList<Warning> warnings)
    {
        PlanAnswer answer = made.Answer;
        return new(
            made.Design.Name, made.Box.Name, WantJson.Of(answer.Want), answer.Offers, answer.Seats, BallastPlanJson.Of(answer), WhyNotJson.Of(made),
            [.. made.TrimHole.Select(TrimHoleJson.Of)], NowJson.Of(made.Now), SmallestChangeJson.Of(made), PlanWords.Caution, WarningJson.Of(warnings));
    }
}

/// <summary>A change of one weight at dry-fit with which the lure does what is wanted.</summary>
/// <param name="What">Nothing, when it does that as it is; else what is done.</param>
/// <param name="Says">The same in words.</param>
/// <param name="Weight">Name of the lure's own weight that is taken out, moved or swapped; null where none is.</param>
/// <param name="BoxId">What goes in, by its id in the box; null where nothing of the box does.</param>
/// <param name="AtMm">Where the middle of what goes in or is moved lies, mm; null where nothing does.</param>
/// <param name="Sentence">What the lure does then.</param>
/// <param name="SpareMissG">Off the want, g.</param>
/// <param name="TrimMissDeg">Off the want, degrees.</param>
/// <param name="Odds">By the readings; null without a log, and when nothing needs to be changed.</param>
internal sealed record SmallestChangeJson(
    ChangeOf What, string Says, string? Weight, string? BoxId, Vec3? AtMm, string Sentence, double SpareMissG, double TrimMissDeg, OddsJson? Odds)
{
    public static SmallestChangeJson? Of(PlanMade made) => made.Smallest is not { } c ? null : new(
        c.What, PlanWords.Of(c, made.Design, Notation.Metric), c.Own is { } own ? made.Design.Ballast[own].Name : null,
        c.What is ChangeOf.Added or ChangeOf.Swapped ? c.New!.BoxId : null, c.New?.Piece.Middle,
        Core.Telling.Sentence.Of(c.Prediction, Notation.Metric), c.SpareMiss, Units.ToDegrees(c.TrimMiss), made.SmallestOdds is { } odds ? OddsJson.Of(odds) : null);
}

/// <summary>How a lure is to sit or fall, and where.</summary>
/// <param name="Words">In words.</param>
/// <param name="Does">What it is to do.</param>
/// <param name="TrimDeg">Trim, degrees, positive tail down.</param>
/// <param name="SpareG">What it is to have to spare, g, below 0 for one that is heavy; null where that is not asked for.</param>
/// <param name="NoseOutMm">Of a lure that floats, how much of the nose is to be out along the back, mm; null where that is not asked for.</param>
/// <param name="SecondsPerMetre">Of a lure that falls, how long a metre is to take, s; else null.</param>
/// <param name="WeightWithinG">How far off its weight in the water may be, g.</param>
/// <param name="TrimWithinDeg">How far off its trim may be, degrees.</param>
/// <param name="Stage">At which stage of the build.</param>
/// <param name="Rig">With what hanging on it.</param>
/// <param name="Water">In which water.</param>
internal sealed record WantJson(
    string Words, Manner Does, double TrimDeg, double? SpareG, double? NoseOutMm, double? SecondsPerMetre, double WeightWithinG,
    double TrimWithinDeg, Stage Stage, Rig Rig, WaterJson Water)
{
    public static WantJson Of(Want want) => new(
        WantWords.Of(want, Notation.Metric), want.Manner, Units.ToDegrees(want.Trim), want.Spare, want.NoseOut,
        want.Manner == Manner.Falls ? want.SecondsPerMetre : null, want.WeightWithin, Units.ToDegrees(want.TrimWithin),
        want.Circumstances.Stage, want.Circumstances.Rig, WaterJson.Of(want.Circumstances.Water));
}

/// <summary>The limit that stands between the want and a plan.</summary>
/// <param name="Limit">Relaxing it, and nothing else, makes a plan; but for weight, posture and several.</param>
/// <param name="Sentence">The same in words.</param>
/// <param name="RelaxedTo">To what: pockets; mm of wall or web; times the closeness; mm of bar to buy; else 0.</param>
/// <param name="WeightsAtMm">Where along the lure the weights' common middle would have to lie, from the nose, mm; null where that says nothing.</param>
/// <param name="Proved">That there is no plan within the limits is proved, not only not found.</param>
internal sealed record WhyNotJson(Limit Limit, string Sentence, double RelaxedTo, double? WeightsAtMm, bool Proved)
{
    public static WhyNotJson? Of(PlanMade made) => made.Answer.WhyNot is not { } why ? null : new(
        why.Limit, PlanWords.Of(why, made.Answer, made.Design, Notation.Metric), why.Relaxed, why.Arm, why.Proved);
}

/// <summary>What a plug in the trim hole does.</summary>
/// <param name="Plug">What is done, in words.</param>
/// <param name="SpareBuoyancyG">By how much more it has to spare in the water, g.</param>
/// <param name="TrimDeg">By how much more tail down, degrees; null where that can't be said.</param>
internal sealed record TrimHoleJson(string Plug, double SpareBuoyancyG, double? TrimDeg)
{
    public static TrimHoleJson Of(RemedyEffect effect) => new(
        SwapWords.Of(effect.Remedy, Notation.Metric), effect.Effect.Spare, effect.Effect.Trim is { } trim ? Units.ToDegrees(trim) : null);
}
