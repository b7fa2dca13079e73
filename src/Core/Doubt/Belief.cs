using System.Collections.Immutable;
using MathNet.Numerics.LinearAlgebra;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Doubt;

/// <summary>
/// What is believed of all unknowns together: a normal distribution about a mean, in unit normals of the prior. Before any
/// reading the mean is 0 and the covariance 1.
/// </summary>
/// <param name="Unknowns">Of the build, then of the instruments.</param>
/// <param name="Mean">One for each.</param>
/// <param name="Covariance">Theirs.</param>
public sealed record Belief(ImmutableArray<Unknown> Unknowns, double[] Mean, Matrix<double> Covariance)
{
    // Kept once worked out, for one covariance only.
    private (Matrix<double> Of, double[,] L)? root;

    /// <summary>Before any reading.</summary>
    public static Belief Prior(ImmutableArray<Unknown> unknowns) =>
        new(unknowns, new double[unknowns.Length], Matrix<double>.Build.DenseIdentity(unknowns.Length));

    /// <summary>mean + L·z, with L·Lᵀ the covariance.</summary>
    public void Draw(ReadOnlySpan<double> z, Span<double> x)
    {
        if (root is not { } known || !ReferenceEquals(known.Of, Covariance)) root = known = (Covariance, Covariance.Cholesky().Factor.ToArray());
        double[,] l = known.L;
        for (int i = 0; i < x.Length; i++)
        {
            double sum = Mean[i];
            for (int k = 0; k <= i; k++) sum += l[i, k] * z[k];
            x[i] = sum;
        }
    }

    /// <summary>One standard deviation of a quantity whose slopes along the unknowns are given.</summary>
    public double Spread(Vector<double> slope) => Math.Sqrt(Math.Max(0, slope * (Covariance * slope)));

    /// <summary>The covariance once a further reading of these slopes, in its own standard deviations, has been taken.</summary>
    public Matrix<double> After(Matrix<double> slopes)
    {
        Matrix<double> c = Covariance * slopes.Transpose();
        Matrix<double> inner = slopes * c + Matrix<double>.Build.DenseIdentity(slopes.RowCount);
        return Covariance - c * inner.Solve(c.Transpose());
    }
}

/// <summary>A reading that the model hardly explains, or can't.</summary>
/// <param name="Observation">Which number.</param>
/// <param name="Expected">What it would have been by everything else, in the reading's unit.</param>
/// <param name="Sigmas">How many standard deviations off, sign as read less expected.</param>
/// <param name="IsKept">It was used all the same.</param>
internal sealed record Misfit(Observation Observation, double Expected, double Sigmas, bool IsKept);

/// <summary>
/// All readings so far against all unknowns at once.
/// <para>
/// <b>Unknowns</b>: x, independent unit normals before any reading. <b>Residuals</b>: x itself, and of each reading
/// (h(x) − y)/σ. <b>Method</b>: Gauss–Newton from x = 0, or a better start where one is known, steps no longer than 2
/// and halved until they go down; the posterior is the normal distribution of
/// covariance (1 + JᵀJ)⁻¹ about the lowest point, which sampling then checks (<see cref="Cloud"/>). <b>Stop</b>: a step under
/// 0.01 of a standard deviation of the prior that gains less than 0.01.
/// </para>
/// <para>
/// <b>Misfits</b>: with e the residual left and H·C·Hᵀ the share of σ² that the reading itself has won, e/√(σ² − HCHᵀ) is
/// how far it lies from what all the others say, in standard deviations of just that. Past 3 it is asked again without it:
/// √ of how much lower the sum then lies is the same where all is linear, and holds where a posture leaps. Past 3 it is told. Past 4 it is set
/// aside, the farthest first, and the rest is asked again: one wrong number must not bend everything. Between the two it is
/// used: of honest logs of twelve numbers one in thirty has one past 3, and it is the very number that such a log can't do
/// without, since the build is then as odd as the number says. Set aside at 3, ranges miss the truth in nearly all of those
/// logs; one past 4 comes once in thirteen hundred.
/// </para>
/// </summary>
internal sealed class Update
{
    private const int MostSteps = 25;

