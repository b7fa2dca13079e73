using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>What must hold for any lure at all; each check gives a sentence for every breach it finds.</summary>
internal static class RandomLureProperties
{
    private static string Say(FormattableString sentence) => FormattableString.Invariant(sentence);

    public static IEnumerable<string> Finite(Draw draw, Prediction p)
    {
        _ = draw;
        foreach (Part part in p.Ledger.Parts)
            if (!double.IsFinite(part.Mass) || !part.MassMoment.IsFinite || !double.IsFinite(part.Displaces) || !part.VolumeMoment.IsFinite || !part.Spread.IsFinite)
                yield return $"{part.Name} is not finite";
        foreach (Posture posture in p.Postures)
        {
            double[] numbers =
            [
                posture.Trim, posture.Heel ?? 0, posture.Submerged, posture.Energy, posture.Draft, posture.NoseShows, posture.TailShows,
                posture.NoseShowsAlong, posture.TailShowsAlong, posture.WaterlineBack ?? 0, posture.WaterlineBelly ?? 0,
                posture.BackProud, posture.WettedArea, posture.Plane.D,
            ];
            if (!numbers.All(double.IsFinite) || !posture.Plane.N.IsFinite || double.IsNaN(posture.Barrier)) yield return $"a posture is not finite: {posture}";
        }
        if (p.Tipping is not { } tipping) yield break;
        if (!double.IsFinite(tipping.HeelGm) || !double.IsFinite(tipping.TrimGm) || tipping.RollPeriod is { } t && !double.IsFinite(t)
            || !tipping.Curve.All(c => double.IsFinite(c.Arm)))
            yield return $"tipping is not finite: {tipping}";
    }

    /// <summary>Archimedes, On Floating Bodies I, prop. 5; moments as in any statics.</summary>
    public static IEnumerable<string> InBalance(Draw draw, Prediction p)
    {
        if (p.SpareBuoyancy <= 0) yield break;
        double water = draw.Circumstances.Water.Density - Units.AirDensity;
        foreach (Posture posture in p.Postures)
        {
            Statics.Sum sum = Statics.Of(p.Ledger, water, posture.Plane, p.Body.Middle);
            if (Math.Abs(sum.Lift) > 1e-9 * sum.Weight) yield return Say($"lift less weight is {sum.Lift:E2} g of {sum.Weight:F2} g");
            if (Math.Abs(water * posture.Submerged - sum.Weight) > 1e-9 * sum.Weight)
                yield return Say($"water × submerged is {water * posture.Submerged:R} g, weight {sum.Weight:R} g");
            // One that rolls freely is shown back up, where its mesh may still ripple.
            double moment = posture.HeelIsFree ? Math.Abs(sum.Moment.Y) : sum.Moment.Length;
            if (moment > 1e-9 * sum.Weight * p.Body.Reach)
                yield return Say($"moment is {moment / (sum.Weight * p.Body.Reach):E2} of weight × reach at {Describe(posture)}");
        }
    }

    /// <summary>What a floating lure displaces weighs the same in any water.</summary>
    public static IEnumerable<string> SameInAnyWater(Draw draw, Prediction p)
    {
        Rig rig = draw.Circumstances.Rig == Rig.StandIns ? Rig.Bare : draw.Circumstances.Rig;
        // Only stand-ins are made for a water; all else weighs what it weighs.
        WeightLedger ledger = rig == draw.Circumstances.Rig ? p.Ledger
            : Bookkeeper.Of(draw.Design, draw.Circumstances.Stage, rig, draw.Circumstances.Water.Density - Units.AirDensity, draw.Circumstances.Mesh);
        foreach ((string name, WaterState state) in WaterState.Named)
        {
            double water = state.Density - Units.AirDensity;
            var body = new FloatingBody(ledger, water);
            if (body.SpareBuoyancy <= 0) continue;
            double displaced = water * Equilibrium.Afloat(body, p.Posture.Plane.N).Submerged;
            double weight = ledger.Weight + (ledger.Leader?.Mass ?? 0);
            if (Math.Abs(displaced - weight) > 1e-9 * weight) yield return Say($"in {name} it displaces {displaced:R} g, weighing {weight:R} g");
        }
    }

    public static IEnumerable<string> MirrorGivesMirror(Draw draw, Prediction p)
    {
        Prediction m = Prediction.Of(RandomLureChanges.Mirrored(draw.Design), draw.Circumstances);
        if (Math.Abs(m.Ledger.Weight - p.Ledger.Weight) > 1e-12 * p.Ledger.Weight || Math.Abs(m.Ledger.Volume - p.Ledger.Volume) > 1e-12 * p.Ledger.Volume)
            yield return Say($"weight {p.Ledger.Weight:R} → {m.Ledger.Weight:R}, volume {p.Ledger.Volume:R} → {m.Ledger.Volume:R}");
        if (Counted(m) is var there && (there.Least > Counted(p).Most || there.Most < Counted(p).Least))
            yield return $"{p.Postures.Length} postures, mirrored {m.Postures.Length}: {Describe(p)} | {Describe(m)}";
        else if (p.Postures.FirstOrDefault(a => !IsMarginal(p, a) && !m.Postures.Any(b => Mirrors(p, a, b))) is { } lone)
            yield return $"{Describe(lone)} has no mirror in {Describe(m)}";
    }

