using System.Collections.Immutable;

namespace Trimwright.Drawing.Sheets;

/// <summary>
/// What stands on every page: a through-wire along the top with a loop for each sheet, in the order of the work; at the
/// foot the lines to lay a rule on.
/// </summary>
internal sealed class Frame(SheetOptions options, string lure, IReadOnlyList<Sheet> sheets)
{
    private const double Loop = 9;

    /// <summary>A page with its head and foot, on which a drawing is then put.</summary>
    public Field Page(int index, int part, int parts)
    {
        var page = new Field(options.Width, options.Height);
        AddHead(page, index, part, parts);
        AddFoot(page);
        return page;
    }

    private void AddHead(Field page, int index, int part, int parts)
    {
        double left = options.Margin, right = options.Width - options.Margin, wire = options.Margin + 7;
        Sheet sheet = sheets[index];
        page.Circle(Ink.Wire, new PagePoint(left + 2.8, wire), 2.4);
        page.Circle(Ink.Wire, new PagePoint(right - 2.8, wire), 2.4);
        page.Say(Short(lure, 60), new PagePoint(left + 8, wire - 2), Anchor.Start, Field.Text);
        string whole = $"{options.Paper.Name}, true size at 100\u00A0%, {(options.Notation.Inches ? "inches" : "millimetres")}";
        page.Say(whole, new PagePoint(right - 8, wire - 2), Anchor.End, Field.Small);
        AddLoops(page, index, left + 5.2, right - 5.2, wire);
        string title = parts > 1 ? $"{sheet.Title}, {part + 1} of {parts}" : sheet.Title;
        page.Say(title, new PagePoint(left, wire + 11.5), Anchor.Start, 6, Voice.Title);
        double size = 3.6, y = wire + 17.5;
        foreach (string line in Field.Wrapped(sheet.Purpose, right - left, size, Voice.Maker).Take(1))
            page.Say(line, new PagePoint(left, y), Anchor.Start, size, Voice.Maker);
    }

    /// <summary>The wire, straight but for a loop under each sheet's number; this sheet's is the deep one.</summary>
    private void AddLoops(Field page, int index, double from, double to, double wire)
    {
        double first = to - 6 - Loop * (sheets.Count - 1);
        var steps = ImmutableArray.CreateBuilder<(PagePoint, PagePoint, PagePoint)>();
        PagePoint at = new(from, wire);
        void Go(PagePoint c1, PagePoint c2, PagePoint end) => steps.Add((c1, c2, at = end));
        for (int i = 0; i < sheets.Count; i++)
        {
            bool here = i == index;
            double x = first + i * Loop, deep = here ? 6.5 : 3.2, wide = here ? 2.2 : 1.3;
            Go(at, new(x - wide, wire), new(x - wide, wire));
            Go(new(x - wide, wire + 1.25 * deep), new(x + wide, wire + 1.25 * deep), new(x + wide, wire));
            page.Say(Number(i), new PagePoint(x, wire + (here ? 10.6 : 6.6)), Anchor.Middle, here ? 4.4 : 2.6);
        }
        Go(at, new(to, wire), new(to, wire));
        page.Add(new Stroke(Ink.Wire, [new Contour(new(from, wire), steps.ToImmutable(), Closed: false)]));
    }

    public static string Number(int index) => (index + 1).ToString(System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>100 mm, 4 in and a square, to be measured before anything is cut.</summary>
    private void AddFoot(Field page)
    {
        double left = options.Margin + 0.3, right = options.Width - options.Margin - 0.3, bottom = options.Height - options.Margin - 0.3;
        AddRule(page, new PagePoint(left, bottom - 13), 100, "100 mm", 10, 10);
        AddRule(page, new PagePoint(left, bottom - 2.2), 4 * 25.4, "4 in", 25.4 / 2, 8);
        const double Square = 20;
        page.Box(Ink.Mark, new PagePoint(right - Square, bottom - Square), Square, Square);
        page.Say("20 mm", new PagePoint(right - Square / 2, bottom - Square / 2 + 0.2), Anchor.Middle, Field.Small);
        page.Say("square", new PagePoint(right - Square / 2, bottom - Square / 2 + 4.2), Anchor.Middle, Field.Small);
        page.Say(InForce, new PagePoint(left, bottom - 21.4), Anchor.Start, Field.Text);
        double x = left + 112, room = right - Square - 34 - x;
        page.Tell("Print at 100 %, nothing fitted to the page. Lay a steel rule on the line before cutting. Cut to a line's middle.",
            new PagePoint(x, bottom - 13.5), room, Field.Text);
    }

    // A line that is off again on a corrected sheet goes on from what is in force: the sheet does that sum.
    private string InForce
    {
        get
        {
            const double off = 99.8;
            string F(double mm, int decimals) => options.Notation.Number(mm, decimals);
            double now = options.Measured100;
            string mine = $"Printer's 100\u00A0mm: {(now == 100 ? "100" : F(now, 2))}. If the 100\u00A0mm line isn't that long, cut nothing: make these again with ";
            return mine + (now == 100 ? "what it measures." : $"{F(now / 100, 4)} × what it measures ({F(off, 1)} makes {F(SheetOptions.GoneOn(now, off), 2)}).");
        }
    }

    private static void AddRule(Field page, PagePoint from, double length, string name, double tick, int ticks)
    {
        PagePoint to = from + new PagePoint(length, 0);
        page.Line(Ink.Mark, from, to);
        page.Lines(Ink.Mark, [(from + new PagePoint(0, -3), from + new PagePoint(0, 2)), (to + new PagePoint(0, -3), to + new PagePoint(0, 2))]);
        page.Lines(Ink.Grid, Enumerable.Range(1, ticks - 1)
            .Select(i => (from + new PagePoint(i * tick, -1.5), from + new PagePoint(i * tick, 0))));
        page.Say(name, from + new PagePoint(length / 2, -2.4), Anchor.Middle, Field.Small);
    }

    private static string Short(string text, int most) => text.Length <= most ? text : text[..(most - 1)] + "…";
}
