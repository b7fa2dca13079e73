using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.App.Answers;

/// <summary>What readings say: the lure again, with its give or take.</summary>
/// <param name="Stage">Of which stage this speaks.</param>
/// <param name="Rig">What hangs on it then.</param>
/// <param name="Water">In which water.</param>
/// <param name="Readings">How many were read.</param>
/// <param name="Drawn">The lure as drawn: what stands in the middle before any of them. Only when the maker's own hand is not known.</param>
/// <param name="Before">Before any of them.</param>
/// <param name="After">By all that fit.</param>
/// <param name="Flags">What does not fit.</param>
/// <param name="Causes">What the doubt that is left comes from, the greatest first.</param>
/// <param name="Ladder">How the give or take shrinks as more is measured.</param>
/// <param name="Sampling">How the builds were drawn: from the bell of the update, the same with weights, or by a walk.</param>
/// <param name="Warnings">Of the files.</param>
[Answer("readings")]
internal sealed record ReadingsJson(
    Stage Stage, Rig Rig, AskedWaterJson Water, int Readings, [property: LeftOut] DrawnJson? Drawn, ForecastJson Before, ForecastJson After,
    ImmutableArray<FlagJson> Flags, ImmutableArray<CauseJson> Causes, ImmutableArray<RungJson> Ladder, Trust Sampling,
    ImmutableArray<WarningJson> Warnings)
{
    public static ReadingsJson Of(ReadingsAnswer answer, IReadOnlyList<Warning> warnings)
    {
        Knowing k = answer.Knowing;
        return new(
            k.Where.Stage, k.Where.Rig, AskedWaterJson.Of(k.Where.Water), k.Log.Readings.Length, DrawnJson.Of(answer.Drawn), ForecastJson.Of(k.Before),
            ForecastJson.Of(k.After), FlagJson.Of(k), [.. k.Causes.Select(CauseJson.Of)], [.. answer.Ladder.Select(RungJson.Of)], k.Trust,
            WarningJson.Of(warnings));
    }
}

/// <summary>The lure as drawn, number for number what <c>predict</c> says of it.</summary>
/// <param name="WeightG">What a scale reads, g.</param>
/// <param name="SpareBuoyancyG">What it has to spare in the water, g; negative when it sinks.</param>
/// <param name="TrimDeg">As it is seen, degrees, positive tail down: falling when it sinks steadily, else at rest.</param>
/// <param name="NoseShowsAlongMm">How much of the nose is out along the back, mm; null when it sinks.</param>
/// <param name="RateMmS">Of its steady fall, mm/s; null without one.</param>
/// <param name="RateSdMmS">Give or take of that by its drag alone, one standard deviation, mm/s; null without one.</param>
internal sealed record DrawnJson(double WeightG, double SpareBuoyancyG, double TrimDeg, double? NoseShowsAlongMm, double? RateMmS, double? RateSdMmS)
{
    public static DrawnJson? Of(Prediction? p) => p is null ? null : new(
        p.Ledger.Weight, p.SpareBuoyancy, Units.ToDegrees(BallastPlan.TrimOf(p)), p.SpareBuoyancy > 0 ? p.Posture.NoseShowsAlong : null,
        1000 * p.Descent?.First?.Rate, p.Descent is { First: { } fall } descent ? 1000 * fall.Rate * descent.RateDoubt : null);
}

/// <summary>The water that was asked for, as it was asked.</summary>
/// <param name="Salinity">Practical salinity.</param>
/// <param name="TemperatureC">Temperature, °C.</param>
internal sealed record AskedWaterJson(AsGiven Salinity, AsGiven TemperatureC)
{
    public static AskedWaterJson Of(WaterState water) => new(water.Salinity, water.TemperatureC);
}

