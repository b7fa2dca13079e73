using System.Collections.Immutable;

namespace Trimwright.Core.Box;

/// <summary>
/// What is usual, to start from until the maker has weighed their own. Masses of hooks, rings and swivels are common
/// practice without a source; sizes are no standard between makers. Densities and strengths from tables say published.
/// </summary>
public static partial class Catalogue
{
    /// <summary>A box to start from: everything here, plenty of it.</summary>
    public static MakersBox Starter => new()
    {
        Name = "Starter box",
        Woods = Woods, Wires = Wires, Weights = Weights, Stock = Stock, Hooks = Hooks, Rings = Rings, Swivels = Swivels,
        Leaders = Leaders, Finishes = Finishes, Cutters = Cutters, Scales = Scales,
    };

    /// <summary>
    /// Drills in half millimetres, flat-bottomed bits in the sizes that shops keep, round-nose cutters and gouges: common
    /// practice, no source.
    /// </summary>
    public static ImmutableArray<BoxCutter> Cutters =>
    [
        new() { Id = "twist-drills", Name = "twist drills 1 to 13 mm", Kind = CutterKind.Twist, DiametersMm = [.. Enumerable.Range(2, 25).Select(i => i / 2.0)] },
        new() { Id = "flat-bits", Name = "flat-bottomed bits", Kind = CutterKind.FlatBit, DiametersMm = [6, 8, 10, 12, 14, 15, 16, 18, 20, 22, 25, 30, 35], SpurMm = 2.5 },
        new() { Id = "round-nose", Name = "round-nose router cutters", Kind = CutterKind.RoundNose, DiametersMm = [6, 8, 10, 12, 16] },
        new() { Id = "gouges", Name = "gouges", Kind = CutterKind.Gouge, DiametersMm = [6, 10, 14] },
    ];

    /// <summary>Fine scales stop early: common practice, no source.</summary>
    public static ImmutableArray<BoxScale> Scales =>
    [
        new() { Id = "pocket-scale", Name = "pocket scale", ResolutionG = 0.01, CapacityG = 200 },
        new() { Id = "bench-scale", Name = "bench scale", ResolutionG = 0.1, CapacityG = 2000 },
        new() { Id = "kitchen-scale", Name = "kitchen scale", ResolutionG = 1, CapacityG = 5000 },
    ];

    // An id may hold small letters, digits and hyphens; a decimal point becomes a hyphen.
    private static string Slug(string text)
    {
        var slug = new System.Text.StringBuilder();
        foreach (char c in text.ToLowerInvariant())
            if (char.IsAsciiLetterOrDigit(c)) slug.Append(c);
            else if (slug.Length > 0 && slug[^1] != '-') slug.Append('-');
        return slug.ToString().TrimEnd('-');
    }

    private static string Show(double value) => value.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture);
}
