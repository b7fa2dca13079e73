using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using static Trimwright.Tests.RandomBodies;

namespace Trimwright.Tests;

/// <summary>Wire, weights and hardware for random bodies; weights are made smaller until their pockets lie in the wood.</summary>
internal static class RandomRigs
{
    public static WireDesign Wire(Random random, Body surface)
    {
        double length = surface.Length;
        EyeDesign Eye(double z) => new()
        {
            ZMm = z,
            Plane = Chance(random, 0.3) ? EyePlane.Flat : EyePlane.Upright,
            InsideMm = Round(Between(random, 3, 6)),
            StandsOutMm = Round(Between(random, 3, 6)),
            Closing = EyeClosing.All[random.Next(4)],
            Wraps = random.Next(1, 5),
        };
        double nose = surface.NoseCloses ? 0 : Round(Between(random, 0.3, 0.7) * (surface.BackAt(0) - surface.BellyAt(0)) + surface.BellyAt(0));
        double tail = surface.TailCloses ? 0 : Round(0.5 * (surface.BackAt(length) + surface.BellyAt(length)));
        int hangers = random.Next(4);
        return new WireDesign
        {
            DiameterMm = Round(Between(random, 0.9, 2)),
            LineTie = Eye(nose),
            TailLoop = Chance(random, 0.8) ? Eye(tail) : null,
            Hangers = [.. Enumerable.Range(0, hangers).Select(i => DrawHanger(random, i, length, hangers))],
            RunMm = Chance(random, 0.1) ? Run(random, surface) : [],
            SlotWidthMm = Chance(random, 0.3) ? Round(Between(random, 2, 3.5)) : null,
        };
    }

    private static Hanger DrawHanger(Random random, int i, double length, int count)
    {
        var kind = (HangerKind)random.Next(3);
        double x = Round(length * (0.25 + 0.55 * (i + Between(random, 0.2, 0.8)) / count));
        return new Hanger
        {
            Name = $"hanger {i + 1}",
            Kind = kind,
            XMm = x,
            Eye = new EyeDesign { Closing = EyeClosing.Open, InsideMm = Round(Between(random, 3, 6)), StandsOutMm = Round(Between(random, 3, 6)) },
            SlotMm = kind == HangerKind.Swivel && Chance(random, 0.5) ? [Round(Between(random, 8, 12)), Round(Between(random, 2, 4))] : null,
            MassG = kind == HangerKind.ScrewEye && Chance(random, 0.5) ? Round(Between(random, 0.4, 1.2)) : null,
        };
    }

    private static ImmutableArray<(double X, double Z)> Run(Random random, Body surface) =>
        [.. new[] { 0.15, 0.4, 0.7, 0.9 }.Select(t => t * surface.Length).Select(x => (Round(x),
            Round(surface.BellyAt(x) + Between(random, 0.4, 0.6) * (surface.BackAt(x) - surface.BellyAt(x)))))];

    public static ImmutableArray<BallastPiece> Ballast(Random random, string kind, Body surface, WireDesign? wire)
    {
        var pieces = new List<BallastPiece>();
        int count = random.Next(4);
        bool lopsided = Chance(random, 0.3);
        for (int i = 0; i < count; i++)
        {
            double t = kind is "pencil" or "popper" || Chance(random, 0.25) ? Between(random, 0.65, 0.93) : Between(random, 0.12, 0.88);
            bool threaded = wire is not null && wire.RunMm.IsEmpty && Chance(random, 0.2);
            BallastPiece? fitted = Fit(surface, pieces, DrawPiece(random, i, surface, t * surface.Length, wire, threaded, lopsided));
            if (fitted is not null) pieces.Add(fitted);
        }
        return [.. pieces];
    }

