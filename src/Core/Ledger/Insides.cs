using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ledger;

/// <summary>
/// What goes into the wood: wire in its slot, weights in their pockets, the slots of swivels that stay open; the wood
/// that is cut for them, and the filler round them once glued.
/// </summary>
internal sealed class Insides(LureDesign design, Body body, WireShape? wire, double wood)
{
    private readonly double filler = Units.FromGramsPerCm3((design.Joint ?? new JointDesign()).FillerDensityGPerCm3);

    // Filled gaps: volume, mm³, and its moment.
    private double gap;
    private Vec3 gapMoment;

    public void AddTo(List<Part> parts, List<Lump> lumps, bool filled)
    {
        foreach (BallastPiece piece in design.Ballast) AddPiece(parts, piece);
        if (design.Wire is { } described && wire is not null)
        {
            double inSlots = 0;
            foreach (Hanger hanger in described.Hangers)
            {
                if (hanger.Kind == HangerKind.Swivel) inSlots += AddSlot(parts, lumps, described, hanger);
                if (hanger.Kind == HangerKind.ScrewEye) AddScrewEye(parts, lumps, described, hanger);
            }
            AddWire(parts, lumps, described, inSlots);
        }
        if (filled && gap > 0)
            parts.Add(new Part(PartGroup.Glue, "filler in slots and pockets", filler * gap, filler * gapMoment, 0, Vec3.Zero, Vec3.Zero));
    }

    private void AddPiece(List<Part> parts, BallastPiece piece)
    {
        double mass = piece.Mass;
        parts.Add(Part.At(PartGroup.Ballast, piece.Name, mass, piece.Middle, 0, mass * piece.Spread));
        Cut(parts, $"wood cut for {piece.Name}", piece.Pocket, piece.Middle);
        double threaded = piece.OnWire && design.Wire is { } w ? Solids.Cylinder(w.DiameterMm, piece.Along) : 0;
        Fill(Math.Max(piece.Pocket - piece.Stuff - threaded, 0), piece.Middle);
    }

    /// <summary>A swivel's slot stays open to the water; returns the length of wire that lies in it, mm.</summary>
    private double AddSlot(List<Part> parts, List<Lump> lumps, WireDesign described, Hanger hanger)
    {
        double length = hanger.SlotMm?[0] ?? Allowances.SwivelSlotLength, width = hanger.SlotMm?[1] ?? Allowances.SwivelSlotWidth;
        double top = Math.Min(WireShape.RunHeight(described, body, hanger.XMm) + described.DiameterMm / 2, body.BackAt(hanger.XMm));
        double bottom = body.BellyAt(hanger.XMm);
        double depth = top - bottom;
        if (depth <= 0) return 0;
        Vec3 middle = new(hanger.XMm, 0, (top + bottom) / 2);
        double cut = length * width * depth;
        double wireThrough = Solids.Cylinder(described.DiameterMm, length);
        double water = Math.Max(cut - wireThrough, 0);
        parts.Add(Part.At(PartGroup.Wood, $"open slot at {hanger.Name}", -wood * cut, middle, -water));
        lumps.Add(new Lump(middle, -water, Math.Max(depth, width)));
        return length;
    }

    private void AddScrewEye(List<Part> parts, List<Lump> lumps, WireDesign described, Hanger hanger)
    {
        double density = Units.FromGramsPerCm3(described.DensityGPerCm3);
        double turn = Math.PI * (hanger.Eye.InsideMm + described.DiameterMm);
        double thread = Math.Min(Allowances.ScrewThread, 0.8 * (body.BackAt(hanger.XMm) - body.BellyAt(hanger.XMm)));
        double area = Solids.Cylinder(described.DiameterMm, 1);
        double mass = hanger.MassG ?? density * area * (turn + thread);
        double volume = mass / density, inside = volume * thread / (turn + thread);
        double belly = body.BellyAt(hanger.XMm);
        Vec3 shank = new(hanger.XMm, 0, belly + thread / 2), eye = new(hanger.XMm, 0, belly - hanger.Eye.StandsOutMm / 2);
        double inWood = inside / volume;
        double outside = volume - inside;
        parts.Add(new Part(PartGroup.Wire, $"screw eye at {hanger.Name}", mass, mass * (inWood * shank + (1 - inWood) * eye), outside, outside * eye, Vec3.Zero));
        Cut(parts, $"wood cut for {hanger.Name}", inside, shank);
        lumps.Add(new Lump(eye, outside, Math.Max(hanger.Eye.StandsOutMm, 1)));
    }

    private void AddWire(List<Part> parts, List<Lump> lumps, WireDesign described, double inSlots)
    {
        double area = Solids.Cylinder(described.DiameterMm, 1);
        double density = Units.FromGramsPerCm3(described.DensityGPerCm3);
        double outsideLength = wire!.Outside.Values.Sum(o => o.Length);
        Vec3 outsideMoment = wire.Outside.Values.Aggregate(Vec3.Zero, (sum, o) => sum + o.Moment);
        Vec3 centre = wire.Moment / wire.Length;
        Vec3 spread = density * area * (wire.SecondMoment
            - wire.Length * new Vec3(centre.X * centre.X, centre.Y * centre.Y, centre.Z * centre.Z));
        parts.Add(new Part(PartGroup.Wire, "wire", density * area * wire.Length, density * area * wire.Moment,
            area * outsideLength, area * outsideMoment, spread));
        foreach ((string place, (double length, Vec3 moment)) in wire.Outside)
        {
            EyeDesign eye = wire.Places.First(p => p.Place == place).Eye;
            lumps.Add(new Lump(moment / length, area * length, Math.Max(eye.StandsOutMm, described.DiameterMm)));
        }
        // Bored pieces and open slots have taken their share of the wood along the wire already.
        double threaded = design.Ballast.Where(p => p.OnWire).Sum(p => p.Along);
        double share = wire.InsideLength > 0 ? Math.Max(0, 1 - (threaded + inSlots) / wire.InsideLength) : 0;
        double slotWidth = Math.Max(described.SlotWidthMm ?? described.DiameterMm + Allowances.WireSlot, described.DiameterMm);
        double slot = share * wire.InsideLength * slotWidth * slotWidth;
        Vec3 along = wire.InsideLength > 0 ? wire.InsideMoment / wire.InsideLength : Vec3.Zero;
        Cut(parts, "wood cut for wire", slot, along);
        Fill(slot - share * wire.InsideLength * area, along);
        AddWraps(parts, described, slotWidth);
    }

    // Wraps lie round the leg: a groove three wires wide, of which the leg's own slot is cut already.
    private void AddWraps(List<Part> parts, WireDesign described, double slotWidth)
    {
        (double length, double wound, Vec3 moment) = wire!.Wound;
        if (length == 0) return;
        double wide = 2 * described.DiameterMm + slotWidth;
        double groove = (wide * wide - slotWidth * slotWidth) * length;
        Cut(parts, "wood cut for wraps", groove, moment / length);
        Fill(Math.Max(groove - wound * Solids.Cylinder(described.DiameterMm, 1), 0), moment / length);
    }

    private void Cut(List<Part> parts, string name, double volume, Vec3 at)
    {
        if (volume > 0) parts.Add(Part.At(PartGroup.Wood, name, -wood * volume, at));
    }

    private void Fill(double volume, Vec3 at)
    {
        gap += volume;
        gapMoment += volume * at;
    }
}
