using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Ledger;

namespace Trimwright.Core.Doubt;

/// <summary>Boards of the wood, measured and weighed.</summary>
internal sealed class BoardsReading : ReadingKind
{
    // Boards are not quite what a ruler says of them; common practice, no source.
    private const double Share = 0.02;

    public override string Word => "boards";

    internal override ReadAt At => ReadAt.InAir;

    internal override ImmutableArray<string> Needs => ["mass_g"];

    internal override void Check(ReadingCheck check) =>
        check.Need(check.Reading.SizeMm is not null, "size_mm", "[length, width, thickness of all boards laid on one another]");

    internal override void Expect(Observations to, int i, LogReading r)
    {
        if (r is not { SizeMm: { } size, MassG: { } grams }) return;
        double box = size[0] * size[1] * size[2];
        to.Number(i, "mass_g", grams, Share * grams, x => box * to.WoodDensity(x));
    }

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        if (at.Stage != Stage.Blank || at.IsDone(this)) yield break;
        double grams = Candidates.BoardsCm3 * at.Design.Wood.DensityGPerCm3;
        yield return new(at.Empty(this) with { SizeMm = Candidates.BoardsMm, MassG = grams }, 3, [Instrument.Ruler], grams);
    }

    internal override string Said(LogReading r, ReadingNames names) => "boards measured and weighed";
}
