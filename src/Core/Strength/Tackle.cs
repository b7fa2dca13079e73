using System.Globalization;
using Trimwright.Core.Design;

namespace Trimwright.Core.Strength;

/// <summary>
/// What bought tackle holds. No table of it is published and sizes are not standard, so a stated strength counts first;
/// else rings and swivels take the lower of what such weights are sold with, from memory, and hooks take nothing.
/// </summary>
public static class Tackle
{
    // Weight, g, against the lower strength, kgf, that is sold at it: small, medium, large. From memory.
    private static readonly (double Mass, double Kgf)[] SplitRings = [(0.5, 45), (0.9, 75), (2.0, 115)];
    private static readonly (double Mass, double Kgf)[] Swivels = [(1.2, 70), (1.8, 100), (2.5, 150)];

    // Nylon and fluorocarbon lines of 80 to 300 lb by the diameters they are sold at, 580 to 660 MPa; from memory.
    private const double LineStress = 600;

    private static readonly string[] LineWords = ["nylon", "mono", "fluoro", "polyamide", "pvdf"];

    private static bool Has(string name, string[] words) => words.Any(w => name.Contains(w, StringComparison.OrdinalIgnoreCase));

    /// <summary>What it holds, or null where nothing is known.</summary>
    public static Figure? Of(HardwareItem item)
    {
        if (item.StrengthKgf is { } stated) return Figure.Stated(stated);
        return item.Kind switch
        {
            // A solid ring is no weaker than a split ring of its weight.
            HardwareKind.SolidRing => Sold(item.MassG, Math.Max(Kgf(item.MassG, SplitRings), Kgf(item.MassG, Swivels))),
            HardwareKind.SplitRing => Sold(item.MassG, Kgf(item.MassG, SplitRings)),
            HardwareKind.Swivel => Sold(item.MassG, Kgf(item.MassG, Swivels)),
            HardwareKind.Treble or HardwareKind.Single or HardwareKind.Snap or HardwareKind.Other => null,
        };
    }

    // Straight between the weights; below them in proportion; above them no more than the heaviest.
    private static double Kgf(double mass, (double Mass, double Kgf)[] sold)
    {
        (double Mass, double Kgf) under = (0, 0);
        foreach ((double Mass, double Kgf) over in sold)
        {
            if (mass <= over.Mass) return under.Kgf + (over.Kgf - under.Kgf) * (mass - under.Mass) / (over.Mass - under.Mass);
            under = over;
        }
        return under.Kgf;
    }

    private static Figure Sold(double mass, double kgf)
    {
        string formula = string.Create(CultureInfo.InvariantCulture, $"by its weight, {mass:0.##} g");
        return Figure.Stated(kgf) with { Formula = formula, Source = "typical", Basis = Basis.FromMemory };
    }

    /// <summary>What the leader breaks at, without knots; null where its material is not known.</summary>
    public static Figure? Of(LeaderDesign leader)
    {
        if (leader.StrengthKgf is { } stated) return Figure.Stated(stated);
        if (leader.Material is null || !Has(leader.Material, LineWords)) return null;
        string formula = string.Create(CultureInfo.InvariantCulture, $"S·πd²/4, S {LineStress} MPa, d {leader.DiameterMm} mm");
        return new Figure(LineStress * Math.PI * leader.DiameterMm * leader.DiameterMm / 4, formula, "typical", Basis.FromMemory);
    }
}
