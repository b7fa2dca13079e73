using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Core.Ballast;

/// <summary>What the finished lure is to do when it is let go.</summary>
public enum Manner
{
    /// <summary>Rests at the surface.</summary>
    Floats,

    /// <summary>Rests under water, neither rising nor falling.</summary>
    Suspends,

    /// <summary>Falls steadily on a slack leader.</summary>
    Falls,
}

/// <summary>
/// How a maker wants a lure to sit or fall, in which water, at which stage and with which rig. Of a floating lure either
/// the grams to spare or the length of nose out is wanted; the other follows.
/// </summary>
public sealed record Want
{
    public required Manner Manner { get; init; }

    /// <summary>Radians, positive nose up (tail down).</summary>
    public double Trim { get; init; }

    /// <summary>
    /// Displacement less weight when pushed fully under, g. Floating: null where <see cref="NoseOut"/> or <see cref="EyesAtWater"/> is wanted.
    /// Suspending: null for none. Falling: below 0, and beside the rate it tells the grams better than seconds do; null where only the rate is
    /// wanted.
    /// </summary>
    public double? Spare { get; init; }

    /// <summary>Floating: the middle of its eyes lies in the water's surface.</summary>
    public bool EyesAtWater { get; init; }

    /// <summary>Floating: how much of the nose stands out along the back, as a ruler reads it, mm.</summary>
    public double? NoseOut { get; init; }

    /// <summary>Falling: steady downward speed, mm/ms.</summary>
    public double Rate { get; init; }

    /// <summary>Where, how far built and how rigged.</summary>
    public Circumstances Circumstances { get; init; } = Circumstances.InTheSea;

    /// <summary>How far from the wanted weight in the water a plan may be, g.</summary>
    public double WeightWithin { get; init; } = 0.3;

    /// <summary>How far from the wanted trim, radians.</summary>
    public double TrimWithin { get; init; } = Units.FromDegrees(3);

    /// <summary>Seconds that a fall of a metre takes.</summary>
    public double SecondsPerMetre => Units.ToSeconds(1000 / Rate);

    public static Want Falling(double secondsPerMetre, double trim = 0) => new() { Manner = Manner.Falls, Rate = 1 / secondsPerMetre, Trim = trim };

    public static Want Floating(double trim, double spare) => new() { Manner = Manner.Floats, Trim = trim, Spare = spare };

    public static Want Standing(double trim, double noseOut) => new() { Manner = Manner.Floats, Trim = trim, NoseOut = noseOut };

    public static Want Suspending(double trim = 0) => new() { Manner = Manner.Suspends, Trim = trim };

    private const double SteepestDeg = 89;

    /// <summary>No trim is wanted steeper, radians.</summary>
    internal static readonly double Steepest = Units.FromDegrees(SteepestDeg);

