using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Doubt;

/// <summary>A timed drop.</summary>
internal sealed class DropReading : ReadingKind
{
    // Common practice, no source: how well a thumb stops a watch, and what of its time a drop varies by.
    private const double ThumbS = 0.15;
    private const double Share = 0.03;

    private const double UsualMm = 1000, ClockFromMm = 200;

    public override string Word => "drop";

    internal override ReadAt At => ReadAt.Falling;

    internal override ImmutableArray<string> Needs => ["depth_mm", "seconds"];

    internal override ImmutableArray<string> May => ["from_mm"];

    internal override void Check(ReadingCheck check)
    {
        if ((check.Reading.FromMm ?? 0) >= (check.Reading.DepthMm ?? double.MaxValue))
            check.Refuse("from_mm", check.Reading.FromMm ?? 0, $"less than {Sized.Key("depth_mm")}", $"The clock starts at {Sized.Key("from_mm")} and stops at {Sized.Key("depth_mm")}, both from where it was let go.");
    }

    internal override void Expect(Observations to, int i, LogReading r)
    {
        if (r.Seconds is { } seconds)
            to.Number(i, "seconds", seconds, Math.Sqrt(ThumbS * ThumbS + Share * Share * seconds * seconds), x => Time(to, r, x), flips: true);
    }

    /// <summary>From rest, let go at the top; the clock runs from one depth to another. Without a fall: for ever.</summary>
    private static double Time(Observations to, LogReading r, ReadOnlySpan<double> x)
    {
        Sitting sitting = to.Sitting(r);
        Weighed weighed = to.Weigh(r, x);
        if (sitting.FallOf(weighed, x, to.Pace) is not { } fall) return Observations.ForEver;
        var descent = new Descent([fall], fall, Falls.RestToSpeed(sitting.Falling(weighed, x), fall));
        return Units.ToSeconds(descent.TimeTo(r.DepthMm!.Value) - (r.FromMm is > 0 and { } from ? descent.TimeTo(from) : 0));
    }

    // Raw wood drinks on the way down: only what is sealed is dropped.
    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        Rig rig = at.Stage == Stage.Finished && !at.Design.Hardware.IsEmpty ? Rig.Rigged : Rig.Bare;
        if (at.Stage >= Stage.Sealed && !at.IsDone(this, rig) && Dropped(at, rig) is { } drop)
            yield return new(drop, 10, [Instrument.DeepWater, Instrument.Thermometer, Instrument.Watch, Instrument.Ruler], null);
    }

    // Null when it doesn't sink. How long it takes sets how well it can be timed.
    private LogReading? Dropped(Possibilities at, Rig rig)
    {
        LogReading drop = at.Empty(this, rig) with { DepthMm = UsualMm, FromMm = ClockFromMm, Seconds = 1 };
        if (at.Weigh(drop, out double water).Spare(water) >= 0) return null;
        double seconds = at.Shows(drop);
        return seconds < Observations.ForEver ? drop with { Seconds = seconds } : null;
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage}{names.Rig} timed in a drop";
}
