using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.App.Edits;

/// <summary>What a maker does to what hangs on a lure: each a design from a design.</summary>
internal static class Rehang
{
    /// <summary>Where things can hang, in the order along the wire.</summary>
    public static IReadOnlyList<string> Places(LureDesign design) => design.Wire is not { } wire ? []
        : ["line_tie", .. wire.Hangers.OrderBy(h => h.XMm).Select(h => h.Name), .. wire.TailLoop is null ? (string[])[] : ["tail_loop"]];

    /// <summary>As it is called on the page: "at the tail loop".</summary>
    public static string Word(string place) => place.Replace('_', ' ');

    /// <summary>Another weight, g, for the thing at a place in the file.</summary>
    public static LureDesign Weigh(LureDesign design, int index, double grams) =>
        With(design, index, item => item with { MassG = Math.Round(grams, 3) });

    /// <summary>Another thing from the box in its place.</summary>
    public static LureDesign Swap(LureDesign design, int index, BoxHardware other) =>
        With(design, index, item => other.Hanging(item.HangsFrom) with { Kept = item.Kept });

    /// <summary>Takes a thing off.</summary>
    public static LureDesign TakeOff(LureDesign design, int index) =>
        index < 0 || index >= design.Hardware.Length ? design : design with { Hardware = design.Hardware.RemoveAt(index) };

    /// <summary>Hangs a thing below what hangs at a place already.</summary>
    public static LureDesign Hang(LureDesign design, string place, BoxHardware thing)
    {
        int last = -1;
        for (int i = 0; i < design.Hardware.Length; i++)
            if (design.Hardware[i].HangsFrom == place) last = i;
        return design with { Hardware = design.Hardware.Insert(last < 0 ? design.Hardware.Length : last + 1, thing.Hanging(place)) };
    }

    /// <summary>What in the box could stand in a thing's place, lightest first: things of its kind; of something else, anything.</summary>
    public static ImmutableArray<BoxHardware> Instead(LureDesign design, int index, MakersBox box)
    {
        HardwareKind kind = design.Hardware[index].Kind;
        return [.. box.Hardware.Where(k => k.IsThere && (kind == HardwareKind.Other || k.Kind == kind)).OrderBy(k => k.MassG)];
    }

    /// <summary>The next heavier (or lighter) of its kind, null when there is none.</summary>
    public static BoxHardware? Size(LureDesign design, int index, MakersBox box, bool up)
    {
        double mass = design.Hardware[index].MassG;
        ImmutableArray<BoxHardware> kind = Instead(design, index, box);
        return up ? kind.FirstOrDefault(k => k.MassG > mass + 1e-9) : kind.LastOrDefault(k => k.MassG < mass - 1e-9);
    }

    private static LureDesign With(LureDesign design, int index, Func<HardwareItem, HardwareItem> change) =>
        index < 0 || index >= design.Hardware.Length ? design : design with { Hardware = design.Hardware.SetItem(index, change(design.Hardware[index])) };
}
