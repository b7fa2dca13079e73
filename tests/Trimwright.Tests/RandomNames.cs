using System.Collections.Immutable;
using Trimwright.Core.Design;
using static Trimwright.Tests.RandomBodies;

namespace Trimwright.Tests;

/// <summary>
/// What a random lure is called, drawn so that a rule which reads a name is found out: names that the program has for its own
/// lines, twins, kinds that names belie; and what only a kind or an index can tell apart: captive swivels, drag areas.
/// </summary>
internal static class RandomNames
{
    private static readonly string[] Clashing =
    [
        "wire", "eyes", "glue and filler", "glue line", "filler in slots and pockets", "wood cut for wire", "wood cut for eyes", "wood, as carved",
        "spring", "snap with spring", "open slot at hanger 1", "stand-in at the tail loop", "swivel", "solid ring", "single hook 3/0", "sealer, soaked in",
        "unseen weight", "ring at tail_loop", "primer",
    ];

    private static readonly string[] Places = ["wire", "eyes", "tail loop", "line tie", "swivel", "wood cut for wire"];

    /// <summary>The lure with other names, and with what names must not tell apart.</summary>
    /// <param name="design">Any, with hangers called by number.</param>
    /// <param name="seed">Draws it again.</param>
    public static LureDesign Dress(LureDesign design, int seed)
    {
        var random = new Random(unchecked((int)(((uint)seed + 7) * 2246822519u)));
        bool twins = Chance(random, 0.3);
        string Name(string usual) => twins ? "twin" : Chance(random, 0.35) ? Clashing[random.Next(Clashing.Length)] : usual;
        LureDesign placed = Placed(design, random);
        var hardware = new List<HardwareItem>();
        foreach (HardwareItem item in placed.Hardware)
        {
            Hanger? hanger = placed.Wire!.Hangers.FirstOrDefault(h => h.Name == item.HangsFrom);
            if (hanger is { Kind: HangerKind.Swivel } && hardware.All(h => h.HangsFrom != item.HangsFrom) && Chance(random, 0.7))
                hardware.Add(Swivel(random, item.HangsFrom) with { Name = Name("swivel") });
            hardware.Add(item with
            {
                Name = Name(item.Name),
                Kind = item.Kind == HardwareKind.Treble && Chance(random, 0.3) ? HardwareKind.Single
                    : item.Kind == HardwareKind.SplitRing && Chance(random, 0.4)
                        ? new[] { HardwareKind.SolidRing, HardwareKind.Snap, HardwareKind.Other, HardwareKind.Swivel }[random.Next(4)] : item.Kind,
                DragAreaMm2 = Chance(random, 0.3) ? Round(Between(random, 50, 900)) : null,
            });
        }
        return placed with
        {
            Ballast = [.. placed.Ballast.Select(p => p with { Name = Name(p.Name) })],
            Finish = [.. placed.Finish.Select(c => c with { Name = Name(c.Name), Use = (FinishUse)random.Next((int)FinishUse.Sealer, (int)FinishUse.Clear + 1) })],
            Hardware = [.. hardware],
        };
    }

    /// <summary>The same lure with plain names that no two things share and no line of the program's has.</summary>
    public static LureDesign Plain(LureDesign design)
    {
        string[] places = [.. (design.Wire?.Hangers ?? []).Select(h => h.Name)];
        string At(string place) => Array.IndexOf(places, place) is var i and >= 0 ? $"place {i}" : place;
        return design with
        {
            Name = "a lure",
            Wire = design.Wire is { } wire ? wire with { Hangers = [.. wire.Hangers.Select(h => h with { Name = At(h.Name) })] } : null,
            Ballast = [.. design.Ballast.Select((p, i) => p with { Name = $"lump {i}" })],
            Finish = [.. design.Finish.Select((c, i) => c with { Name = $"layer {i}" })],
            Hardware = [.. design.Hardware.Select((h, i) => h with { Name = $"thing {i}", HangsFrom = At(h.HangsFrom) })],
        };
    }

    private static LureDesign Placed(LureDesign design, Random random)
    {
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        if (design.Wire is not { } wire || !Chance(random, 0.4)) return design;
        foreach ((int i, Hanger hanger) in wire.Hangers.Index()) names[hanger.Name] = Places[(random.Next(Places.Length) / 3 * 3 + i) % Places.Length];
        if (names.Values.Distinct().Count() < names.Count) return design;
        return design with
        {
            Wire = wire with { Hangers = [.. wire.Hangers.Select(h => h with { Name = names[h.Name] })] },
            Hardware = [.. design.Hardware.Select(h => h with { HangsFrom = names.GetValueOrDefault(h.HangsFrom, h.HangsFrom) })],
        };
    }

    private static HardwareItem Swivel(Random random, string place) => new()
    {
        Name = "swivel",
        Kind = HardwareKind.Swivel,
        HangsFrom = place,
        MassG = Round(Between(random, 0.6, 3.5)),
        LengthMm = Round(Between(random, 12, 32)),
    };
}
