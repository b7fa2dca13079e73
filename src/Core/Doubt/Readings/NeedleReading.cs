using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>Where one needle holds it level under water, mm from the nose.</summary>
internal sealed class NeedleReading : ReadingKind
{
    // Common practice, no source: how well the place is read, mm; and with so little lift or weight to hold nobody reads it, g.
    private const double Mm = 0.6;
    private const double LeastG = 1;

    public override string Word => "needle";

    internal override ReadAt At => ReadAt.UnderWater;

    internal override ImmutableArray<string> Needs => ["x_mm"];

    internal override void Expect(Observations to, int i, LogReading r) => to.Number(i, "x_mm", r.XMm, Mm, x => Place(to, r, x));

    // A needle at x holds it level when it pushes down, or a thread up, where the lift less the weight acts. With hardly any
    // of either that place runs away to both sides, and nobody reads it: from there on it goes with the moment about what was read.
    private static double Place(Observations to, LogReading r, ReadOnlySpan<double> x)
    {
        Weighed w = to.Weigh(r, x);
        double water = r.Water.Density - Units.AirDensity, spare = w.Spare(water), read = r.XMm ?? 0;
        double moment = water * w.VolumeMoment.X - w.WeightMoment.X - read * spare;
        return read + moment / Math.CopySign(Math.Max(Math.Abs(spare), LeastG), spare);
    }

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        if (!at.IsDone(this))
            yield return new(at.Empty(this) with { XMm = at.Weigh(at.Empty(this), out _).Cb.X }, 5, [Instrument.Needle, Instrument.Tub, Instrument.Ruler], null);
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage} held level by a needle under water";
}
