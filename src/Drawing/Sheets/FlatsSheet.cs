using System.Globalization;
using Trimwright.Core.Carving;

namespace Trimwright.Drawing.Sheets;

/// <summary>From the sawn blank to eight sides and to sixteen: the marks as lines along the blank, and as a table of offsets.</summary>
internal static class FlatsSheet
{

    public static Sheet Draw(Drafting d) => new("flats", "Eight sides, then sixteen",
        "Cut third. Pencil the full lines on the sawn faces, cut flat from line to line; then the dashed ones. What is left is round, and untouched.",
        [Lines(d), .. Offsets(d)]);

    private static Picture Lines(Drafting d)
    {
        double tall = d.Top - d.Bottom, wide = 2 * d.HalfBreadth, above = 14, between = 20, below = 12;
        var field = new Field(d.Wide, above + tall + between + wide + below);
        FlatMarks[] marks = [.. d.Along.Select(x => FlatMarks.At(d.Body, x))];
        View side = d.View(d.Left, above + d.Top), plan = d.View(d.Left, above + tall + between + d.HalfBreadth);
        OutlineSheets.AddStations(field, d, side, d.Top + 4, d.Bottom - 3);
        field.Path(Ink.Cut, d.Profile().Select(side.At), closed: true);
        field.Path(Ink.Grid, marks.Select(m => side.At(m.X, m.Section.Widest)));
        Along(field, Ink.Mark, marks, side, m => m.Section.Widest + m.Back.EightFromWidest, m => m.Section.Widest - m.Belly.EightFromWidest);
        Along(field, Ink.Later, marks, side, m => m.Section.Widest + m.Back.SixteenFromWidest, m => m.Section.Widest - m.Belly.SixteenFromWidest);
        Name(field, d, side, "on the sides", "widest line");
        field.Lines(Ink.Grid, d.Stations.Select(x => (plan.At(x, d.HalfBreadth + 3), plan.At(x, -d.HalfBreadth - 3))));
        field.Path(Ink.Cut, d.Plan().Select(plan.At), closed: true);
        field.Line(Ink.Grid, plan.At(0, 0), plan.At(d.Length, 0));
        // Seen from above: the back's marks over the seam, the belly's under it; each is the same on the other side.
        Along(field, Ink.Mark, marks, plan, m => m.Back.EightFromSeam, m => -m.Belly.EightFromSeam);
        Along(field, Ink.Later, marks, plan, m => m.Back.SixteenFromSeam, m => -m.Belly.SixteenFromSeam);
        Name(field, d, plan, "on the back", "on the belly");
        Key(field, field.Height - 2);
        return field.Done("Lines for eight and sixteen sides");
    }

    private static void Along(Field field, Ink ink, FlatMarks[] marks, View view, params Func<FlatMarks, double>[] lines)
    {
        foreach (Func<FlatMarks, double> line in lines) field.Path(ink, marks.Select(m => view.At(m.X, line(m))));
    }

    private static void Name(Field field, Drafting d, View view, string over, string under)
    {
        PagePoint nose = view.At(-3, 0);
        Anchor anchor = view.NoseRight ? Anchor.Start : Anchor.End;
        field.Say("nose", nose, anchor, Field.Small);
        PagePoint tail = view.At(d.Length + 2, 0);
        Anchor other = view.NoseRight ? Anchor.End : Anchor.Start;
        field.Say(over, tail + new PagePoint(0, -1.6), other, Field.Small);
        field.Say(under, tail + new PagePoint(0, 3.4), other, Field.Small);
    }

    private static void Key(Field field, double y)
    {
        (Ink Ink, string Text)[] keys = [(Ink.Mark, "eight sides"), (Ink.Later, "sixteen sides"), (Ink.Grid, "seam, widest line, stations")];
        double x = (field.Width - keys.Sum(k => 22 + Typefaces.WidthOf(k.Text, Field.Small, Voice.Label)) + 6) / 2;
        foreach ((Ink ink, string text) in keys)
        {
            field.Line(ink, new PagePoint(x, y - 1), new PagePoint(x + 14, y - 1));
            field.Say(text, new PagePoint(x + 16, y), Anchor.Start, Field.Small);
            x += 22 + Typefaces.WidthOf(text, Field.Small, Voice.Label);
        }
    }

    private static IEnumerable<Picture> Offsets(Drafting d)
    {
        FlatMarks[] marks = [.. d.Stations.Select(x => FlatMarks.At(d.Body, x))];
        const double Number = 13.8;
        double table = 13 + 12 * Number, left = d.Options.Room.Width - table;
        Table.Column[] columns =
        [
            new("from\nnose", 13),
            .. new[] { "a", "b", "c", "d", "e", "f" }.Select((h, i) => new Table.Column(i == 0 ? "back\n" + h : h, Number, Rule: i == 0)),
            .. new[] { "a", "b", "c", "d", "e", "f" }.Select((h, i) => new Table.Column(i == 0 ? "belly\n" + h : h, Number, Rule: i == 0)),
        ];
        string[][] rows = [.. marks.Select(m => new[] { d.Station(m.X) }.Concat(Six(d, m.Back)).Concat(Six(d, m.Belly)).ToArray())];
        foreach (string[][] part in Table.Pages(rows, d.Options.Room.Height - 10))
        {
            var field = new Field(d.Options.Room.Width, d.Options.Room.Height);
            AddSection(field, d, left - 6);
            Table.Draw(field, new PagePoint(left, 0), columns, part, Table.Rows(part.Length, field.Height - 10));
            yield return field.Done("Offsets for eight and sixteen sides");
        }
    }

