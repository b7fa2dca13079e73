using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>
/// What a maker has: what a <c>*.box.json</c> file holds, in the file's own units. Every mass and density is as weighed
/// in air. A box that came out of <see cref="BoxFile.Read"/> is sound: ids are unique, every weight has a mass.
/// </summary>
public sealed record MakersBox
{
    public required string Name { get; init; }

    /// <summary>What prices are in, in the maker's own word.</summary>
    public string? Currency { get; init; }

    /// <summary>An hour of the maker's work, in the box's currency.</summary>
    public double? LabourPerHour { get; init; }

    /// <summary>No lead in any plan, whatever lies in the box.</summary>
    public bool NoLead { get; init; }

    /// <summary>The finest mark on the syringes that resin is measured with, ml.</summary>
    public double? SyringeStepMl { get; init; }

    public ImmutableArray<BoxWood> Woods { get; init; } = [];

    public ImmutableArray<BoxWire> Wires { get; init; } = [];

    public ImmutableArray<BoxWeight> Weights { get; init; } = [];

    public ImmutableArray<BoxStock> Stock { get; init; } = [];

    public ImmutableArray<BoxHook> Hooks { get; init; } = [];

    public ImmutableArray<BoxRing> Rings { get; init; } = [];

    public ImmutableArray<BoxSwivel> Swivels { get; init; } = [];

    /// <summary>Snaps, and whatever else hangs on a lure.</summary>
    public ImmutableArray<BoxSnap> Snaps { get; init; } = [];

    /// <summary>All that can hang on a lure.</summary>
    public IEnumerable<BoxHardware> Hardware => [.. Rings, .. Swivels, .. Snaps, .. Hooks];

    public ImmutableArray<BoxLeader> Leaders { get; init; } = [];

    public ImmutableArray<BoxFinish> Finishes { get; init; } = [];

    public ImmutableArray<BoxCutter> Cutters { get; init; } = [];

    public ImmutableArray<BoxScale> Scales { get; init; } = [];

    /// <summary>What lures are measured with beside scales; null where nobody said: all that a kitchen may have.</summary>
    public ImmutableArray<Instrument>? Instruments { get; init; }

    public Kept Kept { get; init; }

    /// <summary>Every item with the list that it is in and its place there, in the order of the file.</summary>
    public IEnumerable<(string List, int Index, BoxItem Item)> Items =>
        [
            .. In("woods", Woods), .. In("wires", Wires), .. In("weights", Weights), .. In("stock", Stock), .. In("hooks", Hooks),
            .. In("rings", Rings), .. In("swivels", Swivels), .. In("snaps", Snaps), .. In("leaders", Leaders), .. In("finishes", Finishes),
            .. In("cutters", Cutters), .. In("scales", Scales),
        ];

    /// <summary>The item of an id, or null.</summary>
    public BoxItem? Find(string id) => Items.FirstOrDefault(i => i.Item.Id == id).Item;

    /// <summary>Weights that a plan may take: there, and not of lead where that is banned.</summary>
    public IEnumerable<BoxWeight> UsableWeights => Weights.Where(w => w.IsThere && !(NoLead && w.IsLead));

    /// <summary>Stock that a plan may cut, likewise.</summary>
    public IEnumerable<BoxStock> UsableStock => Stock.Where(s => !(NoLead && s.IsLead));

    /// <summary>Whether there is an instrument; lead is none to those that want no lead.</summary>
    public bool Has(Instrument instrument) => (Instruments?.Contains(instrument) ?? true) && !(NoLead && instrument == Instrument.Lead);

    private static IEnumerable<(string, int, BoxItem)> In<T>(string list, ImmutableArray<T> items)
        where T : BoxItem => items.Select((item, i) => (list, i, (BoxItem)item));
}