    // No farther at once: slopes of a posture say nothing of one that lies beyond a leap.
    private const double LongestStep = 2;
    private const double Step = 0.02;
    private const int LeastToJudge = 3;
    private const double Enough = 0.01, LittleGain = 0.01;
    private const int MostSuspects = 3;

    /// <summary>Standard deviations beyond which a reading is told to be odd, and beyond which it is set aside.</summary>
    public const double Odd = 3, TooFar = 4;

    public Belief Belief { get; }

    public ImmutableArray<Misfit> Misfits { get; }

    /// <summary>The readings that were used, in no order.</summary>
    public ImmutableArray<Observation> Used { get; }

    /// <summary>
    /// By how much the doubt was widened because the readings as a whole lie farther off than they should: 1, not at all.
    /// At the lowest point |x|² + Σr² of n readings is χ² of n (linear model); past its 95 % point everything is held to be
    /// wider by √(χ²/n), as Birge 1932, Physical Review 40, 207 has it.
    /// </summary>
    public double Stretch { get; }

    private Update(Belief belief, ImmutableArray<Observation> used, ImmutableArray<Observation> hinges, ImmutableArray<Misfit> misfits, Pace pace)
    {
        (Used, Misfits) = ([.. used, .. hinges], misfits);
        double off = Cost(belief.Mean, Residuals(used, belief.Mean, pace));
        bool wide = used.Length >= LeastToJudge && off > MathNet.Numerics.Distributions.ChiSquared.InvCDF(used.Length, 0.95);
        Stretch = wide ? Math.Sqrt(off / used.Length) : 1;
        Belief = wide ? belief with { Covariance = Stretch * Stretch * belief.Covariance } : belief;
    }

    public static Update Of(Observations observations, double[]? from = null, Pace? pace = null) => Of(observations.Unknowns, observations.All, from, pace);

    public static Update Of(ImmutableArray<Unknown> unknowns, ImmutableArray<Observation> all, double[]? from = null, Pace? pace = null)
    {
        pace ??= Pace.Free;
        ImmutableArray<Observation> used = [.. all.Where(o => !o.IsHinge)], hinges = [.. all.Where(o => o.IsHinge)];
        var misfits = new List<Misfit>();
        while (true)
        {
            Fitted fit = Fit(unknowns, used, from, pace);
            Misfit[] odd = [.. used.Select((o, i) => Score(fit, i, o)).Where(m => Math.Abs(m.Sigmas) > Odd)
                .OrderByDescending(m => Math.Abs(m.Sigmas)).Take(MostSuspects).Select(m => Without(fit, unknowns, used, from, m, pace)).Where(m => Math.Abs(m.Sigmas) > Odd)];
            Misfit? worst = odd.MaxBy(m => Math.Abs(m.Sigmas));
            if (worst is null || Math.Abs(worst.Sigmas) <= TooFar) return new Update(fit.Belief, used, hinges, [.. misfits, .. odd], pace);
            misfits.Add(worst with { IsKept = false });
            used = used.Remove(worst.Observation);
        }
    }

    /// <summary>The lowest point: the belief about it, slopes and residuals there, |x|² + |r|².</summary>
    private sealed record Fitted(Belief Belief, Matrix<double> Slopes, double[] Left, double Cost);

    private static Misfit Score(Fitted fit, int i, Observation o)
    {
        Vector<double> slope = fit.Slopes.Row(i);
        double won = slope * (fit.Belief.Covariance * slope), free = Math.Max(1 - won, 1e-6);
        // Left out, the rest would expect it at h − (HCHᵀ/(1 − HCHᵀ))·e from where it now lies.
        return new Misfit(o, o.Read + fit.Left[i] / free * o.Sd, -fit.Left[i] / Math.Sqrt(free), IsKept: true);
    }

