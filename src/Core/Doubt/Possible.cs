using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>A reading that makes sense for this lure at this stage.</summary>
/// <param name="Reading">With numbers as they will be, near enough.</param>
/// <param name="Minutes">About how long it takes; common practice, no source.</param>
/// <param name="Takes">Instruments beside the scale.</param>
/// <param name="Grams">What the scale must bear; null where none is needed.</param>
internal sealed record Possible(LogReading Reading, double Minutes, ImmutableArray<Instrument> Takes, double? Grams);

/// <summary>
/// What could be read at a stage and was not yet, about the build that is likeliest by now: a drop of what sinks, tilts of
/// what floats.
/// </summary>
internal sealed class Possibilities(Knowing knowing, Stage stage)
{
    // Common practice, no source: a jar tall enough for a lure, with its water, which a scale must bear although it is tared.
    private const double JarG = 1500;

    // The sinker must pull the lure under, and stay under itself.
    private const double PullsUnder = 1.2, SinkerG = 20;

    // Taped on for a tilt: a hundredth of its displacement, at a quarter of its length before the tail.
    private const double TapedShare = 0.01, TapedAt = 0.75;

    private const double DropMm = 1000, ClockFromMm = 200;

    private readonly LureDesign design = knowing.Build.Design;
    private readonly ReadOnlyMemory<double> likeliest = knowing.Belief.Mean;

    public IEnumerable<Possible> All() => [.. InAir(), .. UnderWater(), .. InTheTub(), .. Parts()];

    private LogReading Empty(ReadingKind kind, Rig rig = Rig.Bare) => new() { Kind = kind, Stage = stage, Rig = rig, TemperatureC = 15 };

    private bool IsDone(ReadingKind kind, Rig rig = Rig.Bare) => knowing.Log.Readings.Any(r => r.Kind == kind && r.Stage == stage && r.Rig == rig);

    private IEnumerable<Possible> InAir()
    {
        if (stage == Stage.Blank && !IsDone(ReadingKind.Boards))
        {
            double grams = 324 * design.Wood.DensityGPerCm3;
            yield return new(Empty(ReadingKind.Boards) with { SizeMm = [200, 45, 36], MassG = grams }, 3, [Instrument.Ruler], grams);
        }
        Weighed bare = Weigh(Empty(ReadingKind.Weight), out _);
        if (!IsDone(ReadingKind.Weight)) yield return new(Empty(ReadingKind.Weight) with { MassG = bare.Weight }, 1, [], bare.Weight);
        if (!IsDone(ReadingKind.Balance)) yield return new(Empty(ReadingKind.Balance) with { XMm = bare.Cg.X }, 2, [Instrument.Thread, Instrument.Ruler], null);
        if (stage == Stage.Blank && !IsDone(ReadingKind.Caliper))
            yield return new(Empty(ReadingKind.Caliper) with { XMm = design.Body.LengthMm / 2, WidthMm = 20, HeightMm = 20 }, 3, [Instrument.Calipers, Instrument.Ruler], null);
    }

    private IEnumerable<Possible> UnderWater()
    {
        LogReading tied = Empty(ReadingKind.UnderWater);
        Weighed bare = Weigh(tied, out double water);
        double spare = bare.Spare(water), sinker = Math.Max(PullsUnder * spare, 0) + SinkerG, jar = water * bare.Volume;
        if (!IsDone(ReadingKind.UnderWater))
        {
            yield return new(tied with { SinkerG = sinker, WithLureG = sinker - spare }, 5, [Instrument.Sinker, Instrument.Tub], sinker + Math.Max(-spare, 0));
            yield return new(tied with { Way = UnderWaterWay.Jar, ReadingG = jar }, 5, [Instrument.Jar, Instrument.Needle], jar + JarG);
        }
        if (!IsDone(ReadingKind.Needle)) yield return new(Empty(ReadingKind.Needle) with { XMm = bare.Cb.X }, 5, [Instrument.Needle, Instrument.Tub, Instrument.Ruler], null);
    }

