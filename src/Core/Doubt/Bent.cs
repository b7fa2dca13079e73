using System.Collections.Immutable;
using MathNet.Numerics.LinearAlgebra;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Doubt;

/// <summary>
/// A normal belief, bent to follow the readings: what builds that agree with them are drawn from before they are weighed.
/// <para>
/// <b>Why bent.</b> A scale pins e^ξ·V(ξ) to a thousandth, while density and volume may still vary by a tenth against each
/// other: builds that agree lie on a curved sheet, which a normal distribution about one point leaves at once. Of its
/// draws a few in a hundred carry all the weight, and ranges of so few are too narrow.
/// </para>
/// <para>
/// <b>Derivation.</b> With J = U·S·Vᵀ the slopes of the residuals r at the lowest point, let x = x⊥ + V·a. Along x⊥ the
/// readings say nothing to first order: it is drawn from the prior. For that x⊥ the a of least |a|² + |r|² is sought by
/// a ← a − (a + S·Uᵀr)/(1 + S²), J kept; with a* where that ends, a is drawn from the normal distribution about a* of
/// variance 1/(1 + S²). Its density is known at any x, so that p/q is exact however well a* was found, and a draw counts
/// as much as it should. While a* is sought, postures, which are dear and pin little, are taken by their slopes. Of linear
/// readings all draws count 1. Where everything is to be held s times as wide, s
/// multiplies both deviations.
/// </para>
/// </summary>
internal sealed class Bent
{
    private const int Rounds = 4;

    // Nearer to a* than this, in standard deviations of a, one more round is not worth its cost.
    private const double Near = 0.1;

    private readonly ImmutableArray<Observation> used;
    private readonly double stretch;
    private readonly Pace pace;
    private readonly double[] mean;
    private readonly double[] atMean;
    private readonly double[,] slopes;
    private readonly double[] middle;
    private readonly double[] narrow;
    private readonly double[,] across;
    private readonly double[,] pull;

    // ½·Σ log(1 + S²): by how much q is denser at its middle than the prior along a.
    private readonly double constant;

    /// <summary>Unknowns.</summary>
    public int Count { get; }

    public Bent(Belief belief, ImmutableArray<Observation> used, double stretch, Pace? pace = null)
    {
        (this.used, this.stretch, this.pace, mean, Count) = (used, stretch, pace ?? Pace.Free, belief.Mean, belief.Mean.Length);
        atMean = Update.Residuals(used, mean, this.pace);
        Matrix<double> j = Update.Slopes(used, mean, atMean, this.pace);
        slopes = j.ToArray();
        var svd = j.Svd();
        int k = Math.Min(used.Length, Count);
        across = svd.VT.SubMatrix(0, k, 0, Count).ToArray();
        narrow = [.. svd.S.Take(k).Select(s => 1 / (1 + s * s))];
        pull = (Matrix<double>.Build.DenseOfDiagonalVector(svd.S.SubVector(0, k)) * svd.U.SubMatrix(0, used.Length, 0, k).Transpose()).ToArray();
        middle = Along(mean);
        constant = -0.5 * narrow.Sum(Math.Log);
    }

    /// <summary>A build with the logarithms, but for constants, of p/q and of the readings' likelihood.</summary>
    internal readonly record struct Drawn(double[] X, double Log, double Likelihood);

    /// <summary>The build that unit normals z stand for.</summary>
    public Drawn Of(ReadOnlySpan<double> z)
    {
        double[] zeta = Along(z), x = OfPrior(z);
        AddAlong(x, zeta, -stretch);
        double[] a = Settled(x);
        for (int i = 0; i < a.Length; i++) a[i] += stretch * zeta[i] * Math.Sqrt(narrow[i]);
        AddAlong(x, a, 1);
        return Weighed(x, zeta);
    }

    /// <summary>The unit normals that a build stands for.</summary>
    public double[] Normals(ReadOnlySpan<double> x)
    {
        double[] a = Along(x), z = [.. x];
        AddAlong(z, a, -1);
        double[] settled = Settled(z);
        for (int i = 0; i < Count; i++) z[i] /= stretch;
        AddAlong(z, [.. a.Select((v, i) => (v - settled[i]) / (stretch * Math.Sqrt(narrow[i])))], 1);
        return z;
    }

    /// <summary>A build of any origin.</summary>
    public Drawn Weighed(double[] x) => Weighed(x, Along(Normals(x)));

    // log p − log q with p = N(a; 0, s²)·L and q = N(a; a*, s²/(1 + S²)).
    private Drawn Weighed(double[] x, double[] zeta)
    {
        double wide = stretch * stretch, likelihood = -0.5 * Update.Residuals(used, x, pace).Sum(r => r * r) / wide;
        return new Drawn(x, 0.5 * (zeta.Sum(v => v * v) - Along(x).Sum(v => v * v) / wide) + likelihood, likelihood);
    }

    /// <summary>log p over the density of draws of which a share comes from the prior and the others from here.</summary>
    public double OverMixture(in Drawn d, double prior)
    {
        double here = Math.Log(1 - prior) + d.Likelihood - d.Log + constant, there = Math.Log(prior);
        return d.Likelihood - Math.Max(here, there) - Math.Log(1 + Math.Exp(-Math.Abs(here - there)));
    }

    /// <summary>The build that unit normals stand for before anything is read.</summary>
    public double[] OfPrior(ReadOnlySpan<double> z)
    {
        var x = new double[Count];
        for (int i = 0; i < Count; i++) x[i] = stretch * z[i];
        return x;
    }

    /// <summary>a* for an x⊥.</summary>
    private double[] Settled(double[] apart)
    {
        double[] a = [.. middle], x = [.. apart];
        AddAlong(x, a, 1);
        double[] r = Guess(x);
        double cost = Cost(a, r);
        for (int round = 0; round < Rounds; round++)
        {
            var there = new double[a.Length];
            double farthest = 0;
            for (int i = 0; i < a.Length; i++)
            {
                double down = a[i];
                for (int m = 0; m < r.Length; m++) down += pull[i, m] * r[m];
                there[i] = a[i] - narrow[i] * down;
                farthest = Math.Max(farthest, Math.Sqrt(narrow[i]) * Math.Abs(down));
            }
            if (farthest < Near) return there;
            apart.CopyTo(x, 0);
            AddAlong(x, there, 1);
            double[] rThere = Guess(x);
            double costThere = Cost(there, rThere);
            if (!(costThere < cost)) return a;
            (a, r, cost) = (there, rThere, costThere);
        }
        return a;
    }

    private double[] Guess(double[] x)
    {
        pace.Step();
        var r = new double[used.Length];
        for (int i = 0; i < r.Length; i++)
        {
            if (!used[i].CanFlip)
            {
                r[i] = (used[i].Shows(x) - used[i].Read) / used[i].Sd;
                continue;
            }
            r[i] = atMean[i];
            for (int k = 0; k < x.Length; k++) r[i] += slopes[i, k] * (x[k] - mean[k]);
        }
        return r;
    }

    private static double Cost(double[] a, double[] r) => a.Sum(v => v * v) + r.Sum(v => v * v);

    // Vᵀx.
    private double[] Along(ReadOnlySpan<double> x)
    {
        var a = new double[narrow.Length];
        for (int i = 0; i < a.Length; i++)
            for (int k = 0; k < x.Length; k++) a[i] += across[i, k] * x[k];
        return a;
    }

    // x + times·V·a.
    private void AddAlong(double[] x, double[] a, double times)
    {
        for (int i = 0; i < a.Length; i++)
            for (int k = 0; k < x.Length; k++) x[k] += times * a[i] * across[i, k];
    }
}