    /// <summary>The file's top object, but for its version: in degrees, and in seconds for a metre.</summary>
    internal static readonly FileObject<Want> Form = new(new() { Manner = Manner.Floats }, _ => default, (w, _) => w,
    [
        new NeededChoice<Want, Manner>("does", "What it does when it is let go", Manner.Floats, FileWords.Of<Manner>(),
            w => w.Manner, (w, v) => w with { Manner = v })
            { Meaning = "floats, suspends or falls" },
        new UsualNumber<Want>("trim_deg", "Trim, degrees", -SteepestDeg, SteepestDeg, 0,
            w => Units.ToDegrees(w.Trim), (w, v) => w with { Trim = Units.FromDegrees(v) })
            { More = "Positive nose up, that is tail down." },
        new NumberOrNone<Want>("spare_g", "Floating: grams to spare", 0, 1000, w => w.Spare, (w, v) => w with { Spare = v }),
        new NumberOrNone<Want>("nose_out_mm", "Floating: nose out along the back, mm", 0.5, 1000,
            w => w.NoseOut, (w, v) => w with { NoseOut = v }),
        new YesOrNo<Want>("eyes_at_waterline", "Floating: eyes at the waterline", w => w.EyesAtWater, (w, v) => w with { EyesAtWater = v }),
        new NumberOrNone<Want>("seconds_per_metre", "Falling: seconds for a metre", 0.3, 120,
            w => w.Rate == 0 ? null : 1 / w.Rate, (w, v) => w with { Rate = v is { } seconds ? 1 / seconds : 0 }),
        new UsualNumber<Want>("weight_within_g", "How far a plan may be off in weight, g", 0.01, 20, 0.3,
            w => w.WeightWithin, (w, v) => w with { WeightWithin = v }),
        new UsualNumber<Want>("trim_within_deg", "How far in trim, degrees", 0.1, 45, 3,
            w => Units.ToDegrees(w.TrimWithin), (w, v) => w with { TrimWithin = Units.FromDegrees(v) }),
        new Choice<Want, Stage>("stage", "How far built", Stage.Finished,
            [("dry-fit", Stage.DryFit), ("glued", Stage.Glued), ("sealed", Stage.Sealed), ("finished", Stage.Finished)],
            w => w.Circumstances.Stage, (w, v) => w with { Circumstances = w.Circumstances with { Stage = v } }),
        new Choice<Want, Rig>("rig", "What hangs on it", Rig.Rigged, [("bare", Rig.Bare), ("standins", Rig.StandIns), ("rigged", Rig.Rigged)],
            w => w.Circumstances.Rig, (w, v) => w with { Circumstances = w.Circumstances with { Rig = v } }),
        new UsualNumber<Want>("salinity", "Salinity of the water", 0, WaterState.SaltiestAllowed, WaterState.Ocean.Salinity, w => w.Circumstances.Water.Salinity,
            (w, v) => w with { Circumstances = w.Circumstances with { Water = w.Circumstances.Water with { Salinity = v } } })
            { More = "On the practical scale." },
        new UsualNumber<Want>("temperature_c", "Temperature of the water, °C", WaterState.ColdestAllowed, WaterState.WarmestAllowed, WaterState.Ocean.TemperatureC,
            w => w.Circumstances.Water.TemperatureC,
            (w, v) => w with { Circumstances = w.Circumstances with { Water = w.Circumstances.Water with { TemperatureC = v } } }),
    ]) { Then = Fits };

    private const string OneOf = "A floating lure is wanted with grams to spare, with so much of its nose out, or with its eyes at the waterline.";

    // What no single key can say: each manner has numbers of its own. Of a want that says no manner there is nothing to say.
    private static Want Fits(ObjectReader from, Want want)
    {
        if (from.Find("does") is not { Kind: JsonKind.Text, TextLength: > 0 and <= ObjectReader.LongestText }) return want;
        bool floats = want.Manner == Manner.Floats;
        string[] said = [.. new[] { (want.Spare is not null, "spare_g"), (want.NoseOut is not null, "nose_out_mm"), (want.EyesAtWater, "eyes_at_waterline") }.Where(k => k.Item1).Select(k => k.Item2)];
        Remark none = $"none of {Sized.Key("spare_g")}, {Sized.Key("nose_out_mm")} and eyes_at_waterline";
        if (floats && said.Length == 0)
            from.Add("missing", "spare_g", none, "one of the three", OneOf);
        if (floats && said.Length > 1) from.Add("reference", "spare_g", Remark.Keys(said, " and "), "one of the three", OneOf);
        if (!floats && said.Length > 0)
            from.Add("reference", said[0], said[0] == "eyes_at_waterline" ? "true" : "a number", none, "Only a lure that floats has them; leave it out.");
        if (want.Manner == Manner.Falls && want.Rate == 0)
            from.Add("missing", "seconds_per_metre", "nothing", $"{Sized.Number("seconds_per_metre", 0.3)} to {Sized.Number("seconds_per_metre", 120)}", $"Say how long {Sized.Name(OtherUnit.Of("seconds_per_metre")!)} is to take.");
        if (want.Manner != Manner.Falls && want.Rate != 0)
            from.Add("reference", "seconds_per_metre", "a number", "nothing", "Only a lure that falls has it; leave it out.");
        return want;
    }
}
