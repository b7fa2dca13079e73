using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Ledger;

namespace Trimwright.Core.Doubt;

/// <summary>Calipers at a station.</summary>
internal sealed class CaliperReading : ReadingKind
{
    // How well calipers are read on a curve; common practice, no source.
    private const double Mm = 0.2;

    public override string Word => "caliper";

    internal override ReadAt At => ReadAt.InAir;

    internal override ImmutableArray<string> Needs => ["x_mm"];

    internal override ImmutableArray<string> May => ["width_mm", "height_mm", "right_mm", "left_mm"];

    internal override void Check(ReadingCheck check) => check.NeedOne();

    internal override void Expect(Observations to, int i, LogReading r)
    {
        if (r.XMm is not { } at) return;
        to.Number(i, "width_mm", r.WidthMm, Mm, x => Girth(to, r, x, at) is var g ? g.Right + g.Left : 0);
        to.Number(i, "height_mm", r.HeightMm, Mm, x => Girth(to, r, x, at).Height);
        to.Number(i, "right_mm", r.RightMm, Mm, x => Girth(to, r, x, at).Right);
        to.Number(i, "left_mm", r.LeftMm, Mm, x => Girth(to, r, x, at).Left);
    }

    private static (double Right, double Left, double Height) Girth(Observations to, LogReading r, ReadOnlySpan<double> x, double at)
    {
        Sitting sitting = to.Sitting(r);
        StageShape.Scratch scratch = sitting.Rent();
        sitting.Model.Weigh(x, scratch);
        (double, double, double) girth = Calipers.Girth(scratch.Skin, at);
        sitting.Return(scratch);
        return girth;
    }

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        if (at.Stage == Stage.Blank && !at.IsDone(this))
            yield return new(at.Empty(this) with { XMm = at.Design.Body.LengthMm / 2, WidthMm = 20, HeightMm = 20 }, 3, [Instrument.Calipers, Instrument.Ruler], null);
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage} measured with calipers";
}
