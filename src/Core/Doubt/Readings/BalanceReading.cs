using System.Collections.Immutable;
using Trimwright.Core.Box;

namespace Trimwright.Core.Doubt;

/// <summary>Where a thread loop or a knife edge balances it in air, mm from the nose.</summary>
internal sealed class BalanceReading : ReadingKind
{
    // How well the place is read; common practice, no source.
    private const double Mm = 0.7;

    public override string Word => "balance";

    internal override ReadAt At => ReadAt.InAir;

    internal override ImmutableArray<string> Needs => ["x_mm"];

    internal override void Expect(Observations to, int i, LogReading r) => to.Number(i, "x_mm", r.XMm, Mm, x => to.Weigh(r, x).Cg.X);

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        if (!at.IsDone(this))
            yield return new(at.Empty(this) with { XMm = at.Weigh(at.Empty(this), out _).Cg.X }, 2, [Instrument.Thread, Instrument.Ruler], null);
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage} balanced on a thread or knife edge";
}
