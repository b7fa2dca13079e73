using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Strength;

namespace Trimwright.Core.Ballast;

/// <summary>
/// Everything that can still be done once the halves are glued: what hangs on it, wire round a hook's shank, and holes from
/// outside filled with something heavy or with cork.
/// </summary>
/// <param name="design">Sound.</param>
/// <param name="box">What there is to do it with.</param>
/// <param name="pace">How to go about it.</param>
public sealed class Remedies(LureDesign design, MakersBox box, Pace? pace = null)
{
    /// <summary>Cork's density, g/cm³: 0.12 to 0.24 is sold; from memory.</summary>
    public const double CorkDensity = 0.2;

    /// <summary>Lead and brass where the box has no bar of either, g/cm³.</summary>
    private const double Lead = 11.3;
    private const double Brass = 8.5;

    private static readonly double[] ShankGrams = [0.5, 1, 2];

    // Thick enough to be done in few turns, thin enough to lie close: common practice, no source.
    private const double ShankWire = 1.5;

    // The share of a hook's length that its shank is, and how much wire a hook is bent from (as the fall reckons it).
    private const double Shank = 0.5;
    private const double WirePerLength = 6;

    private static readonly double[] CorkDiameters = [6, 8, 10, 12];
    private static readonly double[] HeavyDiameters = [4, 6, 8, 10];

    // How many stations along the lure are tried for holes, and the filling that is offered besides a full hole, g.
    private const int Stations = 14;
    private const double SmallFilling = 1;

    /// <summary>All of them, those that leave the seal whole first.</summary>
    public ImmutableArray<Remedy> All() => [.. Hooks(), .. RingsAndSwivels(), .. ShankWires(), .. Holes()];

    private IEnumerable<(int Index, HardwareItem Item)> OwnHooks =>
        design.Hardware.Select((item, i) => (i, item)).Where(h => h.item.Kind.IsHook());

    private IEnumerable<Remedy> Hooks()
    {
        foreach ((int index, HardwareItem own) in OwnHooks)
        {
            foreach (HookChange change in (HookChange[])[HookChange.SizeUp, HookChange.SizeDown, HookChange.Singles])
                if (HookSet.Other(own, change, box) is { } other)
                    yield return new(RemedyKind.Hook, own.HangsFrom, other.Name, own.Name, With(design.Hardware.SetItem(index, other))) { Grams = other.MassG };
            yield return new(RemedyKind.NoHook, own.HangsFrom, own.Name, null, With(design.Hardware.RemoveAt(index))) { Grams = own.MassG };
        }
    }

    private IEnumerable<Remedy> RingsAndSwivels()
    {
        string[] places = [.. design.Hardware.Select(h => h.HangsFrom).Append(design.Wire is null ? null : Soundness.LineTie).OfType<string>().Distinct()];
        foreach (string place in places)
        {
            foreach (BoxRing ring in Ends(box.Rings.Where(r => r.IsThere))) yield return Added(RemedyKind.Ring, ring, place);
            if (design.Hardware.Any(h => h.HangsFrom == place && h.Kind == HardwareKind.Swivel)) continue;
            foreach (BoxSwivel swivel in Ends(box.Swivels.Where(s => s.IsThere))) yield return Added(RemedyKind.Swivel, swivel, place);
        }
        foreach ((int index, HardwareItem own) in design.Hardware.Select((item, i) => (i, item)).Where(h => h.item.Kind.IsRing()))
            foreach (BoxRing ring in Neighbours(own))
                yield return new(RemedyKind.Ring, own.HangsFrom, ring.Name, own.Name, With(design.Hardware.SetItem(index, ring.Hanging(own.HangsFrom)))) { Grams = ring.MassG };
    }

    private static IEnumerable<T> Ends<T>(IEnumerable<T> things)
        where T : BoxHardware
    {
        T[] byMass = [.. things.OrderBy(t => t.MassG)];
        return byMass.Length > 1 ? [byMass[0], byMass[^1]] : byMass;
    }

    // The next lighter and the next heavier ring of the same kind.
    private IEnumerable<BoxRing> Neighbours(HardwareItem own)
    {
        BoxRing[] there = [.. box.Rings.Where(r => r.IsThere && r.Kind == own.Kind)];
        BoxRing? lighter = there.Where(r => r.MassG < 0.97 * own.MassG).MaxBy(r => r.MassG), heavier = there.Where(r => r.MassG > 1.03 * own.MassG).MinBy(r => r.MassG);
        return ((BoxRing?[])[lighter, heavier]).OfType<BoxRing>();
    }