    // A posture whose way out is as high as the limit between one and two may count or not.
    private static bool IsMarginal(Prediction p, Posture posture) =>
        posture.Barrier < 1.1 * Units.Gravity * RestSearch.Indifferent * p.Body.Weight;

    private static (int Least, int Most) Counted(Prediction p) =>
        (p.Postures.Count(q => !IsMarginal(p, q)), p.Postures.Length);

    private static bool Mirrors(Prediction p, Posture a, Posture b)
    {
        Vec3 n = a.Plane.N, m = b.Plane.N, mirrored = n with { Y = -n.Y };
        if (a.HeelIsFree || b.HeelIsFree) return a.HeelIsFree == b.HeelIsFree && Math.Abs(a.Trim - b.Trim) < 1e-3;
        if ((mirrored - m).Length < 1e-5) return true;
        // Of twins, or of a rest so soft that either side is one with it, the same side is shown on both.
        double tie = p.SpareBuoyancy > 0 ? Equilibrium.Afloat(p.Body, mirrored).Energy - Equilibrium.Afloat(p.Body, n).Energy : double.MaxValue;
        return Math.Abs(tie) < RestSearch.Indifferent * p.Body.Weight
            && new Vec3(Math.Abs(n.X) - Math.Abs(m.X), Math.Abs(n.Y) - Math.Abs(m.Y), Math.Abs(n.Z) - Math.Abs(m.Z)).Length < 0.01;
    }

    /// <summary>All lengths by k and all masses by k³: volumes and weights by k³, the same angles.</summary>
    public static IEnumerable<string> ScalesByTheCube(Draw draw, params double[] times)
    {
        Circumstances circumstances = draw.Circumstances with { Rig = draw.Circumstances.Rig == Rig.StandIns ? Rig.Bare : draw.Circumstances.Rig };
        LureDesign small = RandomLureChanges.WithoutFixedSizes(draw.Design);
        double water = circumstances.Water.Density - Units.AirDensity;
        WeightLedger a = Bookkeeper.Of(small, circumstances.Stage, circumstances.Rig, water, circumstances.Mesh);
        var bodyA = new FloatingBody(a, water);
        Equilibrium.Found? rest = bodyA.SpareBuoyancy <= 1e-6 * bodyA.Weight ? null : Equilibrium.Descend(bodyA, Vec3.UnitZ.Turned(Vec3.UnitX, 0.3));
        foreach (double k in times)
            foreach (string breach in ScalesByTheCube(draw, circumstances, small, a, bodyA, rest, k)) yield return breach;
    }

    private static IEnumerable<string> ScalesByTheCube(
        Draw draw, Circumstances circumstances, LureDesign small, WeightLedger a, FloatingBody bodyA, Equilibrium.Found? found, double k)
    {
        double water = circumstances.Water.Density - Units.AirDensity, k3 = k * k * k;
        WeightLedger b = Bookkeeper.Of(RandomLureChanges.Scaled(small, k), circumstances.Stage, circumstances.Rig, water, circumstances.Mesh);
        if (Math.Abs(b.Weight / a.Weight / k3 - 1) > 1e-9 || Math.Abs(b.Volume / a.Volume / k3 - 1) > 1e-9)
            yield return Say($"× {k}: weight {a.Weight:R} → {b.Weight / k3:R} k³, volume {a.Volume:R} → {b.Volume / k3:R} k³, differing in ")
                + string.Join(", ", a.Parts.Zip(b.Parts).Where(z => Math.Abs(z.First.Mass - z.Second.Mass / k3) > 1e-9).Select(z => Say($"{z.First.Name} {z.First.Mass} → {z.Second.Mass / k3}")));
        if ((b.Cg / k - a.Cg).Length > 1e-8 * draw.Design.Body.LengthMm) yield return Say($"× {k}: CG {a.Cg} → {b.Cg / k} k");
        if (found is not { } rest) yield break;
        Equilibrium.Found there = Equilibrium.Descend(new FloatingBody(b, water), rest.Balance.N);
        // A body that hardly resists turning answers a rounding with an angle.
        double stiff = Math.Max(Softest(rest.Balance) / (bodyA.Weight * bodyA.Reach), 1e-4);
        if (Vec3.Angle(rest.Balance.N, there.Balance.N) > 1e-9 / stiff)
            yield return Say($"× {k}: turned by {Units.ToDegrees(Vec3.Angle(rest.Balance.N, there.Balance.N)):E2}°");
    }

