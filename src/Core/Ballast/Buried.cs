using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>What a drill may meet in the wood.</summary>
public enum BuriedKind
{
    Wire,
    Hanger,
    Weight,
    Pin,
    EyeSeat,
}

/// <summary>A thing in the wood with the room cut for it, as a simple solid.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Name">In the maker's words.</param>
/// <param name="Solid">Its room.</param>
public sealed record Buried(BuriedKind Kind, string Name, RoomInWood Solid)
{
    // Locating pins are bits of dowel or wire across the glue face; a file says where, not how thick: common practice, no source.
    private const double PinDiameter = 4;
    private const double PinLength = 14;

    // How far an open slot or an eye goes on outside the skin, so that no drill starts in its mouth.
    private const double Mouth = 10;

    /// <summary>Everything that lies in the wood of a finished lure.</summary>
    public static ImmutableArray<Buried> In(LureDesign design) => In(design, design.Body.Surface());

    internal static ImmutableArray<Buried> In(LureDesign design, Body body)
    {
        var list = ImmutableArray.CreateBuilder<Buried>();
        if (design.Wire is { } wire) AddWire(list, wire, body);
        foreach (BallastPiece piece in design.Ballast) list.Add(new(BuriedKind.Weight, piece.Name, RoomInWood.Of(piece)));
        foreach ((double x, double z) in design.Joint?.PinsMm ?? [])
            list.Add(new(BuriedKind.Pin, "locating pin", RoomInWood.Cylinder(new(x, 0, z), Axis.Y, PinDiameter, PinLength)));
        if (design.Eyes is not { } eyes) return list.ToImmutable();
        double side = body.SectionAt(eyes.XMm).BreadthAt(eyes.ZMm) - eyes.ThicknessMm / 2;
        foreach (int hand in (int[])[1, -1])
            list.Add(new(BuriedKind.EyeSeat, "eye seat", RoomInWood.Cylinder(new(eyes.XMm, hand * side, eyes.ZMm), Axis.Y, eyes.DiameterMm, eyes.ThicknessMm)));
        return list.ToImmutable();
    }

    private static void AddWire(ImmutableArray<Buried>.Builder list, WireDesign wire, Body body)
    {
        var shape = new WireShape(wire, body);
        // The slot is square; a round rod through its corners covers it.
        double slot = shape.SlotWidth * Math.Sqrt(2);
        for (int i = 1; i < shape.Path.Count; i++)
            list.Add(new(BuriedKind.Wire, "wire", RoomInWood.Rod(shape.Path[i - 1], shape.Path[i], slot)));
        foreach (HangPlace place in shape.Places)
        {
            Hanger? hanger = wire.Hangers.FirstOrDefault(h => h.Name == place.Place);
            BuriedKind kind = hanger is null ? BuriedKind.Wire : BuriedKind.Hanger;
            string name = hanger is null ? $"eye of the {place.Place.Replace('_', ' ')}" : $"hanger {hanger.Name}";
            AddEye(list, kind, name, place, wire.DiameterMm, shape.SlotWidth);
            if (hanger is not null) AddHanger(list, name, hanger, place, wire, body);
        }
    }

    // The turn of the eye as a ball, and behind it what is wound or doubled.
    private static void AddEye(ImmutableArray<Buried>.Builder list, BuriedKind kind, string name, HangPlace place, double diameter, double slot)
    {
        EyeDesign eye = place.Eye;
        Vec3 centre = place.At - eye.InsideMm / 2 * place.Outward, near = centre - (eye.InsideMm + diameter) / 2 * place.Outward;
        list.Add(new(kind, name, RoomInWood.Rod(centre, centre, eye.InsideMm + 2 * diameter)));
        if (eye.Closing.Behind(eye, diameter) is { } behind)
            list.Add(new(kind, name, RoomInWood.Rod(near, near - behind.Length * place.Outward, (slot + Math.Max(2 * diameter, behind.Wider)) * Math.Sqrt(2))));
    }

    private static void AddHanger(ImmutableArray<Buried>.Builder list, string name, Hanger hanger, HangPlace place, WireDesign wire, Body body)
    {
        double run = WireRun.Height(wire, body, hanger.XMm), belly = body.BellyAt(hanger.XMm);
        list.Add(new(BuriedKind.Hanger, name, hanger.Kind switch
        {
            HangerKind.Swivel => Open(),
            HangerKind.ScrewEye => Thread(),
            // Both legs of the bight, from the run to the eye.
            HangerKind.Loop => RoomInWood.Rod(new(hanger.XMm, 0, run), place.At, 2 * wire.DiameterMm + (wire.SlotWidthMm ?? wire.DiameterMm + Allowances.WireSlot) * Math.Sqrt(2)),
        }));

        RoomInWood Open()
        {
            double length = hanger.SlotMm?[0] ?? Allowances.SwivelSlotLength, width = hanger.SlotMm?[1] ?? Allowances.SwivelSlotWidth;
            double roof = run + wire.DiameterMm / 2, floor = Math.Min(belly, roof) - Mouth;
            return RoomInWood.Box(new(hanger.XMm, 0, 0.5 * (roof + floor)), new(length, width, roof - floor));
        }

        RoomInWood Thread()
        {
            double thread = Math.Min(Allowances.ScrewThread, 0.8 * (body.BackAt(hanger.XMm) - belly));
            return RoomInWood.Rod(new(hanger.XMm, 0, belly - Mouth), new(hanger.XMm, 0, belly + thread), 2 * wire.DiameterMm);
        }
    }
}
