using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Trimwright.App.Work;
using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
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
/// <param name="CgMm">Centre of gravity, hardware at the points that it hangs from.</param>
/// <param name="CbMm">Centre of the whole outside volume, likewise.</param>
/// <param name="Verdict">What it does when it is let go.</param>
/// <param name="Posture">The posture that it takes first; of a lure that sinks, how it hangs at rest under water.</param>
/// <param name="OtherPostures">All other stable ones, lowest energy first.</param>
/// <param name="Tipping">How it answers when it is tipped from its posture; null when it sinks.</param>
/// <param name="Sink">How it falls; null when it floats, or sinks by its leader only.</param>
/// <param name="Ledger">Its parts; they add up to weight and volume.</param>
/// <param name="Warnings">Of the lure's file.</param>
[Answer("predict")]
internal sealed record PredictJson(
    string Name, string Sentence, [WordOf<Stage>] string Stage, [WordOf<Rig>] string Rig, WaterJson Water, Rounded WeightG, Rounded VolumeCm3,
    Rounded SpareBuoyancyG, Rounded WettedAreaCm2, Point CgMm, Point CbMm, [WordOf<Verdict>] string Verdict, PostureJson Posture,
    ImmutableArray<OtherPostureJson> OtherPostures, TippingJson? Tipping, ISinkJson? Sink, ImmutableArray<PartJson> Ledger, ImmutableArray<WarningJson> Warnings)
{
    public static PredictJson Of(PredictAnswer answer)
    {
        Prediction p = answer.Prediction;
        WeightLedger ledger = p.Ledger;
        return new(
            answer.Design.Name, Core.Telling.Sentence.Of(p, Notation.Metric), AnswerWords.Of(ledger.Stage), AnswerWords.Of(ledger.Rig),
            WaterJson.Of(p.Circumstances.Water), ledger.Weight, ledger.Volume / Units.CubicCentimetre, p.SpareBuoyancy, p.Posture.WettedArea / 100,
            ledger.Cg, ledger.Cb, AnswerWords.Of(p.Verdict), new(p.Posture), [.. p.Postures.Skip(1).Select(other => new OtherPostureJson(other))],
            TippingJson.Of(p.Tipping), ISinkJson.Of(p.Descent, answer.Touches), [.. ledger.Parts.Select(PartJson.Of)], WarningJson.Of(answer.Warnings));
    }
}

/// <summary>How a floating lure answers when it is tipped.</summary>
/// <param name="GmHeelMm">Metacentric height in heel, mm; of a lure that stands, the lesser of the two.</param>
/// <param name="GmTrimMm">Metacentric height in trim, mm; of a lure that stands, the greater.</param>
/// <param name="RollPeriodS">Estimate of one free roll, s; null when it rolls freely.</param>
/// <param name="Righting">Righting arms over a whole turn.</param>
internal sealed record TippingJson(Rounded GmHeelMm, Rounded GmTrimMm, Rounded? RollPeriodS, ImmutableArray<RightingJson> Righting)
{
    public static TippingJson? Of(Tipping? tipping) => tipping is null ? null : new(
        tipping.HeelGm, tipping.TrimGm, tipping.RollPeriod is { } period ? Units.ToSeconds(period) : null, [.. tipping.Curve.Select(RightingJson.Of)]);
}

/// <summary>What turns it back at one angle.</summary>
/// <param name="AngleDeg">Heeled by, degrees.</param>
/// <param name="ArmMm">Between weight and lift, mm, positive when it turns back.</param>
internal sealed record RightingJson(Rounded AngleDeg, Rounded ArmMm)
{
    public static RightingJson Of(RightingPoint point) => new(Units.ToDegrees(point.Angle), point.Arm);
}

