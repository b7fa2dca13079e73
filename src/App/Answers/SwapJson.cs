using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>What other hooks, water and leader make of a glued lure, and what is left to do to it.</summary>
/// <param name="Name">The lure's own.</param>
/// <param name="Box">Name of the maker's box; null when it was done with usual things.</param>
/// <param name="Swaps">Every hook set in every water under every leader.</param>
/// <param name="AsItIs">What remedies are held against: its own hooks, the water asked for, a slack leader.</param>
/// <param name="Remedies">What can still be done.</param>
/// <param name="Cautions">What to take care of.</param>
/// <param name="Warnings">Of both files.</param>
[Answer("swap")]
internal sealed record SwapJson(
    string Name, string? Box, ImmutableArray<SwapRowJson> Swaps, AsItIsJson AsItIs, ImmutableArray<RemedyJson> Remedies, ImmutableArray<string> Cautions,
    ImmutableArray<WarningJson> Warnings)
{
    public static SwapJson Of(SwapAnswer answer, IReadOnlyList<Warning> warnings) => new(
        answer.Design.Name, answer.IsOwnBox ? answer.Box.Name : null, [.. answer.Rows.Select(row => SwapRowJson.Of(row, answer))],
        AsItIsJson.Of(answer.AsItIs), [.. answer.Remedies.Select(RemedyJson.Of)],
        answer.Box.NoLead ? [SwapWords.DrillCaution] : [SwapWords.DrillCaution, SwapWords.LeadCaution], WarningJson.Of(warnings));
}

/// <summary>What a lure does, finished and rigged.</summary>
/// <param name="Does">In a few words.</param>
/// <param name="Verdict">What it does when it is let go.</param>
/// <param name="WeightG">What a scale reads, g; the leader is not included.</param>
/// <param name="SpareBuoyancyG">What it has to spare in the water, g; negative when it sinks.</param>
/// <param name="Posture">How it lies; of a lure that sinks, how it hangs at rest under water.</param>
/// <param name="Sink">How it falls; null when it floats.</param>
internal sealed record OutcomeJson(string Does, Verdict Verdict, double WeightG, double SpareBuoyancyG, PostureJson Posture, DropJson? Sink)
{
    public static OutcomeJson Of(Prediction p) =>
        new(SwapWords.Does(p, Notation.Metric), p.Verdict, p.Ledger.Weight, p.SpareBuoyancy, PostureJson.Of(p.Posture), DropJson.Of(p.Descent));
}

/// <summary>How a lure falls.</summary>
/// <param name="Fall">The way that it comes to first; only when it falls steadily.</param>
/// <param name="Steady">It falls steadily.</param>
internal sealed record DropJson([property: Inline] FallJson? Fall, bool Steady)
{
    public static DropJson? Of(Descent? descent) => descent is null ? null : new(FallJson.OfFirst(descent), descent.First is not null);
}

/// <summary>The lure as it is, in one water.</summary>
/// <param name="Water">The water.</param>
/// <param name="Outcome">What it does there.</param>
internal sealed record AsItIsJson(WaterJson Water, [property: Inline] OutcomeJson Outcome)
{
    public static AsItIsJson Of(Prediction p) => new(WaterJson.Of(p.Circumstances.Water), OutcomeJson.Of(p));
}

/// <summary>One hook set in one water under one leader.</summary>
/// <param name="Hooks">What hangs on it.</param>
/// <param name="WaterName">tap, lake, brackish, ocean or reef.</param>
/// <param name="Water">The water.</param>
/// <param name="Leader">The leader that it carries at rest; null: slack, so that it carries none.</param>
/// <param name="Outcome">What it does.</param>
/// <param name="Change">Against its own hooks and a slack leader in the same water.</param>
internal sealed record SwapRowJson(
    HookSetJson Hooks, string WaterName, WaterJson Water, LeaderJson? Leader, [property: Inline] OutcomeJson Outcome, ChangeJson Change)
{
    public static SwapRowJson Of(SwapRow row, SwapAnswer answer) => new(
        HookSetJson.Of(row.Case.Hooks, answer), row.Case.WaterName, WaterJson.Of(row.Case.Water), LeaderJson.Of(row.Case.Leader),
        OutcomeJson.Of(row.Prediction), ChangeJson.Of(row.Effect));
}

/// <summary>A set of hooks.</summary>
/// <param name="Change">How it differs from the lure's own.</param>
/// <param name="At">The places where it does; empty for its own.</param>
/// <param name="Set">Every hook of the set.</param>
/// <param name="Reach">Sentences on what these hooks reach and its own do not.</param>
internal sealed record HookSetJson(HookChange Change, ImmutableArray<string> At, ImmutableArray<HookJson> Set, ImmutableArray<string> Reach)
{
    public static HookSetJson Of(HookSet hooks, SwapAnswer answer) => new(
        hooks.Change, hooks.Changed, [.. hooks.Hooks.Select(HookJson.Of)],
        answer.Reach.GetValueOrDefault(hooks) is { } reach ? [.. StrengthWords.Of(reach, Notation.Metric)] : []);
}

/// <summary>A hook at its place.</summary>
/// <param name="HangsFrom">line_tie, a hanger's name or tail_loop.</param>
/// <param name="Hook">Its name; null: none.</param>
internal sealed record HookJson(string HangsFrom, string? Hook)
{
    public static HookJson Of(HookAt at) => new(at.Place, at.Hook);
}

