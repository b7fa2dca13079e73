namespace Trimwright.Drawing.Sheets;

/// <summary>Notes on things along a lure, in a row over or under it, each as near its thing as its neighbours allow.</summary>
internal static class Callouts
{
    private const double Gap = 4;
    private const double LineHeight = 5;

    /// <param name="field">Where to.</param>
    /// <param name="y">Baseline of the first line of text.</param>
    /// <param name="items">Things and what to say of them, a few short lines each.</param>
    /// <param name="above">The row stands over the things.</param>
    public static void Row(Field field, double y, IEnumerable<(PagePoint At, string[] Lines)> items, bool above = false)
    {
        (PagePoint At, string[] Lines)[] sorted = [.. items.OrderBy(i => i.At.X)];
        if (sorted.Length == 0) return;
        double[] half = [.. sorted.Select(i => i.Lines.Max(l => Typefaces.WidthOf(l, Field.Text, Voice.Label)) / 2)];
        // A crowded row is written smaller rather than one note over another.
        double shrink = Math.Min(1, (field.Width - Gap * (sorted.Length - 1)) / (2 * half.Sum())), size = shrink * Field.Text;
        half = [.. half.Select(h => shrink * h)];
        double[] centre = [.. sorted.Select(i => i.At.X)];
        // Pushed apart from the left, then back from the right edge, then once more where the left edge is met.
        double edge = 0;
        for (int i = 0; i < centre.Length; i++)
        {
            centre[i] = Math.Max(centre[i], edge + half[i]);
            edge = centre[i] + half[i] + Gap;
        }
        edge = field.Width;
        for (int i = centre.Length - 1; i >= 0; i--)
        {
            centre[i] = Math.Min(centre[i], edge - half[i]);
            edge = centre[i] - half[i] - Gap;
        }
        for (int i = 0; i < sorted.Length; i++)
        {
            for (int k = 0; k < sorted[i].Lines.Length; k++)
                field.Say(sorted[i].Lines[k], new PagePoint(centre[i], y + k * LineHeight), Anchor.Middle, size);
            double from = above ? y + (sorted[i].Lines.Length - 1) * LineHeight + 1.4 : y - 3.8;
            field.Line(Ink.Grid, sorted[i].At, new PagePoint(centre[i], from));
        }
    }
}
