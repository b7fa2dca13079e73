using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>The same lure mirrored, scaled, or told in another order.</summary>
internal static class RandomLureChanges
{
    public static LureDesign Mirrored(LureDesign d) => d with
    {
        Ballast = [.. d.Ballast.Select(p => p with { AtMm = [p.AtMm[0], -p.AtMm[1], p.AtMm[2]] })],
        Halves = d.Halves is { } h ? h with { RightG = h.LeftG, LeftG = h.RightG, RightWiderMm = -h.RightWiderMm } : null,
        Wire = d.Wire is { } w ? EachEye(w, MirrorEye) : null,
    };

    private static EyeDesign MirrorEye(EyeDesign eye) => eye.HangAtMm is { } at ? eye with { HangAtMm = [at[0], -at[1], at[2]] } : eye;

    private static WireDesign EachEye(WireDesign wire, Func<EyeDesign, EyeDesign> change) => wire with
    {
        LineTie = change(wire.LineTie),
        TailLoop = wire.TailLoop is { } tail ? change(tail) : null,
        Hangers = [.. wire.Hangers.Select(h => h with { Eye = change(h.Eye) })],
    };

    /// <summary>
    /// Every size written down that would else be a fixed one; without the things whose size no design file sets: a
    /// screw eye's thread, a doubled leg, how far a wire without a tail loop runs on, and the easing of a leader that floats.
    /// </summary>
    public static LureDesign WithoutFixedSizes(LureDesign d) => d with
    {
        Ballast = [.. d.Ballast.Select(p => p with { ClearanceMm = p.ClearanceMm ?? 0.5 })],
        Joint = (d.Joint ?? new JointDesign()) is var j ? j with { TackMm = j.TackThicknessMm } : null,
        Leader = d.Leader is { DensityGPerCm3: > 1.1 } ? d.Leader : null,
        Wire = d.Wire is { } w ? EachEye(w, e => e with { Closing = e.Closing == EyeClosing.Doubled ? EyeClosing.Welded : e.Closing }) with
        {
            SlotWidthMm = w.SlotWidthMm ?? w.DiameterMm + 0.4,
            TailLoop = w.TailLoop is { } tail && tail.Closing != EyeClosing.Doubled ? tail : new EyeDesign(),
            Hangers = [.. w.Hangers.Select(h => h with
            {
                Kind = h.Kind == HangerKind.ScrewEye ? HangerKind.Loop : h.Kind,
                SlotMm = h.SlotMm ?? [12, 4],
                MassG = null,
            })],
        }
        : null,
    };

    public static LureDesign Scaled(LureDesign d, double k)
    {
        double k3 = k * k * k;
        Outline Grown(Outline o) => o with
        {
            Points = [.. o.Points.Select(p => new OutlinePoint(k * p.X, k * p.Value))],
            Corners = [.. o.Corners.Select(x => k * x)],
        };
        return d with
        {
            Body = d.Body with
            {
                LengthMm = k * d.Body.LengthMm,
                Back = Grown(d.Body.Back),
                Belly = Grown(d.Body.Belly),
                Plan = Grown(d.Body.Plan),
                Section = [.. d.Body.Section.Select(f => f with { X = k * f.X, Widest = k * f.Widest })],
                NoseFace = d.Body.NoseFace is { } n
                    ? n with { CupDiameterMm = k * n.CupDiameterMm, CupDepthMm = k * n.CupDepthMm, CupAtZMm = k * n.CupAtZMm } : null,
            },
            Wire = d.Wire is { } w ? Scaled(w, k) : null,
            Ballast = [.. d.Ballast.Select(p => p with
            {
                DiameterMm = k * p.DiameterMm,
                LengthMm = k * p.LengthMm,
                WidthMm = k * p.WidthMm,
                ThicknessMm = k * p.ThicknessMm,
                AtMm = [.. p.AtMm.Select(v => k * v)],
                MassG = k3 * p.MassG,
                BoreMm = k * p.BoreMm,
                ClearanceMm = k * p.ClearanceMm,
            })],
            Finish = [.. d.Finish.Select(c => c with { ThicknessMm = k * c.ThicknessMm })],
            Hardware = [.. d.Hardware.Select(h => h with { MassG = k3 * h.MassG, LengthMm = k * h.LengthMm })],
            Leader = d.Leader is { } l ? l with { DiameterMm = k * l.DiameterMm, CarriedMm = k * l.CarriedMm } : null,
            Halves = d.Halves is { } v ? v with { RightG = k3 * v.RightG, LeftG = k3 * v.LeftG, RightWiderMm = k * v.RightWiderMm } : null,
            SoakedG = k3 * d.SoakedG,
            Joint = d.Joint is { } j ? j with { TackMm = k * j.TackMm, KerfMm = k * j.KerfMm, CleanedOffMm = k * j.CleanedOffMm, GlueLineMm = k * j.GlueLineMm } : null,
            Eyes = d.Eyes is { } y
                ? y with { DiameterMm = k * y.DiameterMm, ThicknessMm = k * y.ThicknessMm, MassG = k3 * y.MassG, XMm = k * y.XMm, ZMm = k * y.ZMm } : null,
        };
    }

    private static WireDesign Scaled(WireDesign w, double k) =>
        EachEye(w, e => e with { ZMm = k * e.ZMm, InsideMm = k * e.InsideMm, StandsOutMm = k * e.StandsOutMm }) with
        {
            DiameterMm = k * w.DiameterMm,
            Hangers = [.. w.Hangers.Select(h => h with
            {
                XMm = k * h.XMm,
                SlotMm = h.SlotMm is { } s ? [k * s[0], k * s[1]] : null,
                Eye = h.Eye with { ZMm = k * h.Eye.ZMm, InsideMm = k * h.Eye.InsideMm, StandsOutMm = k * h.Eye.StandsOutMm },
            })],
            RunMm = [.. w.RunMm.Select(p => (k * p.X, k * p.Z))],
            SlotWidthMm = k * w.SlotWidthMm,
        };

    /// <summary>Weights, hangers and hardware in another order; what hangs at one place keeps its order down the chain.</summary>
    public static LureDesign Reordered(LureDesign d, int seed)
    {
        var random = new Random(seed);
        string[] places = [.. d.Hardware.Select(h => h.HangsFrom).Distinct()];
        random.Shuffle(places);
        return d with
        {
            Ballast = Shuffled(d.Ballast, random),
            Wire = d.Wire is { } w ? w with { Hangers = Shuffled(w.Hangers, random) } : null,
            Hardware = [.. d.Hardware.OrderBy(h => Array.IndexOf(places, h.HangsFrom))],
        };
    }

    private static ImmutableArray<T> Shuffled<T>(ImmutableArray<T> items, Random random)
    {
        T[] copy = [.. items];
        random.Shuffle(copy);
        return [.. copy];
    }
}
