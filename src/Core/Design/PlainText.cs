using System.Text;

namespace Trimwright.Core.Design;

/// <summary>What a maker's own words may hold that would steer whatever shows them, and those words without it.</summary>
public static class PlainText
{
    /// <summary>
    /// Whether a character steers a screen instead of standing on it: controls, Unicode's marks and embeddings that turn the
    /// direction of writing (Unicode Standard Annex 9, table 1), its separators of lines and paragraphs.
    /// </summary>
    public static bool Steers(Rune rune) => Rune.IsControl(rune)
        || rune.Value is 0x061C or 0x200E or 0x200F or (>= 0x2028 and <= 0x202E) or (>= 0x2066 and <= 0x2069);

    /// <summary>The text without them: for a place that stands in others' words, as a page's title does in the browser's.</summary>
    public static string Without(string text) => Instead(text, "");

    /// <summary>The text with another in the place of each, so that it is seen that something was there.</summary>
    public static string Instead(string text, string mark)
    {
        var clean = new StringBuilder(text.Length);
        foreach (Rune rune in text.EnumerateRunes()) clean.Append(Steers(rune) ? mark : rune.ToString());
        return clean.ToString();
    }
}
