using Trimwright.Core.Floating;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Telling;

/// <summary>The maker's sentence about a prediction.</summary>
public static class Sentence
{
    /// <summary>Two short sentences: how it sits or falls, and by how many grams.</summary>
    public static string Of(Prediction prediction, Notation notation)
    {
        string grams = Capital($"{Words.Spare(prediction.SpareBuoyancy, notation)} {Words.In(prediction.Circumstances.Water)}.");
        Posture posture = prediction.Posture;
        return prediction.Verdict switch
        {
            Verdict.Floats => $"{Capital(Words.Posture(posture, notation, "floats"))}{Shows(posture, notation)}. {grams}",
            Verdict.Suspends when prediction.SpareBuoyancy > 0 =>
                $"Suspends, hardly afloat: {Words.Posture(posture, notation)}. {grams}",
            Verdict.Suspends => $"Suspends, hanging {Words.Trim(posture.Trim, notation)}. {grams}",
            Verdict.SinksSlowly or Verdict.Sinks or Verdict.SinksFast => $"{Capital(Words.Of(prediction.Verdict))}{Falls(prediction, notation)}. {grams}",
        };
    }

    private static string Falls(Prediction prediction, Notation notation)
    {
        if (prediction.Descent is not { } descent) return " by its leader's weight alone";
        if (descent.First is { } fall) return $", {How(fall, notation)}{(fall.Kind == FallKind.Spirals ? ", in a wide spiral" : "")}: {WayIn(fall.SecondsPerMetre, notation, "about ")}";
        if (!descent.RollsOnTheFall || descent.IfItHolds is not { } held) return ", and flutters: it finds no steady fall";
        return $", and {Rolls(descent, notation)}; if it holds, {How(held, notation)}: {WayIn(held.SecondsPerMetre, notation, "about ")}";
    }

    private static string How(Fall fall, Notation notation) => $"{Words.Trim(fall.Trim, notation)}{(fall.BellyUp ? ", belly up" : "")}";

    /// <summary>"rolls on the fall", or "may roll on the fall (61 %)" where that is not nearly sure.</summary>
    public static string Rolls(Descent descent, Notation notation) =>
        descent.RollChance >= NearlySure ? "rolls on the fall" : $"may roll on the fall ({notation.Number(100 * descent.RollChance, 0)}\u00A0%)";

    private const double NearlySure = 0.9;

    /// <summary>"a metre in 5.8 s", or a yard; the way as <see cref="Notation.Way"/> has it.</summary>
    /// <param name="secondsPerMetre">Of a steady fall.</param>
    /// <param name="notation">How numbers are shown.</param>
    /// <param name="about">Before the seconds, with a blank after it.</param>
    public static string WayIn(double secondsPerMetre, Notation notation, string about = "") =>
        $"a {notation.Way} in {about}{WaySeconds(secondsPerMetre, notation)}";

    /// <summary>The seconds alone.</summary>
    public static string WaySeconds(double secondsPerMetre, Notation notation) => Seconds(secondsPerMetre * notation.WayMm / 1000, notation);

    /// <summary>Seconds as a maker would say them.</summary>
    public static string Seconds(double seconds, Notation notation) =>
        notation.Number(seconds, seconds < 10 ? 1 : 0) + "\u00A0s";

    /// <summary>One more sentence for each other posture.</summary>
    public static IEnumerable<string> Others(Prediction prediction, Notation notation)
    {
        foreach (Posture other in prediction.Postures.Skip(1))
            yield return $"Can also rest so that it {Words.Posture(other, notation)}{Shows(other, notation)}"
                + $"; {Hold(other.Barrier / (Units.Gravity * prediction.Body.Weight))}.";
    }

    // The barrier as the height, mm, that its energy would lift the whole lure by.
    private static string Hold(double lift) => lift switch
    {
        < 0.02 => "the least touch turns it out of that",
        < 0.3 => "a nudge turns it out of that",
        _ => "it takes a push to leave that",
    };

    private static string Shows(Posture posture, Notation notation)
    {
        double nose = posture.NoseShowsAlong, tail = posture.TailShowsAlong;
        if (posture.Trim > 0.17 && nose > 0.5) return $", {notation.Length(nose)} of nose out";
        if (posture.Trim < -0.17 && tail > 0.5) return $", {notation.Length(tail)} of tail out";
        return posture.BackProud > 0.5 ? $", the back {notation.Length(posture.BackProud)} proud" : "";
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
