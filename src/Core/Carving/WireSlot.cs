using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

/// <summary>A straight groove of one width in the glue face, half its depth in each half.</summary>
/// <param name="FromX">mm.</param>
/// <param name="FromZ">mm.</param>
/// <param name="ToX">mm.</param>
/// <param name="ToZ">mm.</param>
/// <param name="Width">mm.</param>
public readonly record struct Groove(double FromX, double FromZ, double ToX, double ToZ, double Width)
{
    /// <summary>Distance in the glue face from a point to its edge, mm; negative inside.</summary>
    public double DistanceTo(double x, double z)
    {
        double dx = ToX - FromX, dz = ToZ - FromZ, length2 = dx * dx + dz * dz;
        double t = length2 > 0 ? Math.Clamp(((x - FromX) * dx + (z - FromZ) * dz) / length2, 0, 1) : 0;
        return double.Hypot(x - FromX - t * dx, z - FromZ - t * dz) - Width / 2;
    }
}

/// <summary>The groove behind an eye for what closes it.</summary>
/// <param name="Name">What it is called: "wrap groove".</param>
/// <param name="Cut">Where it lies.</param>
/// <param name="Depth">In each half, mm.</param>
public readonly record struct EyeGroove(string Name, Groove Cut, double Depth);

/// <summary>An eye's turn in the glue face: a ring-shaped groove, of which only the part in the wood is cut.</summary>
/// <param name="Place">Whose.</param>
/// <param name="X">Its centre, mm.</param>
/// <param name="Z">mm.</param>
/// <param name="Radius">Of the wire's middle line, mm.</param>
/// <param name="Flat">The eye lies square to the glue face, which sees its edge only.</param>
public readonly record struct EyeRing(string Place, double X, double Z, double Radius, bool Flat);

/// <summary>An open slot for a swivel, from the belly up to the wire.</summary>
/// <param name="Name">Of the hanger.</param>
/// <param name="From">mm from the nose.</param>
/// <param name="To">mm from the nose.</param>
/// <param name="Roof">Height to which it is cut, mm.</param>
/// <param name="Width">Across both halves, mm; half of it in each.</param>
public readonly record struct SwivelSlot(string Name, double From, double To, double Roof, double Width);

/// <summary>What is cut into both glue faces for the wire.</summary>
/// <param name="Run">The wire's middle line in the glue face, (x, z) mm, from eye to eye.</param>
/// <param name="Width">Of the slot; half its depth in each half.</param>
/// <param name="Wraps">Wider grooves for what closes the eyes.</param>
/// <param name="Eyes">Turns of the eyes.</param>
/// <param name="Swivels">Open slots.</param>
public sealed record WireSlot(
    ImmutableArray<(double X, double Z)> Run, double Width, ImmutableArray<EyeGroove> Wraps, ImmutableArray<EyeRing> Eyes, ImmutableArray<SwivelSlot> Swivels)
{
    public static WireSlot Of(WireDesign wire, Body body, WireShape shape)
    {
        HangPlace[] eyes = [.. shape.Places.Where(p => IsLoop(wire, p.Place))];
        return new([.. shape.Path.Select(p => (p.X, p.Z))], shape.SlotWidth,
            [.. eyes.Select(p => Wrap(p, wire.DiameterMm, shape.SlotWidth)).OfType<EyeGroove>()],
            [.. eyes.Select(p => Ring(p, wire.DiameterMm))],
            [.. wire.Hangers.Where(h => h.Kind == HangerKind.Swivel).Select(h => Slot(wire, body, h))]);
    }

    // The line tie and the tail loop are loops; a hanger may be something else.
    private static bool IsLoop(WireDesign wire, string place) =>
        wire.Hangers.FirstOrDefault(h => h.Name == place) is not { } hanger || hanger.Kind == HangerKind.Loop;

    private static EyeRing Ring(HangPlace place, double diameter)
    {
        Vec3 centre = place.At - place.Eye.InsideMm / 2 * place.Outward;
        return new(place.Place, centre.X, centre.Z, (place.Eye.InsideMm + diameter) / 2, place.Eye.Plane == EyePlane.Flat);
    }

    private static EyeGroove? Wrap(HangPlace place, double diameter, double slot)
    {
        EyeRing ring = Ring(place, diameter);
        if (place.Eye.Closing.Behind(place.Eye, diameter) is not { } behind) return null;
        Vec3 leg = new Vec3(ring.X, 0, ring.Z) - ring.Radius * place.Outward, end = leg - behind.Length * place.Outward;
        return new(place.Eye.Closing.Groove, new(leg.X, leg.Z, end.X, end.Z, slot + behind.Wider), (slot + behind.Deeper) / 2);
    }

    private static SwivelSlot Slot(WireDesign wire, Body body, Hanger hanger)
    {
        double length = hanger.SlotMm?[0] ?? Allowances.SwivelSlotLength, width = hanger.SlotMm?[1] ?? Allowances.SwivelSlotWidth;
        return new(hanger.Name, Math.Max(hanger.XMm - length / 2, 0), Math.Min(hanger.XMm + length / 2, body.Length),
            WireRun.Height(wire, body, hanger.XMm) + wire.DiameterMm / 2, width);
    }

    /// <summary>The run's straight pieces.</summary>
    public IEnumerable<Groove> Legs()
    {
        for (int i = 1; i < Run.Length; i++) yield return new(Run[i - 1].X, Run[i - 1].Z, Run[i].X, Run[i].Z, Width);
    }

    /// <summary>Distance in the glue face from a point to anything cut for the wire, mm.</summary>
    public double DistanceTo(double x, double z)
    {
        double nearest = Legs().Concat(Wraps.Select(w => w.Cut)).Select(g => g.DistanceTo(x, z)).DefaultIfEmpty(double.MaxValue).Min();
        foreach (EyeRing eye in Eyes) nearest = Math.Min(nearest, double.Hypot(x - eye.X, z - eye.Z) - eye.Radius - Width / 2);
        foreach (SwivelSlot s in Swivels)
        {
            double dx = Math.Max(Math.Max(s.From - x, x - s.To), 0), dz = Math.Max(z - s.Roof, 0);
            nearest = Math.Min(nearest, double.Hypot(dx, dz));
        }
        return nearest;
    }
}
