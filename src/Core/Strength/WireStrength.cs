using System.Globalization;

namespace Trimwright.Core.Strength;

/// <summary>What a straight wire holds, and the moment that bends it.</summary>
/// <param name="Diameter">d, mm.</param>
/// <param name="Grade">As recognised.</param>
/// <param name="Tensile">R_m, MPa: the least that a table allows, or a typical value.</param>
/// <param name="TensileBasis">How sure R_m is.</param>
/// <param name="Source">Of R_m.</param>
/// <param name="Yield">σ_y, MPa, of the wire as bent; always from memory.</param>
public sealed record WireStrength(double Diameter, WireGrade Grade, double Tensile, Basis TensileBasis, string Source, double Yield)
{
    // Typical values, MPa, from memory. Annealed stainless: 500 to 700 (EN 10088-3); its proof stress of 210 at least is
    // nearly doubled by the bending of the eye itself.
    public const double SoftTensile = 600;
    public const double SoftYield = 350;
    private const double HalfHardTensile = 1000;
    private const double HalfHardYield = 900;
    private const double GalvanisedTensile = 400;
    private const double GalvanisedYield = 250;

    /// <summary>Proof stress of drawn spring wire as a share of R_m: 0.7 to 0.8, from memory.</summary>
    public const double SpringYieldShare = 0.75;

    internal const string Typical = "typical";

    /// <summary>The strength of a wire, or null where nothing is known of it.</summary>
    /// <param name="diameter">mm.</param>
    /// <param name="grade">The design's own words, or null.</param>
    public static WireStrength? Of(double diameter, string? grade)
    {
        WireGrade known = WireGrade.Recognise(grade);
        return known.Alloy switch
        {
            WireAlloy.Other => null,
            WireAlloy.Galvanised => new(diameter, known, GalvanisedTensile, Basis.FromMemory, Typical, GalvanisedYield),
            WireAlloy.Stainless304 or WireAlloy.Stainless316 => known.Temper switch
            {
                WireTemper.Soft => new(diameter, known, SoftTensile, Basis.FromMemory, Typical, SoftYield),
                WireTemper.HalfHard => new(diameter, known, HalfHardTensile, Basis.FromMemory, Typical, HalfHardYield),
                WireTemper.Spring => Spring(diameter, known, grade ?? ""),
            },
        };
    }

    // Of the tables that hold this diameter the one that promises least, unless the design names its standard.
    private static WireStrength? Spring(double diameter, WireGrade grade, string words)
    {
        WireTable[] tables = grade.Alloy == WireAlloy.Stainless316 ? [WireTable.En14401, WireTable.Astm316]
            : words.Contains("1.4310", StringComparison.Ordinal) ? [WireTable.En14310] : [WireTable.En14310, WireTable.Astm304];
        (double Least, string Source)[] found = [.. tables
            .Select(table => (table, row: table.RowOf(diameter)))
            .Where(t => t.row is not null)
            .Select(t => (t.row!.Value.Least, t.table.Cite(t.row.Value)))];
        if (found.Length > 0)
        {
            (double least, string source) = found.MinBy(f => f.Least);
            return new(diameter, grade, least, Basis.Published, source, SpringYieldShare * least);
        }
        return grade.Alloy == WireAlloy.Stainless304 && WireTable.PowerLaw302(diameter) is { } strength
            ? new(diameter, grade, strength, Basis.Published, "Shigley, Mechanical Engineering Design, table 10-4, type 302", SpringYieldShare * strength)
            : null;
    }

    /// <summary>R_m and where it is from.</summary>
    public string TensileSource => string.Create(CultureInfo.InvariantCulture, $"R_m {Tensile:0} MPa, {Source}");

    /// <summary>σ_y, which is never from a table.</summary>
    public string YieldSource => string.Create(CultureInfo.InvariantCulture, $"σ_y {Yield:0} MPa, {Typical}");

    /// <summary>A, mm².</summary>
    public double Area => Math.PI * Diameter * Diameter / 4;

    /// <summary>R_m·A, N.</summary>
    public double Break => Tensile * Area;

    /// <summary>M_p, N·mm.</summary>
    public double PlasticMoment => Bending.PlasticMoment(Diameter, Yield);
}
