using System.Collections.Immutable;
namespace Trimwright.Core.Shape;

/// <summary>Where along a body a maker marks and measures.</summary>
public static class Stations
{
    // More lines than these crowd a bench ruler and a table; common practice, no source.
    private const int Most = 26;

    /// <summary>Every whole step from the nose, the ends themselves left out, mm; the step doubles for a long lure.</summary>
    /// <param name="body">The body.</param>
    /// <param name="step">10 mm or ½ inch, in mm.</param>
    public static ImmutableArray<double> Even(Body body, double step)
    {
        while (body.Length / step > Most) step *= 2;
        return [.. Enumerable.Range(1, (int)Math.Ceiling(body.Length / step) - 1).Select(i => i * step)
            .Where(x => x > 0.01 * body.Length && x < 0.99 * body.Length)];
    }

    /// <summary>Stations of sheets in millimetres, mm apart.</summary>
    public const double Centimetre = 10;

    /// <summary>Of sheets in inches, mm apart.</summary>
    public const double HalfInch = Quantities.Units.Inch / 2;

    /// <summary>The few stations that get a card each: near the ends and between, each on a whole step.</summary>
    public static ImmutableArray<double> ForGauges(Body body, double step)
    {
        ImmutableArray<double> even = Even(body, step);
        double[] shares = [0.06, 0.18, 0.34, 0.5, 0.66, 0.82, 0.94];
        return even.IsEmpty ? [0.5 * body.Length]
            : [.. shares.Select(s => even.MinBy(x => Math.Abs(x - s * body.Length))).Distinct()];
    }

    /// <summary>Where a maker looks with a caliper while rounding: the stations nearest to each eighth of the body, mm.</summary>
    public static ImmutableArray<double> ForCalipers(Body body, double step)
    {
        ImmutableArray<double> even = Even(body, step);
        if (even.Length > 1) step = even[1] - even[0];
        return even.IsEmpty ? [0.5 * body.Length]
            : [.. Enumerable.Range(1, 7).Select(i => step * Math.Round(body.Length * i / 8 / step)).Select(at => even.MinBy(x => Math.Abs(x - at))).Distinct()];
    }

    /// <summary>Places for drawing a smooth outline: close at the ends, where round ones turn, and at every corner.</summary>
    /// <param name="body">The body.</param>
    /// <param name="count">How many.</param>
    public static double[] Fine(Body body, int count = 240) =>
        [.. Enumerable.Range(0, count + 1).Select(i => body.Length * 0.5 * (1 - Math.Cos(Math.PI * i / count)))
            .Concat(body.Corners).Distinct().Order()];
}
