using System.Collections.Immutable;

namespace Trimwright.Drawing;

/// <summary>A point on the page: mm from its left and top edge.</summary>
public readonly record struct PagePoint(double X, double Y)
{
    public static PagePoint operator +(PagePoint a, PagePoint b) => new(a.X + b.X, a.Y + b.Y);
}

/// <summary>What a mark is of; each output decides how that looks, in one place.</summary>
public enum Ink
{
    Paper,
    Water,
    Surface,
    Veil,
    Wood,
    Grain,
    Wire,
    Steel,
    Lead,
    Line,
    Pencil,
    Bob,
    Bubble,
    Measure,

    /// <summary>What is cut to: outlines, pockets, cards.</summary>
    Cut,

    /// <summary>A mark to draw on the wood.</summary>
    Mark,

    /// <summary>A mark of a later step, or an edge that lies behind.</summary>
    Later,

    /// <summary>Stations, axes, rules of a table.</summary>
    Grid,
    Axis,
    Past,
}

/// <summary>Who speaks: the serif to the maker, the sans on labels.</summary>
public enum Voice
{
    Maker,
    Label,
    WetLabel,
    Title,
}

public enum Anchor
{
    Start,
    Middle,
    End,
}

/// <summary>One mark of a picture.</summary>
public abstract record Mark
{
    /// <summary>Has it drawn by its kind.</summary>
    internal abstract void Draw(IPen pen);
}

/// <summary>What draws marks, of each kind: into a file of whatever format.</summary>
internal interface IPen
{
    void Draw(Stroke stroke);

    void Draw(Circle circle);

    void Draw(Box box);

    void Draw(Label label);

    void Draw(Inset inset);

    void Draw(Tap tap);
}

/// <summary>A line or area along cubic curves: each step three points (control, control, end); straight where they lie in line.</summary>
public sealed record Stroke(Ink Ink, ImmutableArray<Contour> Contours) : Mark
{
    internal override void Draw(IPen pen) => pen.Draw(this);
}

/// <summary>A start and its curve steps.</summary>
public sealed record Contour(PagePoint Start, ImmutableArray<(PagePoint C1, PagePoint C2, PagePoint End)> Steps, bool Closed)
{
    /// <summary>Straight pieces through points.</summary>
    public static Contour Straight(IReadOnlyList<PagePoint> points, bool closed = false) =>
        new(points[0], [.. points.Skip(1).Select((p, i) => (points[i], p, p))], closed);

    /// <summary>A smooth curve through points (Catmull–Rom).</summary>
    public static Contour Smooth(IReadOnlyList<PagePoint> points, bool closed = false)
    {
        int n = points.Count;
        PagePoint At(int i) => closed ? points[(i + n) % n] : points[Math.Clamp(i, 0, n - 1)];
        var steps = ImmutableArray.CreateBuilder<(PagePoint, PagePoint, PagePoint)>();
        for (int i = 0; i < (closed ? n : n - 1); i++)
        {
            PagePoint a = At(i - 1), b = At(i), c = At(i + 1), d = At(i + 2);
            steps.Add((new(b.X + (c.X - a.X) / 6, b.Y + (c.Y - a.Y) / 6), new(c.X - (d.X - b.X) / 6, c.Y - (d.Y - b.Y) / 6), c));
        }
        return new Contour(points[0], steps.ToImmutable(), closed);
    }
}

public sealed record Circle(Ink Ink, PagePoint Centre, double Radius) : Mark
{
    internal override void Draw(IPen pen) => pen.Draw(this);
}

public sealed record Box(Ink Ink, PagePoint Corner, double Width, double Height) : Mark
{
    internal override void Draw(IPen pen) => pen.Draw(this);
}

/// <summary>
/// Marks of another drawing seen through a window: their point <paramref name="From"/> comes to the window's corner, at a scale.
/// </summary>
public sealed record Inset(ImmutableArray<Mark> Marks, PagePoint From, double Scale, PagePoint Corner, double Width, double Height) : Mark
{
    internal override void Draw(IPen pen) => pen.Draw(this);
}

public sealed record Label(string Text, PagePoint At, double Size, Voice Voice, Anchor Anchor = Anchor.Start) : Mark
{
    internal override void Draw(IPen pen) => pen.Draw(this);
}

/// <summary>A drawing: its size in mm, its marks from the bottom up, and its text for those who don't see it.</summary>
public sealed record Picture(double Width, double Height, string Title, string Description, ImmutableArray<Mark> Marks);

/// <summary>
/// Marks that are one thing to the reader: on the page it can be tapped, in a file it is only drawn.
/// </summary>
/// <param name="Key">What the page calls it: <c>hardware-4</c>.</param>
/// <param name="Name">What it is, in words, for who can't see it.</param>
/// <param name="Marks">How it is drawn.</param>
/// <param name="Corner">Left upper corner of where a tap counts.</param>
/// <param name="Width">Of that area.</param>
/// <param name="Height">Of that area.</param>
public sealed record Tap(string Key, string Name, ImmutableArray<Mark> Marks, PagePoint Corner, double Width, double Height) : Mark
{
    internal override void Draw(IPen pen) => pen.Draw(this);
}
