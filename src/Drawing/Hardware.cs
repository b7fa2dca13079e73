using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Drawing;

/// <summary>Rings, swivels, hooks and stand-ins as they hang, by what they are.</summary>
internal static class Hardware
{
    /// <summary>Adds one thing that hangs from a point down over a length (page mm); lead on thread where no kind is given.</summary>
    public static void Add(ImmutableArray<Mark>.Builder marks, HardwareKind? kind, PagePoint at, double length)
    {
        if (kind is not { } known)
        {
            StandIn(marks, at, length);
            return;
        }
        Action<ImmutableArray<Mark>.Builder, PagePoint, double> add = known switch
        {
            HardwareKind.SplitRing or HardwareKind.SolidRing or HardwareKind.Snap or HardwareKind.Other => Ring,
            HardwareKind.Swivel => Swivel,
            HardwareKind.Treble => Treble,
            HardwareKind.Single => Single,
        };
        add(marks, at, length);
    }

    private static void Ring(ImmutableArray<Mark>.Builder marks, PagePoint at, double length) =>
        marks.Add(new Circle(Ink.Steel, new PagePoint(at.X, at.Y + length / 2), Math.Max(length / 2, 0.5)));

    private static void Swivel(ImmutableArray<Mark>.Builder marks, PagePoint at, double length)
    {
        double ring = 0.2 * length, body = 0.11 * length;
        marks.Add(new Circle(Ink.Steel, new PagePoint(at.X, at.Y + ring), ring));
        marks.Add(new Box(Ink.Lead, new PagePoint(at.X - body, at.Y + 2 * ring), 2 * body, length - 4 * ring));
        marks.Add(new Circle(Ink.Steel, new PagePoint(at.X, at.Y + length - ring), ring));
    }

    private static void StandIn(ImmutableArray<Mark>.Builder marks, PagePoint at, double length)
    {
        double r = 0.42 * length;
        marks.Add(new Stroke(Ink.Line, [Contour.Straight([at, at + new PagePoint(0, 2 * length)])]));
        marks.Add(new Circle(Ink.Lead, new PagePoint(at.X, at.Y + 2 * length + r), r));
    }

    private static void Treble(ImmutableArray<Mark>.Builder marks, PagePoint at, double length) => Hook(marks, at, length, treble: true);

    private static void Single(ImmutableArray<Mark>.Builder marks, PagePoint at, double length) => Hook(marks, at, length, treble: false);

    /// <summary>Eye, shank, bend, point and barb; a treble has one bend each way and one seen from the front.</summary>
    private static void Hook(ImmutableArray<Mark>.Builder marks, PagePoint at, double length, bool treble)
    {
        double eye = 0.06 * length;
        marks.Add(new Circle(Ink.Steel, at + new PagePoint(0, eye), eye));
        var bends = new List<Contour> { Bend(at, length, 0.33, eye) };
        if (treble) bends.AddRange([Bend(at, length, -0.33, eye), Bend(at, length, 0.09, eye)]);
        marks.Add(new Stroke(Ink.Steel, [.. bends]));
    }

    private static Contour Bend(PagePoint at, double length, double wide, double eye)
    {
        PagePoint P(double x, double y) => new(at.X + x * length, at.Y + y * length);
        PagePoint top = at + new PagePoint(0, 2 * eye);
        PagePoint low = P(0, 0.7), tip = P(wide, 0.56);
        return new Contour(top,
        [
            (top, low, low),
            (P(0, 0.9), P(0.18 * wide, 1), P(0.5 * wide, 1)),
            (P(0.86 * wide, 1), P(wide, 0.86), tip),
            (tip, P(0.78 * wide, 0.68), P(0.78 * wide, 0.68)),
        ], Closed: false);
    }
}
