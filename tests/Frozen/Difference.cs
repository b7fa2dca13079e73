using System.Text.RegularExpressions;

namespace Trimwright.Frozen;

/// <summary>One place where an answer is not as it was frozen.</summary>
/// <param name="Ask">Whose.</param>
/// <param name="Part">Where of it: <c>exit</c>, <c>out</c>, <c>error</c>, or <c>file PATH</c>.</param>
/// <param name="Kind">What the place is.</param>
/// <param name="Place">The JSON path, or the line's number, from 1.</param>
/// <param name="Old">As frozen, JSON as written; null where there was nothing.</param>
/// <param name="New">As it is now; null where there is nothing.</param>
internal sealed partial record Difference(string Ask, string Part, PlaceKind Kind, string Place, string? Old, string? New)
{
    /// <summary>The numbers that changed, each with its old and its new form; nothing where more than numbers did.</summary>
    public IReadOnlyList<(string Old, string New)> Numbers
    {
        get
        {
            if (Old is null || New is null || Words(Old) != Words(New)) return [];
            return [.. Number().Matches(Old).Zip(Number().Matches(New), (a, b) => (a.Value, b.Value)).Where(n => n.Item1 != n.Item2)];
        }
    }

    /// <summary>A text without its numbers and without how wide its columns are.</summary>
    public static string Words(string text) => Blank().Replace(Number().Replace(text, "#"), " ");

    // With either minus; a dash in a word is none.
    [GeneratedRegex(@"(?:(?<![\w.])[-−])?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(" +")]
    private static partial Regex Blank();
}

/// <summary>What a <see cref="Difference"/> is a difference of.</summary>
internal enum PlaceKind
{
    /// <summary>A value in JSON.</summary>
    Json,

    /// <summary>A line of text.</summary>
    Line,

    /// <summary>An exit status, a file that is new or gone, or a text that differs in its form alone.</summary>
    Whole,
}
