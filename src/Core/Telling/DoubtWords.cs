using Trimwright.Core.Box;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Core.Telling;

/// <summary>The words for doubt, readings and what they imply.</summary>
public static class DoubtWords
{
    public static string Of(Cause cause, Notation notation) => cause switch
    {
        Cause.Carving => "carving, fat or lean",
        Cause.Sanding => "sanding after gluing",
        Cause.Wood => "density of the wood",
        Cause.Moisture => "moisture since weighing",
        Cause.Wire => notation.Grams + " of the wire",
        Cause.Weights => notation.Grams + " of the weights",
        Cause.Places => "places of weights and wire",
        Cause.Glue => "glue and filler",
        Cause.Sealer => "sealer soaked in",
        Cause.Coats => "thickness of the coats",
        Cause.Eyes => "eyes",
        Cause.Hardware => notation.Grams + " of hooks and rings",
        Cause.Drag => "drag",
        Cause.Scale => "the scale",
        Cause.Reading => "the readings themselves",
    };

    public static string Of(Sat way) => way switch
    {
        Sat.Stands => "stands",
        Sat.Slanted => "sits slanted, tail down",
        Sat.Level => "lies level",
        Sat.OnSide => "lies on its side",
        Sat.BellyUp => "lies belly up",
        Sat.NoseDown => "sits nose down",
    };

    /// <summary>A reading in one breath: "blank weighed", "dry-fit, with stand-ins, in the tub".</summary>
    public static string Of(LogReading reading)
    {
        string rig = reading.Rig == Rig.Bare ? "" : ", " + Words.Of(reading.Rig);
        return reading.Kind.Said(reading, new(Words.Of(reading.Stage), rig, Name(reading.Part)));
    }

    public static string Of(Instrument instrument, Notation notation) => instrument switch
    {
        Instrument.Thread => "thread loop",
        Instrument.Sinker => "sinker in a wire stirrup",
        Instrument.Jar => "tall jar",
        Instrument.DeepWater => $"a {notation.Way} of clear water",
        Instrument.Lead => "lead on thread or tape",
        Instrument.Ruler => "ruler",
        Instrument.Calipers => "calipers",
        Instrument.Protractor => "protractor",
        Instrument.Thermometer => "thermometer",
        Instrument.Watch => "watch",
        Instrument.Needle => "needle",
        Instrument.Tub => "tub",
    };

    /// <summary>"scale 0.1 g, needle, tub".</summary>
    public static string Takes(Candidate candidate, Notation notation) => string.Join(", ",
        (string[])[.. candidate.Scale is { } scale ? [$"{Scale(scale)}, which shows {Digit(scale, notation)}"] : Array.Empty<string>(), .. candidate.Instruments.Select(i => Of(i, notation))]);

    private static string Scale(LogScale scale) => scale.Id.Length == 0 ? "a scale" : $"scale {scale.Id}";

    private static string Digit(LogScale scale, Notation notation) => notation.Weight(scale.ResolutionG, scale.ResolutionG < 0.1 ? 2 : 1);

    /// <summary>"a scale that bears 262 g (yours stops at 200 g), needle".</summary>
    public static string Of(Lacking lacking, Notation notation) => string.Join(", ",
        (string[])[.. lacking.Grams is { } grams ? [$"a scale that bears {notation.Weight(grams)} (the strongest stops at {notation.Weight(lacking.Most)})"] : Array.Empty<string>(), .. lacking.Instruments.Select(i => Of(i, notation))]);

    private static string Name(string? part) => (part ?? "a part").Replace("line_tie", "line tie").Replace("tail_loop", "tail loop");

    /// <summary>"read 67.1 g, 6.0 g light: was it weighed without its wire?"</summary>
    public static string Of(Flag flag, LogReading reading, Notation notation)
    {
        double off = flag.Read - flag.Expected;
        bool grams = flag.Key.EndsWith("_g", StringComparison.Ordinal);
        string Show(double value) => grams ? notation.Weight(value)
            : flag.Key.EndsWith("_deg", StringComparison.Ordinal) ? notation.Number(value, 0) + "°"
            : flag.Key == "seconds" ? notation.Number(value, 1) + "\u00A0s" : notation.Caliper(value);
        string than = reading.Kind.Off(off < 0, grams);
        string asked = string.Join(", or ", flag.Suspects.Select(s => Suspect(s, Show)));
        return $"read {Show(flag.Read)}, {Show(Math.Abs(off))} {than} than everything else says ({Show(flag.Expected)}): {asked}?";
    }

