using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>One set of weights that does what is wanted.</summary>
/// <param name="Name">What it is called by: its weights.</param>
/// <param name="Mark">What tells it from the other plans, in a few words.</param>
/// <param name="Sentence">What the lure then does.</param>
/// <param name="Pieces">The weights, nose to tail.</param>
/// <param name="Miss">How far from what is wanted.</param>
/// <param name="Cost">What the search holds against it, in pockets' worth.</param>
/// <param name="Proved">No other plan costs less; of the first plan only.</param>
/// <param name="Gap">By how many pockets' worth another might be better.</param>
/// <param name="OneMmAft">What changes most when a weight lies 1 mm further aft.</param>
/// <param name="OneGramMore">What changes when the heaviest weight is a gram heavier.</param>
/// <param name="OnCliff">Half a gram or a millimetre turns it over, or into something else.</param>
/// <param name="TubTarget">What the tub must show, in tap water with stand-ins for the hooks.</param>
internal sealed record BallastPlanJson(
    string Name, string Mark, string Sentence, ImmutableArray<PlannedPieceJson> Pieces, MissJson Miss, double Cost, bool Proved, double Gap,
    SlipJson OneMmAft, SlipJson OneGramMore, bool OnCliff, TubTargetJson TubTarget)
{
    public static ImmutableArray<BallastPlanJson> Of(PlanAnswer answer) => [.. answer.Plans.Select((_, i) => Of(answer, i))];

    private static BallastPlanJson Of(PlanAnswer answer, int index)
    {
        BallastPlan plan = answer.Plans[index];
        // What is proved is the first plan's cost; the others are other ways.
        double gap = index == 0 ? answer.Gap : plan.Choice.Cost - answer.Plans[0].Choice.Cost + answer.Gap;
        return new(
            PlanWords.Name(plan), PlanWords.Mark(plan, answer.Plans), Core.Telling.Sentence.Of(plan.Prediction, Notation.Metric),
            [.. plan.Pieces.Select(PlannedPieceJson.Of)], new(plan.SpareMiss, Units.ToDegrees(plan.TrimMiss)), plan.Choice.Cost,
            index == 0 && answer.Proved, gap, SlipJson.Of(plan.Aft), SlipJson.Of(plan.Heavier), plan.OnCliff,
            new(TubJson.Of(plan.DryFit.Prediction), TubJson.Of(plan.Sealed.Prediction)));
    }
}

/// <summary>How far a plan comes from what is wanted.</summary>
/// <param name="SpareBuoyancyG">More to spare than wanted by, g.</param>
/// <param name="TrimDeg">More tail down than wanted by, degrees.</param>
internal sealed record MissJson(double SpareBuoyancyG, double TrimDeg);

/// <summary>A weight of a plan, and its pocket.</summary>
/// <param name="BoxId">What to take from the box.</param>
/// <param name="Name">What it is called in the lure.</param>
/// <param name="AtMm">Its middle, mm.</param>
/// <param name="MassG">What it weighs, g.</param>
/// <param name="CutLengthMm">How long to cut it from stock, mm; null for a ready piece.</param>
/// <param name="Axis">Along which it lies: x fore and aft, y across, z up.</param>
/// <param name="OnWire">It is threaded on the wire.</param>
/// <param name="Pocket">How its pocket is cut, in words.</param>
/// <param name="PocketDepthMm">Of the pocket in either half, mm.</param>
/// <param name="WallMm">The least wood outside it and the spur or point of its bit, mm.</param>
/// <param name="HardByHand">Hard to cut by hand.</param>
internal sealed record PlannedPieceJson(
    string BoxId, string Name, Vec3 AtMm, double MassG, double? CutLengthMm, Axis Axis, bool OnWire, string Pocket,
    double PocketDepthMm, double WallMm, bool HardByHand)
{
    public static PlannedPieceJson Of(PlannedPiece planned) => new(
        planned.BoxId, planned.Piece.Name, planned.Piece.Middle, planned.Piece.Mass, planned.CutLengthMm, planned.Piece.Axis,
        planned.Piece.OnWire, PlanWords.Pocket(planned, Notation.Metric), planned.DepthMm, planned.WallMm, planned.Cut.HardByHand);
}

/// <summary>What a slip of the hand changes.</summary>
/// <param name="SpareBuoyancyG">What it has to spare in the water, g.</param>
/// <param name="TrimDeg">Trim, degrees, positive tail down.</param>
/// <param name="RateMmS">Rate of the fall, mm/s; 0 for a lure that floats.</param>
/// <param name="DoesSomethingElse">It then does something else: floats, sinks, falls no more steadily.</param>
internal sealed record SlipJson(double SpareBuoyancyG, double TrimDeg, double RateMmS, bool DoesSomethingElse)
{
    public static SlipJson Of(Answer change) => new(change.Spare, Units.ToDegrees(change.Trim), 1000 * change.Rate, change.Other);
}

/// <summary>What the tub must show.</summary>
/// <param name="DryFit">Halves taped, before the glue.</param>
/// <param name="Sealed">Glued and sealed.</param>
internal sealed record TubTargetJson(TubJson DryFit, TubJson Sealed);

/// <summary>The lure in a tub of tap water.</summary>
/// <param name="WeightG">What the scale reads with stand-ins, g.</param>
/// <param name="SpareBuoyancyG">What it has to spare in the water, g.</param>
/// <param name="TrimDeg">Trim, degrees, positive tail down.</param>
/// <param name="NoseShowsAlongMm">How much of the nose is out, along the back, mm.</param>
/// <param name="Sentence">The same in words.</param>
/// <param name="StandIns">What hangs on it in place of hooks.</param>
internal sealed record TubJson(
    double WeightG, double SpareBuoyancyG, double TrimDeg, double NoseShowsAlongMm, string Sentence, ImmutableArray<StandInJson> StandIns)
{
    public static TubJson Of(Prediction p) => new(
        p.Ledger.Weight, p.SpareBuoyancy, Units.ToDegrees(p.Posture.Trim), p.Posture.NoseShowsAlong, Core.Telling.Sentence.Of(p, Notation.Metric),
        [.. p.Ledger.Chains.Where(c => c.StandIn is not null).Select(StandInJson.Of)]);
}

/// <summary>Lead on thread in place of hooks.</summary>
/// <param name="HangsFrom">line_tie, a hanger's name or tail_loop.</param>
/// <param name="LeadG">How much, g.</param>
internal sealed record StandInJson(string HangsFrom, double LeadG)
{
    public static StandInJson Of(Chain chain) => new(chain.Place, chain.StandIn!.Value.Mass);
}
