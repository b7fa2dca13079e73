using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>
/// Whether pockets, slots and holes leave any wood. The ledger takes each cut off the wood's weight, and a lure of
/// more cuts than wood would weigh less than nothing; so every cut is counted here, at most a little too large.
/// </summary>
internal static class WoodLeft
{
    // A body with more than this share cut away does not hold together; common practice, no source.
    private const double MostCut = 0.8;

    private readonly record struct Taken(string Path, string What, double Volume);

    public static void Check(LureDesign design, Body surface, Findings findings)
    {
        var seam = new Seam(design.Joint?.LostPerHalf ?? 0, 0, design.Halves?.RightWiderMm ?? 0);
        double wood = SolidProperties.Of(BodyMesh.Of(surface, MeshSize.Coarse, seam)).Volume;
        List<Taken> cuts = [.. Cuts(design, surface)];
        double all = cuts.Sum(c => c.Volume);
        if (cuts.Count == 0 || all <= MostCut * wood) return;
        Taken most = cuts.MaxBy(c => c.Volume);
        findings.Add("geometry", most.Path, $"{Sized.Volume(most.Volume)} cut for {most.What}, {Sized.Volume(all)} of cuts in all",
            $"cuts of at most {Sized.Volume(MostCut * wood)} in all, {100 * MostCut:0} % of the wood", "Choose a smaller one, or a larger body.");
    }

    private static IEnumerable<Taken> Cuts(LureDesign design, Body surface)
    {
        for (int i = 0; i < design.Ballast.Length; i++)
            yield return new Taken($"ballast[{i}]", $"\"{JsonTree.Shorten(design.Ballast[i].Name)}\"", design.Ballast[i].Pocket);
        if (design.Eyes is { } eyes)
            yield return new Taken("eyes", "the eyes", 2 * Solids.Cylinder(eyes.DiameterMm, eyes.ThicknessMm));
        if (design.Wire is not { } wire) yield break;
        double slot = Math.Max(wire.SlotWidthMm ?? wire.DiameterMm + Allowances.WireSlot, wire.DiameterMm);
        yield return new Taken(wire.SlotWidthMm > wire.DiameterMm + Allowances.WireSlot ? "wire.slot_width_mm" : "wire.diameter_mm", "the wire",
            slot * slot * Longest(wire, surface));
        for (int i = 0; i < wire.Hangers.Length; i++)
            if (Hole(wire, wire.Hangers[i], surface) is var hole && hole > 0)
                yield return new Taken($"wire.hangers[{i}]", $"\"{JsonTree.Shorten(wire.Hangers[i].Name)}\"", hole);
    }

    private static double Hole(WireDesign wire, Hanger hanger, Body surface)
    {
        double height = Math.Max(surface.BackAt(hanger.XMm) - surface.BellyAt(hanger.XMm), 0);
        return hanger.Kind switch
        {
            HangerKind.Swivel => (hanger.SlotMm?[0] ?? Allowances.SwivelSlotLength) * (hanger.SlotMm?[1] ?? Allowances.SwivelSlotWidth) * height,
            HangerKind.ScrewEye => hanger.MassG is { } mass ? 1000 * mass / wire.DensityGPerCm3
                : Solids.Cylinder(wire.DiameterMm, Math.Min(Allowances.ScrewThread, height)),
            HangerKind.Loop => 0,
        };
    }

    /// <summary>The wire with its dips, eyes and wraps, as if all of it lay in the wood, mm.</summary>
    private static double Longest(WireDesign wire, Body surface)
    {
        double length = Run(wire);
        if (wire.RunMm.IsEmpty)
            length = surface.Length + wire.Hangers.Sum(h => 2 * Math.Max(surface.BackAt(h.XMm) - surface.BellyAt(h.XMm), 0));
        length += Eye(wire, wire.LineTie) + (wire.TailLoop is { } tail ? Eye(wire, tail) : 0);
        return length + wire.Hangers.Where(h => h.Kind == HangerKind.Loop).Sum(h => Eye(wire, h.Eye));
    }

    /// <summary>Length of the run that the design gives, mm.</summary>
    public static double Run(WireDesign wire) => wire.RunMm.Zip(wire.RunMm.Skip(1), (a, b) => double.Hypot(b.X - a.X, b.Z - a.Z)).Sum();

    private static double Eye(WireDesign wire, EyeDesign eye) =>
        (eye.Closing.Behind(eye, wire.DiameterMm)?.WireLength ?? 0) + Math.PI * (eye.InsideMm + wire.DiameterMm);
}
