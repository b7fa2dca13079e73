using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing;

/// <summary>
/// Side and plan of a lure over a grid, one above the other and nose over nose, 1 mm of page for 1 mm of lure: what is
/// dragged. Its frame stays while a point moves, so that the paper doesn't slide under the hand.
/// </summary>
public sealed class OutlineSheet
{
    private const double Margin = 9;
    private const double Room = 5;
    private const double Square = 10;

    // Between side and plan: what the weights weigh stands there.
    private const double Gap = 14;
    private const double Small = 3.6;

    /// <summary>To which side the nose points.</summary>
    public Nose Nose { get; }

    /// <summary>Page y of the axis in the side view.</summary>
    public double Axis { get; }

    /// <summary>Page y of the seam in the plan.</summary>
    public double Seam { get; }

    /// <summary>Page y halfway between what is drawn of the side and of the plan: nothing of one lies over the other.</summary>
    public double Between => 2 * Seam - Height;

    public double Width { get; }

    public double Height { get; }

    /// <summary>A frame with room around a design.</summary>
    public OutlineSheet(BodyDesign body, Nose nose = Nose.Left)
    {
        Nose = nose;
        double top = Math.Max(body.Back.Points.Max(p => p.Value), 6), low = Math.Max(-body.Belly.Points.Min(p => p.Value), 6);
        double half = Math.Max(body.Plan.Points.Max(p => p.Value), 6);
        Width = body.LengthMm + 2 * Margin;
        Axis = Room + top;
        // Whole squares from axis to seam: one grid lies under both, so that a height here is the same height there.
        Seam = Axis + Square * Math.Ceiling((low + Gap + half) / Square);
        Height = Seam + half + Room;
    }

    public PagePoint Side(double x, double z) => new(Across(x), Axis - z);

    /// <summary>Seen from above: with the nose to the left its right side lies up the page, with the nose to the right down.</summary>
    public PagePoint Plan(double x, double y) => new(Across(x), Nose == Nose.Right ? Seam + y : Seam - y);

    /// <summary>A point of the plan's outline as it is dragged: on the half that lies up the page.</summary>
    public PagePoint Half(double x, double halfBreadth) => new(Across(x), Seam - halfBreadth);

    /// <summary>Station, mm from the nose, of a page x.</summary>
    public double Station(double across) => Nose == Nose.Right ? Width - Margin - across : across - Margin;

    private double Across(double x) => Nose == Nose.Right ? Width - Margin - x : Margin + x;

