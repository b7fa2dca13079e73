namespace Trimwright.Core.Design;

/// <summary>What somebody most likely meant who typed a word that is none of those known.</summary>
public static class NearWord
{
    // What is longer than this is no slip of a short word, and its distance would cost.
    private const int Longest = 60;

    /// <summary>The nearest of the known words, when at most two letters or a third of the word are wrong; else null.</summary>
    /// <param name="known">In lower case.</param>
    /// <param name="typed">As it was typed.</param>
    public static string? Of(IEnumerable<string> known, string typed)
    {
        (string? nearest, int off) = known.Select(word => (word, Distance(word, typed))).MinBy(near => near.Item2);
        return nearest is not null && off <= Math.Max(2, typed.Length / 3) && off < nearest.Length ? nearest : null;
    }

    /// <summary>Levenshtein's distance of two short words, capitals apart; a key without its unit is next to the key.</summary>
    private static int Distance(string a, string b)
    {
        if (b.Length > Longest) return int.MaxValue;
        if (a.StartsWith(b + "_", StringComparison.OrdinalIgnoreCase)) return 1;
        int[] row = [.. Enumerable.Range(0, b.Length + 1)];
        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int cost = Math.Min(Math.Min(row[j], row[j - 1]) + 1, diagonal + (a[i - 1] == char.ToLowerInvariant(b[j - 1]) ? 0 : 1));
                (diagonal, row[j]) = (row[j], cost);
            }
        }
        return row[^1];
    }
}
