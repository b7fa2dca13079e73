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
    // Common practice, no source: what instruments and hands leave open, one standard deviation.
    private const double Gain = 0.001;
    private const double ZeroDigits = 0.3;
    private const double Repeat = 0.4;
    private const double WetWood = 0.1;
    private const double NeedleMm = 0.6;
    private const double NeedleG = 1;
    private const double BalanceMm = 0.7;
    private const double CaliperMm = 0.2;
    private const double BoardShare = 0.02;
    private const double TrimDeg = 1;
    private const double HeelDeg = 5;
    private const double MarkMm = 1;
    private const double SoapedG = 0.05;
    private const double SkinG = 0.3;
    private const double StandInG = 0.1;
    private const double ColdOrWarm = 4;
    private const double DropShare = 0.03;

    /// <summary>Seconds that a drop of what does not fall takes.</summary>
    internal const double ForEver = 1000;

    private const double ThumbS = 0.15;

    private readonly BuildModel build;
    private readonly TubLog log;
    private readonly Pace? pace;
    private readonly List<Unknown> nuisances = [];
    private readonly List<Observation> all = [];
    private readonly Dictionary<string, int> scales = [];

    public ImmutableArray<Observation> All { get; }

    /// <summary>Unknowns of the build, then those of the log.</summary>
    public ImmutableArray<Unknown> Unknowns { get; }

    public Observations(BuildModel build, TubLog log, Pace? pace = null)
    {
        (this.build, this.log, this.pace) = (build, log, pace);
        for (int i = 0; i < log.Readings.Length; i++) Add(i, log.Readings[i]);
        All = [.. all];
        Unknowns = [.. build.Unknowns.All, .. nuisances];
    }

    private int Nuisance(string id, string name, Cause cause, double sd)
    {
        nuisances.Add(new Unknown(id, name, cause, sd, false));
        return build.Unknowns.Count + nuisances.Count - 1;
    }

    private void Add(int i, LogReading r)
    {
        void Number(string key, double? read, double sd, Shown shows, bool flips = false)
        {
            if (read is { } number) all.Add(new Observation(i, key, number, sd, shows, flips));
        }
        switch (r.Kind)
        {
            case ReadingKind.Boards when r.SizeMm is { } size && r.MassG is { } grams:
                double box = size[0] * size[1] * size[2];
                Number("mass_g", grams, BoardShare * grams, x => box * WoodDensity(x));
                break;
            case ReadingKind.Part:
                AddPart(i, r);
                break;
            case ReadingKind.Halves:
                Number("right_g", r.RightG, Digit(r), Scaled(r, x => Half(x, true)));
                Number("left_g", r.LeftG, Digit(r), Scaled(r, x => Half(x, false)));
                break;
            case ReadingKind.Weight:
                Number("mass_g", r.MassG, Digit(r), Scaled(r, x => Weigh(r, x).Weight));
                break;
            case ReadingKind.UnderWater:
                AddUnderWater(i, r);
                break;
            case ReadingKind.Needle:
                Number("x_mm", r.XMm, NeedleMm, x => Needle(r, x));
                break;
            case ReadingKind.Balance:
                Number("x_mm", r.XMm, BalanceMm, x => Weigh(r, x).Cg.X);
                break;
            case ReadingKind.Caliper when r.XMm is { } at:
                Number("width_mm", r.WidthMm, CaliperMm, x => Girth(r, x, at) is var g ? g.Right + g.Left : 0);
                Number("height_mm", r.HeightMm, CaliperMm, x => Girth(r, x, at).Height);
                Number("right_mm", r.RightMm, CaliperMm, x => Girth(r, x, at).Right);
                Number("left_mm", r.LeftMm, CaliperMm, x => Girth(r, x, at).Left);
                break;
            case ReadingKind.Inclining:
                AddInclining(i, r);
                break;
            case ReadingKind.Tub:
                AddTub(i, r);
                break;
            case ReadingKind.Drop:
                if (r.Seconds is { } seconds) Number("seconds", seconds, Math.Sqrt(ThumbS * ThumbS + DropShare * DropShare * seconds * seconds), x => DropTime(r, x), flips: true);
                break;
        }
    }

    private double Digit(LogReading r) => Repeat * log.ScaleOf(r).ResolutionG;

    private Shown Scaled(LogReading r, Shown grams)
    {
        LogScale scale = log.ScaleOf(r);
        if (!scales.TryGetValue(scale.Id, out int gain))
        {
            string name = scale.Id.Length == 0 ? "the scale" : $"scale {scale.Id}";
            gain = scales[scale.Id] = Nuisance($"scale.{scale.Id}.gain", $"{name} shows too much or too little", Cause.Scale, Gain);
            Nuisance($"scale.{scale.Id}.zero", $"zero of {name}", Cause.Scale, ZeroDigits * scale.ResolutionG);
        }
        return x => (1 + Gain * x[gain]) * grams(x) + ZeroDigits * scale.ResolutionG * x[gain + 1];
    }

    private double WoodDensity(ReadOnlySpan<double> x) =>
        Units.FromGramsPerCm3(build.Design.Wood.DensityGPerCm3) * build.Unknowns[Doubt.Unknowns.Density].At(x[Doubt.Unknowns.Density]);

    // Readings of one stage ask for the same build one after the other: it is weighed once.
    private readonly ThreadLocal<(double[] X, Dictionary<Sitting, Weighed> Done)> weighings = new(() => ([], []));

    /// <summary>A build at a reading's stage, with so much air on it (mm³).</summary>
    private Weighed Weigh(LogReading r, ReadOnlySpan<double> x, double air = 0)
    {
        (double[] known, Dictionary<Sitting, Weighed> done) = weighings.Value;
        if (!x.SequenceEqual(known)) weighings.Value = ([.. x], done = []);
        Sitting sitting = Sitting(r);
        if (!done.TryGetValue(sitting, out Weighed weighed))
        {
            StageModel.Scratch scratch = sitting.Rent();
            done[sitting] = weighed = sitting.Model.Weigh(x, scratch);
            sitting.Return(scratch);
        }
        return weighed with { Volume = weighed.Volume + air, VolumeMoment = weighed.VolumeMoment + air * weighed.Skin.Centroid };
    }

    private Sitting Sitting(LogReading r) => build.In(new Circumstances(r.Stage, r.Rig, r.Water));

    private double Half(ReadOnlySpan<double> x, bool right)
    {
        Sitting sitting = build.In(new Circumstances(Stage.DryFit, Rig.Bare, Trimwright.Core.Water.WaterState.Tap));
        StageModel.Scratch scratch = sitting.Rent();
        double half = sitting.Model.HalfWeight(x, scratch, right);
        sitting.Return(scratch);
        return half;
    }

    private void AddPart(int i, LogReading r)
    {
        LureDesign design = build.Design;
        Doubt.Unknowns u = build.Unknowns;
        if (r.MassG is not { } grams || r.ThingOf(design) is not { } thing) return;
        Shown Of(int unknown, double mass) => x => mass * u[unknown].At(x[unknown]);
        Shown? shown = thing.Kind switch
        {
            ThingKind.Weight => Of(u.PieceMass(thing.Index), design.Ballast[thing.Index].Mass),
            ThingKind.Hardware => Of(u.Hardware(thing.Index), design.Hardware[thing.Index].MassG),
            ThingKind.Eyes => design.Eyes is { } eyes ? Of(Doubt.Unknowns.Eyes, eyes.MassG) : null,
            ThingKind.Wire => OfWire(design, u),
        };
        if (shown is not null) all.Add(new Observation(i, "mass_g", grams, Digit(r), Scaled(r, shown)));
    }

    /// <summary>The wire as the build weighs it: bent, with all that is threaded on it and stays.</summary>
    private Shown? OfWire(LureDesign design, Doubt.Unknowns u)
    {
        if (design.Wire is null) return null;
        double bent = build.At(Stage.DryFit, Rig.Bare, Trimwright.Core.Water.WaterState.Tap).WireWeight;
        (int Unknown, double Mass)[] threaded =
        [
            .. design.Hardware.Index().Where(h => design.IsCaptive(h.Index)).Select(h => (u.Hardware(h.Index), h.Item.MassG)),
            .. design.Ballast.Index().Where(p => p.Item.OnWire).Select(p => (u.PieceMass(p.Index), p.Item.Mass)),
        ];
        return x =>
        {
            double sum = bent * u[Doubt.Unknowns.WireMass].At(x[Doubt.Unknowns.WireMass]);
            foreach ((int unknown, double mass) in threaded) sum += mass * u[unknown].At(x[unknown]);
            return sum;
        };
    }

    /// <summary>
    /// A sinker weighs less under water by exactly the lure's spare buoyancy, whatever the bucket; a jar gains the weight of
    /// the water that the lure takes the place of. Water that the wood drinks meanwhile is weight for the one and gone from
    /// the other: either way it is taken off. Where it was weighed before and after, what it had drunk when the scale was read
    /// lies anywhere between nothing and all of it.
    /// </summary>
    private void AddUnderWater(int i, LogReading r)
    {
        Shown air = Bubbles(i, r);
        double water = r.Water.Density - Units.AirDensity, digit = Digit(r);
        double? drunk = r is { BeforeG: { } before, AfterG: { } after } ? after - before : null;
        double middle = (drunk ?? 0) / 2, wet = drunk is { } grams ? Hypot(grams / Math.Sqrt(12), 0.7 * digit, 0) : r.Stage <= Stage.DryFit ? WetWood : 0;
        double warm = Warm(r, x => Weigh(r, x).Volume);
        if (r.Way == UnderWaterWay.Jar && r.ReadingG is { } reading)
            all.Add(new Observation(i, "reading_g", reading, Hypot(digit, wet, warm), Scaled(r, x => water * Weigh(r, x, air(x)).Volume - middle)));
        if (r.Way == UnderWaterWay.Sinker && r.SinkerG is { } alone && r.WithLureG is { } together)
        {
            Shown less = x => Weigh(r, x, air(x)).Spare(water) - middle;
            Shown scaled = Scaled(r, less);
            int zero = scales[log.ScaleOf(r).Id] + 1;
            // One reading less another: the zero drops out.
            all.Add(new Observation(i, "with_lure_g", alone - together, Hypot(1.4 * digit, wet, warm), x => scaled(x) - ZeroDigits * log.ScaleOf(r).ResolutionG * x[zero]));
        }
    }

    private double Warm(LogReading r, Shown volume)
    {
        if (r.TemperatureC is not null) return 0.0002e-3 * volume(new double[build.Unknowns.Count]);
        var warmer = new Trimwright.Core.Water.WaterState(r.Salinity, 15 + ColdOrWarm);
        return Math.Abs(warmer.Density - r.Water.Density) * volume(new double[build.Unknowns.Count]);
    }

    private static double Hypot(double a, double b, double c) => Math.Sqrt(a * a + b * b + c * c);

    // mm³ of air under film, or less than none: water in the gaps of a dry fit.
    private Shown Bubbles(int i, LogReading r)
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

    // A needle at x holds it level when it pushes down, or a thread up, where the lift less the weight acts. With hardly any
    // of either that place runs away to both sides, and nobody reads it: from there on it goes with the moment about what was read.
    private double Needle(LogReading r, ReadOnlySpan<double> x)
    {
        Weighed w = Weigh(r, x);
        double water = r.Water.Density - Units.AirDensity, spare = w.Spare(water), read = r.XMm ?? 0;
        double moment = water * w.VolumeMoment.X - w.WeightMoment.X - read * spare;
        return read + moment / Math.CopySign(Math.Max(Math.Abs(spare), NeedleG), spare);
    }

    private (double Right, double Left, double Height) Girth(LogReading r, ReadOnlySpan<double> x, double at)
    {
        Sitting sitting = Sitting(r);
        StageModel.Scratch scratch = sitting.Rent();
        sitting.Model.Weigh(x, scratch);
        (double, double, double) girth = Calipers.Girth(scratch.Skin, at);
        sitting.Return(scratch);
        return girth;
    }

    private Shown Clings(int i, LogReading r)
    {
        double sd = Hypot(r.Soap ? SoapedG : SkinG, r.Rig == Rig.StandIns ? StandInG : 0, 0);
        int pull = Nuisance($"reading[{i}].skin", r.Soap ? "what clings in the tub" : "the water's skin in the tub", Cause.Reading, sd);
        return x => sd * x[pull];
    }

    private void AddTub(int i, LogReading r)
    {
        Shown air = Bubbles(i, r), pull = Clings(i, r);
        double? near = r.TrimDeg is { } t ? Units.FromDegrees(t) : r.Sat is { } sat ? Sits.Typical(sat) : null;
        // One pose serves every mark of a reading: they are asked for one after the other.
        var last = new ThreadLocal<(double[] X, Posture Posture)>();
        Posture Pose(ReadOnlySpan<double> x)
        {
            if (last.Value.X is { } known && x.SequenceEqual(known)) return last.Value.Posture;
            Posture posture = Posed(r, x, new Extra(0, 0, default, air(x), pull(x)), near, r.Sat);
            last.Value = ([.. x], posture);
            return posture;
        }
        void Mark(string key, double? read, double sd, Func<Posture, double> of)
        {
            if (read is { } number)
                all.Add(new Observation(i, key, number, sd, x => of(Pose(x)), CanFlip: true));
        }
        Mark("trim_deg", r.TrimDeg, TrimDeg, p => Units.ToDegrees(p.Trim));
        Mark("nose_out_mm", r.NoseOutMm, MarkMm, p => p.NoseShowsAlong);
        Mark("tail_out_mm", r.TailOutMm, MarkMm, p => p.TailShowsAlong);
        Mark("waterline_back_mm", r.WaterlineBackMm, MarkMm, p => p.WaterlineBack ?? 0);
        Mark("waterline_belly_mm", r.WaterlineBellyMm, MarkMm, p => p.WaterlineBelly ?? 0);
        Mark("back_proud_mm", r.BackProudMm, MarkMm, p => p.BackProud);
        // Back up, on its side, belly up: the word's own part, beside a trim in degrees.
        if (r is { Sat: { } side, TrimDeg: not null })
            all.Add(new Observation(i, "sat", 0, HeelDeg, x => Pose(x) is var p && p.HeelIsFree ? 0 : Units.ToDegrees(Sits.HeelOff(side, p.Plane.N)), CanFlip: true, IsHinge: true));
        // In one word only: the middle of what the word covers, give or take its width.
        if (r is { Sat: { } word, TrimDeg: null }) Mark("sat", Units.ToDegrees(Sits.Typical(word)), Sits.WidthDeg, p => Units.ToDegrees(p.Trim));
    }

    private void AddInclining(int i, LogReading r)
    {
        if (r is not { MassG: { } grams, XMm: { } x0, ZMm: { } z0, TurnedDeg: { } turned }) return;
        Shown pull = Clings(i, r);
        // Lead, tape and all.
        var taped = new Extra(grams, grams / 11.3e-3, new Vec3(x0, 0, z0), 0, 0);
        all.Add(new Observation(i, "turned_deg", turned, 1.4 * TrimDeg, x =>
            Units.ToDegrees(Posed(r, x, taped with { Pull = pull(x) }, null).Trim - Posed(r, x, new Extra(0, 0, default, 0, pull(x)), null).Trim), CanFlip: true));
    }

    private Posture Posed(LogReading r, ReadOnlySpan<double> x, in Extra extra, double? near, Sat? word = null)
    {
        Sitting sitting = Sitting(r);
        StageModel.Scratch scratch = sitting.Rent();
        Posture posture = sitting.Posed(x, scratch, extra, near, word, pace);
        sitting.Return(scratch);
        return posture;
    }

    /// <summary>From rest, let go at the top; the clock runs from one depth to another. Without a fall: for ever.</summary>
    private double DropTime(LogReading r, ReadOnlySpan<double> x)
    {
        Sitting sitting = Sitting(r);
        Weighed weighed = Weigh(r, x);
        if (sitting.FallOf(weighed, x, pace) is not { } fall) return ForEver;
        var descent = new Descent([fall], fall, Falls.RestToSpeed(sitting.Falling(weighed, x), fall));
        return Units.ToSeconds(descent.TimeTo(r.DepthMm!.Value) - (r.FromMm is > 0 and { } from ? descent.TimeTo(from) : 0));
    }
}