    // The same without slopes, which mean little where a posture leaps: by how much all else fits better.
    private static Misfit Without(Fitted fit, ImmutableArray<Unknown> unknowns, ImmutableArray<Observation> used, double[]? from, Misfit m, Pace pace)
    {
        Fitted rest = Fit(unknowns, used.Remove(m.Observation), from, pace);
        double off = Residuals([m.Observation], rest.Belief.Mean, pace)[0];
        return m with { Expected = m.Observation.Read + off * m.Observation.Sd, Sigmas = -Math.Sign(off) * Math.Sqrt(Math.Max(fit.Cost - rest.Cost, 0)) };
    }

    private static Fitted Fit(ImmutableArray<Unknown> unknowns, ImmutableArray<Observation> used, double[]? from, Pace pace)
    {
        int n = unknowns.Length;
        double[] x = from is null ? new double[n] : [.. from];
        double[] r = Residuals(used, x, pace);
        double cost = Cost(x, r);
        Matrix<double> j = Matrix<double>.Build.Dense(used.Length, n);
        for (int step = 0; step < MostSteps && used.Length > 0; step++)
        {
            j = Slopes(used, x, r, pace);
            Matrix<double> normal = j.TransposeThisAndMultiply(j) + Matrix<double>.Build.DenseIdentity(n);
            Vector<double> down = normal.Cholesky().Solve(-(j.TransposeThisAndMultiply(Vector<double>.Build.Dense(r)) + Vector<double>.Build.Dense(x)));
            double part = Math.Min(1, LongestStep / Math.Max(down.L2Norm(), 1e-9)), was = cost;
            for (int halving = 0; halving < 8; halving++, part /= 2)
            {
                double[] there = [.. x.Select((v, i) => v + part * down[i])];
                double[] rThere = Residuals(used, there, pace);
                double costThere = Cost(there, rThere);
                if (costThere > cost + 1e-9) continue;
                (x, r, cost) = (there, rThere, costThere);
                break;
            }
            if (part * down.InfinityNorm() < Enough && was - cost < LittleGain) break;
        }
        // Near a leap the slopes of a step before are others than those here.
        if (used.Any(o => o.CanFlip)) j = Slopes(used, x, r, pace);
        Matrix<double> covariance = (j.TransposeThisAndMultiply(j) + Matrix<double>.Build.DenseIdentity(n)).Cholesky().Solve(Matrix<double>.Build.DenseIdentity(n));
        return new Fitted(new Belief(unknowns, x, 0.5 * (covariance + covariance.Transpose())), j, r, cost);
    }

    internal static double[] Residuals(ImmutableArray<Observation> used, ReadOnlySpan<double> x, Pace pace)
    {
        var r = new double[used.Length];
        for (int i = 0; i < r.Length; i++)
        {
            pace.Step();
            r[i] = (used[i].Shows(x) - used[i].Read) / used[i].Sd;
        }
        return r;
    }

    internal static double Cost(ReadOnlySpan<double> x, double[] r)
    {
        double sum = 0;
        foreach (double v in x) sum += v * v;
        foreach (double v in r) sum += v * v;
        return sum;
    }

    /// <summary>Slopes of the residuals by differences, one unknown at a time, on several cores.</summary>
    internal static Matrix<double> Slopes(ImmutableArray<Observation> used, double[] x, double[] r, Pace pace)
    {
        var j = Matrix<double>.Build.Dense(used.Length, x.Length);
        Parallel.For(0, x.Length, pace.Loops, k =>
        {
            double[] there = [.. x];
            there[k] += Step;
            double[] moved = Residuals(used, there, pace);
            for (int i = 0; i < moved.Length; i++)
                if (!used[i].IsHinge) j[i, k] = (moved[i] - r[i]) / Step;
        });
        return j;
    }
}
