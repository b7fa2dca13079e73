using System.Collections.Immutable;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ledger;

/// <summary>What a line of the ledger belongs to, in the order in which a maker adds it.</summary>
public enum PartGroup
{
    Wood,
    Wire,
    Ballast,
    Glue,
    Sealer,
    Coats,
    Eyes,
    Hardware,
}

/// <summary>What a line of the ledger is: rules go by this and by <see cref="Part.Index"/>, never by its name.</summary>
public enum PartKind
{
    /// <summary>The wood as carved, before anything is cut into it.</summary>
    CarvedWood,

    /// <summary>Lost to saw, tack and cleaning when the halves were parted; negative.</summary>
    PartedWood,

    /// <summary>Wood cut for the weight of that index in the design's ballast; negative.</summary>
    WoodForWeight,

    /// <summary>Wood cut for the wire's slot; negative.</summary>
    WoodForWire,

    /// <summary>Wood cut for the screw of that hanger; negative.</summary>
    WoodForScrew,

    /// <summary>Wood cut for the pair of eyes; negative.</summary>
    WoodForEyes,

    /// <summary>Wood cut for the open slot of the swivel at that hanger, which fills with water; negative.</summary>
    OpenSlot,

    /// <summary>The bent wire.</summary>
    Wire,

    /// <summary>The binding of that index, line tie to tail loop: what is wound round the wire to close an eye.</summary>
    Binding,

    /// <summary>The screw eye of that hanger.</summary>
    ScrewEye,

    /// <summary>Hardware of that index that is threaded on the wire: <see cref="Design.LureDesign.IsCaptive"/>.</summary>
    Captive,

    /// <summary>The weight of that index in the design's ballast.</summary>
    Weight,

    /// <summary>Glue between the halves.</summary>
    GlueLine,

    /// <summary>Glue or filler in slots and clearances.</summary>
    Filler,

    /// <summary>The glue line that an open slot at that hanger is kept free of; negative.</summary>
    NoGlueInSlot,

    /// <summary>Sealer soaked into the wood.</summary>
    Sealer,

    /// <summary>The entry of that index in the design's finish.</summary>
    Coat,

    /// <summary>The pair of eyes.</summary>
    Eyes,

    /// <summary>Hardware of that index that unhooks.</summary>
    Hardware,

    /// <summary>Lead on thread at the hang place of that index, nose to tail as the design lists them.</summary>
    StandIn,
}

/// <summary>
/// One line of the ledger. Lines add up: the sum of <see cref="Mass"/> is what a scale reads, the sum of
/// <see cref="Displaces"/> is the whole outside volume. A line may take away (a kerf, wood cut for a pocket, a slot
/// that fills with water).
/// </summary>
/// <param name="Kind">What it is.</param>
/// <param name="Index">Of what it came from, in the design's own list; 0 where there is but one.</param>
/// <param name="Name">In the maker's words, for the eye only.</param>
/// <param name="Mass">g as weighed in air.</param>
/// <param name="MassMoment">g·mm, body axes: mass times its centre.</param>
/// <param name="Displaces">Outside volume, mm³.</param>
/// <param name="VolumeMoment">mm⁴: outside volume times its centre.</param>
/// <param name="Spread">∫x², ∫y², ∫z² dm about its own centre, g·mm²; for the roll period only.</param>
public sealed record Part(
    PartKind Kind, int Index, string Name, double Mass, Vec3 MassMoment, double Displaces, Vec3 VolumeMoment, Vec3 Spread)
{
    /// <summary>What it belongs to.</summary>
    public PartGroup Group => Kind switch
    {
        PartKind.CarvedWood or PartKind.PartedWood or PartKind.WoodForWeight or PartKind.WoodForWire or PartKind.WoodForScrew
            or PartKind.WoodForEyes or PartKind.OpenSlot => PartGroup.Wood,
        PartKind.Wire or PartKind.Binding or PartKind.ScrewEye or PartKind.Captive => PartGroup.Wire,
        PartKind.Weight => PartGroup.Ballast,
        PartKind.GlueLine or PartKind.Filler or PartKind.NoGlueInSlot => PartGroup.Glue,
        PartKind.Sealer => PartGroup.Sealer,
        PartKind.Coat => PartGroup.Coats,
        PartKind.Eyes => PartGroup.Eyes,
        PartKind.Hardware or PartKind.StandIn => PartGroup.Hardware,
    };

    /// <summary>A part that is all in one place.</summary>
    public static Part At(
        PartKind kind, int index, string name, double mass, Vec3 at, double displaces = 0, Vec3 spread = default) =>
        new(kind, index, name, mass, mass * at, displaces, displaces * at, spread);

    /// <summary>Its centre of weight, mm; the centre of its volume when it weighs next to nothing for its size.</summary>
    public Vec3 Centre => Math.Abs(Mass) > 1e-6 * Math.Abs(Displaces) ? MassMoment / Mass : Displaces != 0 ? VolumeMoment / Displaces : Vec3.Zero;
}

