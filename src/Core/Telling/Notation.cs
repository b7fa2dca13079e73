using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Telling;

/// <summary>How numbers are shown to people; a number and its unit stay on one line.</summary>
/// <param name="Inches">Inches and ounces instead of millimetres and grams.</param>
/// <param name="DecimalMark">'.' or ','.</param>
public sealed record Notation(bool Inches = false, char DecimalMark = '.') : IMeasures
{
    public static readonly Notation Metric = new();

    /// <summary>A weight in g, with its unit: a kitchen scale's last digit, 0.1 g, or what is finer, 1/1000 ounce.</summary>
    public string Weight(double grams) => Weight(grams, 1);

    /// <summary>A weight in g, with its unit, to so many digits of a gram, or what is at least as fine in ounces.</summary>
    public string Weight(double grams, int decimals) => Inches
        ? Number(grams / Units.Ounce, decimals + 2) + "\u00A0oz"
        : Number(grams, decimals) + "\u00A0g";

    /// <summary>A number that was shown with its unit, and the unit: for tables that say the unit once.</summary>
    public static (string Number, string Unit) Apart(string shown) => shown.Split('\u00A0') is [var number, .. var unit] ? (number, string.Concat(unit)) : (shown, "");

    /// <summary>The way that a fall is told by: a metre, or a yard, which is nearly as long.</summary>
    public string Way => Inches ? "yard" : "metre";

    /// <summary>Its length, mm.</summary>
    public double WayMm => Inches ? Units.Yard : 1000;

    /// <summary>What weights are counted in: grams, or ounces.</summary>
    public string Grams => Inches ? "ounces" : "grams";

    /// <summary>A gram, as one says it of a small change.</summary>
    public string Gram => Inches ? Weight(1) : "1\u00A0g";

    /// <summary>A weight in g to a whole gram (or 1/100 ounce), with its unit: what is bought.</summary>
    public string Heap(double grams) => Inches ? Number(grams / Units.Ounce, 2) + "\u00A0oz" : Number(grams, 0) + "\u00A0g";

    /// <summary>A speed in mm/ms, with its unit: to the whole mm a second (or 1/10 inch).</summary>
    public string Speed(double rate) => Inches ? Number(1000 * rate / Units.Inch, 1) + "\u00A0in/s" : Number(1000 * rate, 0) + "\u00A0mm/s";

    /// <summary>The thickness of a film in mm, with its unit: to 0.01 mm (or 1/1000 inch).</summary>
    public string Film(double mm) => Inches ? Number(mm / Units.Inch, 3) + "\u00A0in" : Number(mm, 2) + "\u00A0mm";

    /// <summary>An area in mm², with its unit.</summary>
    public string Area(double mm2) => Inches ? Number(mm2 / (Units.Inch * Units.Inch), 1) + "\u00A0in²" : Number(mm2 / 100, 0) + "\u00A0cm²";

    /// <summary>A density in g/mm³, with its unit: g/cm³, or pounds a cubic foot, as timber tables of either kind have it.</summary>
    public string Density(double gramsPerMm3) => Inches
        ? Number(gramsPerMm3 * Math.Pow(12 * Units.Inch, 3) / (16 * Units.Ounce), 1) + "\u00A0lb/ft³"
        : Number(Units.ToGramsPerCm3(gramsPerMm3), 3) + "\u00A0g/cm³";

    /// <summary>A length in mm, with its unit, to the whole mm (or 1/20 inch).</summary>
    public string Length(double mm) => Inches ? Number(mm / Units.Inch, 2) + "\u00A0in" : Number(mm, 0) + "\u00A0mm";

    /// <summary>A length in mm as a caliper reads it: to 0.1 mm (or 1/1000 inch), with its unit.</summary>
    public string Caliper(double mm) => Inches ? Number(mm / Units.Inch, 3) + "\u00A0in" : Number(mm, 1) + "\u00A0mm";

    /// <summary>Two lengths in mm that belong together, with their unit once.</summary>
    public string Across(double one, double other) => Inches
        ? Number(one / Units.Inch, 3) + " × " + Number(other / Units.Inch, 3) + "\u00A0in"
        : Number(one, 1) + " × " + Number(other, 1) + "\u00A0mm";

    /// <summary>A temperature in °C, with its unit.</summary>
    public string Temperature(double celsius) => Inches ? Number(celsius * 9 / 5 + 32, 0) + "\u00A0°F" : Number(celsius, 0) + "\u00A0°C";

    /// <summary>A volume in mm³, with its unit.</summary>
    public string Volume(double mm3) => Inches
        ? Number(mm3 / (Units.Inch * Units.Inch * Units.Inch), 2) + "\u00A0in³"
        : Number(mm3 / Units.CubicCentimetre, 1) + "\u00A0cm³";

    /// <summary>A force in N as a spring scale reads it: to the whole kilogram-force (or pound) from 10 on.</summary>
    public string Force(double newtons)
    {
        double shown = newtons / Units.KilogramForce / (Inches ? Units.Pound : 1);
        return Number(shown, shown < 9.95 ? 1 : 0) + (Inches ? "\u00A0lbf" : "\u00A0kgf");
    }

    /// <summary>An angle in radians as whole degrees.</summary>
    public string Angle(double radians) => Number(Units.ToDegrees(radians), 0) + "°";

    /// <summary>A plain number; never "−0".</summary>
    public string Number(double value, int decimals)
    {
        string text = Math.Round(value, decimals, MidpointRounding.AwayFromZero).ToString("F" + decimals, CultureInfo.InvariantCulture);
        if (text.TrimStart('-').All(c => c is '0' or '.')) text = text.TrimStart('-');
        return text.Replace('-', '−').Replace('.', DecimalMark);
    }
}
