using System.Collections.Immutable;
using MathNet.Numerics.LinearAlgebra;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>A reading that could be made next, and what it would be worth.</summary>
/// <param name="Reading">What to measure, its numbers empty.</param>
/// <param name="Minutes">About how long it takes; common practice, no source.</param>
/// <param name="Instruments">What it takes beside the scale.</param>
/// <param name="Scale">The scale to use; null where none is needed.</param>
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
    LogReading Reading, double Minutes, ImmutableArray<Instrument> Instruments, LogScale? Scale, double GramsBefore, double GramsAfter,
    double DegreesBefore, double DegreesAfter, double ChanceBefore, double ChanceAfter);

/// <summary>A reading that would make sense but for an instrument.</summary>
/// <param name="Reading">What to measure.</param>
/// <param name="Instruments">That the box doesn't have.</param>
/// <param name="Grams">What a scale would have to bear, where none of the maker's does; else null.</param>
/// <param name="Most">What the strongest of them bears.</param>
public sealed record Lacking(LogReading Reading, ImmutableArray<Instrument> Instruments, double? Grams, double Most);

/// <summary>One rung: what has been measured by then, and the give or take of the grams to spare, g.</summary>
public sealed record Rung(string What, double Grams);

/// <summary>
/// What is most worth measuring next. A reading's worth does not hang on what it will say, as long as it is not too far off:
/// with slopes H it takes C·Hᵀ(HCHᵀ + 1)⁻¹HC off the covariance C. So each candidate is tried without being made.
/// </summary>
public static class Candidates
{
    private const double AimDegrees = 5;

    // What boards for a lure of a hand's length measure, all laid on one another, mm, and their room, cm³.
    internal static readonly ImmutableArray<double> BoardsMm = [200, 45, 36];
    internal const double BoardsCm3 = 324;

    /// <summary>Candidates at a stage, best first.</summary>
    /// <param name="knowing">What is known so far.</param>
    /// <param name="stage">How far the build is.</param>
    /// <param name="box">Whose instruments; null: all of a kitchen's, and the scales of the log.</param>
    /// <param name="pace">How to go about it.</param>
    public static ImmutableArray<Candidate> Of(Knowing knowing, Stage stage, MakersBox? box = null, Pace? pace = null)
    {
        pace ??= Pace.Free;
        (BuildModel build, Belief belief) = (knowing.Build, knowing.Belief);
        Vector<double> grams = Knowing.SpareSlope(build, knowing.Where, belief), degrees = TrimSlope(build, knowing.Where, belief, pace);
        double displaced = build.At(knowing.Where.Stage, knowing.Where.Rig, knowing.Where.Water) is var m ? m.Water * m.Ledger.Volume : 0;
        double gramsNow = belief.Spread(grams), degreesNow = belief.Spread(degrees), aim = Verdicts() * displaced;
        var list = new List<Candidate>();
        LogScale[] scales = Scales(knowing.Log, box);
        foreach (Possible possible in new Possibilities(knowing, stage).All().Where(p => Lacks(p, scales, box) is null))
        {
            LogScale? scale = possible.Grams is { } bears ? Fit(scales, bears) : null;
            TubLog log = scale is null || knowing.Log.Scales.Any(s => s.Id == scale.Id) ? knowing.Log : knowing.Log with { Scales = knowing.Log.Scales.Add(scale) };
            LogReading reading = possible.Reading with { Scale = scale is null || scale == TubLog.UsualScale ? null : scale.Id };
            Belief after = Try(build, belief, log, reading, pace);
            double g = after.Spread(Padded(grams, after)), d = after.Spread(Padded(degrees, after));
            list.Add(new Candidate(reading, possible.Minutes, possible.Takes, scale, gramsNow, g, degreesNow, d, Chance(gramsNow, aim) * Chance(degreesNow, AimDegrees), Chance(g, aim) * Chance(d, AimDegrees)));
        }
        // Of several ways to make a reading the best one is enough.
        Candidate[] worse = [.. list.Where(c => c.Reading.Kind.HasWays).GroupBy(c => c.Reading.Kind).SelectMany(ways => ways.OrderBy(c => c.GramsAfter).Skip(1))];
        list.RemoveAll(worse.Contains);
        // By what it does to the chance; where that stays near 0 or 1 whatever is read, by the grams.
        return [.. list.OrderByDescending(c => c.ChanceAfter - c.ChanceBefore + 0.5 * (1 - c.GramsAfter / Math.Max(c.GramsBefore, 1e-9)))];
    }

