using Trimwright.Core.Finish;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing.Sheets;

/// <summary>
/// A build plan on paper, upright, to hang over the bench: the steps by chapter with their numbers, boxes to tick, what can
/// hurt, and what to buy. The same words as on the screen.
/// </summary>
public static class BuildPages
{
    private const double Side = 18;
    private const double Top = 30;
    private const double Bottom = 16;
    private const double Indent = 9;
    private const double Body = Field.Text;
    private const double Lead = 1.4;

    // To write a weighing in.
    private const double Blank = 26;

    /// <summary>Its pages, true to the paper's size.</summary>
    public static IReadOnlyList<Picture> Of(BuildPlan plan, Notation notation, PaperSize paper)
    {
        var words = new BuildWords(plan, notation);
        var flow = new Flow(plan.Design.Name, paper);
        flow.Heading("From boards to fishing", 6.5);
        foreach (string sentence in words.Opening()) flow.Paragraph(sentence, 0);
        Phase? phase = null;
        for (int i = 0; i < plan.Steps.Length; i++)
        {
            BuildStep step = plan.Steps[i];
            string? chapter = step.Phase != phase ? BuildWords.Of((phase = step.Phase).Value) : null;
            void Write(Flow onto)
            {
                if (chapter is not null) onto.Chapter(chapter);
                Add(onto, i + 1, step, words.Of(step), words.Moment(step.Visit.From), Under(step, notation));
            }
            flow.Whole(Write);
        }
        flow.Chapter("What it takes");
        foreach (Need need in plan.Shopping.Needs)
            flow.Row(need.Name, words.Amount(need, need.Needed) + (need.ToBuy > 0 ? $", to buy {words.Amount(need, need.ToBuy)}" : ""), 0);
        foreach (string sentence in words.Costs()) flow.Paragraph(sentence, 0);
        flow.Gap(3);
        flow.Paragraph(CautionWords.Last, 0);
        return flow.Done();
    }

    // Readings that the words tell of and that are written down too.
    private static (string, string)[] Under(BuildStep step, Notation notation) => step is WeighBlankStep { UnderWater: { } under }
        ? [.. under.SinkerMass > 0 ? [("the sinker alone, under water", notation.Weight(under.SinkerReads))] : ((string, string)[])[],
            (under.SinkerMass > 0 ? "sinker and blank, under water" : "the blank, under water", notation.Weight(under.BothRead))]
        : [];

    private static void Add(Flow flow, int number, BuildStep of, ToldStep step, string when, (string Name, string Value)[] more)
    {
        // The last of a step's rows are its weigh points, one each.
        int plain = step.Rows.Length - of.Weighings.Length;
        flow.Step(number, step.Title, when);
        foreach (string sentence in step.Do) flow.Paragraph(sentence, Indent);
        foreach ((string name, string value) in step.Rows.Take(plain)) flow.Row(name, value, Indent);
        foreach ((string name, string value) in step.Rows.Skip(plain).Concat(more)) flow.Row(name, value, Indent, blank: true);
        foreach (string tick in step.Ticks) flow.Tick(tick);
        foreach (string caution in step.Cautions) flow.Caution(caution);
    }

    /// <summary>Lines that fall from page to page.</summary>
    private sealed class Flow(string lure, PaperSize paper)
    {
        // Upright: the paper's long side is its height.
        private readonly double width = paper.Height;
        private readonly double height = paper.Width;
        private readonly List<Field> pages = [];
        private double y = double.PositiveInfinity;

        // Never full: only to see how much room something takes.
        private bool endless;

        private Field Page => pages[^1];

        private double Room => width - 2 * Side;

        private void Need(double more)
        {
            if (y + more <= height - Bottom || (endless && pages.Count > 0)) return;
            pages.Add(new Field(width, height));
            y = Top;
        }

        /// <summary>Writes what belongs together on one page, if a page holds it.</summary>
        public void Whole(Action<Flow> write)
        {
            var scratch = new Flow(lure, paper) { endless = true };
            scratch.Need(0);
            write(scratch);
            double takes = scratch.y - Top;
            if (y + takes > height - Bottom && Top + takes <= height - Bottom) y = double.PositiveInfinity;
            write(this);
        }

        public void Gap(double more) => y += more;

        public void Heading(string text, double size)
        {
            Need(2 * size);
            Page.Say(text, new PagePoint(Side, y), Anchor.Start, size, Voice.Title);
            y += 1.5 * size;
        }

