using System.Collections.Immutable;
using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.App.Pages;

/// <summary>How full the sections are, in a maker's words instead of exponents.</summary>
internal static class Fullnesses
{
    public static readonly ImmutableArray<(string Word, double N)> All = [("diamond", 1), ("lean", 1.5), ("round", 2), ("full", 2.5), ("boxy", 4)];

    // Where one word gives way to the next.
    private const double Near = 0.051;

    /// <summary>The word for a fullness; null for one between words, or for a body whose fullness changes on its way.</summary>
    public static string? Word(BodyDesign body, bool above)
    {
        double first = Of(body.Section[0], above);
        return body.Section.Any(f => Of(f, above) != first) ? null : All.Where(w => Math.Abs(w.N - first) < Near).Select(w => w.Word).FirstOrDefault();
    }

    /// <summary>The same fullness all along, above or below the widest line; an unknown word changes nothing.</summary>
    public static LureDesign Set(LureDesign design, bool above, string? word)
    {
        if (All.Where(w => w.Word == word).Select(w => (double?)w.N).FirstOrDefault() is not { } n) return design;
        ImmutableArray<Fullness> section = [.. design.Body.Section.Select(f => above ? f with { Above = n } : f with { Below = n })];
        return design with { Body = design.Body with { Section = section } };
    }

    /// <summary>The section where the body is fullest, as the points of an SVG polygon, 1 mm to the unit, its middle at 0.</summary>
    public static (string Points, double Width, double Top, double Height) Drawn(BodyDesign body)
    {
        const int Steps = 40;
        Body surface = body.Surface();
        Section section = Enumerable.Range(1, Steps).Select(i => surface.SectionAt(body.LengthMm * i / (Steps + 1.0))).MaxBy(s => s.Area);
        IEnumerable<double> across = Enumerable.Range(0, Steps + 1).Select(i => section.HalfBreadth * Math.Sin(Math.PI * (i / (double)Steps - 0.5)));
        IEnumerable<(double Y, double Z)> round = [.. across.Select(y => (y, section.TopAt(y))), .. across.Reverse().Select(y => (y, section.BottomAt(y)))];
        return (string.Join(' ', round.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Y:0.##},{-p.Z:0.##}"))),
            2 * section.HalfBreadth, -section.Back, section.Back - section.Belly);
    }

    private static double Of(Fullness f, bool above) => above ? f.Above : f.Below;
}
