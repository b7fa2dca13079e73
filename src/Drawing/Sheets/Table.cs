namespace Trimwright.Drawing.Sheets;

/// <summary>A ruled table: fine lines, figures flush right, words flush left.</summary>
internal static class Table
{
    /// <summary>A column: its head (one or two lines), its width, and whether it holds words.</summary>
    internal readonly record struct Column(string Head, double Width, bool Words = false, bool Rule = false);

    private const double HeadLine = 4.2;

    /// <summary>Draws it; returns the height where it ends.</summary>
    public static double Draw(Field field, PagePoint at, IReadOnlyList<Column> columns, IReadOnlyList<string[]> rows, double rowHeight = 5.4, double size = Field.Text)
    {
        double width = columns.Sum(c => c.Width);
        int headLines = columns.Max(c => c.Head.Split('\n').Length);
        double y = at.Y + headLines * HeadLine, x = at.X;
        foreach (Column column in columns)
        {
            string[] head = column.Head.Split('\n');
            for (int i = 0; i < head.Length; i++)
                Put(field, head[i], x, y - (head.Length - 1 - i) * HeadLine - 1.2, column, Field.Small);
            x += column.Width;
        }
        field.Line(Ink.Mark, at with { Y = y }, new PagePoint(at.X + width, y));
        double top = y;
        for (int r = 0; r < rows.Count; r++)
        {
            x = at.X;
            for (int c = 0; c < columns.Count; c++)
            {
                Put(field, rows[r][c], x, y + rowHeight - 1.4, columns[c], size);
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
        if (column.Words) field.Say(Fit(text, column.Width - 3, size), new PagePoint(x + 1.5, y), Anchor.Start, size);
        else field.Say(text, new PagePoint(x + column.Width - 1.5, y), Anchor.End, size);
    }

    // A name longer than its column ends in dots.
    public static string Fit(string text, double room, double size)
    {
        if (Typefaces.WidthOf(text, size, Voice.Label) <= room) return text;
        while (text.Length > 1 && Typefaces.WidthOf(text + "…", size, Voice.Label) > room) text = text[..^1];
        return text.TrimEnd() + "…";
    }

    /// <summary>The lowest row that can still be read, mm.</summary>
    public const double Lowest = 3.8;

    /// <summary>Row height that lets so many rows stand in a room, at most the usual.</summary>
    public static double Rows(int count, double room) => Math.Clamp(room / Math.Max(count, 1), Lowest, 5.4);
}
