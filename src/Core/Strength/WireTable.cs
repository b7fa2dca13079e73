using System.Collections.Immutable;
using System.Globalization;

namespace Trimwright.Core.Strength;

/// <summary>Tensile strength of drawn wire over a range of diameters.</summary>
/// <param name="From">Thinnest, mm.</param>
/// <param name="UpTo">Thickest, mm, itself included.</param>
/// <param name="Least">Smallest tensile strength allowed, MPa.</param>
/// <param name="Most">Largest, MPa, where it was seen; texts differ in it.</param>
public readonly record struct WireRow(double From, double UpTo, double Least, double? Most);

/// <summary>
/// A published table of spring wire. Only rows that were seen, in texts that restate the standards, are here; a diameter
/// between two of them takes the thicker wire's, which is the weaker.
/// </summary>
public sealed record WireTable(string Name, ImmutableArray<WireRow> Rows)
{
    public static readonly WireTable En14310 = new("EN 10270-3, 1.4310 NS",
    [
        new(0.8, 1.0, 1900, 2050), new(1.0, 1.25, 1850, 2000), new(1.25, 1.5, 1800, 1950), new(1.5, 1.75, 1750, 1900),
        new(1.75, 2.0, 1700, 1850), new(2.0, 2.5, 1650, 1750), new(2.5, 3.0, 1600, 1700),
    ]);

    public static readonly WireTable En14401 = new("EN 10270-3, 1.4401",
        [new(1.5, 1.75, 1450, null), new(1.75, 2.0, 1400, null), new(2.0, 2.5, 1350, null), new(2.5, 3.0, 1300, null)]);

    // Thousands of pounds to the square inch in the standard, converted.
    public static readonly WireTable Astm304 = new("ASTM A313, 302/304",
    [
        new(0.94, 1.04, 1896, 2096), new(1.14, 1.27, 1841, 2034), new(1.47, 1.60, 1779, 1965), new(1.78, 1.905, 1724, 1917),
        new(1.905, 2.03, 1696, 1896),
    ]);

    public static readonly WireTable Astm316 = new("ASTM A313, 316",
    [
        new(0.61, 1.04, 1620, 1825), new(1.19, 1.37, 1550, 1760), new(1.57, 1.83, 1480, 1690), new(1.83, 2.03, 1450, 1655),
        new(2.03, 2.34, 1415, 1620), new(2.34, 2.67, 1380, 1585),
    ]);

    /// <summary>The row of a diameter, mm; between two rows the thicker one's; null outside the table.</summary>
    public WireRow? RowOf(double diameter)
    {
        if (diameter < Rows[0].From) return null;
        foreach (WireRow row in Rows)
            if (diameter <= row.UpTo) return row;
        return null;
    }

    /// <summary>The table with its row's diameters, to be named as a source.</summary>
    public string Cite(WireRow row) => string.Create(CultureInfo.InvariantCulture, $"{Name}, {row.From} to {row.UpTo} mm");

    /// <summary>
    /// Tensile strength of type 302 spring wire, MPa, from 0.3 to 5 mm: A/dᵐ (Shigley, Mechanical Engineering Design,
    /// table 10-4). It follows the tables' middle, not their least; null outside.
    /// </summary>
    public static double? PowerLaw302(double diameter) => diameter switch
    {
        >= 0.3 and <= 2.5 => 1867 / Math.Pow(diameter, 0.146),
        > 2.5 and <= 5 => 2065 / Math.Pow(diameter, 0.263),
        _ => null,
    };
}
