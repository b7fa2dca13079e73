using System.Globalization;

namespace Trimwright.Core.Design;

/// <summary>
/// Sizes as packets print them. They are no standard between makers, so they only tell which hook of a box stands in for which,
/// never a weight.
/// </summary>
public static class HookSize
{
    /// <summary>
    /// The first size in a text as a number that grows with the hook: 3/0 is 3, 1/0 is 1, sizes without the stroke run down from
    /// 1; null where there is none.
    /// </summary>
    public static double? Number(string? text) => In(text) is { } size ? NumberOf(size) : null;

    /// <summary>The first word of a text that is a size; null where none is.</summary>
    internal static string? In(string? text) =>
        text?.Split(' ', StringSplitOptions.RemoveEmptyEntries).FirstOrDefault(word => NumberOf(word) is not null);

    private static double? NumberOf(string word)
    {
        string digits = word.EndsWith("/0", StringComparison.Ordinal) ? word[..^2] : word;
        if (!int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int n) || n is < 1 or > 30) return null;
        return digits.Length < word.Length ? n : 1 - n;
    }
}
