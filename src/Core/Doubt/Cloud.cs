using System.Collections.Immutable;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Doubt;

/// <summary>How well the normal belief held when sampling checked it.</summary>
public enum Trust
{
    /// <summary>Nothing was read that could bend it.</summary>
    Normal,

    /// <summary>Draws of it were weighed by how well they explain the readings.</summary>
    Weighed,

    /// <summary>It did not hold: a walk among the builds that explain the readings took its place.</summary>
    Walked,
}

/// <summary>
/// Builds that agree with the readings, equally likely each. Draws of the normal belief q get the weight p/q, with p the
/// prior times the readings' likelihood by the full model; they are drawn again by weight. When fewer than a fifth of them
/// carry the weight, as where a posture can flip, a walk takes over: x' = m + √(1 − β²)(x − m) + β·L·z, taken or not by the
/// ratio of p/q (a preconditioned Crank–Nicolson step, Cotter et al. 2013, Statistical Science 28, 424).
/// </summary>
internal sealed class Cloud
{
    private const double Thin = 0.2;
    private const int Walks = 16;
    private const double Stride = 0.35;

    public double[][] Builds { get; }

    public Trust Trust { get; }

    /// <summary>Share of the draws that carry the weight: 1 when the normal belief is exact.</summary>
    public double Effective { get; }

    private Cloud(double[][] builds, Trust trust, double effective) => (Builds, Trust, Effective) = (builds, trust, effective);

    public static Cloud Of(Belief belief, ImmutableArray<Observation> used, int count, int seed, double stretch = 1)
    {
        int n = belief.Unknowns.Length;
        var x = new double[count][];
        var log = new double[count];
        belief.Draw(new double[n], new double[n]);
        Parallel.For(0, count, i =>
        {
            var z = new double[n];
            new NormalDraws(seed, i).Fill(z);
            x[i] = new double[n];
            belief.Draw(z, x[i]);
            if (!used.IsEmpty) log[i] = Ratio(used, x[i], z, stretch);
        });
        if (used.IsEmpty) return new Cloud(x, Trust.Normal, 1);
        double most = log.Max();
        double[] weight = [.. log.Select(l => Math.Exp(l - most))];
        double sum = weight.Sum(), effective = sum * sum / weight.Sum(w => w * w) / count;
        if (effective < Thin) return new Cloud(Walk(belief, used, x[Array.IndexOf(log, most)], count, seed, stretch), Trust.Walked, effective);
        return new Cloud(Again(x, weight, sum), Trust.Weighed, effective);
    }

    // log p − log q, but for a constant.
    private static double Ratio(ImmutableArray<Observation> used, double[] x, double[] z, double stretch)
    {
        double q = 0;
        foreach (double v in z) q += v * v;
        return 0.5 * (q - Update.Cost(x, Update.Residuals(used, x)) / (stretch * stretch));
    }

    // Evenly spaced along the running sum: the least noise that drawing again can have.
    private static double[][] Again(double[][] x, double[] weight, double sum)
    {
        var again = new double[x.Length][];
        double run = weight[0], step = sum / x.Length, at = 0.5 * step;
        int k = 0;
        for (int i = 0; i < again.Length; i++, at += step)
        {
            while (run < at && k < x.Length - 1) run += weight[++k];
            again[i] = x[k];
        }
        return again;
    }

    private static double[][] Walk(Belief belief, ImmutableArray<Observation> used, double[] start, int count, int seed, double stretch)
    {
        int n = belief.Unknowns.Length, each = (count + Walks - 1) / Walks;
        var visited = new double[Walks * each][];
        double keep = Math.Sqrt(1 - Stride * Stride);
        Parallel.For(0, Walks, w =>
        {
            var random = new NormalDraws(seed, 1_000_000L + w);
            var z = new double[n];
            Whiten(belief, start, z);
            double[] x = [.. start];
            double here = Ratio(used, x, z, stretch);
            // Half as many steps again to forget where it began.
            for (int step = -each / 2; step < each; step++)
            {
                var zThere = new double[n];
                for (int i = 0; i < n; i++) zThere[i] = keep * z[i] + Stride * random.Normal();
                var xThere = new double[n];
                belief.Draw(zThere, xThere);
                double there = Ratio(used, xThere, zThere, stretch);
                if (Math.Log(random.Uniform()) < there - here) (x, z, here) = (xThere, zThere, there);
                if (step >= 0) visited[w * each + step] = x;
            }
        });
        return visited[..count];
    }

    private static void Whiten(Belief belief, double[] x, double[] z)
    {
        var l = belief.Covariance.Cholesky().Factor;
        for (int i = 0; i < z.Length; i++)
        {
            double sum = x[i] - belief.Mean[i];
            for (int k = 0; k < i; k++) sum -= l[i, k] * z[k];
            z[i] = sum / l[i, i];
        }
    }
}