    private static BallastPiece DrawPiece(
        Random random, int i, Body surface, double x, WireDesign? wire, bool threaded, bool lopsided)
    {
        BallastForm form = BallastForm.All[random.Next(5)];
        if (threaded && (form == BallastForm.Strip || form == BallastForm.Plug)) form = BallastForm.Barrel;
        double height = surface.BackAt(x) - surface.BellyAt(x), half = surface.HalfBreadthAt(x);
        double size = Between(random, 0.25, 0.7) * Math.Min(height, 2 * half);
        double z = surface.BellyAt(x) + Between(random, 0.2, 0.55) * height, y = lopsided ? Between(random, -0.4, 0.4) * half : 0;
        if (threaded) (y, z) = (0, WireRun.Height(wire!, surface, x));
        bool weighed = Chance(random, 0.25);
        double density = new[] { 11.3, 11.3, 11.3, 7.8, 17.5, 0.22 }[random.Next(6)];
        var piece = new BallastPiece
        {
            Name = $"weight {i + 1}",
            Form = form,
            Axis = threaded ? Axis.X : form == BallastForm.Plug ? Axis.Y : (Axis)random.Next(3),
            DiameterMm = Round(size),
            LengthMm = form == BallastForm.Ball ? 0 : Round(size * Between(random, 0.7, 2.5)),
            WidthMm = form == BallastForm.Strip ? Round(size * Between(random, 0.3, 1)) : 0,
            ThicknessMm = form == BallastForm.Strip ? Round(size * Between(random, 0.15, 0.5)) : 0,
            DensityGPerCm3 = density,
            AtMm = [Round(x), Round(y), Round(z)],
            BoreMm = threaded ? Round(wire!.DiameterMm + 0.3) : 0,
            OnWire = threaded,
            ClearanceMm = Chance(random, 0.4) ? Round(Between(random, 0, 0.8)) : null,
        };
        return weighed ? piece with { MassG = Math.Max(Math.Round(piece.Mass * Between(random, 0.92, 1.05), 2), 0.01) } : piece;
    }

    private static BallastPiece? Fit(Body surface, List<BallastPiece> others, BallastPiece piece)
    {
        for (int shrink = 0; shrink < 16; shrink++)
        {
            double c = (piece.ClearanceMm ?? 0.5) + 1;
            BallastPiece pocket = Resized(piece, v => v + c);
            bool clear = others.All(o => Apart(pocket, Resized(o, v => v + (o.ClearanceMm ?? 0.5) + 1)));
            if (clear && pocket.Points().All(surface.Contains) && piece.DiameterMm > piece.BoreMm + 0.5) return piece;
            piece = Resized(piece, v => Round(0.85 * v));
            if (piece.MassG is { } mass) piece = piece with { MassG = Math.Max(Math.Round(mass * 0.614, 2), 0.01) };
            if (piece.DiameterMm < 2) return null;
        }
        return null;
    }

    private static BallastPiece Resized(BallastPiece piece, Func<double, double> size) => piece with
    {
        DiameterMm = size(piece.DiameterMm),
        LengthMm = piece.LengthMm > 0 ? Math.Max(size(piece.LengthMm), 0.2) : 0,
        WidthMm = piece.WidthMm > 0 ? Math.Max(size(piece.WidthMm), 0.2) : 0,
        ThicknessMm = piece.ThicknessMm > 0 ? Math.Max(size(piece.ThicknessMm), 0.2) : 0,
    };

    private static bool Apart(BallastPiece a, BallastPiece b)
    {
        Vec3 apart = a.Middle - b.Middle, room = 0.5 * (a.Box + b.Box);
        return Math.Abs(apart.X) > room.X || Math.Abs(apart.Y) > room.Y || Math.Abs(apart.Z) > room.Z;
    }

    public static ImmutableArray<HardwareItem> Hardware(Random random, double length, WireDesign wire)
    {
        var items = new List<HardwareItem>();
        void Item(string name, HardwareKind kind, string place, double mass, double long_) => items.Add(new HardwareItem
        {
            Name = name,
            Kind = kind,
            HangsFrom = place,
            MassG = Math.Max(Round(mass), 0.01),
            LengthMm = Math.Max(Round(long_), 0.5),
            DensityGPerCm3 = Chance(random, 0.9) ? 7.8 : 1.2,
        });
        double hook = 9 * Math.Pow(length / 185, 2);
        if (Chance(random, 0.6)) Item("ring", HardwareKind.SplitRing, "line_tie", Between(random, 0.3, 1.5), 9);
        foreach (string place in wire.Hangers.Select(h => h.Name).Concat(wire.TailLoop is null ? [] : ["tail_loop"]))
        {
            if (Chance(random, 0.2)) continue;
            if (Chance(random, 0.7)) Item("ring", HardwareKind.SplitRing, place, Between(random, 0.3, 1.5), 10);
            Item("hook", HardwareKind.Treble, place, hook * Between(random, 0.3, 1.1), 45 * length / 185);
        }
        return [.. items];
    }
}
