namespace Trimwright.Frozen;

/// <summary>Which line of one text is which of another: first those that are the same, between them those that differ in numbers only.</summary>
internal static class Alignment
{
    // Beyond this many pairs they are taken as they come.
    private const long Most = 16_000_000;

    /// <summary>Pairs of places in order; −1 where the other has none.</summary>
    public static List<(int Old, int New)> Of(string[] old, string[] now)
    {
        var all = new List<(int, int)>();
        string[] oldWords = [.. old.Select(Difference.Words)], newWords = [.. now.Select(Difference.Words)];
        foreach ((Range a, Range b) in Between(old, now, 0..old.Length, 0..now.Length, all))
            foreach ((Range c, Range d) in Between(oldWords, newWords, a, b, all))
                InOrder(c, d, all);
        all.Sort((p, q) => (Math.Max(p.Item1, 0), Math.Max(p.Item2, 0)).CompareTo((Math.Max(q.Item1, 0), Math.Max(q.Item2, 0))));
        return all;
    }

    private static void InOrder(Range a, Range b, List<(int, int)> all)
    {
        (int i, int j) = (a.Start.Value, b.Start.Value);
        for (; i < a.End.Value && j < b.End.Value; i++, j++) all.Add((i, j));
        for (; i < a.End.Value; i++) all.Add((i, -1));
        for (; j < b.End.Value; j++) all.Add((-1, j));
    }

    /// <summary>Pairs what is equal along the longest common sequence, and returns what lies between.</summary>
    private static List<(Range, Range)> Between(string[] old, string[] now, Range a, Range b, List<(int, int)> all)
    {
        var gaps = new List<(Range, Range)>();
        (int i, int end, int j, int stop) = (a.Start.Value, a.End.Value, b.Start.Value, b.End.Value);
        for (; i < end && j < stop && old[i] == now[j]; i++, j++) all.Add((i, j));
        for (; i < end && j < stop && old[end - 1] == now[stop - 1]; end--, stop--) all.Add((end - 1, stop - 1));
        (int n, int m) = (end - i, stop - j);
        if (n == 0 || m == 0 || (long)n * m > Most) return n + m == 0 ? [] : [(i..end, j..stop)];
        var longest = new int[n + 1, m + 1];
        for (int p = n - 1; p >= 0; p--)
            for (int q = m - 1; q >= 0; q--)
                longest[p, q] = old[i + p] == now[j + q] ? longest[p + 1, q + 1] + 1 : Math.Max(longest[p + 1, q], longest[p, q + 1]);
        (int fromOld, int fromNew, int x, int y) = (0, 0, 0, 0);
        while (x < n && y < m)
        {
            if (old[i + x] == now[j + y])
            {
                if (x > fromOld || y > fromNew) gaps.Add(((i + fromOld)..(i + x), (j + fromNew)..(j + y)));
                all.Add((i + x++, j + y++));
                (fromOld, fromNew) = (x, y);
            }
            else if (longest[x + 1, y] >= longest[x, y + 1])
            {
                x++;
            }
            else
            {
                y++;
            }
        }
        if (fromOld < n || fromNew < m) gaps.Add(((i + fromOld)..end, (j + fromNew)..stop));
        return gaps;
    }
}
