namespace Trimwright.Drawing.Sheets;

/// <summary>A ruled table: fine lines, figures flush right, words flush left.</summary>
internal static class Table
{
    /// <summary>A column: its head (one or two lines), its width, and whether it holds words.</summary>
    internal readonly record struct Column(string Head, double Width, bool Words = false, bool Rule = false);

    private const double HeadLine = 4.2;

    /// <summary>
    /// Columns that fill a room together: each as wide as its figures and head need, words give way first where that is too much, and what
    /// is over is shared out.
    /// </summary>
    public static Column[] Filling(double room, IReadOnlyList<Column> columns, IReadOnlyList<string[]> rows, double size = Field.Text)
    {
        double Needed(int c) => Math.Max(
            rows.Select(r => Typefaces.WidthOf(r[c], size, Voice.Label)).Append(0).Max(),
            columns[c].Head.Split('\n').Max(h => Typefaces.WidthOf(h, HeadSize(h), Voice.Label))) + 2 * Aside + 0.2;
        // A column without words or figures is a blank to write in, as wide as it was said.
        double[] wide = [.. columns.Select((col, c) => rows.All(r => r[c].Length == 0) ? Math.Max(col.Width, Needed(c)) : Needed(c))];
        double over = wide.Sum() - room;
        if (over > 0)
        {
            double words = columns.Select((col, c) => col.Words ? wide[c] : 0).Sum();
            for (int c = 0; c < wide.Length; c++)
                if (columns[c].Words) wide[c] -= over * wide[c] / words;
        }
        else
        {
            double whole = wide.Sum();
            for (int c = 0; c < wide.Length; c++) wide[c] -= over * wide[c] / whole;
        }
        return [.. columns.Select((col, c) => col with { Width = wide[c] })];
    }

    // A figure in a head is read like those under it.
    private static double HeadSize(string line) => line.Length > 0 && char.IsDigit(line[0]) ? Field.Text : Field.Small;

    // Between a column's edge and what stands in it, mm.
    private const double Aside = 1.5;

    /// <summary>Draws it; returns the height where it ends.</summary>
    public static double Draw(Field field, PagePoint at, IReadOnlyList<Column> columns, IReadOnlyList<string[]> rows, double rowHeight = Usual, double size = Field.Text)
    {
        double width = columns.Sum(c => c.Width);
        int headLines = columns.Max(c => c.Head.Split('\n').Length);
        double y = at.Y + headLines * HeadLine, x = at.X;
        foreach (Column column in columns)
        {
            string[] head = column.Head.Split('\n');
            for (int i = 0; i < head.Length; i++)
                Put(field, head[i], x, y - (head.Length - 1 - i) * HeadLine - 1.2, column, HeadSize(head[i]));
            x += column.Width;
        }
        field.Line(Ink.Mark, at with { Y = y }, new PagePoint(at.X + width, y));
        double top = y;
        for (int r = 0; r < rows.Count; r++)
        {
            x = at.X;
            for (int c = 0; c < columns.Count; c++)
            {
                Put(field, rows[r][c], x, y + rowHeight / 2 + 0.36 * size, columns[c], size);
                x += columns[c].Width;
            }
            y += rowHeight;
            field.Line(r == rows.Count - 1 ? Ink.Mark : Ink.Grid, at with { Y = y }, new PagePoint(at.X + width, y));
        }
        x = at.X;
        foreach (Column column in columns)
        {
            if (column.Rule) field.Line(Ink.Grid, new PagePoint(x, top), new PagePoint(x, y));
            x += column.Width;
        }
        return y;
    }

    private static void Put(Field field, string text, double x, double y, Column column, double size)
    {
        if (column.Words) field.Say(Fit(text, column.Width - 2 * Aside, size), new PagePoint(x + Aside, y), Anchor.Start, size);
        else field.Say(text, new PagePoint(x + column.Width - Aside, y), Anchor.End, size);
    }

    // A name longer than its column ends in dots.
    public static string Fit(string text, double room, double size)
    {
        if (Typefaces.WidthOf(text, size, Voice.Label) <= room) return text;
        while (text.Length > 1 && Typefaces.WidthOf(text + "…", size, Voice.Label) > room) text = text[..^1];
        return text.TrimEnd() + "…";
    }

    /// <summary>The lowest row that can still be read, mm.</summary>
    public const double Lowest = 4.6;

    private const double Usual = 6;

    // Higher ones only part what belongs together.
    private const double Highest = 9;

    /// <summary>Row height that lets so many rows fill a room, as far as one row still belongs to the next.</summary>
    public static double Rows(int count, double room) => Math.Clamp(room / Math.Max(count, 1), Lowest, Highest);

    /// <summary>Rows for each page of a room, as even as can be.</summary>
    public static IEnumerable<string[][]> Pages(string[][] rows, double room)
    {
        int most = Math.Max(1, (int)(room / Lowest)), pages = Math.Max(1, (rows.Length + most - 1) / most);
        return rows.Chunk(Math.Max(1, (rows.Length + pages - 1) / pages));
    }
}
