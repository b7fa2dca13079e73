using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Core.Quantities;

namespace Trimwright.App.Sessions;

/// <summary>
/// Numbers as makers type them into a field. A comma or a dot is the decimal mark; grouping is never read, so
/// <c>1,500</c> is one and a half. Fractions of an inch and other units than the field's are turned into it.
/// </summary>
internal static partial class Typed
{
    /// <summary>A length in mm, or null when it is none.</summary>
    public static double? Length(string? text, bool inches = false) => Read(text, inches ? Units.Inch : 1, unit => unit switch
    {
        "mm" => 1,
        "cm" => 10,
        "in" or "\"" or "inch" or "inches" or "″" => Units.Inch,
        _ => null,
    });

    /// <summary>A weight in g, or null when it is none.</summary>
    public static double? Weight(string? text, bool ounces = false) => Read(text, ounces ? Units.Ounce : 1, unit => unit switch
    {
        "g" => 1,
        "kg" => 1000,
        "oz" => Units.Ounce,
        _ => null,
    });

    /// <summary>A number without a unit.</summary>
    public static double? Plain(string? text) => Read(text, 1, _ => null);

    private static double? Read(string? text, double own, Func<string, double?> units)
    {
        if (text is null || Form().Match(text.Trim().ToLowerInvariant().Replace('\u00A0', ' ').Replace('\u202F', ' ')) is not { Success: true } parts) return null;
        double value = parts.Groups["whole"] is { Success: true, Length: > 0 } whole ? Number(whole.Value) : 0;
        if (parts.Groups["over"] is { Success: true } over)
        {
            double under = Number(parts.Groups["under"].Value);
            if (under == 0) return null;
            value += Number(over.Value) / under;
        }
        if (parts.Groups["minus"].Length > 0) value = -value;
        string unit = parts.Groups["unit"].Value;
        double? factor = unit.Length == 0 ? own : units(unit);
        return factor is { } f && double.IsFinite(value * f) ? value * f : null;
    }

    private static double Number(string digits) => double.Parse(digits.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    // 12  12.5  12,5  .5  1 3/8 in  3/8"  0,5 oz  −4
    [GeneratedRegex("""^(?<minus>[-−]?)\s*(?:(?<whole>[0-9]+[.,]?[0-9]*|[.,][0-9]+)(?:\s+(?<over>[0-9]+)/(?<under>[0-9]+))?|(?<over>[0-9]+)/(?<under>[0-9]+))\s*(?<unit>[a-z"″]*)$""")]
    private static partial Regex Form();
}
