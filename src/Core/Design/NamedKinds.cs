namespace Trimwright.Core.Design;

/// <summary>
/// Kinds of hardware and uses of coats that a file leaves to names: read once, as the file is, and told to the maker in one sentence.
/// </summary>
internal sealed class NamedKinds
{
    // Nobody reads a longer list.
    private const int MostTold = 12;

    private readonly List<(string List, string Key, string Taken)> taken = [];

    /// <summary>Notes what a thing without a kind was taken for; the sentence stands at its list.</summary>
    public void Take(ObjectReader item, string name, HardwareKind kind, string? size) =>
        Add(item, "kind", name, Words(kind) + (kind.IsHook() && size is not null ? $", size {size}" : ""));

    /// <summary>Notes what a coat without a use was taken for.</summary>
    public void Take(ObjectReader coat, string name, FinishUse use) =>
        Add(coat, "use", name, use == FinishUse.Sealer ? "a sealer" : use == FinishUse.Colour ? "colour" : "clear");

    private void Add(ObjectReader item, string key, string name, string what)
    {
        string path = item.Path;
        var one = (path[..path.IndexOf('[', StringComparison.Ordinal)], key, $"“{JsonTree.Shorten(name)}” for {what}");
        if (!taken.Contains(one)) taken.Add(one);
    }

    /// <summary>Says once what was taken for what.</summary>
    public void Tell(Findings findings)
    {
        foreach (var list in taken.GroupBy(t => (t.List, t.Key)).OrderBy(l => l.Key.Key, StringComparer.Ordinal))
        {
            string[] told = [.. list.Select(t => t.Taken)];
            string more = told.Length > MostTold ? $" and {told.Length - MostTold} more" : "";
            findings.Warn(list.Key.List, $"without \"{list.Key.Key}\", so taken by name: {string.Join(", ", told.Take(MostTold))}{more}; give \"{list.Key.Key}\" where that is wrong");
        }
    }

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
