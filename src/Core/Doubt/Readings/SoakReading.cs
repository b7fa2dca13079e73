using System.Collections.Immutable;

namespace Trimwright.Core.Doubt;

/// <summary>Weight before and after two days under water.</summary>
internal sealed class SoakReading : ReadingKind
{
    // A good seal takes up 0.2 g on a 90 g lure in two days (common practice, no source); a gram is a leak.
    private const double Tight = 0.2;
    private const double Leaks = 1;

    public override string Word => "soak";

    internal override ReadAt At => ReadAt.UnderWater;

    internal override ImmutableArray<string> Needs => ["before_g", "after_g"];

    // It says nothing of the build's grams, only whether water gets in.
    internal override void Expect(Observations to, int i, LogReading r)
    {
    }

    internal override Flag? Alarm(int i, LogReading r) => r is { BeforeG: { } dry, AfterG: { } wet } && wet - dry > Leaks
        ? new Flag(i, "after_g", wet, dry + Tight, (wet - dry - Tight) / Tight, [new Suspect(SuspectKind.Leak, null, wet - dry)]) : null;

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage} two days under water";
}
