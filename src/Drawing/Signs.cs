using System.Collections.Immutable;

namespace Trimwright.Drawing;

/// <summary>Our signs: a plumb bob for the centre of gravity, a bubble for the centre of buoyancy.</summary>
internal static class Signs
{
    /// <summary>The bob hangs from its point by a short string; the point is where the weight acts.</summary>
    public static void Bob(ImmutableArray<Mark>.Builder marks, PagePoint at, double size)
    {
        PagePoint P(double x, double y) => new(at.X + size * x, at.Y + size * y);
        marks.Add(new Stroke(Ink.Line, [Contour.Straight([P(0, 0), P(0, 2.2)])]));
        marks.Add(new Stroke(Ink.Bob, [Contour.Straight([P(-1.25, 2.2), P(1.25, 2.2), P(0.95, 3), P(0, 6), P(-0.95, 3)], closed: true)]));
        marks.Add(new Circle(Ink.Bob, P(0, 0), 0.45 * size));
    }

    /// <summary>A bubble with its glint.</summary>
    public static void Bubble(ImmutableArray<Mark>.Builder marks, PagePoint at, double size)
    {
        marks.Add(new Circle(Ink.Bubble, at, 1.9 * size));
        marks.Add(new Stroke(Ink.Measure, [new Contour(new(at.X - 1.05 * size, at.Y - 0.2 * size),
            [(new(at.X - 1.0 * size, at.Y - 0.75 * size), new(at.X - 0.6 * size, at.Y - 1.05 * size), new(at.X - 0.15 * size, at.Y - 1.1 * size))], false)]));
    }
}
