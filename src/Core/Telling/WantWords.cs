using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Core.Ballast;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Telling;

/// <summary>Wants in the maker's words, there and back: "sinks slowly, level"; "stands, 30 mm of nose out".</summary>
public static partial class WantWords
{
    // What words without numbers mean; common practice, no source. The fall rates lie in the middle of their verdicts.
    private const double SlowSeconds = 6;
    private const double UsualSeconds = 3;
    private const double FastSeconds = 2;
    private const double TailDownDeg = 20;
    private const double NoseDownDeg = 15;
    private const double StandsDeg = 70;
    private const double NoseOutMm = 30;
    private const double SpareG = 6;

    /// <summary>What may be said, for whoever said something else.</summary>
    public const string Understood =
        "words like \"sinks slowly, level\", \"falls 5 s a metre, 10 deg tail down\", \"floats level, 6 g to spare\", \"stands at 70 deg, 30 mm of nose out\" or \"suspends level\"";

    /// <summary>A want from words; null when a word or a number is not understood, which is then named.</summary>
    public static (Want? Want, string Unknown) Parse(string text)
    {
        // A comma is a pause in words, and no decimal mark here.
        if (DecimalComma().Match(text) is { Success: true } comma) return (null, comma.Value);
        string rest = " " + text.ToLowerInvariant().Replace(',', ' ').Replace(';', ' ').Replace('\u00A0', ' ') + " ";
        double? seconds = Take(ref rest, SecondsPerMetre()) ?? Take(ref rest, MillimetresPerSecond()) switch { { } rate and > 0 => 1000 / rate, _ => null };
        double? nose = Take(ref rest, NoseOut()), spare = Take(ref rest, ToSpare()), degrees = Take(ref rest, Degrees());
        bool Says(Regex word)
        {
            string before = rest;
            rest = word.Replace(rest, " ");
            return rest != before;
        }
        bool stands = Says(Stands()), floats = Says(Floats()) | stands, suspends = Says(Suspends()), falls = Says(Falls());
        bool slowly = Says(Slowly()), fast = Says(Fast()), level = Says(Level()), tail = Says(TailDown()), down = Says(NoseDown());
        _ = Says(Filler());
        if (rest.Trim() is { Length: > 0 } left) return (null, left.Split(' ', StringSplitOptions.RemoveEmptyEntries)[0]);
        int manners = (floats ? 1 : 0) + (suspends ? 1 : 0) + (falls ? 1 : 0);
        if (manners != 1 || (level ? 1 : 0) + (tail ? 1 : 0) + (down ? 1 : 0) > 1) return (null, text);
        if (!falls && (seconds is not null || slowly || fast) || !floats && (nose is not null || spare is not null) || nose is not null && spare is not null) return (null, text);
        double size = degrees ?? (stands ? StandsDeg : tail ? TailDownDeg : down ? NoseDownDeg : 0);
        double trim = Units.FromDegrees(down ? -Math.Abs(size) : level ? 0 : size);
        if (level && degrees is > 0 || Math.Abs(size) > 89 || seconds is <= 0.2 or > 120 || nose is <= 0 || spare is < 0) return (null, text);
        Want want = falls ? Want.Falling(seconds ?? (slowly ? SlowSeconds : fast ? FastSeconds : UsualSeconds), trim)
            : suspends ? Want.Suspending(trim)
            : nose is not null || stands && spare is null ? Want.Standing(trim, nose ?? NoseOutMm)
            : Want.Floating(trim, spare ?? SpareG);
        return (want, "");
    }

    private static double? Take(ref string text, Regex pattern)
    {
        Match match = pattern.Match(text);
        if (!match.Success) return null;
        text = text.Remove(match.Index, match.Length).Insert(match.Index, " ");
        return double.Parse(match.Groups[1].Value, NumberStyles.Float, CultureInfo.InvariantCulture);
    }

    /// <summary>"falls level: a metre in 6.0 s" …: what is wanted, in numbers.</summary>
    public static string Of(Want want, Notation notation)
    {
        string trim = Words.Trim(want.Trim, notation);
        return want.Manner switch
        {
            Manner.Falls => $"falls {trim}, a metre in {Sentence.Seconds(want.SecondsPerMetre, notation)} ({notation.Speed(want.Rate)})",
            Manner.Suspends => $"suspends {trim}",
            Manner.Floats => $"{(Math.Abs(want.Trim) > Units.FromDegrees(60) ? $"stands at {notation.Angle(want.Trim)}" : "floats " + trim)}, "
                + (want.NoseOut is { } nose ? $"{notation.Length(nose)} of nose out" : $"{notation.Weight(want.Spare ?? 0)} to spare"),
        };
    }

    /// <summary>"within 0.3 g and 3° of that".</summary>
    public static string Within(Want want, Notation notation) => $"within {notation.Weight(want.WeightWithin)} and {notation.Angle(want.TrimWithin)}";

    private const string N = @"(?<= )(-?\d+(?:\.\d+)?) ?";

    [GeneratedRegex(N + @"s(?:ec(?:onds?)?)? ?(?:/|per|a|for a|for one)? ?(?:m|metre|meter)(?= )")]
    private static partial Regex SecondsPerMetre();

    [GeneratedRegex(N + @"mm ?/ ?s(?= )")]
    private static partial Regex MillimetresPerSecond();

    [GeneratedRegex(N + @"mm(?: of)?(?: nose)?(?: out)?(?= )")]
    private static partial Regex NoseOut();

    [GeneratedRegex(N + @"g(?: to)?(?: spare)?(?= )")]
    private static partial Regex ToSpare();

    [GeneratedRegex(N + @"(?:°|deg(?:rees?)?)(?= )")]
    private static partial Regex Degrees();

    [GeneratedRegex(@"\d+,\d+")]
    private static partial Regex DecimalComma();

    [GeneratedRegex(@"(?<= )stands?(?= )")]
    private static partial Regex Stands();

    [GeneratedRegex(@"(?<= )floats?(?= )")]
    private static partial Regex Floats();

    [GeneratedRegex(@"(?<= )suspends?(?= )")]
    private static partial Regex Suspends();

    [GeneratedRegex(@"(?<= )(?:sinks?|falls?)(?= )")]
    private static partial Regex Falls();

    [GeneratedRegex(@"(?<= )slow(?:ly)?(?= )")]
    private static partial Regex Slowly();

    [GeneratedRegex(@"(?<= )fast(?= )")]
    private static partial Regex Fast();

    [GeneratedRegex(@"(?<= )level(?= )")]
    private static partial Regex Level();

    [GeneratedRegex(@"(?<= )(?:tail (?:down|first)|nose up)(?= )")]
    private static partial Regex TailDown();

    [GeneratedRegex(@"(?<= )nose (?:down|first)(?= )")]
    private static partial Regex NoseDown();

    [GeneratedRegex(@"(?<= )(?:at|with|and|in|a|of|out|to|spare|about|little|the)(?= )")]
    private static partial Regex Filler();
}
