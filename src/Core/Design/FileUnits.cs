namespace Trimwright.Core.Design;

/// <summary>In which units a file says what it says, for words about it.</summary>
/// <param name="file">Its whole; null: all of it is in the program's own units.</param>
internal sealed class FileUnits(JsonTree? file)
{
    private readonly HashSet<OtherUnit> read = [];

    // Looked for once: a file may have five million bytes and a hundred faults.
    private readonly Dictionary<OtherUnit, bool> isThere = [];
    private bool isRead;

    /// <summary>Notes a key in another unit that was read.</summary>
    public void Read(OtherUnit unit) => read.Add(unit);

    /// <summary>All of it has been read.</summary>
    public void ReadAll() => isRead = true;

    /// <summary>Whether the file gives numbers in that unit; while it is being read, whether any of its keys ends so.</summary>
    public bool Uses(OtherUnit unit)
    {
        if (read.Contains(unit)) return true;
        if (isRead || file is null) return false;
        if (!isThere.TryGetValue(unit, out bool there)) isThere[unit] = there = file.HasKeyEnding(unit.Ending);
        return there;
    }

    /// <summary>Whether lengths, say, are told in that unit at a place: as its key has them, else as the file does elsewhere.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="path">The place, as <see cref="Path"/> gives it.</param>
    public bool IsOther(OtherUnit unit, string path)
    {
        string key = Last(path);
        return OtherUnit.In(key) == unit || OtherUnit.Of(key) != unit && Uses(unit);
    }

    /// <summary>A path of the program's own keys, as the file has them.</summary>
    public string Path(string path)
    {
        if (file is null || !OtherUnit.All.Any(Uses)) return path;
        var found = new System.Text.StringBuilder();
        JsonTree? at = file;
        foreach (string step in path.Replace("[", ".[", StringComparison.Ordinal).Split('.', StringSplitOptions.RemoveEmptyEntries))
        {
            if (step[0] == '[')
            {
                found.Append(step);
                at = int.TryParse(step.AsSpan(1, step.Length - 2), out int index) && index < at?.ItemCount ? at.Items[index] : null;
                continue;
            }
            string key = step;
            if (OtherUnit.Of(key) is { } unit && at?.Member(key) is null && (at?.Member(unit.Key(key)) is not null || Uses(unit))) key = unit.Key(key);
            if (found.Length > 0) found.Append('.');
            found.Append(key);
            at = at?.Member(key);
        }
        return found.ToString();
    }

    private static string Last(string path)
    {
        string key = path[(path.LastIndexOf('.') + 1)..];
        return key.IndexOf('[') is var index and >= 0 ? key[..index] : key;
    }
}
