using System.Collections.Immutable;

namespace Trimwright.Drawing.Sheets;

/// <summary>All sheets at a glance, in the order of the work, and what each kind of line means.</summary>
internal static class ContactSheet
{
    public const string Id = "contact";

    private const double Key = 17;
    private const double Text = 7;
    private const double Gap = 5;

    public static Sheet Draw(SheetOptions options, IReadOnlyList<Sheet> others)
    {
        var field = new Field(options.Room.Width, options.Room.Height);
        int across = others.Count <= 4 ? 2 : others.Count <= 9 ? 3 : others.Count <= 12 ? 4 : 5, down = (others.Count + across - 1) / across;
        double w = (field.Width - (across - 1) * Gap) / across, h = (field.Height - Key - (down - 1) * Gap) / down;
        for (int i = 0; i < others.Count; i++)
            AddSheet(field, others[i], i + 1, new PagePoint(i % across * (w + Gap), i / across * (h + Gap)), w, h);
        AddKey(field, field.Height - Key + 9);
        return new Sheet(Id, "All sheets", "In the order of the work: the number is that of the loop in the wire at the top of each page.", [field.Done("All sheets")], Drawn: false);
    }

    private static void AddSheet(Field field, Sheet sheet, int number, PagePoint corner, double w, double h)
    {
        double room = h - Text;
        Picture picture = sheet.Fields[0];
        // Words and figures would be too small to read.
        ImmutableArray<Mark> marks = [.. picture.Marks.Where(m => m is not Label)];
        double scale = Math.Min(Math.Min((w - 4) / picture.Width, (room - 3) / picture.Height), 0.6);
        double wide = scale * picture.Width, high = scale * picture.Height;
        field.Box(Ink.Grid, corner, w, room);
        field.Add(new Inset(marks, new PagePoint(0, 0), scale, new PagePoint(corner.X + (w - wide) / 2, corner.Y + (room - high) / 2), wide, high));
        string name = $"{Frame.Number(number)}  {sheet.Title}";
        // A name is read from near by: rather smaller than cut off, and rather on two lines than smaller still.
        double size = Math.Clamp(w / Typefaces.WidthOf(name, 1, Voice.Label), Field.Small, Field.Text);
        string[] lines = Typefaces.WidthOf(name, size, Voice.Label) <= w + 0.01 ? [name] : [.. Field.Wrapped(name, w, size, Voice.Label)];
        for (int i = 0; i < lines.Length; i++)
            field.Say(lines[i], new PagePoint(corner.X, corner.Y + room + (lines.Length == 1 ? 4.6 : 3.4 + 3.1 * i)), Anchor.Start, size);
    }

    private static void AddKey(Field field, double y)
    {
        double x = 0;
        foreach ((Ink ink, string text) in new[]
        {
            (Ink.Cut, "cut to the middle of it"), (Ink.Mark, "mark it on the wood"), (Ink.Later, "mark it when the cut before is done"), (Ink.Grid, "only to measure from"),
        })
        {
            field.Line(ink, new PagePoint(x, y - 1), new PagePoint(x + 12, y - 1));
            field.Say(text, new PagePoint(x + 14, y), Anchor.Start, Field.Small);
            x += 20 + Typefaces.WidthOf(text, Field.Small, Voice.Label);
        }
        field.Prick(new PagePoint(x + 1.2, y - 1));
        field.Say("prick through", new PagePoint(x + 4, y), Anchor.Start, Field.Small);
        field.Say("Where A and B stand they are the same two places of the lure: lay them on each other and the sheets agree. Numbers along the lure are from the nose.",
            new PagePoint(0, y + 6), Anchor.Start, 3.3, Voice.Maker);
    }
}
