using System.Collections.Immutable;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Doubt;

/// <summary>How well the normal belief held when sampling checked it.</summary>
public enum Trust
{
    /// <summary>Nothing was read that could bend it.</summary>
    Normal,

    /// <summary>Draws of it, bent along the readings, were weighed by how well they explain them.</summary>
    Weighed,

    /// <summary>It did not hold: a walk among the builds that explain the readings took its place.</summary>
    Walked,
}

/// <summary>
/// Builds that agree with the readings, equally likely each. Draws of the bent belief q (<see cref="Bent"/>) get the weight
/// p/q, with p the prior times the readings' likelihood by the full model, and are drawn again by weight; there are as many
/// draws as it takes for the weights to carry as much as the builds asked for, (Σw)²/Σw² ≥ count. Where a posture was read,
/// that may leap where no slope sees it, every tenth draw comes from the prior, and weights are those of the mixture
/// (Hesterberg 1995, Technometrics 37, 185).
/// <para>
/// When a fifth of the draws or less carries the weight, a walk takes over, from builds drawn by weight: two steps of three
/// among the unit normals of the bent belief, z' = √(1 − β²)·z + β·ζ, taken or not by the ratio of p/q, all of them together
/// or one alone, so that what the readings say nothing of moves freely; the third among those of the prior, by the ratio of the likelihood (preconditioned Crank–Nicolson steps, Cotter et al. 2013, Statistical
/// Science 28, 424). β is drawn anew each step: small ones creep, 1 leaps.
/// </para>
/// </summary>
internal sealed class Cloud
{
    private const double Thin = 0.2;
    private const int OneOfPrior = 10;
    private const int Walks = 50;
    private const int Forget = 30;
    private const int Every = 3;
    private static readonly double[] Strides = [0.15, 0.4, 1];

    public double[][] Builds { get; }

    public Trust Trust { get; }

    /// <summary>Share of the draws that carry the weight: 1 when the bent belief is exact.</summary>
    public double Effective { get; }

    private Cloud(double[][] builds, Trust trust, double effective) => (Builds, Trust, Effective) = (builds, trust, effective);

    /// <summary>Draws builds.</summary>
    /// <param name="belief">Of the readings used.</param>
    /// <param name="used">None: builds of the belief itself.</param>
    /// <param name="count">How many.</param>
    /// <param name="seed">The same seed gives the same builds.</param>
    /// <param name="stretch">By how much prior and readings are held to be wider.</param>
    /// <param name="patience">How many times as long as usual a walk goes on, where little was known to begin with.</param>
    /// <param name="pace">How to go about it.</param>
    public static Cloud Of(Belief belief, ImmutableArray<Observation> used, int count, int seed, double stretch = 1, int patience = 1, Pace? pace = null)
    {
        pace ??= Pace.Free;
        if (used.IsEmpty) return new Cloud(Normal(belief, count, seed, pace), Trust.Normal, 1);
        var bent = new Bent(belief, used, stretch, pace);
        bool leaps = used.Any(o => o.CanFlip);
        var x = new List<double[]>();
        var log = new List<double>();
        double effective = 0;
        while (effective < count)
        {
            // Once some are drawn it is known how many more it takes.
            int more = x.Count == 0 ? count : (int)(1.05 * (count - effective) * x.Count / effective) + 1;
            (double[] X, double Log)[] drawn = Weighed(bent, leaps, more, seed, x.Count, pace);
            x.AddRange(drawn.Select(d => d.X));
            log.AddRange(drawn.Select(d => d.Log));
            double[] weight = Weights(log);
            effective = weight.Sum() * weight.Sum() / weight.Sum(w => w * w);
            pace.Come(Math.Min(effective / count, 1));
            if (effective < Thin * x.Count) return new Cloud(Walk(bent, leaps, Again(x, weight, Walks), count, seed, stretch, patience, pace), Trust.Walked, effective / x.Count);
        }
        return new Cloud(Again(x, Weights(log), count), Trust.Weighed, effective / x.Count);
    }

    private static double[][] Normal(Belief belief, int count, int seed, Pace pace)
    {
        var x = new double[count][];
        int n = belief.Unknowns.Length;
        belief.Draw(new double[n], new double[n]);
        Parallel.For(0, count, pace.Loops, i =>
        {
            pace.Step();
            var z = new double[n];
            new NormalDraws(seed, i).Fill(z);
            belief.Draw(z, x[i] = new double[n]);
        });
        return x;
    }

    private static (double[], double)[] Weighed(Bent bent, bool leaps, int count, int seed, int from, Pace pace)
    {
        var drawn = new (double[], double)[count];
        Parallel.For(0, count, pace.Loops, i =>
        {
            var z = new double[bent.Count];
            new NormalDraws(seed, from + i).Fill(z);
            Bent.Drawn d = leaps && i % OneOfPrior == 0 ? bent.Weighed(bent.OfPrior(z)) : bent.Of(z);
            drawn[i] = (d.X, leaps ? bent.OverMixture(d, 1.0 / OneOfPrior) : d.Log);
        });
        return drawn;
    }

    private static double[] Weights(List<double> log)
    {
        double most = log.Max();
        return [.. log.Select(l => Math.Exp(l - most))];
    }

    // Evenly spaced along the running sum: the least noise that drawing again can have.
    private static double[][] Again(List<double[]> x, double[] weight, int count)
    {
        var again = new double[count][];
        double run = weight[0], step = weight.Sum() / count, at = 0.5 * step;
        int k = 0;
        for (int i = 0; i < count; i++, at += step)
        {
            while (run < at && k < x.Count - 1) run += weight[++k];
            again[i] = x[k];
        }
        return again;
    }

    internal static double[][] Walk(Bent bent, bool leaps, double[][] starts, int count, int seed, double stretch, int patience = 1, Pace? pace = null)
    {
        pace ??= Pace.Free;
        int each = (count + Walks - 1) / Walks, done = 0;
        double all = Walks * patience * (Forget + each * Every);
        var visited = new double[Walks * each][];
        Parallel.For(0, Walks, pace.Loops, w =>
        {
            var random = new NormalDraws(seed, 1_000_000_000L + w);
            Bent.Drawn here = bent.Weighed(starts[w]);
            double[] z = bent.Normals(here.X);
            int every = patience * Every;
            for (int step = -patience * Forget; step < each * every; step++)
            {
                double stride = Strides[(int)(random.Uniform() * Strides.Length)], keep = Math.Sqrt(1 - stride * stride);
                bool amongPrior = leaps && random.Uniform() < 1.0 / 3, alone = !amongPrior && random.Uniform() < 0.5;
                double[] to = amongPrior ? [.. here.X.Select(v => v / stretch)] : [.. z];
                int only = (int)(random.Uniform() * to.Length);
                for (int i = alone ? only : 0; i <= (alone ? only : to.Length - 1); i++) to[i] = keep * to[i] + stride * random.Normal();
                Bent.Drawn there = amongPrior ? bent.Weighed(bent.OfPrior(to)) : bent.Of(to);
                double ratio = amongPrior ? there.Likelihood - here.Likelihood : there.Log - here.Log;
                if (Math.Log(random.Uniform()) < ratio) (here, z) = (there, amongPrior ? bent.Normals(there.X) : to);
                pace.Come(Interlocked.Increment(ref done) / all);
                if (step >= 0 && step % every == 0) visited[w * each + step / every] = here.X;
            }
        });
        return visited[..count];
    }
}
