namespace Trimwright.Core.Design;

/// <summary>
/// Kinds of hardware and uses of coats as a file has them, or, where it has none, by name: read once, here, and told to the
/// maker in one sentence. A file of version 1 knows no such keys.
/// </summary>
internal sealed class NamedKinds(ObjectReader file, Findings findings)
{
    /// <summary>The file's words for what hangs on a lure.</summary>
    internal static readonly (string Word, HardwareKind Kind)[] HardwareWords =
    [
        ("split_ring", HardwareKind.SplitRing), ("solid_ring", HardwareKind.SolidRing), ("swivel", HardwareKind.Swivel), ("treble", HardwareKind.Treble),
        ("single", HardwareKind.Single), ("snap", HardwareKind.Snap), ("other", HardwareKind.Other),
    ];

    /// <summary>The file's words for what a coat is there for.</summary>
    internal static readonly (string Word, FinishUse Use)[] CoatWords =
        [("sealer", FinishUse.Sealer), ("colour", FinishUse.Colour), ("clear", FinishUse.Clear)];

    // Nobody reads a longer list.
    private const int MostTold = 12;

    private readonly bool first = file.Find("trimwright") is { Kind: JsonKind.Number, Number: 1 };
    private readonly List<string> hardware = [];
    private readonly List<string> coats = [];

    public (HardwareKind Kind, string? Size) Hardware(ObjectReader item, string name)
    {
        string? size = first ? null : item.TextOrNone("size", "the size on the packet, such as 3/0");
        if (!first && item.Has("kind")) return (item.Choice("kind", HardwareKind.Other, HardwareWords), size);
        HardwareKind kind = ByName.Hardware(name);
        if (kind.IsHook()) size ??= HookSize.In(name);
        Take(name, kind, size);
        return (kind, size);
    }

    /// <summary>Notes what a thing without a kind was taken for.</summary>
    public void Take(string name, HardwareKind kind, string? size) =>
        Add(hardware, $"“{JsonTree.Shorten(name)}” for {Words(kind)}{(kind.IsHook() && size is not null ? $", size {size}" : "")}");

    public FinishUse Coat(ObjectReader coat, string name)
    {
        if (!first && coat.Has("use")) return coat.Choice("use", FinishUse.Clear, CoatWords);
        FinishUse use = ByName.Coat(name);
        Add(coats, $"“{JsonTree.Shorten(name)}” for {(use == FinishUse.Sealer ? "a sealer" : use == FinishUse.Colour ? "colour" : "clear")}");
        return use;
    }

    /// <summary>What is left over of an object; of the first version also what a later one has a meaning for.</summary>
    public Kept Close(ObjectReader of, params ReadOnlySpan<string> newer) => first ? of.Close(newer) : of.Close();

    /// <summary>Says once what was taken for what.</summary>
    /// <param name="where">The list that holds them.</param>
    public void Tell(string where = "hardware")
    {
        if (hardware.Count > 0)
            findings.Warn(where, $"without \"kind\", so taken by name: {List(hardware)}; give \"kind\" where that is wrong");
        if (coats.Count > 0)
            findings.Warn("finish", $"without \"use\", so taken by name: {List(coats)}; give \"use\" where that is wrong");
    }

    private static void Add(List<string> told, string one)
    {
        if (!told.Contains(one)) told.Add(one);
    }

    private static string List(List<string> told) =>
        string.Join(", ", told.Take(MostTold)) + (told.Count > MostTold ? $" and {told.Count - MostTold} more" : "");

    /// <summary>As a sentence has it.</summary>
    internal static string Words(HardwareKind kind) => kind switch
    {
        HardwareKind.SplitRing => "a split ring",
        HardwareKind.SolidRing => "a solid ring",
        HardwareKind.Swivel => "a swivel",
        HardwareKind.Treble => "a treble",
        HardwareKind.Single => "a single hook",
        HardwareKind.Snap => "a snap",
        HardwareKind.Other => "something else",
    };
}
