using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>What a lure weighs, how it sits and how it falls.</summary>
/// <param name="Name">The lure's own.</param>
/// <param name="Sentence">How its maker would say it.</param>
/// <param name="Stage">How far the build is.</param>
/// <param name="Rig">What hangs on it.</param>
/// <param name="Water">The water that it is put into.</param>
/// <param name="WeightG">What a scale reads, g; the leader is not included.</param>
/// <param name="VolumeCm3">The whole outside volume with hardware, cm³.</param>
/// <param name="SpareBuoyancyG">What it displaces less what it weighs when it is pushed under, g; negative when it sinks.</param>
/// <param name="WettedAreaCm2">Skin under water, cm².</param>
/// <param name="CgMm">Centre of gravity, hardware at the points that it hangs from, mm.</param>
/// <param name="CbMm">Centre of the whole outside volume, likewise, mm.</param>
/// <param name="Verdict">What it does when it is let go.</param>
/// <param name="Posture">The posture that it takes first; of a lure that sinks, how it hangs at rest under water.</param>
/// <param name="OtherPostures">All other stable ones, lowest energy first.</param>
/// <param name="Tipping">How it answers when it is tipped from its posture; null when it sinks.</param>
/// <param name="Sink">How it falls; null when it floats, or sinks by its leader only.</param>
/// <param name="Ledger">Its parts; they add up to weight and volume.</param>
/// <param name="Warnings">Of the lure's file.</param>
[Answer("predict")]
internal sealed record PredictJson(
    string Name, string Sentence, Stage Stage, Rig Rig, WaterJson Water, double WeightG, double VolumeCm3, double SpareBuoyancyG, double WettedAreaCm2,
    Vec3 CgMm, Vec3 CbMm, Verdict Verdict, PostureJson Posture, ImmutableArray<OtherPostureJson> OtherPostures, TippingJson? Tipping, SinkJson? Sink,
    ImmutableArray<PartJson> Ledger, ImmutableArray<WarningJson> Warnings)
{
    public static PredictJson Of(PredictAnswer answer, IReadOnlyList<Warning> warnings)
    {
        Prediction p = answer.Prediction;
        WeightLedger ledger = p.Ledger;
        return new(
            answer.Design.Name, Core.Telling.Sentence.Of(p, Notation.Metric), ledger.Stage, ledger.Rig, WaterJson.Of(p.Circumstances.Water), ledger.Weight,
            ledger.Volume / Units.CubicCentimetre, p.SpareBuoyancy, p.Posture.WettedArea / 100, ledger.Cg, ledger.Cb, p.Verdict, PostureJson.Of(p.Posture),
            [.. p.Postures.Skip(1).Select(OtherPostureJson.Of)], TippingJson.Of(p.Tipping), SinkJson.Of(p.Descent, answer.Touches, answer.Starts),
            [.. ledger.Parts.Select(PartJson.Of)], WarningJson.Of(warnings));
    }
}

/// <summary>How a floating lure answers when it is tipped.</summary>
/// <param name="GmHeelMm">Metacentric height in heel, mm; of a lure that stands, the lesser of the two.</param>
/// <param name="GmTrimMm">Metacentric height in trim, mm; of a lure that stands, the greater.</param>
/// <param name="RollPeriodS">Estimate of one free roll, s; null when it rolls freely.</param>
/// <param name="Righting">Righting arms over a whole turn.</param>
internal sealed record TippingJson(double GmHeelMm, double GmTrimMm, double? RollPeriodS, ImmutableArray<RightingJson> Righting)
{
    public static TippingJson? Of(Tipping? tipping) => tipping is null ? null : new(
        tipping.HeelGm, tipping.TrimGm, tipping.RollPeriod is { } period ? Units.ToSeconds(period) : null, [.. tipping.Curve.Select(RightingJson.Of)]);
}

/// <summary>What turns it back at one angle.</summary>
/// <param name="AngleDeg">Heeled by, degrees.</param>
/// <param name="ArmMm">Between weight and lift, mm, positive when it turns back.</param>
internal sealed record RightingJson(double AngleDeg, double ArmMm)
{
    public static RightingJson Of(RightingPoint point) => new(Units.ToDegrees(point.Angle), point.Arm);
}

/// <summary>A line of the ledger.</summary>
/// <param name="Part">In the maker's words.</param>
/// <param name="WeightG">What it weighs, g; negative where wood is taken away.</param>
/// <param name="AtMm">Its centre of weight, mm.</param>
/// <param name="DisplacesCm3">How much of the outside volume it makes, cm³; negative where water gets in.</param>
internal sealed record PartJson(string Part, double WeightG, Vec3 AtMm, double DisplacesCm3)
{
    public static PartJson Of(Part part) => new(part.Name, part.Mass, part.Centre, part.Displaces / Units.CubicCentimetre);
}

