namespace Trimwright.Drawing.Sheets;

/// <summary>Puts sheets on pages: one drawing in the middle of a page, or on tiles that overlap when it is larger.</summary>
public static class Pager
{
    // Enough to glue tiles together and to see a line run on.
    internal const double Overlap = 15;

    /// <summary>Every page of every sheet, in order, each with the sheet that it belongs to.</summary>
    public static IEnumerable<(Sheet Sheet, Picture Page)> Pages(IReadOnlyList<Sheet> sheets, string lure, SheetOptions options)
    {
        var frame = new Frame(options, lure, sheets);
        for (int i = 0; i < sheets.Count; i++)
            foreach (Picture page in Pages(frame, sheets[i], i, options)) yield return (sheets[i], page);
    }

    private static IEnumerable<Picture> Pages(Frame frame, Sheet sheet, int index, SheetOptions options)
    {
        (double Left, double Top, double Width, double Height) room = options.Room;
        int parts = sheet.Fields.Sum(f => Count(f.Width, room.Width) * Count(f.Height, room.Height)), part = 0;
        foreach (Picture field in sheet.Fields)
        {
            int across = Count(field.Width, room.Width), down = Count(field.Height, room.Height);
            for (int row = 0; row < down; row++)
                for (int column = 0; column < across; column++)
                {
                    Field page = frame.Page(index, part++, parts);
                    double x = Start(column, across, field.Width, room.Width), y = Start(row, down, field.Height, room.Height);
                    if (across * down == 1)
                    {
                        // A millimetre more on each side, for lines are drawn on their middle.
                        var corner = new PagePoint(room.Left + (room.Width - field.Width) / 2 - 1, room.Top + (room.Height - field.Height) / 2 - 1);
                        page.Add(new Inset(field.Marks, new PagePoint(-1, -1), 1, corner, field.Width + 2, field.Height + 2));
                    }
                    else
                    {
                        page.Add(new Inset([.. field.Marks, .. Register(field, across, down, room)], new PagePoint(x, y), 1,
                            new PagePoint(room.Left, room.Top), room.Width, room.Height));
                        AddMap(page, across, down, column, row, options);
                    }
                    yield return page.Done($"{sheet.Title}, page {part}", sheet.Purpose);
                }
        }
    }

    // A hundredth of a millimetre of rounding makes no second page.
    private static int Count(double size, double room) =>
        size <= room + 0.01 ? 1 : (int)Math.Ceiling((size - Overlap) / (room - Overlap) - 1e-9);

    /// <summary>Where a tile's window begins; evenly spread, so that two mirrored drawings have mirrored tiles.</summary>
    private static double Start(int tile, int tiles, double size, double room) =>
        tiles == 1 ? (size - room) / 2 : tile * (size - room) / (tiles - 1);

    /// <summary>Crosses in the overlaps, two to a seam, lettered: those of one letter go on each other.</summary>
    private static IEnumerable<Mark> Register(Picture field, int across, int down, (double Left, double Top, double Width, double Height) room)
    {
        var marks = new Field(field.Width, field.Height);
        int letter = 0;
        double[] heights = [.. Enumerable.Range(0, down).SelectMany(row =>
            new[] { Start(row, down, field.Height, room.Height) + 6, Start(row, down, field.Height, room.Height) + room.Height - 6 })];
        double[] widths = [.. Enumerable.Range(0, across).SelectMany(column =>
            new[] { Start(column, across, field.Width, room.Width) + 25, Start(column, across, field.Width, room.Width) + room.Width - 25 })];
        for (int c = 0; c + 1 < across; c++)
        {
            double x = Seam(c, across, field.Width, room.Width);
            foreach (double y in heights) AddCross(marks, new PagePoint(x, y), letter++);
        }
        for (int r = 0; r + 1 < down; r++)
        {
            double y = Seam(r, down, field.Height, room.Height);
            foreach (double x in widths) AddCross(marks, new PagePoint(x, y), letter++);
        }
        return marks.Done("").Marks;
    }

    private static double Seam(int tile, int tiles, double size, double room) =>
        (Start(tile, tiles, size, room) + room + Start(tile + 1, tiles, size, room)) / 2;

    private static void AddCross(Field marks, PagePoint at, int letter)
    {
        marks.Lines(Ink.Grid, [(at + new PagePoint(-4, 0), at + new PagePoint(4, 0)), (at + new PagePoint(0, -4), at + new PagePoint(0, 4))]);
        marks.Circle(Ink.Grid, at, 2);
        marks.Say(((char)('A' + letter % 26)).ToString(), at + new PagePoint(2.6, -1.4), Anchor.Start, Field.Small);
    }

    /// <summary>Which part of the whole this page is.</summary>
    private static void AddMap(Field page, int across, int down, int column, int row, SheetOptions options)
    {
        double w = Math.Min(24.0 / across, 12), h = Math.Min(14.0 / down, 9);
        double left = options.Width - options.Margin - 26 - across * w, top = options.Height - options.Margin - 20;
        for (int r = 0; r < down; r++)
            for (int c = 0; c < across; c++)
                page.Box(Ink.Grid, new PagePoint(left + c * w, top + r * h), w, h);
        page.Box(Ink.Cut, new PagePoint(left + column * w, top + row * h), w, h);
        page.Say("this page", new PagePoint(left + across * w / 2, top + down * h + 4.2), Anchor.Middle, Field.Small);
    }
}
