using System.Globalization;
using System.Runtime.CompilerServices;

namespace Trimwright.Core.Design;

/// <summary>
/// A length, a weight or a key in words about a file, as it is said in either unit. It fits into <see cref="Remark"/> alone, so that nobody
/// puts it into a plain text by mistake.
/// </summary>
internal readonly ref struct Sized
{
    private Sized(OtherUnit unit, string own, string other) => (Unit, Own, Other) = (unit, own, other);

    public OtherUnit Unit { get; }

    public string Own { get; }

    public string Other { get; }

    /// <summary>A length, mm, where a key says the unit.</summary>
    public static Sized Mm(double mm) => new(OtherUnit.Inch, Findings.Show(mm), OtherUnit.Inch.Shown(mm));

    /// <summary>A length, mm, with its unit.</summary>
    /// <param name="mm">The length.</param>
    /// <param name="decimals">Of a millimetre, at most; of an inch there are as many as a caliper reads then, or more.</param>
    public static Sized InMm(double mm, int decimals = 6) => new(OtherUnit.Inch, Findings.Show(mm, decimals) + " mm",
        (decimals == 6 ? OtherUnit.Inch.Shown(mm) : Findings.Show(OtherUnit.Inch.Of(mm), decimals + 2)) + " in");

    /// <summary>A weight, g, where a key says the unit.</summary>
    public static Sized G(double grams) => new(OtherUnit.Ounce, Findings.Show(grams), OtherUnit.Ounce.Shown(grams));

    /// <summary>A volume in mm³, with its unit.</summary>
    public static Sized Volume(double mm3) => new(OtherUnit.Inch, Findings.Show(mm3 / Quantities.Units.CubicCentimetre, 3) + " cm³",
        Findings.Show(mm3 / Math.Pow(Quantities.Units.Inch, 3), 4) + " in³");

    /// <summary>A number under a key, in the key's unit.</summary>
    public static Sized Number(string key, double value) => OtherUnit.Of(key) is { } unit
        ? new(unit, Findings.Show(value), unit.Shown(value)) : new(OtherUnit.Inch, Findings.Show(value), Findings.Show(value));

    /// <summary>A key, as the file writes it.</summary>
    public static Sized Key(string key) => OtherUnit.Of(key) is { } unit ? new(unit, key, unit.Key(key)) : new(OtherUnit.Inch, key, key);

    /// <summary>The unit's name.</summary>
    public static Sized Name(OtherUnit unit) => new(unit, unit.OwnName, unit.Name);
}

/// <summary>Words about a place of a file: lengths and weights in the units that the file has there, keys as it writes them.</summary>
[InterpolatedStringHandler]
internal readonly struct Remark
{
    private readonly List<(string Own, OtherUnit? Unit, string Other)> parts;

    public Remark(int literalLength, int formattedCount)
    {
        _ = literalLength;
        parts = new(2 * formattedCount + 1);
    }

    /// <summary>Keys as the file writes them, one after another.</summary>
    public static Remark Keys(IReadOnlyList<string> keys, string between)
    {
        var said = new Remark(0, keys.Count);
        for (int i = 0; i < keys.Count; i++)
        {
            if (i > 0) said.AppendLiteral(between);
            said.AppendFormatted(Sized.Key(keys[i]));
        }
        return said;
    }

    public void AppendLiteral(string text) => parts.Add((text, null, text));

    public void AppendFormatted(string? text) => AppendLiteral(text ?? "");

    public void AppendFormatted(int number) => AppendLiteral(number.ToString(CultureInfo.InvariantCulture));

    public void AppendFormatted(double number) => AppendLiteral(number.ToString(CultureInfo.InvariantCulture));

    public void AppendFormatted(double number, string format) => AppendLiteral(number.ToString(format, CultureInfo.InvariantCulture));

    public void AppendFormatted(Remark words) => parts.AddRange(words.parts);

    public void AppendFormatted(Sized size) => parts.Add((size.Own, size.Unit, size.Other));

    public static implicit operator Remark(string text)
    {
        var said = new Remark(text.Length, 0);
        said.AppendLiteral(text);
        return said;
    }

    public static implicit operator Remark(Sized size)
    {
        var said = new Remark(0, 1);
        said.AppendFormatted(size);
        return said;
    }

    /// <summary>The text.</summary>
    /// <param name="isOther">Whether a unit is the one that is used instead of the program's own.</param>
    public string In(Func<OtherUnit, bool> isOther) => string.Concat(parts.Select(p => p.Unit is { } unit && isOther(unit) ? p.Other : p.Own));
}
