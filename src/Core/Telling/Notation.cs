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

    /// <summary>A weight in g, with its unit: a kitchen scale's last digit.</summary>
    public string Weight(double grams) => Inches
        ? Number(grams / Units.Ounce, 2) + "\u00A0oz"
        : Number(grams, 1) + "\u00A0g";

    /// <summary>A length in mm, with its unit, to the whole mm (or 1/20 inch).</summary>
    public string Length(double mm) => Inches ? Number(mm / Units.Inch, 2) + "\u00A0in" : Number(mm, 0) + "\u00A0mm";

    /// <summary>A length in mm as a caliper reads it: to 0.1 mm (or 1/1000 inch), with its unit.</summary>
    public string Caliper(double mm) => Inches ? Number(mm / Units.Inch, 3) + "\u00A0in" : Number(mm, 1) + "\u00A0mm";

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
