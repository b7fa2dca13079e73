using System.Collections.Immutable;

namespace Trimwright.Core.Design;

/// <summary>What of a lure can be taken in the hand and weighed by itself.</summary>
public enum ThingKind
{
    Weight,
    Hardware,
    Wire,
    Eyes,
}

/// <summary>One thing of a lure: a maker may call it by its name, the program knows it by this.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Index">Its place in the design's list of such things; 0 where there is but one.</param>
public readonly record struct Thing(ThingKind Kind, int Index)
{
    /// <summary>By what names a maker can mean a thing of a lure, in the order of its file.</summary>
    /// <param name="design">The lure.</param>
    public static IEnumerable<(string Name, Thing Thing)> Names(LureDesign design)
    {
        foreach ((int i, BallastPiece piece) in design.Ballast.Index()) yield return (piece.Name, new(ThingKind.Weight, i));
        foreach ((int i, HardwareItem item) in design.Hardware.Index()) yield return (At(item), new(ThingKind.Hardware, i));
        foreach ((int i, HardwareItem item) in design.Hardware.Index()) yield return (item.Name, new(ThingKind.Hardware, i));
        if (design.Wire is not null) yield return ("wire", new(ThingKind.Wire, 0));
        if (design.Eyes is not null) yield return ("eyes", new(ThingKind.Eyes, 0));
    }

    /// <summary>Every thing that a name may mean: none, one, or twins that nobody can tell apart by it.</summary>
    /// <param name="design">The lure.</param>
    /// <param name="name">As a maker wrote it: a weight's name, a thing's name "at" where it hangs or alone, wire, eyes.</param>
    public static ImmutableArray<Thing> Named(LureDesign design, string name) =>
        [.. Names(design).Where(n => n.Name == name).Select(n => n.Thing).Distinct()];

    /// <summary>What hardware is called with its place: "treble 3/0 at belly".</summary>
    public static string At(HardwareItem item) => $"{item.Name} at {item.HangsFrom}";

    /// <summary>What it is called in a log.</summary>
    public string NameIn(LureDesign design) => Kind switch
    {
        ThingKind.Weight => design.Ballast[Index].Name,
        ThingKind.Hardware => At(design.Hardware[Index]),
        ThingKind.Wire => "wire",
        ThingKind.Eyes => "eyes",
    };

    /// <summary>What it is, for a sentence that tells twins apart: "weight 2 of the file", "the wire".</summary>
    public string Said => Kind switch
    {
        ThingKind.Weight => $"weight {Index + 1} of the file",
        ThingKind.Hardware => $"hardware {Index + 1} of the file",
        ThingKind.Wire => "the wire itself",
        ThingKind.Eyes => "the eyes themselves",
    };
}