    // It goes over the hook, or to the end of a chain without one.
    private Remedy Added(RemedyKind kind, BoxHardware thing, string place)
    {
        int at = OwnHooks.Where(h => h.Item.HangsFrom == place).Select(h => h.Index).DefaultIfEmpty(design.Hardware.Length).First();
        return new(kind, place, thing.Name, null, With(design.Hardware.Insert(at, thing.Hanging(place)))) { Grams = thing.MassG };
    }

    private LureDesign With(ImmutableArray<HardwareItem> hardware) => design with { Hardware = hardware };

    private IEnumerable<Remedy> ShankWires()
    {
        if (box.UsableStock.Where(s => s.Kind == StockKind.Wire).OrderByDescending(s => s.Density.Value).ThenBy(s => Math.Abs((s.DiameterMm ?? 0) - ShankWire)).FirstOrDefault() is not { } stock)
            yield break;
        double density = Units.FromGramsPerCm3(stock.Density.Value), thick = stock.DiameterMm ?? 0;
        foreach ((int index, HardwareItem hook) in OwnHooks)
        {
            double volume = hook.MassG / Units.FromGramsPerCm3(hook.DensityGPerCm3);
            double shank = Math.Sqrt(4 / Math.PI * volume / (WirePerLength * hook.LengthMm));
            double turn = density * Solids.Cylinder(thick, Math.PI * (shank + thick));
            foreach (double grams in ShankGrams)
            {
                int turns = (int)Math.Ceiling(grams / turn - 1e-9);
                if (turns * thick > Shank * hook.LengthMm) continue;
                double mass = hook.MassG + grams;
                HardwareItem wound = hook with { MassG = mass, DensityGPerCm3 = Units.ToGramsPerCm3(mass / (volume + grams / density)) };
                yield return new(RemedyKind.ShankWire, hook.HangsFrom, stock.Name, hook.Name, With(design.Hardware.SetItem(index, wound))) { Turns = turns, Grams = grams };
            }
        }
    }

    /// <summary>Holes alone: what a plug of lead or of cork does at each safe spot and size.</summary>
    public IEnumerable<Remedy> Holes()
    {
        // A solid that was never split is not a glued lure.
        if (design.Wire is null && design.Ballast.IsEmpty && design.Joint is null && design.Halves is null) yield break;
        var spots = new SafeSpots(design);
        double every = design.Body.LengthMm / (Stations + 1), filler = (design.Joint ?? new JointDesign()).FillerDensityGPerCm3;
        (string heavy, double density) = Heavy();
        double wood = Units.ToGramsPerCm3(Ledger.Bookkeeper.WoodDensity(design, MeshSize.Live));
        foreach (DrillBit bit in Bits())
            foreach (SafeSpot spot in spots.Along(bit, every, pace))
            {
                if (HeavyDiameters.Contains(bit.Diameter))
                {
                    yield return Hole(RemedyKind.HeavyPlug, heavy, spot, density, filler, spot.Room);
                    double small = SmallFilling / (Units.FromGramsPerCm3(density) * Solids.Cylinder(bit.Diameter, 1));
                    if (small >= 1 && small < 0.7 * spot.Room) yield return Hole(RemedyKind.HeavyPlug, heavy, spot, density, filler, small);
                }
                // Filler over it would weigh as much as cork saves; a plug of the lure's own wood weighs nothing more.
                if (CorkDiameters.Contains(bit.Diameter) && CorkDensity < wood)
                    yield return Hole(RemedyKind.Cork, "cork", spot, CorkDensity, wood, spot.Room);
            }
    }

    private Remedy Hole(RemedyKind kind, string item, SafeSpot spot, double density, double stopper, double room)
    {
        (BallastPiece filling, BallastPiece over) = spot.Filled(item, density, stopper, room);
        return new(kind, null, item, null, design with { Ballast = [.. design.Ballast, filling, over] }) { Spot = spot, Filling = filling, Grams = filling.Mass };
    }

    // Lead, or without it the densest bar there is.
    private (string Name, double Density) Heavy() => box.NoLead
        ? box.UsableStock.Where(s => s.Kind == StockKind.Rod).MaxBy(s => s.Density.Value) is { } bar ? (bar.Name, bar.Density.Value) : ("brass", Brass)
        : ("lead", Lead);

    /// <summary>For each size that is drilled for a filling the box's drill that needs the least beyond its full width.</summary>
    private IEnumerable<DrillBit> Bits()
    {
        foreach (double diameter in CorkDiameters.Union(HeavyDiameters).Order())
        {
            DrillBit[] bits = [.. box.Cutters.Where(c => c.Kind is CutterKind.Twist or CutterKind.FlatBit && c.DiametersMm.Contains(diameter)).Select(c => DrillBit.Of(c, diameter))];
            if (bits.Length > 0) yield return bits.MinBy(b => b.Beyond);
        }
    }
}