    private static double Softest(in Balance b)
    {
        (double h11, double h12, double h22) = b.Curvature;
        return 0.5 * (h11 + h22) - Math.Sqrt(0.25 * (h11 - h22) * (h11 - h22) + h12 * h12);
    }

    public static IEnumerable<string> OrderOfPartsIsIrrelevant(Draw draw, Prediction p)
    {
        LureDesign shuffled = RandomLureChanges.Reordered(draw.Design, draw.Seed);
        double water = draw.Circumstances.Water.Density - Units.AirDensity;
        WeightLedger a = p.Ledger, b = Bookkeeper.Of(shuffled, draw.Circumstances.Stage, draw.Circumstances.Rig, water, draw.Circumstances.Mesh);
        double length = draw.Design.Body.LengthMm;
        if (Math.Abs(a.Weight - b.Weight) > 1e-12 * a.Weight || Math.Abs(a.Volume - b.Volume) > 1e-12 * a.Volume
            || (a.Cg - b.Cg).Length > 1e-12 * length || (a.Cb - b.Cb).Length > 1e-12 * length)
            yield return Say($"weight by {b.Weight - a.Weight:E2} g, volume by {b.Volume - a.Volume:E2} mm³, CG by {(a.Cg - b.Cg).Length:E2} mm, CB by {(a.Cb - b.Cb).Length:E2} mm");
    }

    /// <summary>From stage to stage only what is put on or taken off changes; the whole is the sum of its lines.</summary>
    public static IEnumerable<string> BooksBalance(Draw draw, Prediction p)
    {
        double water = draw.Circumstances.Water.Density - Units.AirDensity;
        WeightLedger At(Stage stage) => Bookkeeper.Of(draw.Design, stage, Rig.Bare, water, draw.Circumstances.Mesh);
        WeightLedger[] stages = [.. Enum.GetValues<Stage>().Select(At)];
        foreach (WeightLedger ledger in stages.Append(p.Ledger))
        {
            double outside = ledger.SkinProperties.Volume + ledger.Lumps.Sum(l => l.Volume) + ledger.Chains.Sum(c => c.Volume);
            if (Math.Abs(outside - ledger.Volume) > 1e-11 * outside) yield return Say($"{ledger.Stage}: lines displace {ledger.Volume:R}, skin and all {outside:R} mm³");
        }
        for (int i = 1; i < stages.Length; i++)
        {
            var before = stages[i - 1].Parts.ToHashSet();
            Part[] added = [.. stages[i].Parts.Where(part => !before.Remove(part))];
            double mass = stages[i - 1].Weight + added.Sum(x => x.Mass) - before.Sum(x => x.Mass);
            if (Math.Abs(mass - stages[i].Weight) > 1e-11 * mass) yield return Say($"{stages[i].Stage} weighs {stages[i].Weight:R} g, the books say {mass:R} g");
            if (before.Count > 0) yield return $"{stages[i].Stage}: lines changed after the fact: {string.Join(", ", before.Select(x => x.Name))}";
        }
        double soaked = stages[(int)Stage.Sealed].Weight - stages[(int)Stage.Glued].Weight;
        if (Math.Abs(soaked - draw.Design.SoakedG) > 1e-10) yield return Say($"sealing adds {soaked} g, the design says {draw.Design.SoakedG} g");
        double spare = water * p.Body.Volume - p.Body.Weight;
        double lines = water * (p.Ledger.Volume + (p.Ledger.Leader?.Volume ?? 0)) - p.Ledger.Weight - (p.Ledger.Leader?.Mass ?? 0);
        if (Math.Abs(spare - lines) > 1e-10 * p.Body.Weight || spare != p.SpareBuoyancy) yield return Say($"spare buoyancy {p.SpareBuoyancy:R} g, by the lines {lines:R} g");
        if (p.SpareBuoyancy > 0 != p.Postures[0].Submerged < p.Body.Volume) yield return Say($"spare {p.SpareBuoyancy} g but {p.Postures[0].Submerged} of {p.Body.Volume} mm³ under");
    }

    public static string Describe(Prediction p) => $"[{string.Join("; ", p.Postures.Select(Describe))}]";

    public static string Describe(Posture q) =>
        Say($"trim {Units.ToDegrees(q.Trim):F3}° heel {(q.Heel is { } h ? Units.ToDegrees(h) : double.NaN):F3}° E {q.Energy / Units.Gravity:F4} g·mm out {q.Barrier / Units.Gravity:F4}")
        + (q.Mirror ? " twin" : "") + (q.HeelIsFree ? " free" : "");
}
