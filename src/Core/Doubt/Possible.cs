using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;

namespace Trimwright.Core.Doubt;

/// <summary>A reading that makes sense for this lure at this stage.</summary>
/// <param name="Reading">With numbers as they will be, near enough.</param>
/// <param name="Minutes">About how long it takes; common practice, no source.</param>
/// <param name="Takes">Instruments beside the scale.</param>
/// <param name="Grams">What the scale must bear; null where none is needed.</param>
internal sealed record Possible(LogReading Reading, double Minutes, ImmutableArray<Instrument> Takes, double? Grams);

/// <summary>
/// What could be read at a stage and was not yet, about the build that is likeliest by now: a drop of what sinks, tilts of
/// what floats. Each kind says what of it makes sense.
/// </summary>
internal sealed class Possibilities(Knowing knowing, Stage stage)
{
    private readonly ReadOnlyMemory<double> likeliest = knowing.Belief.Mean;

    public LureDesign Design => knowing.Build.Design;

    public TubLog Log => knowing.Log;

    public Stage Stage => stage;

    /// <summary>In air first, since it takes least; the lure before its parts.</summary>
    public IEnumerable<Possible> All() => ReadingKind.All
        .SelectMany(kind => kind.Proposed(this).Select(possible => (kind.At, Possible: possible)))
        .OrderBy(p => p.At).ThenBy(p => p.Possible.Reading.Rig).Select(p => p.Possible);

    /// <summary>A reading of a kind at this stage, without its numbers.</summary>
    public LogReading Empty(ReadingKind kind, Rig rig = Rig.Bare) => new() { Kind = kind, Stage = stage, Rig = rig, TemperatureC = 15 };

    public bool IsDone(ReadingKind kind, Rig rig = Rig.Bare) => Log.Readings.Any(r => r.Kind == kind && r.Stage == stage && r.Rig == rig);

    /// <summary>A rig in which it floats and can be tried in a tub.</summary>
    /// <param name="Rig">Bare, or with stand-ins.</param>
    /// <param name="Displaced">What it displaces all under, g.</param>
    /// <param name="Takes">To read how it sits.</param>
    public readonly record struct Afloat(Rig Rig, double Displaced, ImmutableArray<Instrument> Takes);

    public IEnumerable<Afloat> Floating()
    {
        if (stage < Stage.DryFit) yield break;
        Rig[] rigs = Design.Hardware.IsEmpty ? [Rig.Bare] : [Rig.Bare, Rig.StandIns];
        foreach (Rig rig in rigs)
        {
            Weighed weighed = Weigh(Empty(ReadingKind.Tub, rig), out double water);
            if (weighed.Spare(water) > 0)
                yield return new(rig, water * weighed.Volume, [Instrument.Tub, Instrument.Thermometer, Instrument.Protractor, .. rig == Rig.Bare ? [] : (Instrument[])[Instrument.Lead]]);
        }
    }

    /// <summary>How the likeliest build sits.</summary>
    public Posture Rest(LogReading reading)
    {
        Sitting sitting = knowing.Build.In(new Circumstances(stage, reading.Rig, reading.Water));
        StageShape.Scratch scratch = sitting.Rent();
        Posture rest = sitting.Posed(likeliest.Span, scratch, default, null);
        sitting.Return(scratch);
        return rest;
    }

    /// <summary>The first number that the likeliest build would show.</summary>
    public double Shows(LogReading reading) => new Observations(knowing.Build, Log with { Readings = [reading] }).All[0].Shows(likeliest.Span);

    /// <summary>The likeliest build on the scale.</summary>
    /// <param name="reading">Its rig and water.</param>
    /// <param name="water">Density of the water less the air's, g/mm³.</param>
    public Weighed Weigh(LogReading reading, out double water)
    {
        Sitting sitting = knowing.Build.In(new Circumstances(stage, reading.Rig, reading.Water));
        StageShape.Scratch scratch = sitting.Rent();
        Weighed weighed = sitting.Model.Weigh(likeliest.Span, scratch);
        sitting.Return(scratch);
        water = sitting.Model.Water;
        return weighed;
    }
}