    /// <summary>The sheet: grid, last time's line, wood, what lies inside.</summary>
    /// <param name="design">Today's.</param>
    /// <param name="past">Last time's, or null.</param>
    /// <param name="notation">How weights are shown.</param>
    public Picture Draw(LureDesign design, LureDesign? past, Notation notation)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.Add(new Stroke(Ink.Grid, [.. Grid()]));
        Body surface = design.Body.Surface();
        marks.Add(new Stroke(Ink.Wood, [SideOf(surface), PlanOf(surface)]));
        AddGrain(marks, surface);
        marks.Add(new Stroke(Ink.Axis, [Contour.Straight([Side(-6, 0), Side(surface.Length + 6, 0)]), Contour.Straight([Plan(-6, 0), Plan(surface.Length + 6, 0)])]));
        AddInsides(marks, design);
        AddGrams(marks, design, notation);
        if (past is not null && past.Body.Surface() is { } then) marks.Add(new Stroke(Ink.Past, [SideOf(then), PlanOf(then)]));
        return new Picture(Width, Height, design.Name, "Side view above, plan below, over a grid of 10 mm.", marks.ToImmutable());
    }

    private IEnumerable<Contour> Grid()
    {
        for (double x = 0; x <= Width - 2 * Margin + 1e-9; x += Square) yield return Contour.Straight([new(Across(x), 1), new(Across(x), Height - 1)]);
        for (double y = Axis - Square * Math.Floor((Axis - 1) / Square); y <= Height - 1; y += Square) yield return Contour.Straight([new(1, y), new(Width - 1, y)]);
    }

    // Round ends are steep: stations lie close there.
    private static double[] Stations(Body surface) =>
        [.. Enumerable.Range(0, 81).Select(i => surface.Length * 0.5 * (1 - Math.Cos(Math.PI * i / 80))).Concat(surface.Corners).Order()];

    private Contour SideOf(Body surface)
    {
        double[] stations = Stations(surface);
        return Contour.Straight([.. stations.Select(x => Side(x, surface.BackAt(x))), .. stations.Reverse().Select(x => Side(x, surface.BellyAt(x)))], closed: true);
    }

    private Contour PlanOf(Body surface)
    {
        double[] stations = Stations(surface);
        return Contour.Straight([.. stations.Select(x => Plan(x, surface.HalfBreadthAt(x))), .. stations.Reverse().Select(x => Plan(x, -surface.HalfBreadthAt(x)))], closed: true);
    }

    private void AddGrain(ImmutableArray<Mark>.Builder marks, Body surface)
    {
        var lines = new List<Contour>();
        foreach (double share in new[] { 0.24, 0.42, 0.61, 0.8 })
        {
            double[] at = [.. Enumerable.Range(0, 33).Select(i => surface.Length * (0.06 + 0.05 * Math.Sin(9 * share) + 0.84 * i / 32))];
            lines.Add(Contour.Smooth([.. at.Select(x => Side(x, surface.BellyAt(x) + (share + 0.02 * Math.Sin(0.07 * x + 5 * share)) * (surface.BackAt(x) - surface.BellyAt(x))))]));
            lines.Add(Contour.Smooth([.. at.Select(x => Plan(x, (2 * share - 1 + 0.03 * Math.Sin(0.06 * x + 4 * share)) * surface.HalfBreadthAt(x)))]));
        }
        marks.Add(new Stroke(Ink.Grain, [.. lines]));
    }

    private void AddInsides(ImmutableArray<Mark>.Builder marks, LureDesign design)
    {
        if (design.Wire is { } wire)
        {
            var shape = new WireShape(wire, design.Body.Surface());
            marks.Add(new Stroke(Ink.Wire, [Contour.Straight([.. shape.Path.Where((_, i) => i % 4 == 0 || i == shape.Path.Count - 1).Select(p => Side(p.X, p.Z))])]));
            foreach (HangPlace place in shape.Places)
            {
                Vec3 middle = place.At - place.Eye.InsideMm / 2 * place.Outward;
                marks.Add(new Circle(Ink.Wire, Side(middle.X, middle.Z), (place.Eye.InsideMm + wire.DiameterMm) / 2));
            }
        }
        foreach (BallastPiece piece in design.Ballast)
        {
            Vec3 half = 0.5 * piece.Box, at = piece.Middle;
            if (piece.Shape == PieceShape.Ball)
            {
                marks.Add(new Circle(Ink.Lead, Side(at.X, at.Z), half.X));
                marks.Add(new Circle(Ink.Lead, Plan(at.X, at.Y), half.X));
                continue;
            }
            marks.Add(new Box(Ink.Lead, Side(at.X, at.Z) + new PagePoint(-half.X, -half.Z), 2 * half.X, 2 * half.Z));
            marks.Add(new Box(Ink.Lead, Plan(at.X, at.Y) + new PagePoint(-half.X, -half.Y), 2 * half.X, 2 * half.Y));
        }
    }

    // Each weight's grams stand under it, between side and plan, where the words don't hide the wood; one that would run into
    // its neighbour goes a line lower, and what finds no place is left to the numbers.
    private void AddGrams(ImmutableArray<Mark>.Builder marks, LureDesign design, Notation notation)
    {
        double low = design.Body.Belly.Points.Min(p => p.Value);
        Span<double> until = [double.MinValue, double.MinValue];
        foreach (BallastPiece piece in design.Ballast.OrderBy(p => Across(p.Middle.X)))
        {
            string grams = notation.Weight(piece.Mass);
            PagePoint at = Side(piece.Middle.X, piece.Middle.Z - piece.Box.Z / 2);
            double half = 0.3 * Small * grams.Length + 1;
            int row = at.X - half > until[0] ? 0 : at.X - half > until[1] ? 1 : -1;
            if (row < 0) continue;
            until[row] = at.X + half;
            var words = new PagePoint(at.X, Side(0, low).Y + 2 + (row + 1) * (Small + 0.8));
            if (words.Y - Small > at.Y) marks.Add(new Stroke(Ink.Line, [Contour.Straight([at, new(at.X, words.Y - Small)])]));
            marks.Add(new Label(grams, words, Small, Voice.Label, Anchor.Middle));
        }
    }
}