    private static IEnumerable<string> Six(Drafting d, QuadrantMarks q) =>
        new[] { q.EightFromSeam, q.EightFromWidest, q.SixteenFromSeam, q.SixteenFromWidest, q.SixteenFromTopEdge, q.SixteenFromSideEdge }.Select(d.Fine);

    /// <summary>The fullest section as it is cut, lettered like the table.</summary>
    private static void AddSection(Field field, Drafting d, double room)
    {
        double x = d.Along.MaxBy(s => d.Body.SectionAt(s).Area);
        FlatMarks m = FlatMarks.At(d.Body, x);
        double b = m.Section.HalfBreadth, high = m.Section.Back - m.Section.Belly;
        double scale = Math.Min((room - 22) / (2 * b), 78 / high);
        var middle = new PagePoint(room / 2, 14 + scale * (m.Section.Back - m.Section.Widest));
        PagePoint At(double y, double z) => new(middle.X + scale * y, middle.Y - scale * (z - m.Section.Widest));
        foreach ((Ink ink, int sides) in new[] { (Ink.Grid, 4), (Ink.Mark, 8), (Ink.Later, 16) })
            foreach (int side in new[] { 1, -1 }) field.Path(ink, m.Half(sides).Select(p => At(side * p.Y, p.Z)));
        foreach (int side in new[] { 1, -1 }) field.Path(Ink.Cut, StationGauge.Half(m.Section).Select(p => At(side * p.Y, p.Z)));
        field.Line(Ink.Grid, At(0, m.Section.Back) + new PagePoint(0, -9), At(0, m.Section.Belly) + new PagePoint(0, 3));
        field.Line(Ink.Grid, At(-b, m.Section.Widest), At(b, m.Section.Widest) + new PagePoint(9, 0));
        Letter(field, At(0, m.Section.Back) + new PagePoint(0, -6.5), At(m.Back.EightFromSeam, m.Section.Back) + new PagePoint(0, -6.5), "a");
        Letter(field, At(0, m.Section.Back) + new PagePoint(0, -2.2), At(m.Back.SixteenFromSeam, m.Section.Back) + new PagePoint(0, -2.2), "c");
        Letter(field, At(b, m.Section.Widest) + new PagePoint(7, 0), At(b, m.Section.Widest + m.Back.EightFromWidest) + new PagePoint(7, 0), "b");
        Letter(field, At(b, m.Section.Widest) + new PagePoint(2.4, 0), At(b, m.Section.Widest + m.Back.SixteenFromWidest) + new PagePoint(2.4, 0), "d");
        (double Y, double Z)[] eight = [.. m.Half(8)], sixteen = [.. m.Half(16)];
        Letter(field, At(eight[1].Y, eight[1].Z) + new PagePoint(1.6, -1.6), At(sixteen[2].Y, sixteen[2].Z) + new PagePoint(1.6, -1.6), "e");
        Letter(field, At(eight[2].Y, eight[2].Z) + new PagePoint(1.6, -1.6), At(sixteen[3].Y, sixteen[3].Z) + new PagePoint(1.6, -1.6), "f");
        double y = At(0, m.Section.Belly).Y + 9;
        string size = scale.ToString("0.0", CultureInfo.InvariantCulture);
        y = field.Tell($"The fullest section, {size} times true size, at {d.Station(x)} from the nose.", new PagePoint(0, y), room);
        field.Tell("a, b: eight sides, from the seam and from the widest line. c, d: sixteen. e, f: on the new flat, from its edges. Left and right alike.",
            new PagePoint(0, y + 1), room);
    }

    // A short measure with its letter beside the middle.
    private static void Letter(Field field, PagePoint from, PagePoint to, string letter)
    {
        double dx = to.X - from.X, dy = to.Y - from.Y, length = double.Hypot(dx, dy);
        if (length < 1.5) return;
        PagePoint across = new(-dy / length * 0.9, dx / length * 0.9);
        PagePoint Minus(PagePoint p) => new(p.X - across.X, p.Y - across.Y);
        field.Line(Ink.Mark, from, to);
        field.Lines(Ink.Mark, [(Minus(from), from + across), (Minus(to), to + across)]);
        var beside = new PagePoint((from.X + to.X) / 2 + (Math.Abs(dy) > 0.2 * length ? 2.6 : 0), (from.Y + to.Y) / 2 + (Math.Abs(dy) > 0.2 * length ? 1 : -1));
        // Along a flat the letter stands off its outer side.
        if (Math.Min(Math.Abs(dx), Math.Abs(dy)) > 0.2 * length)
            beside = new PagePoint((from.X + to.X) / 2 + 2.6 * Math.Abs(dy) / length, (from.Y + to.Y) / 2 - 2.6 * Math.Abs(dx) / length + 1);
        field.Say(letter, beside, Anchor.Middle, Field.Small);
    }
}
