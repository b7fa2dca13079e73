using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Trimwright.App.Work;
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
/// <param name="Before">Before any of them.</param>
/// <param name="After">By all that fit.</param>
/// <param name="Flags">What does not fit.</param>
/// <param name="Causes">What the doubt that is left comes from, the greatest first.</param>
/// <param name="Ladder">How the give or take shrinks as more is measured.</param>
/// <param name="Sampling">How the builds were drawn: from the bell of the update, the same with weights, or by a walk.</param>
/// <param name="Warnings">Of the files.</param>
[Answer("readings")]
internal sealed record ReadingsJson(
    [WordOf<Stage>] string Stage, [WordOf<Rig>] string Rig, AskedWaterJson Water, int Readings, ForecastJson Before, ForecastJson After,
    ImmutableArray<IFlagJson> Flags, ImmutableArray<CauseJson> Causes, ImmutableArray<RungJson> Ladder, [WordOf<Trust>] string Sampling,
    ImmutableArray<WarningJson> Warnings)
{
    public static ReadingsJson Of(ReadingsAnswer answer)
    {
        Knowing k = answer.Knowing;
        return new(
            AnswerWords.Of(k.Where.Stage), AnswerWords.Of(k.Where.Rig), AskedWaterJson.Of(k.Where.Water), k.Log.Readings.Length, ForecastJson.Of(k.Before),
            ForecastJson.Of(k.After), IFlagJson.Of(k), [.. k.Causes.Select(CauseJson.Of)], [.. answer.Ladder.Select(RungJson.Of)], AnswerWords.Of(k.Trust),
            WarningJson.Of(answer.Warnings));
    }
}

/// <summary>The water that was asked for, as it was asked.</summary>
/// <param name="Salinity">Practical salinity.</param>
/// <param name="TemperatureC">°C.</param>
internal sealed record AskedWaterJson(double Salinity, double TemperatureC)
{
    public static AskedWaterJson Of(WaterState water) => new(water.Salinity, water.TemperatureC);
}

/// <summary>A prediction with its doubt.</summary>
/// <param name="WeightG">What a scale reads, g.</param>
/// <param name="SpareBuoyancyG">g to spare; negative when it sinks.</param>
/// <param name="TrimDeg">As it is seen, degrees, positive tail down: falling for builds that sink steadily, else at rest.</param>
/// <param name="NoseShowsAlongMm">Of builds that float, mm of nose out along the back; null when none does.</param>
/// <param name="RateMmS">Of builds that sink, mm/s; null when none does.</param>
/// <param name="Verdicts">What it does when it is let go, with the chance of each, 0 to 1.</param>
/// <param name="Ways">How it sits when it floats.</param>
internal sealed record ForecastJson(
    RangeJson WeightG, RangeJson SpareBuoyancyG, RangeJson TrimDeg, RangeJson? NoseShowsAlongMm, RangeJson? RateMmS,
    [WordOf<Verdict>] IReadOnlyDictionary<string, Sampled> Verdicts, ImmutableArray<WayJson> Ways)
{
    public static ForecastJson Of(Forecast f) => new(
        RangeJson.Of(f.Weight), RangeJson.Of(f.Spare), RangeJson.Of(f.Trim, Units.ToDegrees(1)), RangeJson.Of(f.NoseOut), RangeJson.Of(f.Rate, 1000),
        new OrderedDictionary<string, Sampled>(f.Verdicts.Select(v => KeyValuePair.Create(AnswerWords.Of(v.Verdict), (Sampled)v.Chance))),
        [.. f.Ways.Select(way => new WayJson(AnswerWords.Of(way.Way), way.Chance, RangeJson.Of(way.Trim, Units.ToDegrees(1))))]);
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
/// <param name="TrimDeg">Degrees, positive tail down.</param>
internal sealed record WayJson([WordOf<Sat>] string Sat, Sampled Chance, RangeJson TrimDeg);

/// <summary>Something about the readings that does not fit.</summary>
[JsonDerivedType(typeof(MisfitJson))]
[JsonDerivedType(typeof(WidenedJson))]
internal interface IFlagJson
{
    public static ImmutableArray<IFlagJson> Of(Knowing k)
    {
        IEnumerable<IFlagJson> misfits = k.Flags.Select(flag => MisfitJson.Of(flag, k));
        return k.Stretch > 1 ? [.. misfits, new WidenedJson(null, k.Stretch, DoubtWords.Stretched(k.Stretch, Notation.Metric))] : [.. misfits];
    }
}

/// <summary>A reading that lies too far off.</summary>
/// <param name="Reading">Its place in the log, from 0.</param>
/// <param name="Key">Which of its numbers.</param>
/// <param name="Read">As read, in the key's unit.</param>
/// <param name="Expected">By everything else, in the same unit.</param>
/// <param name="Sigmas">How many standard deviations off.</param>
/// <param name="Used">It was used all the same; else it was set aside.</param>
/// <param name="Says">What would explain it.</param>
internal sealed record MisfitJson(int Reading, string Key, Sampled Read, Sampled Expected, Sampled Sigmas, bool Used, string Says) : IFlagJson
{
    public static MisfitJson Of(Flag flag, Knowing k) => new(
        flag.Reading, flag.Key, flag.Read, flag.Expected, flag.Sigmas, flag.IsKept, DoubtWords.Of(flag, k.Log.Readings[flag.Reading], Notation.Metric));
}

/// <summary>The readings as a whole lie farther off than they should, so the doubt was widened.</summary>
/// <param name="Reading">Null: it is not one of them.</param>
/// <param name="Widened">By how many times.</param>
/// <param name="Says">In words.</param>
internal sealed record WidenedJson(int? Reading, Sampled Widened, string Says) : IFlagJson;

/// <summary>One cause of the doubt in the grams to spare.</summary>
/// <param name="Cause">What is not known for sure.</param>
/// <param name="LeftSdG">Give or take that would be left were it known, one standard deviation, g.</param>
/// <param name="Share">Share by which the variance would fall; readings tie causes together, so shares may add to more than 1.</param>
internal sealed record CauseJson([WordOf<Cause>] string Cause, Sampled LeftSdG, Sampled Share)
{
    public static CauseJson Of(Share share) => new(AnswerWords.Of(share.Cause), share.Left, share.Part);
}

/// <summary>One rung of the ladder.</summary>
/// <param name="Measured">What is measured by then, in words.</param>
/// <param name="SpareBuoyancySdG">Give or take of the grams to spare, one standard deviation, g.</param>
internal sealed record RungJson(string Measured, Sampled SpareBuoyancySdG)
{
    public static RungJson Of(Rung rung) => new(rung.What, rung.Grams);
}
