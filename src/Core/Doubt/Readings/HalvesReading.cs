using System.Collections.Immutable;

namespace Trimwright.Core.Doubt;

/// <summary>Left and right half after splitting and cleaning, before anything is cut into them.</summary>
internal sealed class HalvesReading : ReadingKind
{
    public override string Word => "halves";

    internal override ReadAt At => ReadAt.InAir;

    internal override ImmutableArray<string> Needs => ["right_g", "left_g"];

    internal override void Expect(Observations to, int i, LogReading r)
    {
        to.Number(i, "right_g", r.RightG, to.Digit(r), to.Scaled(r, x => to.Half(x, right: true)));
        to.Number(i, "left_g", r.LeftG, to.Digit(r), to.Scaled(r, x => to.Half(x, right: false)));
    }

    internal override string Said(LogReading r, ReadingNames names) => "halves weighed";
}
