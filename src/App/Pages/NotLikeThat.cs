using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;

namespace Trimwright.App.Pages;

/// <summary>Why an edit could not be, to who has no file before them: a number that is out of its range comes with the unit that they chose.</summary>
internal static partial class NotLikeThat
{
    public static string Said(Fault fault, Notation notation)
    {
        // The reader's numbers are the file's: grams where the key says so, else millimetres; its advice speaks of that key.
        if (fault.Kind != "range" || !Alone().IsMatch(fault.Got)) return $"Not like that: {fault.Got}; allowed: {fault.Allowed}. {fault.Next}";
        Measure measure = fault.Path.EndsWith("_g", StringComparison.Ordinal) ? Measure.Weight : Measure.Length;
        return $"Not like that: {Told(fault.Got, measure, notation)}; allowed: {Told(fault.Allowed, measure, notation)}. Type another number; the lure is as it was.";
    }

    private static string Told(string numbers, Measure measure, Notation notation) => Number().Replace(numbers, m =>
        measure.Show(double.Parse(m.Value, CultureInfo.InvariantCulture), notation).Replace('-', '−') + "\u00A0" + measure.Unit(notation));

    [GeneratedRegex(@"^-?\d+(\.\d+)?(e-?\d+)?$")]
    private static partial Regex Alone();

    [GeneratedRegex(@"-?\d+(\.\d+)?(e-?\d+)?")]
    private static partial Regex Number();
}