        // A chapter's head stands with the beginning of its first step.
        public void Chapter(string text)
        {
            y += 4;
            Need(28);
            Page.Line(Ink.Grid, new PagePoint(Side, y - 5.5), new PagePoint(width - Side, y - 5.5));
            Page.Say(text, new PagePoint(Side, y + 0.6), Anchor.Start, 5, Voice.Title);
            y += 8;
        }

        public void Step(int number, string title, string when)
        {
            y += 1.6;
            Need(4 * Lead * Body);
            string n = number.ToString(System.Globalization.CultureInfo.InvariantCulture);
            Page.Say(n, new PagePoint(Side + 5.5, y), Anchor.End, 4, Voice.Label);
            Page.Say(title, new PagePoint(Side + Indent, y), Anchor.Start, 4, Voice.Maker);
            Page.Say(when, new PagePoint(width - Side, y), Anchor.End, Field.Small);
            y += Lead * 4;
        }

        public void Paragraph(string text, double indent) => Lines(text, indent, Voice.Maker);

        private void Lines(string text, double indent, Voice voice)
        {
            foreach (string line in Field.Wrapped(text, Room - indent, Body, voice))
            {
                Need(Lead * Body);
                Page.Say(line, new PagePoint(Side + indent, y), Anchor.Start, Body, voice);
                y += Lead * Body;
            }
        }

        public void Row(string name, string value, double indent, bool blank = false)
        {
            double edge = width - Side - (blank ? Blank + 3 : 0), taken = Typefaces.WidthOf(value, Body, Voice.Label) + 4;
            string[] lines = [.. Field.Wrapped(name, Math.Max(edge - Side - indent - 3 - taken, 40), Body, Voice.Label)];
            // Room for a hand over the line.
            if (blank) y += 0.35 * Body;
            for (int i = 0; i < lines.Length; i++)
            {
                Need(Lead * Body);
                double x = Side + indent + 3;
                Page.Say(lines[i], new PagePoint(x, y), Anchor.Start, Body, Voice.Label);
                if (i == lines.Length - 1)
                {
                    Page.Say(value, new PagePoint(edge, y), Anchor.End, Body, Voice.Label);
                    double from = x + Typefaces.WidthOf(lines[i], Body, Voice.Label) + 2, to = edge - taken + 2;
                    if (blank) Page.Line(Ink.Mark, new PagePoint(width - Side - Blank, y + 0.8), new PagePoint(width - Side, y + 0.8));
                    if (to - from > 4) Page.Line(Ink.Grid, new PagePoint(from, y + 0.8), new PagePoint(to, y + 0.8));
                }
                y += Lead * Body;
            }
        }

        public void Tick(string text)
        {
            Need(Lead * Body);
            Page.Box(Ink.Mark, new PagePoint(Side + Indent, y - 2.9), 3, 3);
            Lines(text, Indent + 5, Voice.Maker);
        }

        public void Caution(string text)
        {
            Need(Lead * Body);
            double from = y - 3;
            Lines("Mind: " + text, Indent + 3, Voice.Label);
            if (y > from) Page.Line(Ink.Cut, new PagePoint(Side + Indent, from), new PagePoint(Side + Indent, y - Lead * Body + 0.8));
        }

        public IReadOnlyList<Picture> Done()
        {
            for (int i = 0; i < pages.Count; i++) AddHead(pages[i], i + 1);
            return [.. pages.Select((page, i) => page.Done($"{lure}: build plan, page {i + 1} of {pages.Count}"))];
        }

        // The wire along the top, as on the sheets, with the page's number at its end.
        private void AddHead(Field page, int number)
        {
            const double Wire = 15;
            page.Circle(Ink.Wire, new PagePoint(Side + 2.4, Wire), 2.4);
            page.Circle(Ink.Wire, new PagePoint(width - Side - 2.4, Wire), 2.4);
            page.Line(Ink.Wire, new PagePoint(Side + 4.8, Wire), new PagePoint(width - Side - 4.8, Wire));
            page.Say(lure, new PagePoint(Side + 7, Wire - 2.2), Anchor.Start, Field.Text);
            page.Say($"build plan, page {number} of {pages.Count}", new PagePoint(width - Side - 7, Wire - 2.2), Anchor.End, Field.Small);
        }
    }
}
