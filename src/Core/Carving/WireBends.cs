using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

public enum BendKind
{
    /// <summary>Held in the pliers, cut off afterwards.</summary>
    Held,

    /// <summary>Closes the eye, as its closing says.</summary>
    Closing,

    /// <summary>Round a pin.</summary>
    Eye,

    /// <summary>Left straight.</summary>
    Leg,

    /// <summary>A tight bend over the edge of the pliers.</summary>
    Bend,
}

/// <summary>One stretch of the straight wire, or a bend at a place on it.</summary>
/// <param name="Kind">What is done with it.</param>
/// <param name="Place">Of an eye and what closes it: <c>line_tie</c>, a hanger's name or <c>tail_loop</c>.</param>
/// <param name="From">Along the wire from its front cut end, mm.</param>
/// <param name="To">The same; equal to <paramref name="From"/> at a bend.</param>
/// <param name="Amount">Of an eye its inside diameter, mm; of a bend its angle, radians, upward positive.</param>
/// <param name="Design">Of an eye and what closes it; else null.</param>
public readonly record struct WireBend(BendKind Kind, string Place, double From, double To, double Amount, EyeDesign? Design);

/// <summary>
/// The straight wire with its marks, front end to tail: what lies where before anything is bent. Its length is the developed
/// length of the ledger and of the strength figures, with what the pliers hold at each end that gets an eye.
/// </summary>
public static class WireBends
{
    // Held in the pliers while an eye is turned, then cut off; common practice, no source.
    public const double Held = 25;

    // Less than this is no bend but the run's own straightness.
    private const double LeastAngle = 0.01;

    public static ImmutableArray<WireBend> Of(WireDesign wire, WireShape shape)
    {
        var list = new Layout();
        HangPlace tie = shape.Places[0];
        AddEnd(list, wire, tie, atFront: true);
        AddRun(list, wire, shape);
        if (wire.TailLoop is not null) AddEnd(list, wire, shape.Places[^1], atFront: false);
        return list.Done();
    }

    private static void AddEnd(Layout list, WireDesign wire, HangPlace place, bool atFront)
    {
        EyeDesign eye = place.Eye;
        Action[] parts =
        [
            () => list.Add(BendKind.Held, place.Place, Held, 0),
            () =>
            {
                if (eye.Closing.Behind(eye, wire.DiameterMm) is { } behind) list.Add(BendKind.Closing, place.Place, behind.WireLength, 0, eye);
            },
            () => list.Add(BendKind.Eye, place.Place, Turn(eye, wire.DiameterMm), eye.InsideMm, eye),
        ];
        foreach (Action part in atFront ? parts : parts.Reverse()) part();
    }

    private static double Turn(EyeDesign eye, double diameter) =>
        Math.PI * (eye.InsideMm + diameter) * eye.Closing.Turn;

    private static void AddRun(Layout list, WireDesign wire, WireShape shape)
    {
        IReadOnlyList<Vec3> path = shape.Path;
        (int Segment, HangPlace Place)[] loops = [.. wire.Hangers.Where(h => h.Kind == HangerKind.Loop)
            .Select(h => shape.Places.First(p => p.Place == h.Name)).Select(p => (Nearest(path, p.At), p))];
        Vec3 way = default;
        for (int i = 1; i < path.Count; i++)
        {
            Vec3 leg = path[i] - path[i - 1];
            if (leg.Length < 1e-9) continue;
            Vec3 next = leg.Unit();
            if (way != default) AddBend(list, way, next);
            HangPlace[] here = [.. loops.Where(l => l.Segment == i).Select(l => l.Place)];
            // The loop turns in the middle of the stretch that is nearest to it.
            list.Add(BendKind.Leg, "", here.Length > 0 ? leg.Length / 2 : leg.Length, 0);
            foreach (HangPlace place in here) list.Add(BendKind.Eye, place.Place, Turn(place.Eye, wire.DiameterMm), place.Eye.InsideMm, place.Eye);
            if (here.Length > 0) list.Add(BendKind.Leg, "", leg.Length / 2, 0);
            way = next;
        }
    }

    private static void AddBend(Layout list, Vec3 from, Vec3 to)
    {
        double angle = Math.Atan2(from.X * to.Z - from.Z * to.X, from.X * to.X + from.Z * to.Z);
        if (Math.Abs(angle) > LeastAngle) list.Add(BendKind.Bend, "", 0, angle);
    }

    private static int Nearest(IReadOnlyList<Vec3> path, Vec3 at) =>
        Enumerable.Range(1, path.Count - 1).MinBy(i => (0.5 * (path[i - 1] + path[i]) - at).LengthSquared);

    private sealed class Layout
    {
        private readonly ImmutableArray<WireBend>.Builder list = ImmutableArray.CreateBuilder<WireBend>();
        private double at;

        public void Add(BendKind kind, string place, double length, double amount, EyeDesign? design = null)
        {
            // A threaded swivel parts a straight stretch in the path, not on the wire.
            bool goesOn = kind == BendKind.Leg && list.Count > 0 && list[^1].Kind == BendKind.Leg;
            if (goesOn) list[^1] = list[^1] with { To = at + length };
            else list.Add(new(kind, place, at, at + length, amount, design));
            at += length;
        }

        public ImmutableArray<WireBend> Done() => list.ToImmutable();
    }
}
