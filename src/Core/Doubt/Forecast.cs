using System.Collections.Immutable;
using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Doubt;

/// <summary>A predicted number with its doubt: the median, and what holds 80 and 95 of 100.</summary>
public readonly record struct Ranged(double Median, double Low80, double High80, double Low95, double High95)
{
    /// <summary>One standard deviation as 95 of 100 have it: a quarter of their range, near enough.</summary>
    public double GiveOrTake => (High95 - Low95) / (2 * 1.959964);

    /// <summary>
    /// Of a sample, null when nothing is in it. The k-th of n sorted values stands for the share k/(n + 1), which is below it
    /// on average over samples (Hyndman &amp; Fan 1996, The American Statistician 50, 361, their sixth), so that a further draw falls into a range as often as the range says; between
    /// them by straight lines.
    /// </summary>
    public static Ranged? Of(IEnumerable<double> sample)
    {
        double[] sorted = [.. sample.Where(double.IsFinite).Order()];
        if (sorted.Length == 0) return null;
        double At(double share)
        {
            double place = Math.Clamp(share * (sorted.Length + 1) - 1, 0, sorted.Length - 1);
            int below = (int)place;
            return below + 1 < sorted.Length ? sorted[below] + (place - below) * (sorted[below + 1] - sorted[below]) : sorted[below];
        }
        return new Ranged(At(0.5), At(0.1), At(0.9), At(0.025), At(0.975));
    }
}

/// <summary>A prediction with its doubt. g, mm, radians, mm/ms.</summary>
/// <param name="Weight">As a scale reads it.</param>
/// <param name="Spare">Spare buoyancy.</param>
/// <param name="Trim">As it is seen: falling for those that sink steadily, else at rest.</param>
/// <param name="NoseOut">Of those afloat; null when none is.</param>
/// <param name="Rate">Of the fall of those that sink; null when none does.</param>
/// <param name="Verdicts">Chance of each.</param>
/// <param name="Ways">Chance of each way to sit, and its trims.</param>
/// <param name="Outcomes">Every sampled build.</param>
public sealed record Forecast(
    Ranged Weight, Ranged Spare, Ranged Trim, Ranged? NoseOut, Ranged? Rate,
    ImmutableArray<(Verdict Verdict, double Chance)> Verdicts, ImmutableArray<(Sat Way, double Chance, Ranged Trim)> Ways,
    ImmutableArray<Outcome> Outcomes)
{
    internal static Forecast Of(BuildModel build, Circumstances where, double[][] builds, Pace pace)
    {
        Sitting sitting = build.In(where);
        var outcomes = new Outcome[builds.Length];
        int done = 0;
        Parallel.For(0, builds.Length, pace.Loops, sitting.Rent, (i, _, scratch) =>
        {
            pace.Step();
            outcomes[i] = sitting.Of(builds[i], scratch, pace: pace);
            pace.Come((double)Interlocked.Increment(ref done) / builds.Length);
            return scratch;
        }, sitting.Return);
        double all = outcomes.Length;
        return new Forecast(
            Ranged.Of(outcomes.Select(o => o.Weight))!.Value, Ranged.Of(outcomes.Select(o => o.Spare))!.Value,
            Ranged.Of(outcomes.Select(o => o.SeenTrim))!.Value,
            Ranged.Of(outcomes.Where(o => o.Spare > 0).Select(o => o.NoseOut)), Ranged.Of(outcomes.Select(o => o.Rate)),
            [.. outcomes.GroupBy(o => o.Verdict).Select(g => (g.Key, g.Count() / all)).OrderByDescending(v => v.Item2)],
            [.. outcomes.Where(o => o.Spare > 0).GroupBy(o => Sits.Of(o.Up)).Select(g => (g.Key, g.Count() / all, Ranged.Of(g.Select(o => o.Trim))!.Value)).OrderByDescending(w => w.Item2)],
            [.. outcomes]);
    }
}
