using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>By how much a small weight taped on turns it.</summary>
internal sealed class IncliningReading : ReadingKind
{
    // Taped on for a tilt: a hundredth of its displacement, at a quarter of its length before the tail.
    private const double TapedShare = 0.01, TapedAt = 0.75;

    public override string Word => "inclining";

    internal override ReadAt At => ReadAt.Afloat;

    internal override ImmutableArray<string> Needs => ["mass_g", "x_mm", "z_mm", "turned_deg"];

    internal override void Expect(Observations to, int i, LogReading r)
    {
        if (r is not { MassG: { } grams, XMm: { } x0, ZMm: { } z0, TurnedDeg: { } turned }) return;
        Shown pull = to.Clings(i, r);
        // Lead, tape and all.
        var taped = new Extra(grams, grams / 11.3e-3, new Vec3(x0, 0, z0), 0, 0);
        // One trim less another.
        to.Number(i, "turned_deg", turned, 1.4 * Observations.TrimDeg, x =>
            Units.ToDegrees(to.Posed(r, x, taped with { Pull = pull(x) }, null).Trim - to.Posed(r, x, new Extra(0, 0, default, 0, pull(x)), null).Trim), flips: true);
    }

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        foreach (Possibilities.Afloat afloat in at.Floating())
        {
            double gram = Math.Max(1, Math.Round(TapedShare * afloat.Displaced));
            if (!at.IsDone(this, afloat.Rig))
                yield return new(Taped(at, afloat.Rig, gram), afloat.Rig == Rig.Bare ? 8 : 18, [.. afloat.Takes.Union([Instrument.Lead, Instrument.Ruler])], gram);
        }
    }

    private LogReading Taped(Possibilities at, Rig rig, double grams)
    {
        double x = TapedAt * at.Design.Body.LengthMm;
        double back = at.Design.Body.Back.Points.MinBy(p => Math.Abs(p.X - x)).Value;
        return at.Empty(this, rig) with { MassG = grams, XMm = x, ZMm = back, TurnedDeg = 0, Soap = true };
    }

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage}{names.Rig} turned by a weight taped on";
}
