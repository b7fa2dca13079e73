using System.Collections.Immutable;
using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>What may have gone wrong with a reading.</summary>
public enum SuspectKind
{
    /// <summary>A part was not there, or one too many.</summary>
    PartMissing,
    PartTooMany,

    /// <summary>Two neighbouring digits in the wrong order.</summary>
    DigitsSwapped,

    /// <summary>One digit of the number is another.</summary>
    DigitWrong,

    /// <summary>A digit was left out, or written twice.</summary>
    DigitsCounted,

    /// <summary>The decimal point stands elsewhere.</summary>
    Point,

    /// <summary>Ounces for grams.</summary>
    Ounces,

    /// <summary>The water was salt, and was written down as fresh.</summary>
    SaltWater,

    /// <summary>The water was fresh, and was written down as salt.</summary>
    FreshWater,

    /// <summary>Something else lay on the scale, which was not set to zero with it.</summary>
    Tare,

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
/// <param name="Amount">
/// Of the part; of a number written otherwise, what it would be; of salt water, its salinity; of air and a tare, how much: in the reading's unit.
/// </param>
public sealed record Suspect(SuspectKind Kind, string? Part, double Amount);

/// <summary>
/// Tries the usual slips on a reading that does not fit, and keeps those that would make it fit. A slip that leaves less over goes first, and
/// before one that could explain nearly anything: a digit may be any of ten, and what clings or lay on the scale may weigh anything.
/// </summary>
internal static class Suspicion
{
    // What explains must leave less than this over, in standard deviations, and less than half of what was off.
    private const double Fits = 2;

    // Kitchen scales, and water made salt in a kitchen: common practice, no source.
    private const double MostAirG = 5, LeastTareG = 2, LeastSalt = 5, SeaSalt = 20;

    /// <summary>What may have gone wrong, likeliest first.</summary>
    /// <param name="design">The lure.</param>
    /// <param name="reading">The reading.</param>
    /// <param name="m">Which of its numbers, and by how much.</param>
    /// <param name="inWater">By how much more it would have read in a water of such salinity; null where it was read in none.</param>
    public static ImmutableArray<Suspect> Of(LureDesign design, LogReading reading, Misfit m, Func<double, double>? inWater = null)
    {
        double off = m.Observation.Read - m.Expected, sd = Math.Abs(off / m.Sigmas);
        var found = new List<(double Score, Suspect Suspect)>();
        // penalty: in standard deviations left over, how much likelier another slip is.
        void Try(double explained, Suspect suspect, double penalty = 0)
        {
            double left = Math.Abs(off - explained);
            if (left < Fits * sd && left < 0.5 * Math.Abs(off)) found.Add((left / sd + penalty, suspect));
        }
        void Best(IEnumerable<double> numbers, double read, SuspectKind kind, double penalty)
        {
            // A number that was written otherwise moves the reading by as much.
            if (numbers.DefaultIfEmpty(double.NaN).MinBy(n => Math.Abs(off - (read - n))) is var best && double.IsFinite(best)) Try(read - best, new Suspect(kind, null, best), penalty);
        }
        string key = m.Observation.Key;
        bool grams = key.EndsWith("_g", StringComparison.Ordinal);
        if (grams)
        {
            if (reading.Kind.SignOfParts(reading) is var sign && sign != 0)
                foreach ((string name, double mass) in Parts(design, reading))
                {
                    Try(-sign * mass, new Suspect(SuspectKind.PartMissing, name, mass));
                    Try(sign * mass, new Suspect(SuspectKind.PartTooMany, name, mass));
                }
            if (reading.Kind.TakesAir && off is > 0 and < MostAirG) Try(off, new Suspect(SuspectKind.Air, null, off), 0.5 * off);
            Try(m.Expected / Units.Ounce - m.Expected, new Suspect(SuspectKind.Ounces, null, m.Expected));
        }
        if ((grams ? reading.MassG ?? 0 : key == "sat" ? 0 : m.Observation.Read) is var read and > 0)
        {
            Best(Swapped(read), read, SuspectKind.DigitsSwapped, 0);
            Best(new[] { 0.01, 0.1, 10, 100 }.Select(times => times * read), read, SuspectKind.Point, 0);
            Best(OneMoreOrLess(read), read, SuspectKind.DigitsCounted, 0.5);
            Best(OneOther(read), read, SuspectKind.DigitWrong, 1);
        }
        if (key is "trim_deg" or "turned_deg") Try(-2 * m.Expected, new Suspect(SuspectKind.EndsSwapped, null, -m.Observation.Read));
        if (key == "x_mm") Try(design.Body.LengthMm - 2 * m.Expected, new Suspect(SuspectKind.EndsSwapped, null, design.Body.LengthMm - m.Observation.Read));
        if (inWater is not null) TryWaters(reading, off, inWater, Try);
        if (grams && reading.Kind.SignOfParts(reading) > 0 && off > LeastTareG && !found.Any(f => f.Score < 1)) Try(off, new Suspect(SuspectKind.Tare, null, off), 1.5);
        // What could explain nearly anything explains nothing for sure.
        bool sure = found.Any(f => f.Suspect.Kind is not (SuspectKind.DigitWrong or SuspectKind.DigitsCounted or SuspectKind.Tare));
        Suspect[] likeliest = [.. found.OrderBy(f => f.Score).Select(f => f.Suspect).Take(3)];
        return sure ? [.. likeliest] : [.. likeliest.Take(2), new Suspect(SuspectKind.Unexplained, null, off)];
    }