/// <summary>A prediction with its doubt.</summary>
/// <param name="WeightG">What a scale reads, g.</param>
/// <param name="SpareBuoyancyG">What it has to spare in the water, g; negative when it sinks.</param>
/// <param name="TrimDeg">As it is seen, degrees, positive tail down: falling for builds that sink steadily, else at rest.</param>
/// <param name="NoseShowsAlongMm">Of builds that float, how much of the nose is out along the back, mm; null when none does.</param>
/// <param name="RateMmS">Of builds that sink, the rate of their fall, mm/s; null when none does.</param>
/// <param name="Verdicts">What it does when it is let go, with the chance of each, 0 to 1.</param>
/// <param name="Ways">How it sits when it floats.</param>
internal sealed record ForecastJson(
    RangeJson WeightG, RangeJson SpareBuoyancyG, RangeJson TrimDeg, RangeJson? NoseShowsAlongMm, RangeJson? RateMmS,
    IReadOnlyDictionary<Verdict, Sampled> Verdicts, ImmutableArray<WayJson> Ways)
{
    public static ForecastJson Of(Forecast f) => new(
        RangeJson.Of(f.Weight), RangeJson.Of(f.Spare), RangeJson.Of(f.Trim, Units.ToDegrees(1)), RangeJson.Of(f.NoseOut), RangeJson.Of(f.Rate, 1000),
        new OrderedDictionary<Verdict, Sampled>(f.Verdicts.Select(v => KeyValuePair.Create(v.Verdict, (Sampled)v.Chance))),
        [.. f.Ways.Select(way => new WayJson(way.Way, way.Chance, RangeJson.Of(way.Trim, Units.ToDegrees(1))))]);
}

/// <summary>A number with its give or take, in the unit that its key names.</summary>
/// <param name="Median">As many builds have less as have more.</param>
/// <param name="P80">80 of 100 lie in it.</param>
/// <param name="P95">95 of 100 lie in it.</param>
internal sealed record RangeJson(Sampled Median, LowHigh P80, LowHigh P95)
{
    public static RangeJson Of(Ranged r, double unit = 1) =>
        new(unit * r.Median, new(unit * r.Low80, unit * r.High80), new(unit * r.Low95, unit * r.High95));

    public static RangeJson? Of(Ranged? ranged, double unit = 1) => ranged is { } r ? Of(r, unit) : null;
}

/// <summary>One way to sit.</summary>
/// <param name="Sat">How.</param>
/// <param name="Chance">0 to 1.</param>
/// <param name="TrimDeg">Trim, degrees, positive tail down.</param>
internal sealed record WayJson(Sat Sat, Sampled Chance, RangeJson TrimDeg);

/// <summary>Something about the readings that does not fit.</summary>
/// <param name="Reading">Its place in the log, from 0; null: not one of them, but the readings as a whole.</param>
/// <param name="Misfit">What that reading is off by.</param>
/// <param name="Widened">Only of the readings as a whole: by how many times the doubt was widened, because they lie farther off than they should.</param>
/// <param name="Says">What would explain it.</param>
internal sealed record FlagJson(int? Reading, [property: Inline] MisfitJson? Misfit, [property: LeftOut] Sampled? Widened, string Says)
{
    public static ImmutableArray<FlagJson> Of(Knowing k)
    {
        IEnumerable<FlagJson> flags = k.Flags.Select(flag => new FlagJson(
            flag.Reading, MisfitJson.Of(flag), null, DoubtWords.Of(flag, k.Log.Readings[flag.Reading], Notation.Metric)));
        return k.Stretch > 1 ? [.. flags, new(null, null, k.Stretch, DoubtWords.Stretched(k.Stretch, Notation.Metric))] : [.. flags];
    }
}

/// <summary>A number that lies too far off.</summary>
/// <param name="Key">Which of the reading's numbers.</param>
/// <param name="Read">As read, in the key's unit.</param>
/// <param name="Expected">By everything else, in the same unit.</param>
/// <param name="Sigmas">How many standard deviations off.</param>
/// <param name="Used">It was used all the same; else it was set aside.</param>
internal sealed record MisfitJson(string Key, Sampled Read, Sampled Expected, Sampled Sigmas, bool Used)
{
    public static MisfitJson Of(Flag flag) => new(flag.Key, flag.Read, flag.Expected, flag.Sigmas, flag.IsKept);
}

/// <summary>One cause of the doubt in the grams to spare.</summary>
/// <param name="Cause">What is not known for sure.</param>
/// <param name="LeftSdG">Give or take that would be left were it known, one standard deviation, g.</param>
/// <param name="Share">Share by which the variance would fall; readings tie causes together, so shares may add to more than 1.</param>
internal sealed record CauseJson(Cause Cause, Sampled LeftSdG, Sampled Share)
{
    public static CauseJson Of(Share share) => new(share.Cause, share.Left, share.Part);
}

/// <summary>One rung of the ladder.</summary>
/// <param name="Measured">What is measured by then, in words.</param>
/// <param name="SpareBuoyancySdG">Give or take of the grams to spare, one standard deviation, g.</param>
internal sealed record RungJson(string Measured, Sampled SpareBuoyancySdG)
{
    public static RungJson Of(Rung rung) => new(rung.What, rung.Grams);
}
