using Trimwright.Core.Design;

namespace Trimwright.Core.Ledger;

/// <summary>
/// What hanging does to a coat. Resin and paint sag while they set, so a coat that hung by one end is thicker towards the low one: by a share
/// of its mean film at the low end, by as much thinner at the high end, in a straight line between, with the mean where the skin's own middle
/// is, so that its weight stays. How much is common practice, no source, and doubted accordingly.
/// </summary>
public static class Hanging
{
    /// <summary>By which share of its mean a coat that hung by one end is thicker at the low end.</summary>
    public const double Sag = 0.15;

    /// <summary>One standard deviation of that share; and of the lean of a coat that turned.</summary>
    public const double SagSd = 0.1, TurnerSd = 0.03;

    /// <summary>The lean of one coat: by which share of its mean it is thicker at the tail than in the middle; negative: at the nose.</summary>
    /// <param name="coat">Of the design's finish.</param>
    /// <param name="number">The how-manieth coat of that entry, from 1.</param>
    public static double Lean(Coat coat, int number) => Side(coat, number) switch
    {
        HowHung.NoseUp => Sag,
        HowHung.TailUp => -Sag,
        HowHung.AlternateEnds or HowHung.Turner or null => 0,
    };

    /// <summary>How one coat of an entry hung: of alternate ends, by which.</summary>
    public static HowHung? Side(Coat coat, int number) =>
        coat.Hung == HowHung.AlternateEnds ? number % 2 == 1 ? HowHung.NoseUp : HowHung.TailUp : coat.Hung;

    /// <summary>The lean of all coats of an entry together, as a share of their film.</summary>
    public static double Lean(Coat coat) => Enumerable.Range(1, coat.Coats).Sum(number => Lean(coat, number)) / coat.Coats;

    /// <summary>One standard deviation of that: who hangs by one end does so with every coat; ends that alternate even out what each does by itself. 0 where nobody says how it hung.</summary>
    public static double LeanSd(Coat coat) => coat.Hung switch
    {
        HowHung.NoseUp or HowHung.TailUp => SagSd,
        HowHung.AlternateEnds => SagSd / Math.Sqrt(coat.Coats),
        HowHung.Turner => TurnerSd,
        null => 0,
    };
}