/// <summary>A line of the ledger.</summary>
/// <param name="Part">In the maker's words.</param>
/// <param name="WeightG">g; negative where wood is taken away.</param>
/// <param name="AtMm">Its centre of weight.</param>
/// <param name="DisplacesCm3">How much of the outside volume it makes, cm³; negative where water gets in.</param>
internal sealed record PartJson(string Part, Rounded WeightG, Point AtMm, Rounded DisplacesCm3)
{
    public static PartJson Of(Part part) => new(part.Name, part.Mass, part.Centre, part.Displaces / Units.CubicCentimetre);
}

/// <summary>How a lure falls.</summary>
[JsonDerivedType(typeof(SteadySinkJson))]
[JsonDerivedType(typeof(UnsteadySinkJson))]
internal interface ISinkJson
{
    public static ISinkJson? Of(Descent? descent, IReadOnlyList<Touch> touches) => descent switch
    {
        null => null,
        { First: { } fall } => new SteadySinkJson(fall, descent, touches),
        _ => new UnsteadySinkJson(false, descent.RollsOnTheFall ? "rolls on the fall" : "flutters", KindOfFallJson.Of(descent), TouchJson.Of(touches)),
    };
}

/// <summary>It falls steadily: the way that it comes to first.</summary>
internal sealed record SteadySinkJson : FallJson, ISinkJson
{
    public SteadySinkJson(Fall fall, Descent descent, IReadOnlyList<Touch> touches)
        : base(fall)
    {
        HoldsCourse = fall.Kind == FallKind.Steady;
        SecondsPerMetre = fall.SecondsPerMetre;
        RateSdMmS = 1000 * fall.Rate * fall.Doubt;
        MetreFromRestS = Units.ToSeconds(descent.TimeTo(1000));
        Falls = KindOfFallJson.Of(descent);
        Touches = TouchJson.Of(touches);
    }

    /// <summary>True: there is a steady fall.</summary>
    [JsonPropertyOrder(1)]
    public bool Steady => true;

    /// <summary>False when a disturbance grows into a wide spiral.</summary>
    [JsonPropertyOrder(1)]
    public bool HoldsCourse { get; }

    /// <summary>How long a metre takes, s.</summary>
    [JsonPropertyOrder(1)]
    public Rounded SecondsPerMetre { get; }

    /// <summary>One standard deviation of the rate, mm/s.</summary>
    [JsonPropertyOrder(1)]
    public Rounded RateSdMmS { get; }

    /// <summary>How long the first metre takes from rest, s.</summary>
    [JsonPropertyOrder(1)]
    public Rounded MetreFromRestS { get; }

    /// <summary>Every steady fall that there is, held or not.</summary>
    [JsonPropertyOrder(1)]
    public ImmutableArray<KindOfFallJson> Falls { get; }

    /// <summary>What each thing that a maker can change does to it.</summary>
    [JsonPropertyOrder(1)]
    public ImmutableArray<TouchJson> Touches { get; }
}

/// <summary>It does not fall steadily.</summary>
/// <param name="Steady">False: no steady fall holds.</param>
/// <param name="Why">"rolls on the fall", or "flutters" when it swings from one way to another.</param>
/// <param name="Falls">Every steady fall that there is; none of them holds.</param>
/// <param name="Touches">Empty: there is no fall to compare with.</param>
internal sealed record UnsteadySinkJson(bool Steady, string Why, ImmutableArray<KindOfFallJson> Falls, ImmutableArray<TouchJson> Touches) : ISinkJson;

/// <summary>What a change does to the fall.</summary>
/// <param name="Change">In the maker's words.</param>
/// <param name="RateMmS">By how much it falls faster, mm/s; null when the fall is lost.</param>
/// <param name="TrimDeg">By how much more tail down, degrees; null when the fall is lost.</param>
internal sealed record TouchJson(string Change, Rounded? RateMmS, Rounded? TrimDeg)
{
    public static ImmutableArray<TouchJson> Of(IEnumerable<Touch> touches) => [.. touches.Select(t => new TouchJson(
        t.Change, double.IsFinite(t.Rate) ? 1000 * t.Rate : null, double.IsFinite(t.Trim) ? Units.ToDegrees(t.Trim) : null))];
}
