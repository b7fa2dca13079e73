using System.Collections.Immutable;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>How an outline comes to an end that closes: with its tangent square to the axis, or in a point.</summary>
public enum EndForm
{
    Round,
    Pointed,
}

/// <summary>A point of an outline: mm from the nose, and mm from the axis (height, or half-breadth).</summary>
public readonly record struct OutlinePoint(double X, double Value);

/// <summary>
/// A curve that bounds the body, as the maker gives it: points from nose to tail with x rising. It runs smooth (C²)
/// through them but for the corners named.
/// </summary>
/// <param name="Points">At least two, x strictly rising, mm.</param>
/// <param name="Nose">Form of the nose end where it closes.</param>
/// <param name="Tail">Form of the tail end where it closes.</param>
/// <param name="Corners">The x of inner points where the curve may break its direction, mm.</param>
public sealed record Outline(
    ImmutableArray<OutlinePoint> Points, EndForm Nose, EndForm Tail, ImmutableArray<double> Corners)
{
    public bool Equals(Outline? other) =>
        other is not null && Nose == other.Nose && Tail == other.Tail
        && Points.SequenceEqual(other.Points) && Corners.SequenceEqual(other.Corners);

    public override int GetHashCode() => HashCode.Combine(Points.Length, Nose, Tail, Points[0], Points[^1]);
}

/// <summary>
/// The smooth curve through an outline's points.
/// <para>
/// A round end has a vertical tangent, which no polynomial in x has. So the curve is v(x) = v_end + w·g, where w
/// carries the end's square root and g is a C² spline in a coordinate in which a round end is regular:
/// both ends round: x = ½L(1 − cos τ), w = sin τ; one end round: w = t = √(distance from that end / L);
/// none: t = x, w = 1. At a round end a smooth body has g even in τ (or t), which mirrored knots impose. An ellipse
/// and a parabola have g constant, a cone and a cylinder are straight lines in x: all four come out exactly,
/// whatever points they are given by.
/// </para>
/// </summary>
public sealed class OutlineCurve
{
    private readonly Piece[] pieces;

    /// <param name="outline">The points.</param>
    /// <param name="roundNose">The nose end closes and is round.</param>
    /// <param name="roundTail">The tail end closes and is round.</param>
    public OutlineCurve(Outline outline, bool roundNose, bool roundTail)
    {
        var cuts = new List<int> { 0 };
        for (int i = 1; i < outline.Points.Length - 1; i++)
            if (outline.Corners.Contains(outline.Points[i].X)) cuts.Add(i);
        cuts.Add(outline.Points.Length - 1);
        pieces = new Piece[cuts.Count - 1];
        for (int k = 0; k < pieces.Length; k++)
        {
            ReadOnlySpan<OutlinePoint> points = outline.Points.AsSpan()[cuts[k]..(cuts[k + 1] + 1)];
            pieces[k] = new Piece(points, roundNose && k == 0, roundTail && k == pieces.Length - 1);
        }
    }

    /// <summary>The curve's value at x (mm); beyond the ends, its value there.</summary>
    public double At(double x)
    {
        foreach (Piece piece in pieces)
            if (x <= piece.To) return piece.At(x);
        return pieces[^1].At(x);
    }

    private sealed class Piece
    {
        private readonly double from;
        private readonly double startValue;
        private readonly double endValue;
        private readonly bool roundStart;
        private readonly bool roundEnd;
        private readonly CubicSpline spline;

        public double To { get; }

        public Piece(ReadOnlySpan<OutlinePoint> points, bool roundStart, bool roundEnd)
        {
            from = points[0].X;
            To = points[^1].X;
            startValue = points[0].Value;
            endValue = points[^1].Value;
            this.roundStart = roundStart;
            this.roundEnd = roundEnd;
            var knots = new List<(double T, double G)>();
            foreach (OutlinePoint point in points)
            {
                (double t, double w, double start) = Coordinate(point.X);
                if (w > 1e-12) knots.Add((t, (point.Value - start) / w));
            }
            // Even about a round end: mirrored knots; about both, the two mirror images of the whole.
            var all = new List<(double T, double G)>(knots);
            if (roundStart || roundEnd)
                all.AddRange(knots.Where(k => k.T > 1e-12).Select(k => (-k.T, k.G)));
            if (roundStart && roundEnd)
                all.AddRange(knots.Select(k => (2 * Math.PI - k.T, k.G)));
            all.Sort((a, b) => a.T.CompareTo(b.T));
            spline = all.Count == 0
                ? new CubicSpline([0], [0])
                : new CubicSpline([.. all.Select(k => k.T)], [.. all.Select(k => k.G)]);
        }

        public double At(double x)
        {
            (double t, double w, double start) = Coordinate(Math.Clamp(x, from, To));
            return start + (w > 0 ? w * spline.At(t) : 0);
        }

        /// <summary>The regular coordinate t of x, the end factor w there, and the value that w·g is added to.</summary>
        private (double T, double W, double Base) Coordinate(double x)
        {
            double u = Math.Clamp((x - from) / (To - from), 0, 1);
            if (roundStart && roundEnd)
            {
                // acos(1−2u) loses digits near 0; 2·asin√u does not.
                double t = u <= 0.5 ? 2 * Math.Asin(Math.Sqrt(u)) : Math.PI - 2 * Math.Asin(Math.Sqrt(1 - u));
                return (t, 2 * Math.Sqrt(u * (1 - u)), startValue + (endValue - startValue) * u);
            }
            if (roundStart) return (Math.Sqrt(u), Math.Sqrt(u), startValue);
            if (roundEnd) return (Math.Sqrt(1 - u), Math.Sqrt(1 - u), endValue);
            return (x, 1, 0);
        }
    }
}
