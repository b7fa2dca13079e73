using System.Collections.Immutable;
using MathNet.Numerics.LinearAlgebra;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>A reading that could be made next, and what it would be worth.</summary>
/// <param name="Reading">What to measure, its numbers empty.</param>
/// <param name="Minutes">About how long it takes; common practice, no source.</param>
/// <param name="Tools">What it takes, in the maker's words.</param>
/// <param name="GramsBefore">Give or take of the grams to spare now.</param>
/// <param name="GramsAfter">After it.</param>
/// <param name="DegreesBefore">Give or take of the trim now.</param>
/// <param name="DegreesAfter">After it.</param>
/// <param name="ChanceBefore">
/// Before gluing: chance that the lure comes out as wanted, within half a percent of its displacement and 5° of the trim
/// aimed at, if the weights are set by what is known now.
/// </param>
/// <param name="ChanceAfter">The same after it.</param>
public sealed record Candidate(
    LogReading Reading, double Minutes, string Tools, double GramsBefore, double GramsAfter,
    double DegreesBefore, double DegreesAfter, double ChanceBefore, double ChanceAfter);

/// <summary>One rung: what has been measured by then, and the give or take of the grams to spare, g.</summary>
public sealed record Rung(string What, double Grams);

/// <summary>
/// What is most worth measuring next. A reading's worth does not hang on what it will say, as long as it is not too far off:
/// with slopes H it takes C·Hᵀ(HCHᵀ + 1)⁻¹HC off the covariance C. So each candidate is tried without being made.
/// </summary>
public static class Candidates
{
    private const double AimDegrees = 5;

    /// <summary>Candidates at the stage that the log has come to, best first.</summary>
    /// <param name="knowing">What is known so far.</param>
    /// <param name="stage">How far the build is.</param>
    public static ImmutableArray<Candidate> Of(Knowing knowing, Stage stage)
    {
        (BuildModel build, Belief belief) = (knowing.Build, knowing.Belief);
        Vector<double> grams = Knowing.SpareSlope(build, knowing.Where, belief), degrees = TrimSlope(build, knowing.Where, belief);
        double displaced = build.At(knowing.Where.Stage, knowing.Where.Rig, knowing.Where.Water) is var m ? m.Water * m.Ledger.Volume : 0;
        double gramsNow = belief.Spread(grams), degreesNow = belief.Spread(degrees), aim = Verdicts() * displaced;
        var list = new List<Candidate>();
        foreach ((LogReading reading, double minutes, string tools) in Possible(build.Design, stage, knowing.Log))
        {
            Belief after = Try(build, belief, knowing.Log, reading);
            double g = after.Spread(Padded(grams, after)), d = after.Spread(Padded(degrees, after));
            list.Add(new Candidate(reading, minutes, tools, gramsNow, g, degreesNow, d, Chance(gramsNow, aim) * Chance(degreesNow, AimDegrees), Chance(g, aim) * Chance(d, AimDegrees)));
        }
        // By what it does to the chance; where that stays near 0 or 1 whatever is read, by the grams.
        return [.. list.OrderByDescending(c => c.ChanceAfter - c.ChanceBefore + 0.5 * (1 - c.GramsAfter / Math.Max(c.GramsBefore, 1e-9)))];
    }

    private static double Verdicts() => Sinking.Verdicts.SuspendsWithin;

    // Chance that a normal error lies within ± aim.
    private static double Chance(double sd, double aim) => sd <= 0 ? 1 : MathNet.Numerics.SpecialFunctions.Erf(aim / (sd * Math.Sqrt(2)));

    /// <summary>
    /// The ladder: give or take at the drawing board, after all the readings of each stage so far, and what the next steps
    /// would buy: the blank, its volume, the weights, the finished lure.
    /// </summary>
    public static ImmutableArray<Rung> Ladder(BuildModel build, TubLog log, Circumstances where)
    {
        var rungs = ImmutableArray.CreateBuilder<Rung>();
        TubLog none = log with { Readings = [] };
        Belief belief = Belief.Prior(new Observations(build, none).Unknowns);
        rungs.Add(new Rung("drawing only", belief.Spread(Knowing.SpareSlope(build, where, belief))));
        (string, LogReading[])[] steps =
        [
            ("boards weighed", [new LogReading { Kind = ReadingKind.Boards, SizeMm = [200, 45, 36], MassG = 324 * build.Design.Wood.DensityGPerCm3 }]),
            ("blank weighed", [new LogReading { Kind = ReadingKind.Weight, MassG = 1 }]),
            ("blank weighed under water", [Sinker(Stage.Blank)]),
            ("weights and hooks weighed", [.. PartNames(build.Design).Select(n => new LogReading { Kind = ReadingKind.Part, Part = n, MassG = 1 })]),
            ("sealed, weighed in air and under water", [new LogReading { Kind = ReadingKind.Weight, Stage = Stage.Sealed, MassG = 1 }, Sinker(Stage.Sealed)]),
            ("finished, weighed in air and under water", [new LogReading { Kind = ReadingKind.Weight, Stage = Stage.Finished, MassG = 1 }, Sinker(Stage.Finished)]),
        ];
        TubLog so = none;
        foreach ((string what, LogReading[] readings) in steps)
        {
            so = so with { Readings = so.Readings.AddRange(readings) };
            var observations = new Observations(build, so);
            Belief prior = Belief.Prior(observations.Unknowns);
            var x = new double[observations.Unknowns.Length];
            Matrix<double> j = Update.Slopes(observations.All, x, Update.Residuals(observations.All, x));
            Belief after = prior with { Covariance = prior.After(j) };
            rungs.Add(new Rung(what, after.Spread(Padded(Knowing.SpareSlope(build, where, prior), after))));
        }
        return rungs.ToImmutable();
    }

