using System.Collections.Immutable;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using Trimwright.Core.Doubt;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Doubt;

/// <summary>The builds that are drawn after readings, against posteriors in closed form and by brute force over the prior.</summary>
public class SamplingTests
{
    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    private static ImmutableArray<Unknown> Some(int count) => [.. Enumerable.Range(0, count).Select(i => new Unknown($"x[{i}]", "one", Cause.Wood, 1, false))];

    private static Observation Read(double read, double sd, Shown shows, bool flips = false) => new(0, "x", read, sd, shows, flips);

    // A posture that leaps: 10° until the weight is far enough aft, then 70°, with what else turns it.
    private static double Leaps(ReadOnlySpan<double> x) => 40 + 30 * Math.Tanh(12 * (x[0] - 0.4)) + 4 * x[1] + 2 * x[2];

    private static (double Mean, double Sd, double Over) Of(IEnumerable<double> values, double over)
    {
        double[] all = [.. values];
        double mean = all.Average();
        return (mean, Math.Sqrt(all.Average(v => (v - mean) * (v - mean))), all.Count(v => v > over) / (double)all.Length);
    }

    /// <summary>Mean, deviation and share past a bound of a number, by draws of the prior that each count by their likelihood.</summary>
    private static (double Mean, double Sd, double Over) ByBruteForce(int unknowns, Observation[] read, Func<double[], double> of, double over, int draws = 400_000)
    {
        double sum = 0, first = 0, second = 0, past = 0;
        var x = new double[unknowns];
        for (int i = 0; i < draws; i++)
        {
            new NormalDraws(77, i).Fill(x);
            double off = read.Sum(o => Math.Pow((o.Shows(x) - o.Read) / o.Sd, 2)), w = Math.Exp(-off / 2), v = of(x);
            (sum, first, second, past) = (sum + w, first + w * v, second + w * v * v, past + (v > over ? w : 0));
        }
        double mean = first / sum;
        return (mean, Math.Sqrt(second / sum - mean * mean), past / sum);
    }

    private static void Same((double Mean, double Sd, double Over) a, (double Mean, double Sd, double Over) b, string what)
    {
        Say($"{what}: mean {a.Mean:F3} for {b.Mean:F3}, deviation {a.Sd:F3} for {b.Sd:F3}, past the bound {a.Over:P1} for {b.Over:P1}");
        Assert.Equal(b.Mean, a.Mean, 0.1 * b.Sd);
        Assert.Equal(1, a.Sd / b.Sd, 0.1);
        Assert.Equal(b.Over, a.Over, 0.04);
    }

    [Fact]
    public void Linear_readings_leave_the_normal_distribution_that_closed_form_has()
    {
        // Three unknowns, two linear readings: C = (1 + HᵀH)⁻¹, m = C·Hᵀy, rows over their deviations.
        Matrix<double> h = Matrix<double>.Build.DenseOfArray(new[,] { { 2.0, 1, 0 }, { 0, 3, -1 } });
        double[] read = [1.5, -2], sd = [0.2, 0.1];
        ImmutableArray<Observation> all = [.. Enumerable.Range(0, 2).Select(i => Read(read[i], sd[i], x => h[i, 0] * x[0] + h[i, 1] * x[1] + h[i, 2] * x[2]))];
        Matrix<double> scaled = Matrix<double>.Build.Dense(2, 3, (i, k) => h[i, k] / sd[i]);
        Matrix<double> covariance = (scaled.TransposeThisAndMultiply(scaled) + Matrix<double>.Build.DenseIdentity(3)).Inverse();
        Vector<double> mean = covariance * scaled.TransposeThisAndMultiply(Vector<double>.Build.Dense(2, i => read[i] / sd[i]));

        Update update = Update.Of(Some(3), all);
        Cloud cloud = Cloud.Of(update.Belief, all, 20_000, 5);
        Say($"{cloud.Trust}, effective {cloud.Effective:F6}");
        Assert.Equal(Trust.Weighed, cloud.Trust);
        // Of linear readings every draw counts the same.
        Assert.Equal(1, cloud.Effective, 1e-6);
        for (int i = 0; i < 3; i++)
        {
            Assert.Equal(mean[i], update.Belief.Mean[i], 1e-6);
            (double m, double s, _) = Of(cloud.Builds.Select(b => b[i]), 0);
            Say($"x[{i}]: mean {m:F4} for {mean[i]:F4}, deviation {s:F4} for {Math.Sqrt(covariance[i, i]):F4}");
            // Four standard errors of 20 000 draws.
            Assert.Equal(mean[i], m, 4 * Math.Sqrt(covariance[i, i] / 20_000));
            Assert.Equal(1, s / Math.Sqrt(covariance[i, i]), 0.02);
            for (int k = 0; k < i; k++)
                Assert.Equal(covariance[i, k], cloud.Builds.Average(b => (b[i] - mean[i]) * (b[k] - mean[k])), 0.03 * Math.Sqrt(covariance[i, i] * covariance[k, k]));
        }
    }

