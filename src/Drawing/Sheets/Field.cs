using System.Collections.Immutable;

namespace Trimwright.Drawing.Sheets;

/// <summary>A drawing under way: short names for the marks that sheets are made of.</summary>
internal sealed class Field(double width, double height)
{
    /// <summary>Names of things, read from near by.</summary>
    public const double Small = 3.0;

    /// <summary>Figures and words that are read at arm's length: 11 points.</summary>
    public const double Text = 11 * 25.4 / 72;

    private readonly ImmutableArray<Mark>.Builder marks = ImmutableArray.CreateBuilder<Mark>();

    public double Width => width;

    public double Height => height;

    public Picture Done(string title, string description = "") => new(width, height, title, description, marks.ToImmutable());

    public void Add(Mark mark) => marks.Add(mark);

    public void Line(Ink ink, PagePoint a, PagePoint b) => marks.Add(new Stroke(ink, [Contour.Straight([a, b])]));

    public void Lines(Ink ink, IEnumerable<(PagePoint A, PagePoint B)> lines) =>
        marks.Add(new Stroke(ink, [.. lines.Select(l => Contour.Straight([l.A, l.B]))]));

    public void Path(Ink ink, IEnumerable<PagePoint> points, bool closed = false) =>
        marks.Add(new Stroke(ink, [Contour.Straight([.. points], closed)]));

    public void Circle(Ink ink, PagePoint centre, double radius) => marks.Add(new Circle(ink, centre, radius));

    public void Box(Ink ink, PagePoint corner, double w, double h) => marks.Add(new Box(ink, corner, w, h));

    public void Say(string text, PagePoint at, Anchor anchor = Anchor.Start, double size = Text, Voice voice = Voice.Label) =>
        marks.Add(new Label(text, at, size, voice, anchor));

    /// <summary>Words wrapped to a width; returns the baseline after the last line.</summary>
    public double Tell(string text, PagePoint at, double room, double size = Text, Voice voice = Voice.Maker)
    {
        double y = at.Y;
        foreach (string line in Wrapped(text, room, size, voice))
        {
            Say(line, new PagePoint(at.X, y), Anchor.Start, size, voice);
            y += 1.45 * size;
        }
        return y;
    }

    public static IEnumerable<string> Wrapped(string text, double room, double size, Voice voice)
    {
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && Typefaces.WidthOf(longer, size, voice) > room)
            {
                yield return line;
                longer = word;
            }
            line = longer;
        }
        if (line.Length > 0) yield return line;
    }

    /// <summary>A place to prick through the paper: a small ring with a point in it.</summary>
    public void Prick(PagePoint at)
    {
        Circle(Ink.Mark, at, 1.1);
        Lines(Ink.Mark, [(at + new PagePoint(-0.45, 0), at + new PagePoint(0.45, 0)), (at + new PagePoint(0, -0.45), at + new PagePoint(0, 0.45))]);
    }

    /// <summary>A measure between two points on one height, its text over the line.</summary>
    public void Measure(PagePoint a, PagePoint b, string text)
    {
        Lines(Ink.Grid, [(a, b)]);
        Lines(Ink.Mark, [(a + new PagePoint(0, -1.5), a + new PagePoint(0, 1.5)), (b + new PagePoint(0, -1.5), b + new PagePoint(0, 1.5))]);
        Say(text, new PagePoint((a.X + b.X) / 2, a.Y - 1.2), Anchor.Middle);
    }
}