/// <summary>A small fixed thing on the body's outside that takes up water room, or an open slot that gives it back.</summary>
/// <param name="At">Its middle, mm.</param>
/// <param name="Volume">mm³, negative for a slot that fills with water.</param>
/// <param name="Extent">Its size, mm: over this height it goes under as a ball of that diameter would.</param>
public readonly record struct Lump(Vec3 At, double Volume, double Extent);

/// <summary>A thing in a chain of hardware.</summary>
/// <param name="Name">In the maker's words, for the eye only.</param>
/// <param name="Item">Its index in the design's hardware; null: lead that stands in for all that unhooks there.</param>
/// <param name="IsCaptive">Threaded on the wire: it is there in every rig.</param>
/// <param name="Mass">g as weighed in air.</param>
/// <param name="Volume">mm³.</param>
/// <param name="Length">By how much it lowers what hangs below it, mm.</param>
public readonly record struct HungItem(string Name, int? Item, bool IsCaptive, double Mass, double Volume, double Length);

/// <summary>Hardware hanging straight down from one point of the body.</summary>
/// <param name="Place"><c>line_tie</c>, a hanger's name or <c>tail_loop</c>.</param>
/// <param name="PlaceIndex">Of the hang place, nose to tail as the design lists them; 0 is the line tie.</param>
/// <param name="HangPoint">mm, body axes.</param>
/// <param name="Items">From the hang point down.</param>
public sealed record Chain(string Place, int PlaceIndex, Vec3 HangPoint, ImmutableArray<HungItem> Items)
{
    public double Mass => Items.Sum(i => i.Mass);

    public double Volume => Items.Sum(i => i.Volume);

    /// <summary>What can be taken off and hung on again: all that is not threaded on the wire.</summary>
    public IEnumerable<HungItem> Unhooks => Items.Where(i => !i.IsCaptive);

    /// <summary>The lead that stands in for what unhooks; null in any other rig, and where nothing unhooks.</summary>
    public HungItem? StandIn => Items.Where(i => i.Item is null).Select(i => (HungItem?)i).FirstOrDefault();
}

/// <summary>The length of leader that the lure carries at rest: its weight and volume, pulling at the line tie.</summary>
public readonly record struct LeaderPull(Vec3 At, double Mass, double Volume);

/// <summary>
/// What a lure is at one stage, in one rig: its parts, the skin that the water sees, and what hangs on it. All in body
/// axes, mm, g.
/// </summary>
/// <param name="Stage">How far the build is.</param>
/// <param name="Rig">What hangs on it; a blank has nothing to hang on and is always bare.</param>
/// <param name="Parts">Every line; they add up to the whole.</param>
/// <param name="Skin">The outer surface, closed.</param>
/// <param name="SkinProperties">Of <paramref name="Skin"/>.</param>
/// <param name="Lumps">Wire eyes outside the skin, open slots inside it.</param>
/// <param name="Chains">Hardware.</param>
/// <param name="Leader">The leader carried, or null.</param>
public sealed record WeightLedger(
    Stage Stage,
    Rig Rig,
    ImmutableArray<Part> Parts,
    ClosedMesh Skin,
    SolidProperties SkinProperties,
    ImmutableArray<Lump> Lumps,
    ImmutableArray<Chain> Chains,
    LeaderPull? Leader)
{
    /// <summary>The lines of a kind.</summary>
    public IEnumerable<Part> Of(PartKind kind) => Parts.Where(p => p.Kind == kind);

    /// <summary>What a scale reads, g; the leader is not included.</summary>
    public double Weight => Parts.Sum(p => p.Mass);

    /// <summary>The whole outside volume with hardware, mm³.</summary>
    public double Volume => Parts.Sum(p => p.Displaces);

    /// <summary>Centre of gravity, hardware at its hang points, mm.</summary>
    public Vec3 Cg => Parts.Aggregate(Vec3.Zero, (sum, p) => sum + p.MassMoment) / Weight;

    /// <summary>Centre of the whole outside volume, hardware at its hang points, mm.</summary>
    public Vec3 Cb => Parts.Aggregate(Vec3.Zero, (sum, p) => sum + p.VolumeMoment) / Volume;
}
