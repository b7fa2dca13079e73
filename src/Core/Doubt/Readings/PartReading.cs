using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;

namespace Trimwright.Core.Doubt;

/// <summary>One part by itself: a weight, a hook, the wire, the eyes.</summary>
internal sealed class PartReading : ReadingKind
{
    public override string Word => "part";

    internal override ReadAt At => ReadAt.Apart;

    internal override ImmutableArray<string> Needs => ["mass_g"];

    internal override void Check(ReadingCheck check) => check.Need(check.Reading.Part is not null, "part", "the name of a part of the lure");

    internal override void Expect(Observations to, int i, LogReading r)
    {
        LureDesign design = to.Build.Design;
        Unknowns u = to.Build.Unknowns;
        if (r.MassG is not { } grams || r.ThingOf(design) is not { } thing) return;
        Shown Of(int unknown, double mass) => x => mass * u[unknown].At(x[unknown]);
        Shown? shown = thing.Kind switch
        {
            ThingKind.Weight => Of(u.PieceMass(thing.Index), design.Ballast[thing.Index].Mass),
            ThingKind.Hardware => Of(u.Hardware(thing.Index), design.Hardware[thing.Index].MassG),
            ThingKind.Eyes => design.Eyes is { } eyes ? Of(Unknowns.Eyes, eyes.MassG) : null,
            ThingKind.Wire => OfWire(to.Build),
        };
        if (shown is not null) to.Number(i, "mass_g", grams, to.Digit(r), to.Scaled(r, shown));
    }

    /// <summary>The wire as the build weighs it: bent, with all that is threaded on it and stays.</summary>
    private static Shown? OfWire(BuildModel build)
    {
        (LureDesign design, Unknowns u) = (build.Design, build.Unknowns);
        if (design.Wire is null) return null;
        double bent = build.At(Stage.DryFit, Rig.Bare, Trimwright.Core.Water.WaterState.Tap).WireWeight;
        (int Unknown, double Mass)[] threaded =
        [
            .. design.Hardware.Index().Where(h => design.IsCaptive(h.Index)).Select(h => (u.Hardware(h.Index), h.Item.MassG)),
            .. design.Ballast.Index().Where(p => p.Item.OnWire).Select(p => (u.PieceMass(p.Index), p.Item.Mass)),
        ];
        return x =>
        {
            double sum = bent * u[Unknowns.WireMass].At(x[Unknowns.WireMass]);
            foreach ((int unknown, double mass) in threaded) sum += mass * u[unknown].At(x[unknown]);
            return sum;
        };
    }

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        foreach ((Thing thing, double grams) in Candidates.PartsOf(at.Design))
            if (!at.Log.Readings.Any(r => r.Kind == this && r.ThingOf(at.Design) == thing))
                yield return new(at.Empty(this) with { Thing = thing, Part = thing.NameIn(at.Design), MassG = grams }, 1, [], grams);
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Part} weighed";
}
