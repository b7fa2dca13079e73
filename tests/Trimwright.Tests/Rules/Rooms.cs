using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>The rooms and their order as ARCHITECTURE.md draws them, the one place where they stand.</summary>
internal static partial class Rooms
{
    private static readonly string[] page = Sources.Text("ARCHITECTURE.md").Split('\n');

    /// <summary>The folders of Core from the ground up; Prediction.cs stands among them as a file.</summary>
    public static readonly string[] Core = Under("Core");

    /// <summary>The rooms of App, and what each may use: rooms, and projects.</summary>
    public static readonly IReadOnlyList<(string Room, string[] Rooms, string[] Projects)> App =
        [.. Table("room of App").Select(row => (row[0], Words(row[1]), Words(row[2])))];

    /// <summary>What a page may do at a door; none named: whatever there is.</summary>
    public static readonly IReadOnlyDictionary<string, string[]> Doors =
        Table("door").ToDictionary(row => row[0], row => row[1].StartsWith("whatever", StringComparison.Ordinal) ? [] : Words(row[1]));

    /// <summary>The names in the tree under a project, in their order; those that hold code.</summary>
    public static string[] Under(string project)
    {
        int start = Array.FindIndex(page, l => Regex.IsMatch(l, $@"^  {project}/"));
        Assert.True(start > 0, $"ARCHITECTURE.md: the tree has no {project}/");
        return [.. page[(start + 1)..].TakeWhile(l => l.StartsWith("    ", StringComparison.Ordinal)).Select(l => Name().Match(l).Groups[1].Value)];
    }

    private static IEnumerable<string[]> Table(string head)
    {
        int start = Array.FindIndex(page, l => l.StartsWith($"| {head} |", StringComparison.Ordinal));
        Assert.True(start > 0, $"ARCHITECTURE.md: no table with the head \"{head}\"");
        return page[(start + 2)..].TakeWhile(l => l.StartsWith('|')).Select(l => l.Trim('|').Split('|').Select(c => c.Trim()).ToArray());
    }

    private static string[] Words(string cell) => cell.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    [GeneratedRegex(@"^    ([\w.]+?)/? ")]
    private static partial Regex Name();
}