    /// <summary>What would make sense at a stage, but can't be done with what the box has.</summary>
    public static ImmutableArray<Lacking> Lacking(Knowing knowing, Stage stage, MakersBox? box)
    {
        LogScale[] scales = Scales(knowing.Log, box);
        Possible[] all = [.. new Possibilities(knowing, stage).All()];
        // Of several ways to make a reading one is enough.
        ReadingKind[] can = [.. all.Where(p => p.Reading.Kind.HasWays && Lacks(p, scales, box) is null).Select(p => p.Reading.Kind)];
        return [.. all.Where(p => !can.Contains(p.Reading.Kind)).Select(p => Lacks(p, scales, box)).OfType<Lacking>()];
    }

    private static Lacking? Lacks(Possible possible, LogScale[] scales, MakersBox? box)
    {
        ImmutableArray<Instrument> missing = [.. possible.Takes.Where(i => box?.Has(i) == false)];
        bool weak = possible.Grams is { } grams && Fit(scales, grams) is null;
        return missing.IsEmpty && !weak ? null : new Lacking(possible.Reading, missing, weak ? possible.Grams : null, scales.Max(s => s.CapacityG));
    }

    private static LogScale[] Scales(TubLog log, MakersBox? box)
    {
        LogScale[] own = [.. log.Scales, .. box?.Scales.Where(s => log.Scales.All(l => l.Id != s.Id)).Select(s => new LogScale { Id = s.Id, ResolutionG = s.ResolutionG, CapacityG = s.CapacityG }) ?? []];
        return own.Length > 0 ? own : [TubLog.UsualScale];
    }

    // The finest that bears it.
    private static LogScale? Fit(LogScale[] scales, double grams) => scales.Where(s => s.CapacityG >= grams).MinBy(s => s.ResolutionG);

    private static double Verdicts() => Sinking.Verdicts.SuspendsWithin;

    // Chance that a normal error lies within ± aim.
    private static double Chance(double sd, double aim) => sd <= 0 ? 1 : MathNet.Numerics.SpecialFunctions.Erf(aim / (sd * Math.Sqrt(2)));

