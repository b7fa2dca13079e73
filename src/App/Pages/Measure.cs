using System.Globalization;
using Trimwright.App.Sessions;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Pages;

/// <summary>What a field holds: how it is read and shown in the units that its maker chose. Inside it is mm or g.</summary>
public enum Measure
{
    Length,
    Weight,
}

internal static class Measures
{
    public static string Unit(this Measure measure, Notation notation) => measure switch
    {
        Measure.Length => notation.Inches ? "in" : "mm",
        Measure.Weight => notation.Inches ? "oz" : "g",
    };

    public static double? Read(this Measure measure, string? text, Notation notation) => measure switch
    {
        Measure.Length => Typed.Length(text, notation.Inches),
        Measure.Weight => Typed.Weight(text, notation.Inches),
    };

    /// <summary>As a field shows it: as many digits as were worth typing.</summary>
    public static string Show(this Measure measure, double value, Notation notation)
    {
        double shown = value / (notation.Inches ? measure == Measure.Length ? Units.Inch : Units.Ounce : 1);
        return Math.Round(shown, 3).ToString("0.###", CultureInfo.InvariantCulture);
    }
}
