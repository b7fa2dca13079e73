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
        "what predict says of a lure, or words like \"sinks slowly, level\", \"falls 5 s a metre, 10 deg tail down\", \"floats level, 6 g to spare\", \"floats level, eyes at the waterline\", \"stands at 70 deg, 30 mm of nose out\" or \"suspends level\"; inches, feet and ounces too";

    /// <summary>What to do about a want that came to nothing.</summary>
    /// <param name="unknown">What <see cref="Parse"/> named.</param>
    public static string Next(string unknown) => NotWanted().IsMatch(" " + unknown + " ") ? "No weights are planned for that: leave it out."
        : "Say one manner, one trim, and numbers with a dot and their unit.";

    /// <summary>
    /// A want from words, or from the sentence that a prediction is told by; null when a word or a number is not understood, or says what
    /// nothing is planned for, which is then named. Of grams and nose out the grams count: they are told more finely.
    /// </summary>
    public static (Want? Want, string Unknown) Parse(string text)
    {
        // A comma is a pause in words, and no decimal mark here.
        if (DecimalComma().Match(text) is { Success: true } comma) return (null, comma.Value);
        string rest = " " + FullStop().Replace(text.ToLowerInvariant().Replace(',', ' ').Replace(';', ' ').Replace(':', ' ').Replace('\u00A0', ' '), " ") + " ";
        rest = Spaces().Replace(rest, " ");
        if (NotWanted().Match(rest) is { Success: true } not) return (null, not.Value.Trim());
        double? seconds = PerMetre(Take(ref rest, WayInSeconds())) ?? PerMetre(Take(ref rest, SecondsPerWay())) ?? Take(ref rest, Speed()) switch
        {
            ({ } rate and > 0, var way, _) => 1000 / (rate * way),
            _ => null,
        };
        double? also = Sized(Take(ref rest, Proud())) ?? Sized(Take(ref rest, TailOut())), nose = Sized(Take(ref rest, NoseOut())),
            heavy = Sized(Take(ref rest, Heavy())), spare = Sized(Take(ref rest, ToSpare())), degrees = Take(ref rest, Degrees())?.Number;
        bool Says(Regex word)
        {
            string before = rest;
            rest = word.Replace(rest, " ");
            return rest != before;
        }
        Water.WaterState? water = Says(Sea()) ? Water.WaterState.Ocean : Says(Tap()) ? Water.WaterState.Tap : Says(Lake()) ? Water.WaterState.Lake : Says(Brackish()) ? Water.WaterState.Brackish : null;
        bool eyes = Says(EyesAtWater()), upright = Says(StandsUpright()), onNose = Says(OnItsNose());
        // "Suspends, hardly afloat: stands at 76°": how it lies then, and no second manner.
        bool stands = Says(Stands()) | upright, floats = Says(Floats()) | (stands && !Suspends().IsMatch(rest)), suspends = Says(Suspends()), falls = Says(Falls());
        bool slowly = Says(Slowly()), fast = Says(Fast()), level = Says(Level()), little = Says(ALittle()), tail = Says(TailDown()), down = Says(NoseDown()) | onNose;
        _ = Says(Filler());
        if (rest.Trim() is { Length: > 0 } left) return (null, left.Split(' ', StringSplitOptions.RemoveEmptyEntries)[0]);
        int manners = (floats ? 1 : 0) + (suspends ? 1 : 0) + (falls ? 1 : 0);
        if (manners != 1 || (level ? 1 : 0) + (tail ? 1 : 0) + (down ? 1 : 0) > 1 || little && !tail && !down) return (null, text);
        // What shows of back or tail follows from grams and trim; nothing is planned from it alone.
        if (also is not null && (nose ?? spare) is null && !eyes || spare is not null && heavy is not null || eyes && (nose ?? spare) is not null) return (null, text);
        if (!falls && (seconds is not null || slowly || fast) || !floats && ((nose ?? also) is not null || eyes) || falls && spare is not null || floats && heavy is not null) return (null, text);
        // How fast so many grams fall hangs on the trim: seconds are asked for beside them.
        if (falls && heavy is not null && seconds is null) return (null, text);
        // A word means what it means in a prediction: the middle of its range, and all of its range will do.
        (double middle, double within)? word = degrees is not null ? null
            : upright ? (0.5 * (Words.Upright + 0.5 * Math.PI), 0.5 * (0.5 * Math.PI - Words.Upright))
            : little ? (0.5 * (Words.Level + Words.Slight), 0.5 * (Words.Slight - Words.Level)) : null;
        double size = degrees is { } d ? Units.FromDegrees(d) : word?.middle ?? Units.FromDegrees(stands ? StandsDeg : tail ? TailDownDeg : down ? NoseDownDeg : 0);
        // On end heel and course mean nothing: within a degree of it is as near as a plan is asked to come.
        double trim = Math.Clamp(down ? -Math.Abs(size) : level ? 0 : size, -Want.Steepest, Want.Steepest);
        if (level && degrees is > 0 || Math.Abs(size) > 0.5 * Math.PI || seconds is <= 0.2 or > 120 || nose is <= 0 || spare is < 0 || heavy is < 0) return (null, text);
        Want want = falls ? Want.Falling(seconds ?? (slowly ? SlowSeconds : fast ? FastSeconds : UsualSeconds), trim) with { Spare = heavy is > 0 ? -heavy : null }
            : suspends ? Want.Suspending(trim) with { Spare = heavy is { } h ? -h : spare }
            : eyes ? Want.Floating(trim, 0) with { Spare = null, EyesAtWater = true }
            : spare is null && (nose is not null || stands && !down) ? Want.Standing(trim, nose ?? NoseOutMm)
            : Want.Floating(trim, spare ?? SpareG);
        if (word is { } range) want = want with { TrimWithin = range.within };
        if (water is { } state) want = want with { Circumstances = want.Circumstances with { Water = state } };
        return (want, "");
    }

    // A number, what one of its unit is in mm or g, and the second number that a way in seconds has.
    private static (double Number, double Unit, double Second)? Take(ref string text, Regex pattern)
    {
        Match match = pattern.Match(text);
        if (!match.Success) return null;
        text = text.Remove(match.Index, match.Length).Insert(match.Index, " ");
        return (Number(match.Groups["n"].Value, 1), UnitOf(match.Groups["unit"].Value), Number(match.Groups["s"].Value, 0));
    }

    private static double? Sized((double Number, double Unit, double)? found) => found is var (number, unit, _) ? number * unit : null;

    // So many seconds for so long a way.
    private static double? PerMetre((double Number, double Unit, double Seconds)? found) =>
        found is var (number, unit, seconds) ? number > 0 ? 1000 * seconds / (number * unit) : 0 : null;

    // With a dot, or as inches are said: 1/4, 1 1/2.
    private static double Number(string text, double otherwise)
    {
        if (text is "" or "a" or "an" or "one") return otherwise;
        double sum = 0;
        foreach (string part in text.Split(' '))
        {
            string[] of = part.Split('/');
            double number = double.Parse(of[0], NumberStyles.Float, CultureInfo.InvariantCulture);
            sum += of.Length == 1 ? number : number / double.Parse(of[1], NumberStyles.Float, CultureInfo.InvariantCulture);
        }
        return sum;
    }

    private static double UnitOf(string word) => word switch
    {
        "m" or "metre" or "meter" or "metres" or "meters" => 1000,
        "in" or "inch" or "inches" or "\"" => Units.Inch,
        "ft" or "foot" or "feet" => Units.Foot,
        "yd" or "yard" or "yards" => Units.Yard,
        "oz" or "ounce" or "ounces" => Units.Ounce,
        _ => 1,
    };

    /// <summary>"falls level: a metre in 6.0 s" …: what is wanted, in numbers.</summary>
    public static string Of(Want want, Notation notation)
    {
        string trim = Words.Trim(want.Trim, notation);
        return want.Manner switch
        {
            Manner.Falls => $"falls {trim}, {Sentence.WayIn(want.SecondsPerMetre, notation)} ({notation.Speed(want.Rate)})"
                + (want.Spare is { } heavy ? ", " + Words.Spare(heavy, notation) : ""),
            Manner.Suspends => $"suspends {trim}" + (want.Spare is { } spare ? ", " + Words.Spare(spare, notation) : ""),
            Manner.Floats => $"{(Math.Abs(want.Trim) > Units.FromDegrees(60) ? $"stands {(want.Trim < 0 ? "on its nose " : "")}at {notation.Angle(Math.Abs(want.Trim))}" : "floats " + trim)}, "
                + (want.EyesAtWater ? "eyes at the waterline" : want.NoseOut is { } nose ? $"{notation.Length(nose)} of nose out" : $"{notation.Weight(want.Spare ?? 0)} to spare"),
        };
    }

    /// <summary>"within 0.3 g and 3° of that".</summary>
    public static string Within(Want want, Notation notation) => $"within {notation.Weight(want.WeightWithin)} and {notation.Angle(want.TrimWithin)}";

    private const string N = @"(?<= )(?<n>-?\d+(?:\.\d+)?|(?:\d+ )?\d+/[1-9]\d*) ?";
    private const string Second = @"s(?:ec(?:onds?)?)?", Way = @"(?<unit>m|metres?|meters?|ft|foot|feet|yd|yards?)", Size = @"(?<unit>mm|in(?:ch(?:es)?)?|"")", Mass = @"(?<unit>g|oz|ounces?)";

    [GeneratedRegex(@"(?<= )(?<s>\d+(?:\.\d+)?) ?" + Second + @" ?(?:/|per|a|for a|for one)? ?" + Way + @"(?= )")]
    private static partial Regex SecondsPerWay();

    [GeneratedRegex(@"(?<= )(?<n>a|one|\d+(?:\.\d+)?) ?" + Way + @" in (?:about )?(?<s>\d+(?:\.\d+)?) ?" + Second + @"(?= )")]
    private static partial Regex WayInSeconds();

    [GeneratedRegex(N + @"(?<unit>mm|m|in(?:ch(?:es)?)?|ft|feet|foot|yd|yards?) ?(?:/|a|per) ?s(?:ec(?:ond)?)?(?= )")]
    private static partial Regex Speed();

    [GeneratedRegex(@"(?<= )the back (?<n>\d+(?:\.\d+)?|(?:\d+ )?\d+/[1-9]\d*) ?" + Size + @" proud(?= )")]
    private static partial Regex Proud();

    [GeneratedRegex(N + Size + @" of tail out(?= )")]
    private static partial Regex TailOut();

    [GeneratedRegex(N + Mass + @" heavy(?= )")]
    private static partial Regex Heavy();

    [GeneratedRegex(@"\.(?= |$)")]
    private static partial Regex FullStop();

    [GeneratedRegex(@" +")]
    private static partial Regex Spaces();

    // What predictions say that no weights are planned for.
    [GeneratedRegex(@"(?<= )(?:rolls? freely|(?:may roll|rolls) on the fall|flutters|leaning(?: \d+°?)?|belly up|on its side|in a wide spiral|by its leader's weight alone)(?= )")]
    private static partial Regex NotWanted();

    [GeneratedRegex(@"(?<= )in the sea(?= )")]
    private static partial Regex Sea();

    [GeneratedRegex(@"(?<= )in tap water(?= )")]
    private static partial Regex Tap();

    [GeneratedRegex(@"(?<= )in the lake(?= )")]
    private static partial Regex Lake();

    [GeneratedRegex(@"(?<= )in brackish water(?= )")]
    private static partial Regex Brackish();

    [GeneratedRegex(@"(?<= )(?:its |the )?eyes? (?:at|on|in) the water(?:line|'s surface)?(?= )")]
    private static partial Regex EyesAtWater();

    [GeneratedRegex(@"(?<= )stands? upright(?= )")]
    private static partial Regex StandsUpright();

    [GeneratedRegex(@"(?<= )on its nose(?= )")]
    private static partial Regex OnItsNose();

    [GeneratedRegex(@"(?<= )(?:a little|slightly)(?= )")]
    private static partial Regex ALittle();

    [GeneratedRegex(N + Size + @"(?: of)?(?: nose)?(?: out)?(?= )")]
    private static partial Regex NoseOut();

    [GeneratedRegex(N + Mass + @"(?: to)?(?: spare)?(?= )")]
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

    [GeneratedRegex(@"(?<= )(?:at|with|and|in|a|of|out|to|spare|about|the|in this water|hardly afloat|hanging|hangs|lies|lying|rests?|so that it)(?= )")]
    private static partial Regex Filler();
}
