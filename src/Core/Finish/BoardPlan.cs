using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Finish;

/// <summary>A board of the box that the halves can be cut from.</summary>
/// <param name="Wood">Its wood's name.</param>
/// <param name="Name">What is pencilled on it, or null.</param>
/// <param name="Pieces">How many pieces of the wanted size it gives, along it and side by side.</param>
/// <param name="Density">Its own, g/mm³.</param>
public sealed record BoardChoice(string Wood, string? Name, int Pieces, double Density);

/// <summary>What is cut from wood before any carving: two boards to be tacked, or one block that is sawn apart later.</summary>
/// <param name="OneBlock">One block instead of two boards.</param>
/// <param name="Length">Along the grain, mm.</param>
/// <param name="Width">The side view's height, mm.</param>
/// <param name="Thickness">Of one board, or of the block, mm.</param>
/// <param name="Mass">Of all of it, at the design's density, g.</param>
/// <param name="Density">The design's, g/mm³.</param>
/// <param name="Pair">Boards of the box to cut from: one that gives both halves, or two of the nearest density; empty: none is there.</param>
public sealed record BoardPlan(
    bool OneBlock, double Length, double Width, double Thickness, double Mass, double Density, ImmutableArray<BoardChoice> Pair)
{
    // To hold it by, to be sawn off last; and beside the line, where the saw wanders. Common practice, no source.
    private const double EndSpare = 10;
    private const double SideSpare = 2;

    public int Pieces => OneBlock ? 1 : 2;

    /// <summary>Boards for a sound design.</summary>
    public static BoardPlan Of(LureDesign design, Body body, MakersBox? box)
    {
        (double height, double half) = Extent(body);
        JointDesign joint = design.Joint ?? new JointDesign();
        bool block = joint.KerfMm > 0;
        double half2 = half + Math.Abs(design.Halves?.RightWiderMm ?? 0) + SideSpare;
        // Half of the tack lies in each half's width already.
        double thickness = block ? 2 * half2 : half2 - joint.TackThicknessMm / 2;
        (double length, double width) = (Math.Ceiling(body.Length + 2 * EndSpare), Math.Ceiling(height + 2 * SideSpare));
        thickness = Math.Ceiling(2 * thickness) / 2;
        double density = Units.FromGramsPerCm3(design.Wood.DensityGPerCm3);
        var plan = new BoardPlan(block, length, width, thickness, density * (block ? 1 : 2) * length * width * thickness, density, []);
        return plan with { Pair = plan.Choose(Products.WoodOf(design, box)) };
    }

    private static (double Height, double Half) Extent(Body body)
    {
        const int Stations = 400;
        double top = double.MinValue, bottom = double.MaxValue, half = 0;
        for (int i = 0; i <= Stations; i++)
        {
            double x = body.Length * i / Stations;
            top = Math.Max(top, body.BackAt(x));
            bottom = Math.Min(bottom, body.BellyAt(x));
            half = Math.Max(half, body.HalfBreadthAt(x));
        }
        return (top - bottom, half);
    }

    // Halves out of one board are alike; out of two they differ as the boards do.
    private ImmutableArray<BoardChoice> Choose(BoxWood? wood)
    {
        BoardChoice[] fit = [.. (wood?.Boards ?? []).Where(b => b.ThicknessMm >= Thickness)
            .Select(b => new BoardChoice(wood!.Name, b.Name, Fitting(b), Units.FromGramsPerCm3(b.DensityGPerCm3))).Where(c => c.Pieces > 0)];
        if (fit.Where(c => c.Pieces >= Pieces).MinBy(c => Math.Abs(c.Density - Density)) is { } one) return [one];
        if (fit.Length < 2) return [];
        return [.. fit.SelectMany((a, i) => fit.Skip(i + 1).Select(b => new[] { a, b })).MinBy(p => Math.Abs(p[0].Density - p[1].Density))!];
    }

    private int Fitting(Board board) => (int)(board.LengthMm / Length) * (int)(board.WidthMm / Width);
}