    private static LogReading Sinker(Stage stage) => new() { Kind = ReadingKind.UnderWater, Stage = stage, SinkerG = 200, WithLureG = 150, TemperatureC = 15 };

    /// <summary>The names by which a log can speak of parts.</summary>
    public static IEnumerable<string> PartNames(LureDesign design) =>
        [.. design.Ballast.Select(b => b.Name), .. design.Hardware.Select(h => $"{h.Name} at {h.HangsFrom}")];

    private static Belief Try(BuildModel build, Belief belief, TubLog log, LogReading reading)
    {
        // Appended last, so that the unknowns of the log so far keep their places.
        var observations = new Observations(build, log with { Readings = log.Readings.Add(reading) });
        int n = observations.Unknowns.Length, last = log.Readings.Length;
        var mean = new double[n];
        belief.Mean.CopyTo(mean, 0);
        Matrix<double> covariance = Matrix<double>.Build.DenseIdentity(n);
        covariance.SetSubMatrix(0, 0, belief.Covariance);
        var wide = new Belief(observations.Unknowns, mean, covariance);
        ImmutableArray<Observation> own = [.. observations.All.Where(o => o.Reading == last)];
        if (own.IsEmpty) return wide;
        Matrix<double> j = Update.Slopes(own, mean, Update.Residuals(own, mean));
        return wide with { Covariance = wide.After(j) };
    }

    private static Vector<double> Padded(Vector<double> slope, Belief belief)
    {
        Vector<double> padded = Vector<double>.Build.Dense(belief.Unknowns.Length);
        for (int i = 0; i < Math.Min(slope.Count, padded.Count); i++) padded[i] = slope[i];
        return padded;
    }

    private static Vector<double> TrimSlope(BuildModel build, Circumstances where, Belief belief)
    {
        Sitting sitting = build.In(where);
        StageModel.Scratch scratch = sitting.Rent();
        double Degrees(ReadOnlySpan<double> v) => Units.ToDegrees(sitting.Of(v, scratch).SeenTrim);
        Vector<double> slope = Numerics.Propagation.Gradient(Degrees, belief.Mean, build.Unknowns.Count);
        sitting.Return(scratch);
        // Where a step crosses from floating to sinking the trim leaps; that slope means nothing.
        return slope.Map(s => double.IsFinite(s) ? Math.Clamp(s, -90, 90) : 0);
    }

    /// <summary>What a kitchen can do at a stage, with about the minutes that it takes.</summary>
    private static IEnumerable<(LogReading, double, string)> Possible(LureDesign design, Stage stage, TubLog log)
    {
        LogReading Empty(ReadingKind kind, Rig rig = Rig.Bare) => new() { Kind = kind, Stage = stage, Rig = rig, TemperatureC = 15, Scale = log.Scales.FirstOrDefault()?.Id };
        bool Done(ReadingKind kind, Rig rig = Rig.Bare) => log.Readings.Any(r => r.Kind == kind && r.Stage == stage && r.Rig == rig);
        if (stage == Stage.Blank && !Done(ReadingKind.Boards)) yield return (Empty(ReadingKind.Boards) with { SizeMm = [200, 45, 36], MassG = 324 * design.Wood.DensityGPerCm3 }, 3, "scale, ruler");
        if (!Done(ReadingKind.Weight)) yield return (Empty(ReadingKind.Weight) with { MassG = 1 }, 1, "scale");
        if (!Done(ReadingKind.UnderWater)) yield return (Empty(ReadingKind.UnderWater) with { SinkerG = 200, WithLureG = 150 }, 5, "scale, sinker in a wire stirrup, bucket");
        if (!Done(ReadingKind.Needle)) yield return (Empty(ReadingKind.Needle) with { XMm = design.Body.LengthMm / 2 }, 5, "needle, tub, ruler");
        if (!Done(ReadingKind.Balance)) yield return (Empty(ReadingKind.Balance) with { XMm = design.Body.LengthMm / 2 }, 2, "thread loop, ruler");
        if (stage == Stage.Blank && !Done(ReadingKind.Caliper))
            yield return (Empty(ReadingKind.Caliper) with { XMm = design.Body.LengthMm / 2, WidthMm = 20, HeightMm = 20 }, 3, "calipers");
        if (stage >= Stage.DryFit)
        {
            if (!Done(ReadingKind.Tub)) yield return (Empty(ReadingKind.Tub) with { TrimDeg = 0, NoseOutMm = 0, Soap = true }, 5, "tub, thermometer, protractor");
            if (design.Hardware.Length > 0 && !Done(ReadingKind.Tub, Rig.StandIns))
                yield return (Empty(ReadingKind.Tub, Rig.StandIns) with { TrimDeg = 0, NoseOutMm = 0, Soap = true }, 15, "tub, thermometer, protractor, lead on thread");
        }
        foreach (string part in PartNames(design))
            if (!log.Readings.Any(r => r.Kind == ReadingKind.Part && r.Part == part)) yield return (Empty(ReadingKind.Part) with { Part = part, MassG = 1 }, 1, "scale");
    }
}
