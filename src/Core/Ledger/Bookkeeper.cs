using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ledger;

/// <summary>
/// From a design to its ledger at any stage. The skin at each stage is a mesh; what lies between two skins (saw and
/// cleaning, glue, coats) is the difference of their volumes and moments, and the wood is what is left of the inside:
/// so the books balance by construction, whatever the meshes' own error.
/// </summary>
public static class Bookkeeper
{
    // Lead for stand-ins, g/mm³ (as the box has it).
    private const double Lead = 11.3e-3;

    /// <summary>The ledger of a sound design.</summary>
    /// <param name="design">From <see cref="LureFile.Read"/>.</param>
    /// <param name="stage">How far the build is.</param>
    /// <param name="rig">What hangs on it.</param>
    /// <param name="water">Effective density of the water, g/mm³ (less air): stand-ins are made for it.</param>
    /// <param name="size">Mesh size.</param>
    public static WeightLedger Of(LureDesign design, Stage stage, Rig rig, double water, MeshSize size)
    {
        Body body = design.Body.Surface();
        var wood = new Wood(design, body, size);
        var parts = new List<Part>();
        var lumps = new List<Lump>();
        WireShape? wire = design.Wire is { } w ? new WireShape(w, body) : null;
        ClosedMesh skin = wood.Skin(stage);
        wood.AddTo(parts, stage);
        if (stage >= Stage.DryFit)
        {
            var insides = new Insides(design, body, wire, wood.Density);
            insides.AddTo(parts, lumps, filled: stage >= Stage.Glued);
            if (stage >= Stage.Glued) wood.AddGlue(parts);
            if (stage >= Stage.Sealed && design.SoakedG > 0) parts.Add(Part.At(PartKind.Sealer, 0, "sealer, soaked in", design.SoakedG, wood.Centre));
            if (stage == Stage.Finished)
            {
                skin = AddCoats(design, skin, parts);
                AddEyes(design, body, wood.Density, parts);
            }
        }
        Rig carried = stage == Stage.Blank ? Rig.Bare : rig;
        // What is threaded on the wire is there from the dry-fit on, whatever else hangs.
        ImmutableArray<Chain> chains = wire is null || stage == Stage.Blank ? [] : Chains(design, wire, carried, water);
        Hang(chains, parts);
        return new WeightLedger(stage, carried, [.. parts], skin, SolidProperties.Of(skin), [.. lumps], chains,
            carried == Rig.Rigged ? Pull(design, wire) : null);
    }

    /// <summary>
    /// The rigged ledger of a lure that was changed from outside: other hardware and leader, and plugs at the end of its
    /// ballast. Skin, wood and all that lies in it are taken over as they are.
    /// </summary>
    /// <param name="bare">The unchanged lure's ledger, bare, at any stage from dry-fit on.</param>
    /// <param name="unchanged">Its design.</param>
    /// <param name="changed">The changed design.</param>
    /// <param name="wire">The wire of both.</param>
    /// <param name="wood">Density of the wood, g/mm³: <see cref="WoodDensity"/>.</param>
    public static WeightLedger Altered(WeightLedger bare, LureDesign unchanged, LureDesign changed, WireShape? wire, double wood)
    {
        // What is threaded on the wire comes with the other chains, below.
        List<Part> parts = [.. bare.Parts.Where(p => p.Kind != PartKind.Captive)];
        foreach ((int i, BallastPiece plug) in changed.Ballast.Index().Skip(unchanged.Ballast.Length))
        {
            if (!plug.Form.IsCast) throw new ArgumentException("only plugs go in from outside", nameof(changed));
            parts.Add(Part.At(PartKind.Weight, i, plug.Name, plug.Mass, plug.Middle, 0, plug.Mass * plug.Spread));
            parts.Add(Part.At(PartKind.WoodForWeight, i, $"wood cut for {plug.Name}", -wood * plug.Pocket, plug.Middle));
        }
        ImmutableArray<Chain> chains = wire is null ? [] : Chains(changed, wire, Rig.Rigged, 0);
        Hang(chains, parts);
        return bare with { Rig = Rig.Rigged, Parts = [.. parts], Chains = chains, Leader = Pull(changed, wire) };
    }

    /// <summary>Mean density of a lure's wood, g/mm³: by its halves where they were weighed, else as stated.</summary>
    public static double WoodDensity(LureDesign design, MeshSize size) => design.Halves is { RightG: not null, LeftG: not null }
        ? new Wood(design, design.Body.Surface(), size).Density
        : Units.FromGramsPerCm3(design.Wood.DensityGPerCm3);

    private static void Hang(ImmutableArray<Chain> chains, List<Part> parts)
    {
        foreach (Chain chain in chains)
            foreach (HungItem item in chain.Items)
                parts.Add(Part.At(item.Item is null ? PartKind.StandIn : item.IsCaptive ? PartKind.Captive : PartKind.Hardware,
                    item.Item ?? chain.PlaceIndex, item.Name, item.Mass, chain.HangPoint, item.Volume));
    }

