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

    /// <summary>The box's wood that a design is cut from, by the id that the design names; null when it names none, or none that is here.</summary>
    public BoxWood? WoodOf(LureDesign design) => design.Wood.BoxId is { } id ? Woods.FirstOrDefault(w => w.Id == id) : null;

    /// <summary>A design cut from the wood of this box that it names; as it is when it names none that is here.</summary>
    public LureDesign Cut(LureDesign design) => WoodOf(design) is { } wood ? design with { Wood = wood.In(design.Wood) } : design;

    // Two packets of one hook differ by less, g and mm; common practice, no source.
    private const double SameGrams = 0.05, SameMm = 1;

    /// <summary>
    /// A design with the strengths of this box, where it states none itself: those of the box's only thing, or things of one strength, of the
    /// same kind, size and weight. No name is asked.
    /// </summary>
    public LureDesign Strong(LureDesign design)
    {
        double? Like(HardwareItem item)
        {
            double?[] held = [.. Hardware.Where(h => h.StrengthKg is not null && h.Kind == item.Kind && (item.Size is null || h.Size is null || h.Size == item.Size)
                && Math.Abs(h.MassG - item.MassG) <= SameGrams && Math.Abs(h.LengthMm - item.LengthMm) <= SameMm).Select(h => h.StrengthKg).Distinct()];
            return held.Length == 1 ? held[0] : null;
        }
        double? Leader(LeaderDesign leader)
        {
            double?[] held = [.. Leaders.Where(l => l.StrengthKg is not null && Math.Abs(l.DiameterMm - leader.DiameterMm) < 0.005 && Math.Abs(l.DensityGPerCm3 - leader.DensityGPerCm3) < 0.05)
                .Select(l => l.StrengthKg).Distinct()];
            return held.Length == 1 ? held[0] : null;
        }
        return design with
        {
            Hardware = [.. design.Hardware.Select(h => h.StrengthKgf is null ? h with { StrengthKgf = Like(h) } : h)],
            Leader = design.Leader is { StrengthKgf: null } leader ? leader with { StrengthKgf = Leader(leader) } : design.Leader,
        };
    }

    /// <summary>Weights that a plan may take: there, and not of lead where that is banned.</summary>
    public IEnumerable<BoxWeight> UsableWeights => Weights.Where(w => w.IsThere && !(NoLead && w.IsLead));

    /// <summary>Stock that a plan may cut, likewise.</summary>
    public IEnumerable<BoxStock> UsableStock => Stock.Where(s => !(NoLead && s.IsLead));

    /// <summary>Whether there is an instrument; lead is none to those that want no lead.</summary>
    public bool Has(Instrument instrument) => (Instruments?.Contains(instrument) ?? true) && !(NoLead && instrument == Instrument.Lead);

    private static IEnumerable<(string, int, BoxItem)> In<T>(string list, ImmutableArray<T> items)
        where T : BoxItem => items.Select((item, i) => (list, i, (BoxItem)item));

    private static ObjectList<MakersBox, T> ListOf<T>(
        string name, string title, string meaning, BoxForm<T> form, Func<MakersBox, ImmutableArray<T>> get, Func<MakersBox, ImmutableArray<T>, MakersBox> with)
        where T : BoxItem => new(name, title, 1000, meaning, form.Item, get, with);

    /// <summary>The file's top object, but for its version.</summary>
    internal static readonly FileObject<MakersBox> Form = new(new() { Name = "" }, b => b.Kept, (b, kept) => b with { Kept = kept },
    [
        new NeededText<MakersBox>("name", "What you call this box", "what you call this box", b => b.Name, (b, v) => b with { Name = v }),
        new TextOrNone<MakersBox>("currency", "What prices are in", "what prices are in",
            b => b.Currency, (b, v) => b with { Currency = v }),
        new NumberOrNone<MakersBox>("labour_per_h", "An hour of your work", 0, 1_000_000,
            b => b.LabourPerHour, (b, v) => b with { LabourPerHour = v })
            { More = "In the box's currency." },
        new YesOrNo<MakersBox>("no_lead", "No lead in any plan",
            b => b.NoLead, (b, v) => b with { NoLead = v }) { More = "Whatever lies in the box." },
        new NumberOrNone<MakersBox>("syringe_step_ml", "The finest mark on your syringes, ml", 0.01, 100,
            b => b.SyringeStepMl, (b, v) => b with { SyringeStepMl = v })
            { More = "Resin is measured in whole marks." },
        ListOf("woods", "Woods", "a list of woods", BoxWood.Form, b => b.Woods, (b, v) => b with { Woods = v }),
        ListOf("wires", "Wires for through-wires", "a list of wires", BoxWire.Form, b => b.Wires, (b, v) => b with { Wires = v }),
        ListOf("weights", "Weights by the piece", "a list of weights", BoxWeight.Form, b => b.Weights, (b, v) => b with { Weights = v }),
        ListOf("stock", "Rod, sheet and wire to cut weights from", "a list of rod, sheet and wire to cut weights from", BoxStock.Form, b => b.Stock, (b, v) => b with { Stock = v }),
        ListOf("hooks", "Hooks", "a list of hooks", BoxHook.Form, b => b.Hooks, (b, v) => b with { Hooks = v }),
        ListOf("rings", "Rings", "a list of rings", BoxRing.Form, b => b.Rings, (b, v) => b with { Rings = v }),
        ListOf("swivels", "Swivels", "a list of swivels", BoxSwivel.Form, b => b.Swivels, (b, v) => b with { Swivels = v }),
        ListOf("snaps", "Snaps and whatever else hangs", "a list of snaps and whatever else hangs", BoxSnap.Form, b => b.Snaps, (b, v) => b with { Snaps = v }),
        ListOf("leaders", "Leaders", "a list of leaders", BoxLeader.Form, b => b.Leaders, (b, v) => b with { Leaders = v }),
        ListOf("finishes", "Sealers, paints and clear coats", "a list of sealers, paints and clear coats", BoxFinish.Form, b => b.Finishes, (b, v) => b with { Finishes = v }),
        ListOf("cutters", "Drills, bits, cutters and gouges", "a list of drills, bits and gouges", BoxCutter.Form, b => b.Cutters, (b, v) => b with { Cutters = v }),
        ListOf("scales", "Scales", "a list of scales", BoxScale.Form, b => b.Scales, (b, v) => b with { Scales = v }),
        new ChoicesOrNone<MakersBox, Instrument>("instruments", "What you measure with, beside scales", "a list of what you measure with", FileWords.Of<Instrument>(),
            b => b.Instruments, (b, v) => b with { Instruments = v }) { More = "What next may ask you to use. Left out: all of these." },
    ]);
}
