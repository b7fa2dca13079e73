using Trimwright.Core.Floating;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Telling;

/// <summary>The maker's sentence about a prediction.</summary>
public static class Sentence
{
    /// <summary>Two short sentences: how it sits, and by how many grams.</summary>
    public static string Of(Prediction prediction, Notation notation)
    {
        string grams = $"{Words.Spare(prediction.SpareBuoyancy, notation)} {Words.In(prediction.Circumstances.Water)}.";
        Posture posture = prediction.Posture;
        return prediction.Verdict switch
        {
            Verdict.Floats => $"{Capital(Words.Posture(posture, notation, "floats"))}{Shows(posture, notation)}. {Capital(grams)}",
            Verdict.Suspends when prediction.SpareBuoyancy > 0 =>
                $"Suspends, hardly afloat: {Words.Posture(posture, notation)}. {Capital(grams)}",
            Verdict.Suspends => $"Suspends, hanging {Words.Trim(posture.Trim, notation)}. {Capital(grams)}",
            _ => $"Sinks; at rest under water it hangs {Words.Trim(posture.Trim, notation)}. {Capital(grams)}",
        };
    }

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
