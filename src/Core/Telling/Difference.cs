using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Telling;

/// <summary>What a change did, in a maker's words: "+1.2 g, 3° more tail down".</summary>
public static class Difference
{
    // Below these a kitchen scale, an eye or a stop watch sees nothing.
    private const double LeastGrams = 0.05;
    private const double LeastSeconds = 0.05;
    private static readonly double LeastAngle = Units.FromDegrees(0.5);

    /// <summary>One line without a full stop; says so when nothing can be seen of it.</summary>
    /// <param name="before">The prediction before the change.</param>
    /// <param name="after">After it; in the same circumstances, or the words are about both at once.</param>
    /// <param name="notation">How numbers are shown.</param>
    public static string Of(Prediction before, Prediction after, Notation notation)
    {
        string text = string.Join(", ", Parts(before, after, notation));
        return text.Length > 0 ? text : "nothing that a scale or an eye would notice";
    }

    private static IEnumerable<string> Parts(Prediction before, Prediction after, Notation notation)
    {
        double weight = after.Ledger.Weight - before.Ledger.Weight, spare = after.SpareBuoyancy - before.SpareBuoyancy;
        if (Math.Abs(weight) >= LeastGrams) yield return Signed(weight, notation);
        if (Math.Abs(spare) >= LeastGrams && Math.Abs(spare + weight) >= LeastGrams)
            yield return $"{notation.Weight(Math.Abs(spare))} {(spare > 0 ? "more lift" : "less lift")}";
        if (before.Verdict != after.Verdict) yield return "now " + Words.Of(after.Verdict);
        double trim = Trim(after) - Trim(before);
        if (Math.Abs(trim) >= LeastAngle) yield return Turned(trim, Trim(after), notation);
        if (before.Descent?.First is { } slow && after.Descent?.First is { } fast && notation.WayMm / 1000 * (slow.SecondsPerMetre - fast.SecondsPerMetre) is var sooner
            && Math.Abs(sooner) >= LeastSeconds)
            yield return $"a {notation.Way} {Sentence.Seconds(Math.Abs(sooner), notation)} {(sooner > 0 ? "sooner" : "later")}";
    }

    private static string Signed(double grams, Notation notation) => (grams > 0 ? "+" : "−") + notation.Weight(Math.Abs(grams));

    // As it is drawn: the fall of a lure that sinks, else its posture.
    private static double Trim(Prediction prediction) => prediction.Descent?.First is { } fall ? fall.Trim : prediction.Posture.Trim;

    private static string Turned(double turn, double now, Notation notation)
    {
        string size = notation.Angle(Math.Abs(turn));
        // Less of what it still has, or more of what it now has.
        bool less = turn < 0 == now > 0 && Math.Abs(now) > LeastAngle;
        string end = now > 0 || (Math.Abs(now) <= LeastAngle && turn > 0) ? "tail" : "nose";
        return $"{size} {(less ? "less" : "more")} {end} down";
    }
}