    private IEnumerable<Possible> InTheTub()
    {
        if (stage < Stage.DryFit) yield break;
        Rig[] rigs = design.Hardware.IsEmpty ? [Rig.Bare] : [Rig.Bare, Rig.StandIns];
        foreach (Rig rig in rigs)
        {
            LogReading tub = Empty(ReadingKind.Tub, rig);
            if (Weigh(tub, out double water) is var weighed && weighed.Spare(water) <= 0) continue;
            ImmutableArray<Instrument> takes = rig == Rig.Bare ? [Instrument.Tub, Instrument.Thermometer, Instrument.Protractor] : [Instrument.Tub, Instrument.Thermometer, Instrument.Protractor, Instrument.Lead];
            if (!IsDone(ReadingKind.Tub, rig)) yield return new(Lying(tub) with { Soap = true }, rig == Rig.Bare ? 5 : 15, takes, null);
            double gram = Math.Max(1, Math.Round(TapedShare * water * weighed.Volume));
            if (!IsDone(ReadingKind.Inclining, rig)) yield return new(Taped(rig, gram), rig == Rig.Bare ? 8 : 18, [.. takes.Union([Instrument.Lead, Instrument.Ruler])], gram);
        }
        // Raw wood drinks on the way down: only what is sealed is dropped.
        Rig falls = stage == Stage.Finished && !design.Hardware.IsEmpty ? Rig.Rigged : Rig.Bare;
        if (stage >= Stage.Sealed && !IsDone(ReadingKind.Drop, falls) && Dropped(falls) is { } drop) yield return new(drop, 10, [Instrument.DeepWater, Instrument.Thermometer, Instrument.Watch, Instrument.Ruler], null);
    }

    private IEnumerable<Possible> Parts()
    {
        foreach ((Thing thing, double grams) in Candidates.PartsOf(design))
            if (!knowing.Log.Readings.Any(r => r.Kind == ReadingKind.Part && r.ThingOf(design) == thing))
                yield return new(Empty(ReadingKind.Part) with { Thing = thing, Part = thing.NameIn(design), MassG = grams }, 1, [], grams);
    }

    // A tub reading's slopes are those of the rest that it is read at.
    private LogReading Lying(LogReading tub)
    {
        Sitting sitting = knowing.Build.In(new Circumstances(stage, tub.Rig, tub.Water));
        StageModel.Scratch scratch = sitting.Rent();
        Posture rest = sitting.Posed(likeliest.Span, scratch, default, null);
        sitting.Return(scratch);
        return tub with { TrimDeg = Units.ToDegrees(rest.Trim), NoseOutMm = rest.NoseShowsAlong };
    }

    private LogReading Taped(Rig rig, double grams)
    {
        double x = TapedAt * design.Body.LengthMm;
        double back = design.Body.Back.Points.MinBy(p => Math.Abs(p.X - x)).Value;
        return Empty(ReadingKind.Inclining, rig) with { MassG = grams, XMm = x, ZMm = back, TurnedDeg = 0, Soap = true };
    }

    // Null when it doesn't sink. How long it takes sets how well it can be timed.
    private LogReading? Dropped(Rig rig)
    {
        LogReading drop = Empty(ReadingKind.Drop, rig) with { DepthMm = DropMm, FromMm = ClockFromMm, Seconds = 1 };
        if (Weigh(drop, out double water).Spare(water) >= 0) return null;
        double seconds = new Observations(knowing.Build, knowing.Log with { Readings = [drop] }).All[0].Shows(likeliest.Span);
        return seconds < Observations.ForEver ? drop with { Seconds = seconds } : null;
    }

    private Weighed Weigh(LogReading reading, out double water)
    {
        Sitting sitting = knowing.Build.In(new Circumstances(stage, reading.Rig, reading.Water));
        StageModel.Scratch scratch = sitting.Rent();
        Weighed weighed = sitting.Model.Weigh(likeliest.Span, scratch);
        sitting.Return(scratch);
        water = sitting.Model.Water;
        return weighed;
    }
}
