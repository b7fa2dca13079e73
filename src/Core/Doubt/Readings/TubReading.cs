using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>How it sat in the tub.</summary>
internal sealed class TubReading : ReadingKind
{
    // Common practice, no source: how far a word for the heel reaches, degrees, and how well a mark on a back is read, mm.
    private const double HeelDeg = 5;
    private const double MarkMm = 1;

    public override string Word => "tub";

    internal override ReadAt At => ReadAt.Afloat;

    internal override ImmutableArray<string> May => ["trim_deg", "nose_out_mm", "tail_out_mm", "waterline_back_mm", "waterline_belly_mm", "back_proud_mm"];

    internal override void Check(ReadingCheck check) => check.NeedOne(orElse: check.Reading.Sat is not null);

    internal override void Expect(Observations to, int i, LogReading r)
    {
        Shown air = to.Bubbles(i, r), pull = to.Clings(i, r);
        double? near = r.TrimDeg is { } t ? Units.FromDegrees(t) : r.Sat is { } sat ? Sits.Typical(sat) : null;
        // One pose serves every mark of a reading: they are asked for one after the other.
        var last = new ThreadLocal<(double[] X, Posture Posture)>();
        Posture Pose(ReadOnlySpan<double> x)
        {
            if (last.Value.X is { } known && x.SequenceEqual(known)) return last.Value.Posture;
            Posture posture = to.Posed(r, x, new Extra(0, 0, default, air(x), pull(x)), near, r.Sat);
            last.Value = ([.. x], posture);
            return posture;
        }
        void Mark(string key, double? read, double sd, Func<Posture, double> of) => to.Number(i, key, read, sd, x => of(Pose(x)), flips: true);
        Mark("trim_deg", r.TrimDeg, Observations.TrimDeg, p => Units.ToDegrees(p.Trim));
        Mark("nose_out_mm", r.NoseOutMm, MarkMm, p => p.NoseShowsAlong);
        Mark("tail_out_mm", r.TailOutMm, MarkMm, p => p.TailShowsAlong);
        Mark("waterline_back_mm", r.WaterlineBackMm, MarkMm, p => p.WaterlineBack ?? 0);
        Mark("waterline_belly_mm", r.WaterlineBellyMm, MarkMm, p => p.WaterlineBelly ?? 0);
        Mark("back_proud_mm", r.BackProudMm, MarkMm, p => p.BackProud);
        // Back up, on its side, belly up: the word's own part, beside a trim in degrees.
        if (r is { Sat: { } side, TrimDeg: not null })
            to.Number(i, "sat", 0, HeelDeg, x => Pose(x) is var p && p.HeelIsFree ? 0 : Units.ToDegrees(Sits.HeelOff(side, p.Plane.N)), flips: true, hinge: true);
        // In one word only: the middle of what the word covers, give or take its width.
        if (r is { Sat: { } word, TrimDeg: null }) Mark("sat", Units.ToDegrees(Sits.Typical(word)), Sits.WidthDeg, p => Units.ToDegrees(p.Trim));
    }

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        foreach (Possibilities.Afloat afloat in at.Floating())
            if (!at.IsDone(this, afloat.Rig))
                yield return new(Lying(at, at.Empty(this, afloat.Rig)) with { Soap = true }, afloat.Rig == Rig.Bare ? 5 : 15, afloat.Takes, null);
    }

    // A tub reading's slopes are those of the rest that it is read at.
    private static LogReading Lying(Possibilities at, LogReading tub)
    {
        Posture rest = at.Rest(tub);
        return tub with { TrimDeg = Units.ToDegrees(rest.Trim), NoseOutMm = rest.NoseShowsAlong };
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage}{(names.Rig.Length == 0 ? ", bare" : names.Rig)} in the tub";
}