    private static string Suspect(Suspect s, Func<double, string> show) => s.Kind switch
    {
        SuspectKind.PartMissing => $"was it weighed without {Name(s.Part)} ({show(s.Amount)})",
        SuspectKind.PartTooMany => $"did it have {Name(s.Part)} twice ({show(s.Amount)})",
        SuspectKind.DigitsSwapped => $"are two digits swapped ({show(s.Amount)})",
        SuspectKind.DigitWrong => $"is one digit wrong ({show(s.Amount)})",
        SuspectKind.DigitsCounted => $"is a digit left out or written twice ({show(s.Amount)})",
        SuspectKind.Point => $"is the point in its place ({show(s.Amount)})",
        SuspectKind.Ounces => "are these ounces",
        SuspectKind.SaltWater => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"was the water salt (about {s.Amount:F0} parts in a thousand)"),
        SuspectKind.FreshWater => "was the water fresh",
        SuspectKind.Tare => $"was the scale at zero with what the lure lay in ({show(s.Amount)})",
        SuspectKind.EndsSwapped => $"are nose and tail swapped ({show(s.Amount)})",
        SuspectKind.Air => $"did air cling to it ({show(s.Amount)})",
        SuspectKind.WeightTakenOff => "was the weight taken off already",
        SuspectKind.Leak => $"it took up {show(s.Amount)} of water in two days; where does it leak",
        SuspectKind.Unexplained => "is the number right, and is it built as drawn",
    };

    /// <summary>Said when no reading is wrong by itself, but all of them are a little.</summary>
    public static string Stretched(double stretch, Notation notation) =>
        $"Together the readings lie farther off than they should, though none stands out: every give or take is told {notation.Number(stretch, 1)} times as wide. Is it built as drawn, and is the scale good?";

    /// <summary>"167 mm/s, give or take 12 % by its drag alone (147 to 187)": of a fall that is steady, built exactly as drawn.</summary>
    public static string ByDrag(Descent descent, Notation notation)
    {
        (double rate, double doubt) = (descent.First!.Rate, descent.RateDoubt);
        string Bare(double speed) => Notation.Apart(notation.Speed(speed)).Number;
        return $"{notation.Speed(rate)}, give or take {notation.Number(100 * doubt, 0)}\u00A0% by its drag alone ({Bare(rate * (1 - doubt))} to {Bare(rate * (1 + doubt))})";
    }

    /// <summary>"4.1 g heavy, give or take 0.8".</summary>
    /// <param name="spare">Of sampled builds.</param>
    /// <param name="notation">How numbers are shown.</param>
    /// <param name="drawn">What the prediction says of the lure as drawn, where that is all there is: then it stands in the middle, and no second number for the same.</param>
    public static string GiveOrTake(Ranged spare, Notation notation, Prediction? drawn = null) => drawn is null
        ? $"{Words.Spare(spare.Median, notation)}, give or take {notation.Weight(spare.GiveOrTake)}"
        : $"{Words.Spare(drawn.SpareBuoyancy, notation)} as drawn, give or take {notation.Weight(spare.GiveOrTake)}";

    /// <summary>Grams with their doubt, the chance of each verdict, and for a lure that sinks its time for a metre.</summary>
    /// <param name="f">Of sampled builds.</param>
    /// <param name="water">In which water.</param>
    /// <param name="notation">How numbers are shown.</param>
    /// <param name="drawn">As in <see cref="GiveOrTake"/>.</param>
    public static string Told(Forecast f, WaterState water, Notation notation, Prediction? drawn = null)
    {
        string grams = GiveOrTake(f.Spare, notation, drawn);
        string told = $"{char.ToUpperInvariant(grams[0])}{grams[1..]} {Words.In(water)}: "
            + string.Join(", ", f.Verdicts.Where(v => v.Chance > 0.005).Select(v => $"{Words.Of(v.Verdict)} {Chance(v.Chance, notation)}")) + ".";
        if (f.Rate is not { } rate || f.Verdicts[0].Verdict < Verdict.SinksSlowly) return told;
        (string soon, string late) = (Sentence.WaySeconds(1 / rate.High80, notation), Sentence.WaySeconds(1 / rate.Low80, notation));
        told += drawn is null ? $" A{Sentence.WayIn(1 / rate.Median, notation, "about ")[1..]}, 80 of 100 between {soon} and {late}."
            : $" Of those that sink 80 of 100 take {soon} to {late} for a {notation.Way}"
                + (drawn.Descent?.First is { } fall ? $", as drawn {Sentence.WaySeconds(fall.SecondsPerMetre, notation)}." : ".");
        return told;
    }

    /// <summary>"As it is, dry-fit, after 8 readings. As wanted with a chance of 12 % …"</summary>
    public static string AsItIs(Stage stage, int readings, Odds odds, Notation notation) =>
        $"As it is, {Words.Of(stage)}, after {(readings == 1 ? "one reading" : $"{readings} readings")}. {Of(odds, notation)} (As wanted: within half a percent of what it displaces, and {notation.Angle(Odds.Angle)}.)";

    /// <summary>"As wanted with a chance of 71 %; 95 of 100 lie between 6.1 g heavy and 3.9 g heavy, between 3° and 9° tail down."</summary>
    public static string Of(Odds odds, Notation notation) =>
        $"As wanted with a chance of {Chance(odds.Chance, notation)}; 95 of 100 lie between {Words.Spare(odds.Spare.Low95, notation)} and {Words.Spare(odds.Spare.High95, notation)}, between {notation.Angle(odds.Trim.Low95)} and {notation.Angle(odds.Trim.High95)} tail down.";

    /// <summary>A step of the ladder: "boards weighed: ±2.2 g".</summary>
    public static string Step(Rung rung, Notation notation) => $"{rung.What}: ±{notation.Weight(rung.Grams)}";

    /// <summary>Degrees, positive tail down: "12° tail down, 8° to 17°".</summary>
    public static string Degrees(double radians, Notation notation) => notation.Number(Units.ToDegrees(radians), 0) + "°";

    /// <summary>"97 %", never 100 or 0 for what is only nearly sure.</summary>
    public static string Chance(double share, Notation notation) => share switch
    {
        >= 0.995 => "over 99\u00A0%",
        <= 0.005 => "under 1\u00A0%",
        _ => notation.Number(100 * share, 0) + "\u00A0%",
    };
}