    /// <summary>What each of these pieces would add to a lure at a stage, by itself, wherever it lies in the wood, g.</summary>
    public static double[] NetOf(LureDesign design, IReadOnlyList<BallastPiece> pieces, Stage stage)
    {
        Body body = design.Body.Surface();
        double density = new Wood(design, body, MeshSize.Coarse).Density;
        double slot = design.Wire is { } wire ? new WireShape(wire, body).SlotWidth : 0;
        return [.. pieces.Select(piece => Insides.NetOf(design, piece, density, slot, filled: stage >= Stage.Glued))];
    }

    private static ClosedMesh AddCoats(LureDesign design, ClosedMesh bare, List<Part> parts)
    {
        ClosedMesh skin = bare;
        SolidProperties under = SolidProperties.Of(bare);
        double film = 0, lean = 0;
        Offset.Grown grown = Offset.From(bare);
        foreach ((int i, Coat coat) in design.Finish.Index())
        {
            film += coat.Coats * coat.ThicknessMm;
            lean += coat.Coats * coat.ThicknessMm * Hanging.Lean(coat);
            skin = grown.By(film, lean);
            SolidProperties over = SolidProperties.Of(skin);
            parts.Add(Between(PartKind.Coat, i, coat.Name, under, over, Units.FromGramsPerCm3(coat.DensityGPerCm3)));
            under = over;
        }
        return skin;
    }

    /// <summary>The shell between two skins, filled with one stuff.</summary>
    internal static Part Between(PartKind kind, int index, string name, SolidProperties under, SolidProperties over, double density)
    {
        double volume = over.Volume - under.Volume;
        Vec3 moment = over.Moment - under.Moment;
        return new Part(kind, index, name, density * volume, density * moment, volume, moment, density * (over.Second - under.Second));
    }

    private static void AddEyes(LureDesign design, Body body, double wood, List<Part> parts)
    {
        if (design.Eyes is not { } eyes) return;
        double side = body.SectionAt(eyes.XMm).BreadthAt(eyes.ZMm) - eyes.ThicknessMm / 2;
        Vec3 middle = new(eyes.XMm, 0, eyes.ZMm);
        double sockets = 2 * Solids.Cylinder(eyes.DiameterMm, eyes.ThicknessMm);
        parts.Add(Part.At(PartKind.Eyes, 0, "eyes", eyes.MassG, middle, 0, new Vec3(0, eyes.MassG * side * side, 0)));
        parts.Add(Part.At(PartKind.WoodForEyes, 0, "wood cut for eyes", -wood * sockets, middle, 0, new Vec3(0, -wood * sockets * side * side, 0)));
    }

    private static ImmutableArray<Chain> Chains(LureDesign design, WireShape wire, Rig rig, double water)
    {
        var chains = ImmutableArray.CreateBuilder<Chain>();
        foreach ((int at, HangPlace place) in wire.Places.Index())
        {
            HungItem[] all = [.. design.Hardware.Index().Where(h => h.Item.HangsFrom == place.Place).Select(h => Hung(h.Item, h.Index, design.IsCaptive(h.Index)))];
            HungItem[] unhooks = [.. all.Where(i => !i.IsCaptive)];
            ImmutableArray<HungItem> items =
            [
                .. rig == Rig.Rigged ? all : all.Where(i => i.IsCaptive),
                .. rig == Rig.StandIns && unhooks.Length > 0 ? [StandIn(place.Place, unhooks, water)] : (HungItem[])[],
            ];
            if (!items.IsEmpty) chains.Add(new Chain(place.Place, at, place.At, items));
        }
        return chains.ToImmutable();
    }

    private static HungItem Hung(HardwareItem item, int index, bool captive) =>
        new(item.Name, index, captive, item.MassG, item.MassG / Units.FromGramsPerCm3(item.DensityGPerCm3), item.LengthMm);

    /// <summary>Lead on thread with the wet weight of what unhooks of a chain: m_s(1 − ρ/ρ_lead) = Σ(m − ρv).</summary>
    private static HungItem StandIn(string place, HungItem[] items, double water)
    {
        double wet = Math.Max(items.Sum(i => i.Mass - water * i.Volume), 0);
        double mass = wet / (1 - water / Lead);
        return new HungItem($"stand-in at the {place.Replace('_', ' ')}", null, false, mass, mass / Lead, 10);
    }

    private static LeaderPull? Pull(LureDesign design, WireShape? wire)
    {
        if (design.Leader is not { CarriedMm: > 0 } leader || wire is null) return null;
        double volume = Solids.Cylinder(leader.DiameterMm, leader.CarriedMm);
        return new LeaderPull(wire.Places[0].At, volume * Units.FromGramsPerCm3(leader.DensityGPerCm3), volume);
    }
}
