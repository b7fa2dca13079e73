using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Doubt;

/// <summary>What a build, a scale and a tub would show: the reading as a function of all unknowns.</summary>
internal delegate double Shown(ReadOnlySpan<double> x);

/// <summary>One number of one reading.</summary>
/// <param name="Reading">Its place in the log.</param>
/// <param name="Key">The number's key in the file.</param>
/// <param name="Read">What was read: g, mm, degrees, seconds.</param>
/// <param name="Sd">What instrument and eye leave open, apart from nuisances shared by more than one reading.</param>
/// <param name="Shows">What it would be.</param>
/// <param name="CanFlip">It is read off a posture that may change by a leap.</param>
/// <param name="IsHinge">It only says on which side of a limit something lies: slopes mean nothing, draws are weighed by it.</param>
internal sealed record Observation(int Reading, string Key, double Read, double Sd, Shown Shows, bool CanFlip = false, bool IsHinge = false);

/// <summary>
/// A log as numbers that a build can be held against. To the unknowns of the build it adds those of its instruments: each
/// scale's gain and zero, once for all that it weighed, and of each reading in water what clung, leaked or bubbled.
/// </summary>
internal sealed class Observations
{
    // Common practice, no source: what scales, and water that clings, leave open, one standard deviation.
    private const double Gain = 0.001;
    private const double ZeroDigits = 0.3;
    private const double Repeat = 0.4;
    private const double SoapedG = 0.05;
    private const double SkinG = 0.3;
    private const double StandInG = 0.1;

    /// <summary>How well a protractor is read, degrees; common practice, no source.</summary>
    internal const double TrimDeg = 1;

    /// <summary>Seconds that a drop of what does not fall takes.</summary>
    internal const double ForEver = 1000;

    private readonly TubLog log;
    private readonly List<Unknown> nuisances = [];
    private readonly List<Observation> all = [];
    private readonly Dictionary<string, int> scales = [];

    public BuildModel Build { get; }

    /// <summary>How to go about it.</summary>
    public Pace? Pace { get; }

    public ImmutableArray<Observation> All { get; }

    /// <summary>Unknowns of the build, then those of the log.</summary>
    public ImmutableArray<Unknown> Unknowns { get; }

    public Observations(BuildModel build, TubLog log, Pace? pace = null)
    {
        (Build, this.log, Pace) = (build, log, pace);
        foreach ((int i, LogReading reading) in log.Readings.Index()) reading.Kind.Expect(this, i, reading);
        All = [.. all];
        Unknowns = [.. build.Unknowns.All, .. nuisances];
    }

    private int Nuisance(string id, string name, Cause cause, double sd)
    {
        nuisances.Add(new Unknown(id, name, cause, sd, false));
        return Build.Unknowns.Count + nuisances.Count - 1;
    }

    /// <summary>Notes one number of a reading with what a build would show instead; nothing where it was not read.</summary>
    /// <param name="i">The reading's place in the log.</param>
    /// <param name="key">The number's key in the file.</param>
    /// <param name="read">What was read.</param>
    /// <param name="sd">What instrument and eye leave open.</param>
    /// <param name="shows">What it would be.</param>
    /// <param name="flips">It is read off a posture that may change by a leap.</param>
    /// <param name="hinge">It only says on which side of a limit something lies.</param>
    public void Number(int i, string key, double? read, double sd, Shown shows, bool flips = false, bool hinge = false)
    {
        if (read is { } number) all.Add(new Observation(i, key, number, sd, shows, flips, hinge));
    }

    /// <summary>How well the scale of a reading is read, g.</summary>
    public double Digit(LogReading r) => Repeat * log.ScaleOf(r).ResolutionG;

    /// <summary>Grams as the scale of a reading shows them: a gain and a zero of its own, the same in everything that it weighs.</summary>
    public Shown Scaled(LogReading r, Shown grams)
    {
        (LogScale scale, int gain) = ScaleOf(r);
        return x => (1 + Gain * x[gain]) * grams(x) + ZeroDigits * scale.ResolutionG * x[gain + 1];
    }

    /// <summary>By how much its zero is off, g.</summary>
    public Shown Zero(LogReading r)
    {
        (LogScale scale, int gain) = ScaleOf(r);
        return x => ZeroDigits * scale.ResolutionG * x[gain + 1];
    }

