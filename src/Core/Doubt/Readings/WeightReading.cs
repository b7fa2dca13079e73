using System.Collections.Immutable;

namespace Trimwright.Core.Doubt;

/// <summary>The lure on the scale at a stage.</summary>
internal sealed class WeightReading : ReadingKind
{
    public override string Word => "weight";

    internal override ReadAt At => ReadAt.InAir;

    internal override ImmutableArray<string> Needs => ["mass_g"];

    internal override void Expect(Observations to, int i, LogReading r) =>
        to.Number(i, "mass_g", r.MassG, to.Digit(r), to.Scaled(r, x => to.Weigh(r, x).Weight));

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        if (at.IsDone(this)) yield break;
        double grams = at.Weigh(at.Empty(this), out _).Weight;
        yield return new(at.Empty(this) with { MassG = grams }, 1, [], grams);
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage}{names.Rig} weighed";

    internal override int SignOfParts(LogReading r) => 1;
}
