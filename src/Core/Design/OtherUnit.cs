using System.Collections.Immutable;
using System.Globalization;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Design;

/// <summary>
/// A unit in which a file may give a number instead of in the program's own: a key that ends in <c>_mm</c> may be written <c>_in</c>, one
/// in <c>_g</c> <c>_oz</c>. Records hold the program's own unit; which keys came in the other one, <see cref="Kept"/> remembers. What was
/// typed is converted as a decimal and rounded once, so that it can be written back as it was typed.
/// </summary>
internal sealed class OtherUnit
{
    public static readonly OtherUnit Inch = new("_mm", "mm", "_in", "in", "inches", (decimal)Units.Inch);
    public static readonly OtherUnit Ounce = new("_g", "g", "_oz", "oz", "ounces", (decimal)Units.Ounce);
    private static readonly OtherUnit SquareInch = new("_mm2", "mm²", "_in2", "in²", "square inches", (decimal)(Units.Inch * Units.Inch));
    private static readonly OtherUnit PoundForce = new("_kgf", "kgf", "_lbf", "lbf", "pounds of force", (decimal)Units.Pound);
    private static readonly OtherUnit Pound = new("_kg", "kg", "_lb", "lb", "pounds", (decimal)Units.Pound);
    private static readonly OtherUnit Fahrenheit = new("_c", "°C", "_f", "°F", "degrees Fahrenheit", 5, 9, zero: 32);
    private static readonly OtherUnit PerYard = new("_per_metre", "a metre", "_per_yard", "a yard", "seconds for a yard", 1, (decimal)Units.Yard / 1000);

    /// <summary>Each of them; a key belongs to one at most.</summary>
    public static ImmutableArray<OtherUnit> All { get; } = [Inch, Ounce, SquareInch, PoundForce, Pound, Fahrenheit, PerYard];

    // Beyond these a decimal loses digits that a double keeps; no number of a sound file is there.
    private const double Small = 1e-9, Large = 1e9;

    private readonly string ownEnding, ending;
    private readonly decimal size, by, zero;

    private OtherUnit(string ownEnding, string own, string ending, string name, string plural, decimal size, decimal by = 1, decimal zero = 0) =>
        (this.ownEnding, OwnName, this.ending, Name, Plural, this.size, this.by, this.zero) = (ownEnding, own, ending, name, plural, size, by, zero);

    /// <summary>The program's own unit as it is written: "mm".</summary>
    public string OwnName { get; }

    /// <summary>This one: "in".</summary>
    public string Name { get; }

    /// <summary>In full: "inches".</summary>
    public string Plural { get; }

    /// <summary>How keys in it end, in UTF-8 and with the quote that closes them.</summary>
    public ReadOnlySpan<byte> Ending => System.Text.Encoding.ASCII.GetBytes(ending + "\"");

    /// <summary>The unit in which a key may be written instead; null: none.</summary>
    public static OtherUnit? Of(string key)
    {
        foreach (OtherUnit unit in All)
            if (key.EndsWith(unit.ownEnding, StringComparison.Ordinal)) return unit;
        return null;
    }

    /// <summary>The unit that a key is written in, where it is one of these; null: it isn't.</summary>
    public static OtherUnit? In(string key)
    {
        foreach (OtherUnit unit in All)
            if (key.EndsWith(unit.ending, StringComparison.Ordinal)) return unit;
        return null;
    }

    /// <summary>A key in this unit: length_in for length_mm.</summary>
    public string Key(string own) => own[..^ownEnding.Length] + ending;

    /// <summary>The program's own key: length_mm for length_in.</summary>
    public string OwnKey(string other) => other[..^ending.Length] + ownEnding;

    /// <summary>A number as it stands in a file, in the program's own unit; infinite where no double holds it.</summary>
    public double Own(string written)
    {
        double number = JsonTree.NumberOf(System.Text.Encoding.ASCII.GetBytes(written));
        if (Math.Abs(number) is var much && (much > Large || much is > 0 and < Small)
            || !decimal.TryParse(written, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal typed))
            return (number - (double)zero) * (double)size / (double)by;
        return double.Parse(((typed - zero) * size / by).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    /// <summary>A number of the program's own unit in this one.</summary>
    public double Of(double own) => own * (double)by / (double)size + (double)zero;

    /// <summary>The same with the fewest digits that are read as that number again.</summary>
    public string Written(double own)
    {
        if (Math.Abs(own) is var much && (much > Large || much is > 0 and < Small)) return ObjectWriter.Number(Of(own));
        decimal other = decimal.Parse(ObjectWriter.Number(own), NumberStyles.Float, CultureInfo.InvariantCulture) * by / size + zero;
        for (int decimals = 0; decimals < 28; decimals++)
        {
            string text = Math.Round(other, decimals, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture);
            if (Own(text) == own) return text;
        }
        return other.ToString(CultureInfo.InvariantCulture);
    }

    /// <summary>For a message: as it was typed, where it was; what was worked out to four decimals.</summary>
    public string Shown(double own) => Written(own) is var exact && Decimals(exact) <= Typed ? exact : Findings.Show(Of(own), 4);

    /// <summary>A limit for a message, rounded so that what is told is allowed.</summary>
    public string Limit(double own, bool isLeast)
    {
        if (Written(own) is var exact && Decimals(exact) <= Typed) return exact;
        double other = Of(own);
        int decimals = 3 - (int)Math.Floor(Math.Log10(Math.Abs(other)));
        double step = Math.Pow(10, -decimals);
        return Findings.Show(step * (isLeast ? Math.Ceiling(other / step) : Math.Floor(other / step)), Math.Max(decimals, 0));
    }

    // Nobody types more decimals of an inch.
    private const int Typed = 6;

    private static int Decimals(string number) => number.IndexOf('.') is var dot and >= 0 ? number.Length - dot - 1 : 0;
}