    private (LogScale Scale, int Gain) ScaleOf(LogReading r)
    {
        LogScale scale = log.ScaleOf(r);
        if (!scales.TryGetValue(scale.Id, out int gain))
        {
            string name = scale.Id.Length == 0 ? "the scale" : $"scale {scale.Id}";
            gain = scales[scale.Id] = Nuisance($"scale.{scale.Id}.gain", $"{name} shows too much or too little", Cause.Scale, Gain);
            Nuisance($"scale.{scale.Id}.zero", $"zero of {name}", Cause.Scale, ZeroDigits * scale.ResolutionG);
        }
        return (scale, gain);
    }

    /// <summary>Of the wood, g/mm³.</summary>
    public double WoodDensity(ReadOnlySpan<double> x) =>
        Units.FromGramsPerCm3(Build.Design.Wood.DensityGPerCm3) * Build.Unknowns[Doubt.Unknowns.Density].At(x[Doubt.Unknowns.Density]);

    // Readings of one stage ask for the same build one after the other: it is weighed once.
    private readonly ThreadLocal<(double[] X, Dictionary<Sitting, Weighed> Done)> weighings = new(() => ([], []));

    /// <summary>A build at a reading's stage, with so much air on it (mm³).</summary>
    public Weighed Weigh(LogReading r, ReadOnlySpan<double> x, double air = 0)
    {
        (double[] known, Dictionary<Sitting, Weighed> done) = weighings.Value;
        if (!x.SequenceEqual(known)) weighings.Value = ([.. x], done = []);
        Sitting sitting = Sitting(r);
        if (!done.TryGetValue(sitting, out Weighed weighed))
        {
            StageShape.Scratch scratch = sitting.Rent();
            done[sitting] = weighed = sitting.Model.Weigh(x, scratch);
            sitting.Return(scratch);
        }
        return weighed with { Volume = weighed.Volume + air, VolumeMoment = weighed.VolumeMoment + air * weighed.Skin.Centroid };
    }

    public Sitting Sitting(LogReading r) => Build.In(new Circumstances(r.Stage, r.Rig, r.Water));

    /// <summary>One half after splitting and cleaning, before anything is cut into it, g.</summary>
    /// <param name="x">The build.</param>
    /// <param name="right">Which.</param>
    /// <param name="cut">Cut into it all the same, g of wood as designed.</param>
    public double Half(ReadOnlySpan<double> x, bool right, double cut = 0)
    {
        Sitting sitting = Build.In(new Circumstances(Stage.DryFit, Rig.Bare, Trimwright.Core.Water.WaterState.Tap));
        StageShape.Scratch scratch = sitting.Rent();
        double half = sitting.Model.HalfWeight(x, scratch, right, cut);
        sitting.Return(scratch);
        return half;
    }

    internal static double Hypot(double a, double b, double c) => Math.Sqrt(a * a + b * b + c * c);

    /// <summary>Air under film, mm³, or less than none: water in the gaps of a dry fit.</summary>
    public Shown Bubbles(int i, LogReading r)
    {
        if (r.Film)
        {
            int air = Nuisance($"reading[{i}].air", "air under the film", Cause.Reading, 500);
            return x => 1500 + 500 * x[air];
        }
        if (r.Stage != Stage.DryFit) return _ => 0;
        int water = Nuisance($"reading[{i}].water", "water in the gaps of the dry fit", Cause.Reading, 300);
        return x => -400 + 300 * x[water];
    }

    /// <summary>What pulls on what floats besides its own weight: the water's skin, and how well stand-ins were weighed out, g.</summary>
    public Shown Clings(int i, LogReading r)
    {
        double sd = Hypot(r.Soap ? SoapedG : SkinG, r.Rig == Rig.StandIns ? StandInG : 0, 0);
        int pull = Nuisance($"reading[{i}].skin", r.Soap ? "what clings in the tub" : "the water's skin in the tub", Cause.Reading, sd);
        return x => sd * x[pull];
    }

    /// <summary>How it would sit.</summary>
    public Posture Posed(LogReading r, ReadOnlySpan<double> x, in Extra extra, double? near, Sat? word = null)
    {
        Sitting sitting = Sitting(r);
        StageShape.Scratch scratch = sitting.Rent();
        Posture posture = sitting.Posed(x, scratch, extra, near, word, Pace);
        sitting.Return(scratch);
        return posture;
    }
}