    [Fact]
    public void A_fine_scale_over_a_doubtful_density_is_followed_along_its_curved_sheet()
    {
        // Grams as e^ξ times volume, pinned to a thousandth: what a normal distribution about one point leaves at once.
        ImmutableArray<Observation> all = [Read(47, 0.05, x => 50 * Math.Exp(0.1 * x[0]) * (1 + 0.07 * x[1] + 0.03 * x[2]))];
        Cloud cloud = Cloud.Of(Update.Of(Some(3), all).Belief, all, 4000, 3);
        Say($"{cloud.Trust}, effective {cloud.Effective:F3}");
        Assert.True(cloud.Effective > 0.9);
        // By brute force on what is left: x[1] and x[2] of the prior, x[0] = ln(47/50V)/0.1 by the scale, and its Jacobian 1/(∂h/∂ξ) is constant.
        double sum = 0, first = 0, second = 0, past = 0;
        var x = new double[2];
        for (int i = 0; i < 200_000; i++)
        {
            new NormalDraws(78, i).Fill(x);
            double density = Math.Log(47 / (50 * (1 + 0.07 * x[0] + 0.03 * x[1]))) / 0.1, w = Math.Exp(-density * density / 2);
            (sum, first, second, past) = (sum + w, first + w * density, second + w * density * density, past + (density > 0.5 ? w : 0));
        }
        Same(Of(cloud.Builds.Select(b => b[0]), 0.5), (first / sum, Math.Sqrt(second / sum - first * first / (sum * sum)), past / sum), "density");
    }

    [Theory]
    [InlineData(64, 5)]
    [InlineData(40, 8)]
    [InlineData(12, 3)]
    public void Where_a_posture_leaps_builds_agree_with_brute_force(double read, double sd)
    {
        Observation[] all = [Read(read, sd, Leaps, flips: true)];
        Update update = Update.Of(Some(3), [.. all]);
        Cloud cloud = Cloud.Of(update.Belief, [.. all], 20_000, 2);
        Say($"read {read}° ± {sd}°: {cloud.Trust}, effective {cloud.Effective:F3}");
        for (int i = 0; i < 2; i++) Same(Of(cloud.Builds.Select(b => b[i]), 0.4), ByBruteForce(3, all, x => x[i], 0.4), $"x[{i}]");
    }

    [Fact]
    public void How_far_a_walk_has_come_is_told_all_along()
    {
        Observation[] all = [Read(1.2, 0.15, x => Math.Abs(x[0] + 0.3) + 0.1 * x[1], flips: true)];
        Belief belief = Update.Of(Some(2), [.. all]).Belief;
        var told = new Shares();
        Cloud.Walk(new Bent(belief, [.. all], 1), true, [.. Enumerable.Repeat(belief.Mean, 50)], 500, 4, 1, pace: new Pace(default, progress: told));
        double[] shares = [0, .. told.All.Order()];
        Assert.Equal(1, shares[^1], 9);
        for (int i = 1; i < shares.Length; i++) Assert.InRange(shares[i] - shares[i - 1], 0, 0.01);
    }

    private sealed class Shares : IProgress<double>
    {
        public System.Collections.Concurrent.ConcurrentBag<double> All { get; } = [];

        public void Report(double value) => All.Add(value);
    }

    /// <summary>|x| was read: two builds a long way apart explain it equally well, and the slopes know one of them.</summary>
    [Fact]
    public void The_walk_finds_both_of_two_builds_that_explain_a_reading()
    {
        Observation[] all = [Read(1.2, 0.15, x => Math.Abs(x[0] + 0.3) + 0.1 * x[1], flips: true)];
        Belief belief = Update.Of(Some(2), [.. all]).Belief;
        var bent = new Bent(belief, [.. all], 1);
        // From where the slopes lead, all of them on one side.
        double[][] starts = [.. Enumerable.Repeat(belief.Mean, 50)];
        (double Mean, double Sd, double Over) closed = OfTwoSides();
        Same(Of(Cloud.Walk(bent, true, starts, 24_000, 4, 1).Select(b => b[0]), 0), closed, "walk");
        Same(ByBruteForce(2, all, x => x[0], 0), closed, "brute force");
        Cloud cloud = Cloud.Of(belief, [.. all], 4000, 2);
        Say($"{cloud.Trust}, effective {cloud.Effective:F3}");
        Same(Of(cloud.Builds.Select(b => b[0]), 0), closed, "builds");
    }

    // x[1] taken out: reading ± √(0.15² + 0.1²) of |x + 0.3|, so on each side a normal distribution times the prior, cut at −0.3.
    private static (double Mean, double Sd, double Over) OfTwoSides()
    {
        double wide = 0.15 * 0.15 + 0.1 * 0.1, sum = 0, first = 0, second = 0, past = 0;
        foreach (int side in new[] { -1, 1 })
        {
            double middle = -0.3 + side * 1.2, mean = middle / (1 + wide), sd = Math.Sqrt(wide / (1 + wide));
            // Whole to better than 1e-10: the cut lies seven deviations off.
            double weight = Normal.PDF(0, Math.Sqrt(1 + wide), middle);
            (sum, first, second) = (sum + weight, first + weight * mean, second + weight * (mean * mean + sd * sd));
            past += weight * (1 - Normal.CDF(mean, sd, 0));
        }
        return (first / sum, Math.Sqrt(second / sum - first * first / (sum * sum)), past / sum);
    }
}