    private static void TryWaters(LogReading reading, double off, Func<double, double> inWater, Action<double, Suspect, double> attempt)
    {
        if (reading.Salinity >= LeastSalt)
        {
            attempt(inWater(0), new Suspect(SuspectKind.FreshWater, null, 0), 0);
            return;
        }
        // Density, and what a lure shows by it, is nearly straight in salinity.
        double sea = inWater(WaterState.Ocean.Salinity);
        if (sea == 0) return;
        double salt = reading.Salinity + off / sea * (WaterState.Ocean.Salinity - reading.Salinity);
        if (salt is < LeastSalt or > WaterState.SaltiestAllowed) return;
        attempt(inWater(salt), new Suspect(SuspectKind.SaltWater, null, salt), salt > SeaSalt ? 0.3 : 1);
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

    // As it was written: a kitchen scale's digits, one or two after the point.
    private static string Digits(double value, out int decimals)
    {
        string text = value.ToString("0.0#", CultureInfo.InvariantCulture);
        decimals = text.Length - 1 - text.IndexOf('.', StringComparison.Ordinal);
        return text.Replace(".", "", StringComparison.Ordinal);
    }

    private static double Number(string digits, int decimals) => double.Parse(digits, CultureInfo.InvariantCulture) / Math.Pow(10, decimals);

    // 73.4 for 37.4, 43.7 for 47.3: any two neighbours.
    private static IEnumerable<double> Swapped(double value)
    {
        string digits = Digits(value, out int decimals);
        for (int i = 0; i + 1 < digits.Length; i++)
        {
            if (digits[i] == digits[i + 1]) continue;
            char[] other = digits.ToCharArray();
            (other[i], other[i + 1]) = (other[i + 1], other[i]);
            yield return Number(new string(other), decimals);
        }
    }

    // 61.4 for 67.4.
    private static IEnumerable<double> OneOther(double value)
    {
        string digits = Digits(value, out int decimals);
        for (int i = 0; i < digits.Length; i++)
            for (char d = '0'; d <= '9'; d++)
                if (d != digits[i]) yield return Number(digits[..i] + d + digits[(i + 1)..], decimals);
    }

    // 6.4 for 67.4, and 677.4 for it.
    private static IEnumerable<double> OneMoreOrLess(double value)
    {
        string digits = Digits(value, out int decimals);
        for (int i = 0; i <= digits.Length - decimals; i++)
            for (char d = '0'; d <= '9'; d++) yield return Number(digits[..i] + d + digits[i..], decimals);
        for (int i = 0; i < digits.Length - decimals && digits.Length - decimals > 1; i++) yield return Number(digits.Remove(i, 1), decimals);
    }
}