    /// <summary>
    /// The ladder: give or take at the drawing board, after all the readings of each stage so far, and what the next steps
    /// would buy: the blank, its volume, the weights, the finished lure.
    /// </summary>
    public static ImmutableArray<Rung> Ladder(BuildModel build, TubLog log, Circumstances where, Pace? pace = null)
    {
        pace ??= Pace.Free;
        var rungs = ImmutableArray.CreateBuilder<Rung>();
        TubLog none = log with { Readings = [] };
        Belief belief = Belief.Prior(new Observations(build, none, pace).Unknowns);
        rungs.Add(new Rung("drawing only", belief.Spread(Knowing.SpareSlope(build, where, belief))));
        (string, LogReading[])[] steps =
        [
            ("boards weighed", [new LogReading { Kind = ReadingKind.Boards, SizeMm = BoardsMm, MassG = BoardsCm3 * build.Design.Wood.DensityGPerCm3 }]),
            ("blank weighed", [new LogReading { Kind = ReadingKind.Weight, MassG = 1 }]),
            ("blank weighed under water", [Sinker(Stage.Blank)]),
            ("weights and hooks weighed", [.. PartsOf(build.Design).Select(p => new LogReading { Kind = ReadingKind.Part, Thing = p.Thing, Part = p.Thing.NameIn(build.Design), MassG = 1 })]),
            ("sealed, weighed in air and under water", [new LogReading { Kind = ReadingKind.Weight, Stage = Stage.Sealed, MassG = 1 }, Sinker(Stage.Sealed)]),
            ("finished, weighed in air and under water", [new LogReading { Kind = ReadingKind.Weight, Stage = Stage.Finished, MassG = 1 }, Sinker(Stage.Finished)]),
        ];
        TubLog so = none;
        foreach ((string what, LogReading[] readings) in steps)
        {
            so = so with { Readings = so.Readings.AddRange(readings) };
            var observations = new Observations(build, so, pace);
            Belief prior = Belief.Prior(observations.Unknowns);
            var x = new double[observations.Unknowns.Length];
            Matrix<double> j = Update.Slopes(observations.All, x, Update.Residuals(observations.All, x, pace), pace);
            Belief after = prior with { Covariance = prior.After(j) };
            rungs.Add(new Rung(what, after.Spread(Padded(Knowing.SpareSlope(build, where, prior), after))));
        }
        return rungs.ToImmutable();
    }

    private static LogReading Sinker(Stage stage) => new() { Kind = ReadingKind.UnderWater, Stage = stage, SinkerG = 200, WithLureG = 150, TemperatureC = 15 };

    /// <summary>Weights and hardware, which are worth weighing one by one.</summary>
    internal static IEnumerable<(Thing Thing, double Grams)> PartsOf(LureDesign design) =>
    [
        .. design.Ballast.Select((b, i) => (new Thing(ThingKind.Weight, i), b.Mass)),
        .. design.Hardware.Select((h, i) => (new Thing(ThingKind.Hardware, i), h.MassG)),
    ];

    /// <summary>The belief if a reading had been made, whatever it said.</summary>
    internal static Belief Try(BuildModel build, Belief belief, TubLog log, LogReading reading, Pace pace)
    {
        // Appended last, so that the unknowns of the log so far keep their places.
        var observations = new Observations(build, log with { Readings = log.Readings.Add(reading) }, pace);
        int n = observations.Unknowns.Length, last = log.Readings.Length;
        var mean = new double[n];
        belief.Mean.CopyTo(mean, 0);
        Matrix<double> covariance = Matrix<double>.Build.DenseIdentity(n);
        covariance.SetSubMatrix(0, 0, belief.Covariance);
        var wide = new Belief(observations.Unknowns, mean, covariance);
        ImmutableArray<Observation> own = [.. observations.All.Where(o => o.Reading == last)];
        if (own.IsEmpty) return wide;
        Matrix<double> j = Update.Slopes(own, mean, Update.Residuals(own, mean, pace), pace);
        return wide with { Covariance = wide.After(j) };
    }

    private static Vector<double> Padded(Vector<double> slope, Belief belief)
    {
        Vector<double> padded = Vector<double>.Build.Dense(belief.Unknowns.Length);
        for (int i = 0; i < Math.Min(slope.Count, padded.Count); i++) padded[i] = slope[i];
        return padded;
    }

    private static Vector<double> TrimSlope(BuildModel build, Circumstances where, Belief belief, Pace pace)
    {
        Sitting sitting = build.In(where);
        StageShape.Scratch scratch = sitting.Rent();
        double Degrees(ReadOnlySpan<double> v)
        {
            pace.Step();
            return Units.ToDegrees(sitting.Of(v, scratch, pace: pace).SeenTrim);
        }
        Vector<double> slope = Numerics.Propagation.Gradient(Degrees, belief.Mean, build.Unknowns.Count);
        sitting.Return(scratch);
        // Where a step crosses from floating to sinking the trim leaps; that slope means nothing.
        return slope.Map(s => double.IsFinite(s) ? Math.Clamp(s, -90, 90) : 0);
    }
}