/// <summary>A leader, hanging from the line tie.</summary>
/// <param name="Name">Of what it is.</param>
/// <param name="DiameterMm">Across, mm.</param>
/// <param name="DensityGCm3">Density, g/cm³.</param>
/// <param name="CarriedMm">How much of it the lure carries at rest, mm.</param>
internal sealed record LeaderJson(string Name, double DiameterMm, double DensityGCm3, double CarriedMm)
{
    public static LeaderJson? Of(LeaderChoice choice) =>
        choice is { Name: { } name, Leader: { } leader } ? new(name, leader.DiameterMm, leader.DensityGPerCm3, leader.CarriedMm) : null;
}

/// <summary>What a change does to a lure.</summary>
/// <param name="WeightG">By how much more a scale reads, g.</param>
/// <param name="SpareBuoyancyG">By how much more it has to spare, g.</param>
/// <param name="TrimDeg">By how much more tail down, degrees: of the posture when both float, of the fall when both fall steadily; else null.</param>
/// <param name="RestTrimDeg">By how much more tail down at rest, degrees, both floating or both sunk; else null.</param>
/// <param name="RateMmS">By how much it falls faster, mm/s, where both fall steadily; else null.</param>
/// <param name="Text">The same in words.</param>
/// <param name="Plainly">What it has become, where it is no longer the same kind of lure; else null.</param>
internal sealed record ChangeJson(
    double WeightG, double SpareBuoyancyG, double? TrimDeg, double? RestTrimDeg, double? RateMmS, string Text, string? Plainly)
{
    public static ChangeJson Of(SwapEffect effect) => new(
        effect.Weight, effect.Spare, effect.Trim is { } trim ? Units.ToDegrees(trim) : null, effect.RestTrim is { } rest ? Units.ToDegrees(rest) : null,
        effect.Rate is { } rate ? 1000 * rate : null, SwapWords.Change(effect, Notation.Metric), SwapWords.Plainly(effect.Turned));
}

/// <summary>Something that can still be done to a glued lure.</summary>
/// <param name="Kind">What kind of thing is done.</param>
/// <param name="Text">What is done, in words.</param>
/// <param name="HangsFrom">line_tie, a hanger's name or tail_loop; null for a hole.</param>
/// <param name="Item">Name of what is put on or in; the hook's, where one is taken off.</param>
/// <param name="InsteadOf">Name of what it takes the place of; null: of nothing.</param>
/// <param name="ItemG">What the thing itself weighs, g.</param>
/// <param name="Turns">Turns of wire; only where wire is wound on a shank.</param>
/// <param name="BreaksSeal">It goes through sealer and coats, and must be sealed again.</param>
/// <param name="Hole">The hole to drill; null where none is.</param>
/// <param name="Outcome">What the lure does then.</param>
/// <param name="Change">Against the lure as it is.</param>
/// <param name="GoodFor">What it is good for.</param>
internal sealed record RemedyJson(
    RemedyKind Kind, string Text, string? HangsFrom, string Item, string? InsteadOf, double ItemG, [property: LeftOut] int? Turns, bool BreaksSeal,
    HoleJson? Hole, [property: Inline] OutcomeJson Outcome, ChangeJson Change, GoodForJson GoodFor)
{
    public static RemedyJson Of(RemedyEffect effect)
    {
        Remedy remedy = effect.Remedy;
        return new(
            remedy.Kind, SwapWords.Of(remedy, Notation.Metric), remedy.Place, remedy.Item, remedy.Instead, remedy.Grams,
            remedy.Kind == RemedyKind.ShankWire ? remedy.Turns : null, remedy.BreaksSeal, HoleJson.Of(remedy), OutcomeJson.Of(effect.Prediction),
            ChangeJson.Of(effect.Effect), GoodForJson.Of(effect));
    }
}

/// <summary>A hole that misses wire, hangers and weights.</summary>
/// <param name="From">The side that the drill enters.</param>
/// <param name="AtMm">Where its axis meets the skin, mm.</param>
/// <param name="Into">Direction of the drill, of length 1.</param>
/// <param name="DiameterMm">Across, mm.</param>
/// <param name="DepthMm">How deep to drill, mm.</param>
/// <param name="DeepestMm">The deepest that is safe, mm.</param>
/// <param name="FillingMm">Length of what goes in, mm.</param>
/// <param name="StopperMm">Length of the stopper that closes it, mm.</param>
/// <param name="NextIs">What the drill would meet next: a thing's name, or skin.</param>
internal sealed record HoleJson(
    DrilledFrom From, Vec3 AtMm, Vec3 Into, double DiameterMm, double DepthMm, double DeepestMm, double FillingMm, double StopperMm,
    string NextIs)
{
    public static HoleJson? Of(Remedy remedy) => remedy.Spot is not { } spot ? null : new(
        spot.From, spot.Mouth, spot.Into, spot.Bit.Diameter, remedy.DrillDepth, spot.Depth, remedy.Filling!.LengthMm,
        spot.FillingFrom - spot.Rim, spot.StoppedBy ?? "skin");
}

/// <summary>How purely a remedy does what is wanted of it, 0 to 1; 0 when it does too little of that, or the opposite.</summary>
/// <param name="Lighter">To make it lighter in the water.</param>
/// <param name="Heavier">To make it heavier in the water.</param>
/// <param name="NoseUp">To bring the nose up.</param>
/// <param name="NoseDown">To bring the nose down.</param>
internal sealed record GoodForJson(double Lighter, double Heavier, double NoseUp, double NoseDown)
{
    public static GoodForJson Of(RemedyEffect effect) =>
        new(effect.For(RemedyUse.Lighter), effect.For(RemedyUse.Heavier), effect.For(RemedyUse.NoseUp), effect.For(RemedyUse.NoseDown));
}
