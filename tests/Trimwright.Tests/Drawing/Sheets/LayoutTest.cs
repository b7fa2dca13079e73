using Trimwright.Core.Finish;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.Tests.Drawing.Sheets;

/// <summary>What stands on paper can be read: no words over words or over a line that is cut to, none off the page, none of the command line's.</summary>
public sealed class LayoutTest
{
    // What home printers leave white, a quarter inch; common practice, no source.
    private const double White = 6.35;

    // 11 points, mm.
    private const double Readable = 11 * 25.4 / 72;

    public LayoutTest() => Outside.NeedType();

    public static TheoryData<string> Demos => ["tidegate-185", "mooring-post-210", "slipway-150"];

    private static IEnumerable<SheetOptions> Manners() =>
        from paper in new[] { PaperSize.A4, PaperSize.Letter }
        from inches in new[] { false, true }
        select new SheetOptions(paper, new Notation(Inches: inches));

    private static IEnumerable<(string Id, SheetOptions Options, Picture Page)> Pages(string lure) =>
        from options in Manners()
        from page in Pager.Pages(SheetSet.Of(Lures.Demo(lure), options, []), "A name of some length 185", options)
        select (page.Sheet.Id, options, page.Page);

    private static string Where(string id, SheetOptions options) => $"{id} ({options.Paper.Name}, {(options.Notation.Inches ? "in" : "mm")})";

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_words_are_cut_short(string lure)
    {
        foreach ((string id, SheetOptions options, Picture page) in Pages(lure))
            foreach (Words words in Texts(page)) Assert.False(words.Text.Contains('…'), $"{Where(id, options)}: {words.Text}");
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_words_stand_on_words(string lure)
    {
        var over = new List<string>();
        foreach ((string id, SheetOptions options, Picture page) in Pages(lure)) over.AddRange(Overlaps(page).Select(o => $"{Where(id, options)}: {o}"));
        Assert.True(over.Count == 0, string.Join('\n', over.Distinct()));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_words_stand_on_a_line_that_is_cut_to_or_on_one_that_lies_behind(string lure)
    {
        var over = new List<string>();
        foreach ((string id, SheetOptions options, Picture page) in Pages(lure))
        {
            (PagePoint A, PagePoint B)[] heavy = [.. Lines(page.Marks, Ink.Cut, Ink.Wire, Ink.Later)];
            foreach (Words words in Texts(page))
                if (heavy.Any(words.IsMetBy)) over.Add($"{Where(id, options)}: \"{words.Text}\"");
        }
        Assert.True(over.Count == 0, string.Join('\n', over.Distinct()));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_words_leave_the_page_and_none_is_of_the_command_line(string lure)
    {
        var off = new List<string>();
        foreach ((string id, SheetOptions options, Picture page) in Pages(lure))
            foreach (Words words in Texts(page))
            {
                if (words.Left < White || words.Right > page.Width - White || words.Top < White || words.Bottom > page.Height - White) off.Add($"{Where(id, options)}: \"{words.Text}\" leaves the page");
                if (words.Text.Contains("--", StringComparison.Ordinal) || words.Text.Contains(".json", StringComparison.Ordinal)) off.Add($"{Where(id, options)}: \"{words.Text}\"");
            }
        Assert.True(off.Count == 0, string.Join('\n', off.Distinct()));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void What_a_sheet_is_for_stands_on_it_whole(string lure)
    {
        var cut = new List<string>();
        foreach (SheetOptions options in Manners())
            foreach ((Sheet sheet, Picture page) in Pager.Pages(SheetSet.Of(Lures.Demo(lure), options, []), "A name of some length 185", options))
                if (!Texts(page).Any(words => words.Text == sheet.Purpose)) cut.Add($"{Where(sheet.Id, options)}: \"{sheet.Purpose}\"");
        Assert.True(cut.Count == 0, string.Join('\n', cut.Distinct()));
    }

    /// <summary>Of the sheets that are read with a tool in the hand.</summary>
    [Theory]
    [MemberData(nameof(Demos))]
    public void Figures_that_are_read_at_arms_length_have_11_points_and_tables_fill_their_page(string lure)
    {
        var small = new List<string>();
        string[] measured = ["flats", "wire", "pockets", "calipers", "stand-ins", "drill", "glue-right", "glue-left"];
        foreach (SheetOptions options in Manners())
            foreach (Sheet sheet in SheetSet.Of(Lures.Demo(lure), options, measured))
                foreach (Picture field in sheet.Fields)
                {
                    small.AddRange(field.Marks.OfType<Label>().Where(l => l.Text.Length > 1 && char.IsDigit(l.Text[0]) && l.Size < Readable - 1e-9).Select(l => $"{Where(sheet.Id, options)}: \"{l.Text}\" of {l.Size:F2} mm"));
                    if (sheet.Id is "pockets" or "calipers" or "stand-ins") Assert.Equal(options.Room.Width, field.Width, 0.01);
                }
        Assert.True(small.Count == 0, string.Join('\n', small.Distinct()));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_step_of_the_build_plan_stays_whole_and_each_weigh_point_has_a_blank(string lure)
    {
        foreach (PaperSize paper in new[] { PaperSize.A4, PaperSize.Letter })
            foreach (bool inches in new[] { false, true })
            {
                var notation = new Notation(Inches: inches);
                BuildPlan plan = BuildPlan.Of(Lures.Demo(lure), null, new BuildConditions());
                var words = new BuildWords(plan, notation);
                Picture[] pages = [.. BuildPages.Of(plan, notation, paper)];
                string[][] told = [.. pages.Select(p => Texts(p).Select(t => t.Text).ToArray())];
                foreach (Picture page in pages) Assert.Empty(Overlaps(page));
                Assert.DoesNotContain(told.SelectMany(t => t), t => t.Contains("--", StringComparison.Ordinal) || t.Contains('_'));
                for (int i = 0; i < plan.Steps.Length; i++)
                {
                    ToldStep step = words.Of(plan.Steps[i]);
                    int from = Array.FindIndex(told, t => t.Contains(step.Title));
                    string next = i + 1 < plan.Steps.Length ? words.Title(plan.Steps[i + 1]) : "What it takes";
                    // All lines of a page between a step's head and the next one's, or its end: what the step says must be among them.
                    string here = string.Join(' ', told[from].SkipWhile(t => t != step.Title));
                    foreach (string said in step.Do.Concat(step.Ticks).Concat(step.Rows.Select(r => r.Value)))
                        Assert.True(here.Contains(said, StringComparison.Ordinal), $"{paper.Name}: \"{said}\" of step {i + 1} isn't on the page of its head, before \"{next}\"");
                }
                // Blanks are lines to write on, flush with the right edge.
                int blanks = pages.Sum(p => p.Marks.OfType<Stroke>().Count(s => s.Ink == Ink.Mark && s.Contours is [{ Steps.Length: 1 } c] && c.Start.Y == c.Steps[0].End.Y && c.Steps[0].End.X - c.Start.X > 20));
                int points = plan.Steps.Sum(s => s.Weighings.Length);
                Assert.True(blanks >= points && points > 8, $"{blanks} blanks for {points} weigh points");
            }
    }

    private static IEnumerable<string> Overlaps(Picture page)
    {
        Words[] texts = [.. Texts(page)];
        for (int i = 0; i < texts.Length; i++)
            for (int j = i + 1; j < texts.Length; j++)
                if (Math.Min(texts[i].Right, texts[j].Right) - Math.Max(texts[i].Left, texts[j].Left) > 0.1
                    && Math.Min(texts[i].Bottom, texts[j].Bottom) - Math.Max(texts[i].Top, texts[j].Top) > 0.05)
                    yield return $"\"{texts[i].Text}\" and \"{texts[j].Text}\"";
    }

    private readonly record struct Words(string Text, double Left, double Top, double Right, double Bottom)
    {
        // Sampled finer than a stroke of a letter is wide.
        public bool IsMetBy((PagePoint A, PagePoint B) line)
        {
            (PagePoint a, PagePoint b) = line;
            if (Math.Max(a.X, b.X) < Left || Math.Min(a.X, b.X) > Right || Math.Max(a.Y, b.Y) < Top || Math.Min(a.Y, b.Y) > Bottom) return false;
            int n = Math.Max(1, (int)(double.Hypot(b.X - a.X, b.Y - a.Y) / 0.1));
            for (int i = 0; i <= n; i++)
                if (a.X + (b.X - a.X) * i / n is var x && a.Y + (b.Y - a.Y) * i / n is var y && x > Left && x < Right && y > Top && y < Bottom) return true;
            return false;
        }
    }

    // Letters stand from their baseline up by 0.73 of their size; tails reach 0.15 under it.
    private static IEnumerable<Words> Texts(Picture page) => Flat(page.Marks).OfType<Label>().Select(label =>
    {
        double wide = Typefaces.WidthOf(label.Text, label.Size, label.Voice);
        double left = label.At.X - (label.Anchor == Anchor.End ? wide : label.Anchor == Anchor.Middle ? wide / 2 : 0);
        return new Words(label.Text, left, label.At.Y - 0.73 * label.Size, left + wide, label.At.Y + 0.15 * label.Size);
    });

    private static IEnumerable<(PagePoint A, PagePoint B)> Lines(IEnumerable<Mark> marks, params Ink[] inks) => Flat(marks).SelectMany(mark => mark switch
    {
        Stroke s when inks.Contains(s.Ink) => s.Contours.SelectMany(Pieces),
        Trimwright.Drawing.Box b when inks.Contains(b.Ink) => Pieces(Contour.Straight([b.Corner, b.Corner + new PagePoint(b.Width, 0), b.Corner + new PagePoint(b.Width, b.Height), b.Corner + new PagePoint(0, b.Height), b.Corner])),
        Circle c when inks.Contains(c.Ink) => Pieces(Contour.Straight([.. Enumerable.Range(0, 49).Select(i => c.Centre + new PagePoint(c.Radius * Math.Cos(i * Math.PI / 24), c.Radius * Math.Sin(i * Math.PI / 24)))])),
        _ => [],
    });

    private static IEnumerable<(PagePoint, PagePoint)> Pieces(Contour c)
    {
        PagePoint at = c.Start;
        foreach ((PagePoint c1, PagePoint c2, PagePoint end) in c.Steps)
        {
            PagePoint from = at;
            for (int i = 1; i <= 8; i++)
            {
                double t = i / 8.0, u = 1 - t;
                var p = new PagePoint(u * u * u * from.X + 3 * u * u * t * c1.X + 3 * u * t * t * c2.X + t * t * t * end.X, u * u * u * from.Y + 3 * u * u * t * c1.Y + 3 * u * t * t * c2.Y + t * t * t * end.Y);
                yield return (at, p);
                at = p;
            }
        }
        if (c.Closed) yield return (at, c.Start);
    }

    // Small pictures of other sheets hold no words; drawings at true size lie on the page where their window is.
    private static IEnumerable<Mark> Flat(IEnumerable<Mark> marks)
    {
        foreach (Mark mark in marks)
        {
            if (mark is not Inset inset)
            {
                yield return mark;
                continue;
            }
            if (inset.Scale != 1) continue;
            var by = new PagePoint(inset.Corner.X - inset.From.X, inset.Corner.Y - inset.From.Y);
            foreach (Mark inner in inset.Marks)
                yield return inner switch
                {
                    Label l => l with { At = l.At + by },
                    Circle c => c with { Centre = c.Centre + by },
                    Trimwright.Drawing.Box b => b with { Corner = b.Corner + by },
                    Stroke s => s with { Contours = [.. s.Contours.Select(c => new Contour(c.Start + by, [.. c.Steps.Select(q => (q.C1 + by, q.C2 + by, q.End + by))], c.Closed))] },
                    _ => inner,
                };
        }
    }
}
