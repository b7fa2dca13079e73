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
    private readonly JointDesign joint = design.Joint ?? new JointDesign();

    private double Filler => Units.FromGramsPerCm3(joint.FillerDensityGPerCm3);

    // Filled gaps: volume, mm³, and its moment.
    private double gap;
    private Vec3 gapMoment;

    public void AddTo(List<Part> parts, List<Lump> lumps, bool filled)
    {
        foreach ((int i, BallastPiece piece) in design.Ballast.Index()) AddPiece(parts, i, piece);
        if (design.Wire is { } described && wire is not null)
        {
            // Bored pieces and open slots take their share of the wood along the wire: length and place.
            List<(double Length, Vec3 At)> taken = [.. design.Ballast.Where(p => p.OnWire).Select(p => (p.Along, p.Middle))];
            foreach ((int i, Hanger hanger) in described.Hangers.Index())
            {
                if (hanger.Kind == HangerKind.Swivel) AddSlot(parts, lumps, described, i, hanger, taken, filled);
                if (hanger.Kind == HangerKind.ScrewEye) AddScrewEye(parts, lumps, described, i, hanger);
            }
            AddWire(parts, lumps, described, taken);
        }
        if (filled && gap > 0)
            parts.Add(new Part(PartKind.Filler, 0, "filler in slots and pockets", Filler * gap, Filler * gapMoment, 0, Vec3.Zero, Vec3.Zero));
    }

    private void AddPiece(List<Part> parts, int index, BallastPiece piece)
    {
        double mass = piece.Mass;
        parts.Add(Part.At(PartKind.Weight, index, piece.Name, mass, piece.Middle, 0, mass * piece.Spread));
        Cut(parts, PartKind.WoodForWeight, index, $"wood cut for {piece.Name}", piece.Pocket, piece.Middle);
        double threaded = piece.OnWire && design.Wire is { } w ? Solids.Cylinder(w.DiameterMm, piece.Along) : 0;
        Fill(Math.Max(piece.Pocket - piece.Stuff - threaded, 0), piece.Middle);
    }

    /// <summary>
    /// What one piece adds to the lure wherever it lies, g: its own weight, less the wood cut for it, filler round it; on the wire
    /// also the slot that its pocket takes the place of. The same sums as the ledger's lines.
    /// </summary>
    public static double NetOf(LureDesign design, BallastPiece piece, double wood, double slot, bool filled)
    {
        double threaded = piece.OnWire && design.Wire is { } wire ? Solids.Cylinder(wire.DiameterMm, piece.Along) : 0;
        double filler = filled ? Units.FromGramsPerCm3((design.Joint ?? new JointDesign()).FillerDensityGPerCm3) : 0;
        double net = piece.Mass - wood * piece.Pocket + filler * Math.Max(piece.Pocket - piece.Stuff - threaded, 0);
        double square = slot * slot * piece.Along;
        return piece.OnWire ? net + wood * square - filler * (square - threaded) : net;
    }

    /// <summary>A swivel's slot stays open to the water; the length of wire that lies in it is taken off the wire's own.</summary>
    private void AddSlot(List<Part> parts, List<Lump> lumps, WireDesign described, int index, Hanger hanger, List<(double Length, Vec3 At)> taken, bool glued)
    {
        double length = hanger.SlotMm?[0] ?? Allowances.SwivelSlotLength, width = hanger.SlotMm?[1] ?? Allowances.SwivelSlotWidth;
        double run = WireRun.Height(described, body, hanger.XMm), roof = run + described.DiameterMm / 2;
        double from = Math.Max(hanger.XMm - length / 2, 0), to = Math.Min(hanger.XMm + length / 2, body.Length);
        (double cut, Vec3 moment) = Hollow(from, to, width, roof);
        if (cut <= 0) return;
        Vec3 middle = moment / cut;
        double wireThrough = Solids.Cylinder(described.DiameterMm, to - from);
        double water = Math.Max(cut - wireThrough, 0);
        parts.Add(Part.At(PartKind.OpenSlot, index, $"open slot at {hanger.Name}", -wood * cut, middle, -water));
        lumps.Add(new Lump(middle, -water, Math.Max(cut / ((to - from) * width), width)));
        taken.Add((to - from, new Vec3(0.5 * (from + to), 0, run)));
        // The glue line parts the halves of the slot too, and is kept out of it.
        double wiped = joint.GlueLineMm * cut / width;
        if (!glued || wiped == 0) return;
        parts.Add(Part.At(PartKind.NoGlueInSlot, index, $"no glue in open slot at {hanger.Name}", -Units.FromGramsPerCm3(joint.GlueDensityGPerCm3) * wiped, middle, -wiped));
        lumps.Add(new Lump(middle, -wiped, Math.Max(cut / ((to - from) * width), width)));
    }

    /// <summary>Room between the belly and a roof under a slot's outline, mm³, and its moment; the belly may slope and curve.</summary>
    private (double Volume, Vec3 Moment) Hollow(double from, double to, double width, double roof)
    {
        double Over(Func<double, double, double, double> weight) => Quadrature.Eight(x =>
        {
            Section section = body.SectionAt(x);
            return 2 * Quadrature.Eight(y => Math.Min(roof, section.TopAt(y)) is var top && section.BottomAt(y) is var bottom && top > bottom
                ? weight(x, top, bottom) : 0, 0, Math.Min(width / 2, section.HalfBreadth));
        }, from, to);
        return (Over((_, top, bottom) => top - bottom),
            new Vec3(Over((x, top, bottom) => x * (top - bottom)), 0, Over((_, top, bottom) => 0.5 * (top * top - bottom * bottom))));
    }

    private void AddScrewEye(List<Part> parts, List<Lump> lumps, WireDesign described, int index, Hanger hanger)
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
        parts.Add(new Part(PartKind.ScrewEye, index, $"screw eye at {hanger.Name}", mass, mass * (inWood * shank + (1 - inWood) * eye), outside, outside * eye, Vec3.Zero));
        Cut(parts, PartKind.WoodForScrew, index, $"wood cut for {hanger.Name}", inside, shank);
        lumps.Add(new Lump(eye, outside, Math.Max(hanger.Eye.StandsOutMm, 1)));
    }

    private void AddWire(List<Part> parts, List<Lump> lumps, WireDesign described, List<(double Length, Vec3 At)> taken)
    {
        double area = Solids.Cylinder(described.DiameterMm, 1);
        double density = Units.FromGramsPerCm3(described.DensityGPerCm3);
        double outsideLength = wire!.Outside.Values.Sum(o => o.Length);
        Vec3 outsideMoment = wire.Outside.Values.Aggregate(Vec3.Zero, (sum, o) => sum + o.Moment);
        Vec3 centre = wire.Moment / wire.Length;
        Vec3 spread = density * area * (wire.SecondMoment
            - wire.Length * new Vec3(centre.X * centre.X, centre.Y * centre.Y, centre.Z * centre.Z));
        parts.Add(new Part(PartKind.Wire, 0, "wire", density * area * wire.Length, density * area * wire.Moment,
            area * outsideLength, area * outsideMoment, spread));
        foreach ((string place, (double length, Vec3 moment)) in wire.Outside)
        {
            EyeDesign eye = wire.Places.First(p => p.Place == place).Eye;
            lumps.Add(new Lump(moment / length, area * length, Math.Max(eye.StandsOutMm, described.DiameterMm)));
        }
        AddBindings(parts, lumps, described);
        double square = wire.SlotWidth * wire.SlotWidth, elsewhere = taken.Sum(t => t.Length);
        Vec3 elsewhereMoment = taken.Aggregate(Vec3.Zero, (sum, t) => sum + t.Length * t.At);
        double slot = wire.SlotVolume - square * elsewhere;
        if (slot <= 0) return;
        Vec3 slotMoment = wire.SlotMoment - square * elsewhereMoment;
        parts.Add(new Part(PartKind.WoodForWire, 0, "wood cut for wire", -wood * slot, -wood * slotMoment, 0, Vec3.Zero, Vec3.Zero));
        gap += slot - area * (wire.InsideLength - elsewhere);
        gapMoment += slotMoment - area * (wire.InsideMoment - elsewhereMoment);
    }

    private void AddBindings(List<Part> parts, List<Lump> lumps, WireDesign described)
    {
        double glue = Units.FromGramsPerCm3(joint.GlueDensityGPerCm3);
        foreach ((int i, LaidBinding laid) in wire!.Bindings.Index())
        {
            double outside = laid.Outside * laid.Of.Volume, inside = laid.Inside * laid.Of.Volume, mass = laid.Of.Mass(glue);
            parts.Add(new Part(PartKind.Binding, i, $"line and glue at the {laid.Place.Replace('_', ' ')}", mass, mass * laid.Middle,
                outside, outside * laid.OutsideMiddle, Vec3.Zero));
            if (outside > 0) lumps.Add(new Lump(laid.OutsideMiddle, outside, described.DiameterMm));
            gap -= inside;
            gapMoment -= inside * laid.InsideMiddle;
        }
    }

    private void Cut(List<Part> parts, PartKind kind, int index, string name, double volume, Vec3 at)
    {
        if (volume > 0) parts.Add(Part.At(kind, index, name, -wood * volume, at));
    }

    private void Fill(double volume, Vec3 at)
    {
        gap += volume;
        gapMoment += volume * at;
    }
}
