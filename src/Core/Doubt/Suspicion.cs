using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>What may have gone wrong with a reading.</summary>
public enum SuspectKind
{
    /// <summary>A part was not there, or one too many.</summary>
    PartMissing,
    PartTooMany,

    /// <summary>Two neighbouring digits in the wrong order.</summary>
    DigitsSwapped,

    /// <summary>Ounces for grams.</summary>
    Ounces,

    /// <summary>Nose and tail, or the sign, taken for each other.</summary>
    EndsSwapped,

    /// <summary>Air clung to it under water.</summary>
    Air,

    /// <summary>The jar's reading less the weight in air was written down.</summary>
    WeightTakenOff,

    /// <summary>Water got in.</summary>
    Leak,

    /// <summary>Nothing simple: the build differs from the design, or the reading is wrong.</summary>
    Unexplained,
}

/// <summary>One explanation.</summary>
/// <param name="Kind">What.</param>
/// <param name="Part">Which part, or null.</param>
/// <param name="Amount">Of the part, or of what would be left unexplained, in the reading's unit.</param>
public sealed record Suspect(SuspectKind Kind, string? Part, double Amount);

/// <summary>Tries the usual slips on a reading that does not fit, and keeps those that would make it fit.</summary>
internal static class Suspicion
{
    public static ImmutableArray<Suspect> Of(LureDesign design, LogReading reading, Misfit m)
    {
        double off = m.Observation.Read - m.Expected, sd = Math.Abs(off / m.Sigmas);
        var found = new List<(double Left, Suspect Suspect)>();
        void Try(double explained, Suspect suspect)
        {
            double left = Math.Abs(off - explained);
            if (left < 2 * sd && left < 0.5 * Math.Abs(off)) found.Add((left, suspect));
        }
        string key = m.Observation.Key;
        if (key.EndsWith("_g", StringComparison.Ordinal))
        {
            if (reading.Kind.SignOfParts(reading) is var sign && sign != 0)
                foreach ((string name, double grams) in Parts(design, reading))
                {
                    Try(-sign * grams, new Suspect(SuspectKind.PartMissing, name, grams));
                    Try(sign * grams, new Suspect(SuspectKind.PartTooMany, name, grams));
                }
            if (reading.Kind.TakesAir && off > 0 && off < 5) Try(off, new Suspect(SuspectKind.Air, null, off));
            Try(m.Expected / Units.Ounce - m.Expected, new Suspect(SuspectKind.Ounces, null, m.Expected));
            if (reading.MassG is { } mass)
                foreach (double other in Swapped(mass)) Try(mass - other, new Suspect(SuspectKind.DigitsSwapped, null, other));
        }
        if (key is "trim_deg" or "turned_deg") Try(-2 * m.Expected, new Suspect(SuspectKind.EndsSwapped, null, -m.Observation.Read));
        if (key == "x_mm") Try(design.Body.LengthMm - 2 * m.Expected, new Suspect(SuspectKind.EndsSwapped, null, design.Body.LengthMm - m.Observation.Read));
        return found.Count == 0 ? [new Suspect(SuspectKind.Unexplained, null, off)] : [.. found.OrderBy(f => f.Left).Take(3).Select(f => f.Suspect)];
    }

    private static IEnumerable<(string, double)> Parts(LureDesign design, LogReading reading)
    {
        if (reading.Stage < Stage.DryFit) yield break;
        WeightLedger ledger = Bookkeeper.Of(design, reading.Stage, reading.Rig, 1e-3, Shape.MeshSize.Coarse);
        foreach (Part part in ledger.Parts)
            if (part.Mass > 0.2 && part.Group != PartGroup.Wood) yield return (part.Name, part.Mass);
        foreach (Chain chain in ledger.Chains)
            if (chain.Unhooks.Count() > 1) yield return ($"all that hangs at the {chain.Place.Replace('_', ' ')}", chain.Unhooks.Sum(i => i.Mass));
    }

    // 73.4 for 37.4, 43.7 for 47.3: any two neighbours of the four digits that a kitchen scale shows.
    private static IEnumerable<double> Swapped(double value)
    {
        string digits = Math.Round(10 * value).ToString("F0", System.Globalization.CultureInfo.InvariantCulture);
        for (int i = 0; i + 1 < digits.Length; i++)
        {
            if (digits[i] == digits[i + 1]) continue;
            char[] other = digits.ToCharArray();
            (other[i], other[i + 1]) = (other[i + 1], other[i]);
            yield return double.Parse(other, System.Globalization.CultureInfo.InvariantCulture) / 10;
        }
    }
}
