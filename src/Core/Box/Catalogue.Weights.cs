using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

public static partial class Catalogue
{
    /// <summary>
    /// Handbook densities as public tables restate them; alloys of lead by ideal mixing, 1/ρ = Σ w/ρ, which is exact only where
    /// volumes add. Tungsten alloys go from 17 to 18.5 with their share of tungsten, from memory.
    /// </summary>
    public static ImmutableArray<Material> Metals { get; } =
    [
        new("lead", "lead", 11.34, Source.Published, IsLead: true),
        new("lead-antimony-2", "lead with 2 % antimony", 11.185, Source.Published, IsLead: true),
        new("lead-antimony-3", "lead with 3 % antimony", 11.108, Source.Published, IsLead: true),
        new("lead-antimony-4", "lead with 4 % antimony", 11.033, Source.Published, IsLead: true),
        new("lead-antimony-5", "lead with 5 % antimony", 10.959, Source.Published, IsLead: true),
        new("lead-antimony-6", "lead with 6 % antimony", 10.886, Source.Published, IsLead: true),
        new("lead-antimony-10", "lead with 10 % antimony", 10.603, Source.Published, IsLead: true),
        new("solder-60-40", "tin-lead solder 60/40", 8.505, Source.Published, IsLead: true),
        new("tin", "tin", 7.28, Source.Published),
        new("bismuth", "bismuth", 9.75, Source.Published),
        new("tungsten", "tungsten alloy", 17.5, Source.Typical),
        new("brass", "brass", 8.5, Source.Published),
        new("steel", "steel", 7.85, Source.Published),
        new("stainless", "stainless steel", 7.9, Source.Published),
        new("zinc", "zinc", 7.135, Source.Published),
    ];

    public static Material Metal(string id) => Metals.First(m => m.Id == id);

    /// <summary>Sizes as shops and moulds have them: common practice, no source. Weights follow from form and density.</summary>
    public static ImmutableArray<BoxWeight> Weights =>
    [
        .. Balls("lead", 4, 5, 6, 7, 8, 9, 10, 11, 12), .. Balls("tungsten", 4, 5, 6, 8), .. Balls("steel", 5, 6, 8, 10), .. Balls("bismuth", 6, 8, 10),
        .. Rods("lead", (5, 10), (6, 10), (6, 15), (6, 20), (8, 10), (8, 15), (8, 20), (8, 30), (10, 15), (10, 20), (10, 30), (12, 15), (12, 20)),
        .. Rods("tungsten", (4, 15), (5, 15), (6, 15), (6, 20)), .. Rods("brass", (6, 15), (8, 20), (10, 20)),
        .. Barrels("lead", (8, 12), (10, 12), (10, 16), (12, 12), (12, 16), (14, 16), (16, 20)), .. Barrels("tungsten", (6, 12), (8, 12)),
        .. Barrels("brass", (8, 12), (10, 15)), .. Barrels("bismuth", (10, 14), (12, 16)),
        .. Strips("lead", (30, 8, 1.8), (40, 10, 1.8), (40, 10, 3), (60, 10, 3)), .. Strips("tin", (40, 10, 3), (60, 10, 4)),
        .. Plugs("lead-antimony-3", (8, 8), (10, 10), (12, 10), (12, 12)), .. Plugs("tin", (10, 10), (12, 12)), .. Plugs("bismuth", (10, 10), (12, 12)),
    ];

    public static ImmutableArray<BoxStock> Stock =>
    [
        .. new[] { 5.0, 6, 8, 10, 12 }.Select(d => Rod("lead", d)), .. new[] { 6.0, 8, 10, 12 }.Select(d => Rod("brass", d)),
        .. new[] { 6.0, 8, 10 }.Select(d => Rod("stainless", d)), .. new[] { 4.0, 6 }.Select(d => Rod("tungsten", d)),
        Sheet("lead", 1), Sheet("lead", 1.8), Sheet("lead", 3), Sheet("tin", 2), Sheet("brass", 2),
        Wire("lead", 1), Wire("lead", 1.6), Wire("lead", 3), Wire("solder-60-40", 1.5), Wire("tin", 1.5), Wire("tin", 3),
    ];

    private static IEnumerable<BoxWeight> Balls(string metal, params IEnumerable<double> diameters) =>
        diameters.Select(d => Weight(metal, BallastForm.Ball, d, null));

    private static IEnumerable<BoxWeight> Rods(string metal, params IEnumerable<(double D, double L)> sizes) =>
        sizes.Select(s => Weight(metal, BallastForm.Rod, s.D, s.L));

    // A bore of 2.2 mm goes over wire of up to 2 mm.
    private static IEnumerable<BoxWeight> Barrels(string metal, params IEnumerable<(double D, double L)> sizes) =>
        sizes.Select(s => Weight(metal, BallastForm.Barrel, s.D, s.L) with { BoreMm = 2.2 });

    private static IEnumerable<BoxWeight> Plugs(string metal, params IEnumerable<(double D, double L)> sizes) =>
        sizes.Select(s => Weight(metal, BallastForm.Plug, s.D, s.L));

    private static BoxWeight Weight(string metal, BallastForm form, double diameter, double? length)
    {
        string what = $"{form.ToString().ToLowerInvariant()} {Show(diameter)}{(length is { } l ? $" x {Show(l)}" : "")}";
        return OfMetal(metal, what) with { Kind = form, DiameterMm = diameter, LengthMm = length };
    }

    private static IEnumerable<BoxWeight> Strips(string metal, params IEnumerable<(double L, double W, double T)> sizes) =>
        sizes.Select(s => OfMetal(metal, $"strip {Show(s.L)} x {Show(s.W)} x {Show(s.T)}") with
        {
            Kind = BallastForm.Strip, LengthMm = s.L, WidthMm = s.W, ThicknessMm = s.T,
        });

    private static BoxWeight OfMetal(string metal, string what)
    {
        Material of = Metal(metal);
        return new()
        {
            Id = Slug($"{of.Id} {what}"), Name = $"{of.Name} {what} mm", DensityGPerCm3 = of.DensityGPerCm3, IsLead = of.IsLead, Published = PublishedDensity(of),
        };
    }

    private static BoxStock Rod(string metal, double diameter) => OfStock(metal, $"bar {Show(diameter)}") with { Kind = StockKind.Rod, DiameterMm = diameter };

    private static BoxStock Wire(string metal, double diameter) => OfStock(metal, $"wire {Show(diameter)}") with { Kind = StockKind.Wire, DiameterMm = diameter };

    private static BoxStock Sheet(string metal, double thickness) =>
        OfStock(metal, $"sheet {Show(thickness)}") with { Kind = StockKind.Sheet, WidthMm = 100, ThicknessMm = thickness };

    private static BoxStock OfStock(string metal, string what)
    {
        Material of = Metal(metal);
        return new()
        {
            Id = Slug($"{of.Id} {what}"), Name = $"{of.Name} {what} mm", DensityGPerCm3 = of.DensityGPerCm3, IsLead = of.IsLead, Published = PublishedDensity(of),
        };
    }

    private static ImmutableArray<string> PublishedDensity(Material of) => of.Source == Source.Published ? ["density_g_cm3"] : [];
}