/// <summary>How a lure falls.</summary>
/// <param name="Fall">The way that it comes to first; only when it falls steadily.</param>
/// <param name="Steady">It falls steadily.</param>
/// <param name="Course">More about that fall.</param>
/// <param name="Why">Only when it does not fall steadily: "rolls on the fall", or "flutters" when it swings from one way to another.</param>
/// <param name="Falls">Every steady fall that there is, whether it holds or not.</param>
/// <param name="Touches">What each thing that a maker can change does to the fall; empty when it does not fall steadily.</param>
/// <param name="RollChance">Only when it rolls on the fall with all of the wake's moment: how likely that is, 0 to 1.</param>
/// <param name="IfItHolds">Only then: how it falls if it holds its keel.</param>
/// <param name="LetGo">Only when several of its falls hold: which start leads to which of them.</param>
internal sealed record SinkJson(
    [property: Inline] FallJson? Fall, bool Steady, [property: Inline] CourseJson? Course, [property: LeftOut] string? Why,
    ImmutableArray<KindOfFallJson> Falls, ImmutableArray<TouchJson> Touches, [property: LeftOut] double? RollChance,
    [property: LeftOut] FallJson? IfItHolds, [property: LeftOut] LetGoJson? LetGo)
{
    public static SinkJson? Of(Descent? descent, IReadOnlyList<Touch> touches, IReadOnlyList<LetGo> starts) => descent is null ? null : new(
        FallJson.OfFirst(descent), descent.First is not null, CourseJson.Of(descent),
        descent.First is not null ? null : descent.RollsOnTheFall ? "rolls on the fall" : "flutters",
        [.. descent.All.Select(KindOfFallJson.Of)], [.. touches.Select(TouchJson.Of)],
        descent.RollsOnTheFall ? descent.RollChance : null, descent.RollsOnTheFall && descent.IfItHolds is { } held ? FallJson.Of(held) : null,
        LetGoJson.Of(starts));
}

/// <summary>How it is let go decides how it falls.</summary>
/// <param name="Starts">Runs of trims, nose down to tail down.</param>
internal sealed record LetGoJson(ImmutableArray<StartJson> Starts)
{
    public static LetGoJson? Of(IReadOnlyList<LetGo> starts) => starts.Count == 0 ? null : new([.. starts.Select(StartJson.Of)]);
}

/// <summary>A run of trims at which it is let go, at rest and belly down, that lead to one fall.</summary>
/// <param name="FromTrimDeg">The most nose down of them, degrees, positive tail down; found to a degree.</param>
/// <param name="ToTrimDeg">The most tail down of them, degrees.</param>
/// <param name="Fall">The fall's place among the falls told, from 0; null when it goes on swinging.</param>
internal sealed record StartJson(double FromTrimDeg, double ToTrimDeg, int? Fall)
{
    public static StartJson Of(LetGo start) => new(Units.ToDegrees(start.From), Units.ToDegrees(start.To), start.Fall);
}

/// <summary>How a steady fall goes on.</summary>
/// <param name="HoldsCourse">False when a disturbance grows into a wide spiral.</param>
/// <param name="SecondsPerMetre">How long a metre takes, s.</param>
/// <param name="RateSdMmS">Give or take of the rate by its drag alone, if it is built exactly as drawn: one standard deviation, mm/s.</param>
/// <param name="MetreFromRestS">How long the first metre takes from rest, s.</param>
internal sealed record CourseJson(bool HoldsCourse, double SecondsPerMetre, double RateSdMmS, double MetreFromRestS)
{
    public static CourseJson? Of(Descent descent) => descent.First is not { } fall ? null : new(
        fall.Kind == FallKind.Steady, fall.SecondsPerMetre, 1000 * fall.Rate * descent.RateDoubt, Units.ToSeconds(descent.TimeTo(1000)));
}

/// <summary>One of the ways in which it can fall.</summary>
/// <param name="Fall">The fall.</param>
/// <param name="Kind">Whether it holds.</param>
internal sealed record KindOfFallJson([property: Inline] FallJson Fall, FallKind Kind)
{
    public static KindOfFallJson Of(Fall fall) => new(FallJson.Of(fall), fall.Kind);
}

/// <summary>What a change does to the fall.</summary>
/// <param name="Change">In the maker's words.</param>
/// <param name="RateMmS">By how much it falls faster, mm/s; null when the fall is lost.</param>
/// <param name="TrimDeg">By how much more tail down, degrees; null when the fall is lost.</param>
internal sealed record TouchJson(string Change, double? RateMmS, double? TrimDeg)
{
    public static TouchJson Of(Touch touch) => new(
        TouchWords.Of(touch, Notation.Metric).Replace('\u00A0', ' '), double.IsFinite(touch.Rate) ? 1000 * touch.Rate : null, double.IsFinite(touch.Trim) ? Units.ToDegrees(touch.Trim) : null);
}
