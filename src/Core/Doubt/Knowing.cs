using System.Collections.Immutable;
using MathNet.Numerics.LinearAlgebra;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Doubt;

/// <summary>A reading that does not fit, and what would explain it.</summary>
/// <param name="Reading">Its place in the log, from 0.</param>
/// <param name="Key">Which of its numbers.</param>
/// <param name="Read">As read.</param>
/// <param name="Expected">By everything else.</param>
/// <param name="Sigmas">How many standard deviations off.</param>
/// <param name="Suspects">What it would imply, likeliest first.</param>
public sealed record Flag(int Reading, string Key, double Read, double Expected, double Sigmas, ImmutableArray<Suspect> Suspects)
{
    /// <summary>It was used all the same, being no farther off than honest readings are now and then.</summary>
    public bool IsKept { get; init; }
}

/// <summary>
/// How much of the doubt in the grams to spare a cause makes: what would be left were it known for sure, g, and by what share
/// the variance would fall. Readings tie causes together (what is not fat wood is heavy wood), so shares may add to more than 1.
/// </summary>
public sealed record Share(Cause Cause, double Left, double Part);

/// <summary>
/// What is known of a lure from its design and its log: the forecast before and after the readings, what did not fit, and
/// what causes the doubt that is left.
/// </summary>
public sealed record Knowing(
    BuildModel Build, TubLog Log, Circumstances Where, Forecast Before, Forecast After, ImmutableArray<Flag> Flags,
    ImmutableArray<Share> Causes, Trust Trust, double Effective, Belief Belief)
{
    /// <summary>By how much the doubt was widened because the readings as a whole lie farther off than they should; 1: not.</summary>
    public double Stretch { get; init; } = 1;

    /// <summary>Builds that agree with the readings, equally likely each, in unit normals: those of the forecast after.</summary>
    internal ImmutableArray<double[]> Builds { get; init; } = [];

    /// <summary>
    /// The prediction of the design as drawn, in the same circumstances: what stands in the middle of the forecast before any reading, so that
    /// nobody is told two numbers for one thing. Null where the maker's own hand is known, which carves something else than the drawing.
    /// </summary>
    public Prediction? Drawn() => Build.Priors.Habits.IsEmpty ? Prediction.Of(Build.Design, Where) : null;

    /// <summary>The lure as it is now believed to be, as a design: each unknown at the mean of the builds that agree with the readings.</summary>
    public LureDesign Believed() =>
        Doubt.Believed.Of(Build, [.. Enumerable.Range(0, Build.Unknowns.Count).Select(i => Builds.Average(b => b[i]))]);

    private const int Patient = 5;

    /// <summary>Builds in a forecast.</summary>
    public const int Usual = 2000;

    /// <summary>Takes in every reading and predicts again.</summary>
    /// <param name="build">The design with its unknowns.</param>
    /// <param name="log">Sound.</param>
    /// <param name="where">What to predict.</param>
    /// <param name="count">Sampled builds, at least 1000 for ranges.</param>
    /// <param name="seed">The same seed gives the same numbers.</param>
    /// <param name="pace">How to go about it.</param>
    /// <exception cref="OperationCanceledException">When ended first.</exception>
    public static Knowing Of(BuildModel build, TubLog log, Circumstances where, int count = Usual, int seed = 1, Pace? pace = null) =>
        Of(build, log, where, count, seed, pace ?? Pace.Free, null);

    // start: where to begin the update, when the drawn build is far from what was read.
    internal static Knowing Of(BuildModel build, TubLog log, Circumstances where, int count, int seed, Pace pace, Func<Observations, double[]>? start)
    {
        build = build.For(log);
        var observations = new Observations(build, log, pace);
        // Shares of the time that it takes, near enough for a maker who waits.
        Update update = Update.Of(observations, from: start?.Invoke(observations), pace);
        Cloud before = Cloud.Of(Belief.Prior(observations.Unknowns), [], count, seed, pace: pace);
        Cloud after = update.Used.IsEmpty ? before
            : Cloud.Of(update.Belief, update.Used, count, seed, update.Stretch, patience: start is null ? 1 : Patient, pace.Part(0.1, 0.6));
        Forecast first = Forecast.Of(build, where, before.Builds, pace.Part(0.6, ReferenceEquals(before, after) ? 1 : 0.8));
        Forecast last = ReferenceEquals(before, after) ? first : Forecast.Of(build, where, after.Builds, pace.Part(0.8, 1));
        ImmutableArray<Flag> flags =
        [
            .. update.Misfits.Select(m => FlagOf(build, log, m, update.Belief)),
            .. log.Readings.Index().Select(r => r.Item.Kind.Alarm(r.Index, r.Item)).OfType<Flag>(),
        ];
        return new Knowing(build, log, where, first, last, flags,
            CausesOf(build, where, update.Belief), after.Trust, after.Effective, update.Belief)
        {
            Stretch = update.Stretch,
            Builds = [.. after.Builds],
        };
    }

    /// <summary>The belief alone, without sampling: what an update costs when only the next step is asked.</summary>
    public static Belief Learn(BuildModel build, TubLog log, Pace? pace = null) => Update.Of(new Observations(build.For(log), log, pace), pace: pace).Belief;

    private static Flag FlagOf(BuildModel build, TubLog log, Misfit m, Belief belief)
    {
        Observation o = m.Observation;
        LogReading reading = log.Readings[o.Reading];
        // What the believed build would have shown in other water than was written down.
        double InWater(double salinity) => new Observations(build, log with { Readings = log.Readings.SetItem(o.Reading, reading with { Salinity = salinity }) }).All
            .First(other => other.Reading == o.Reading && other.Key == o.Key).Shows(belief.Mean) - o.Shows(belief.Mean);
        bool wet = reading.Kind.At is ReadAt.Afloat or ReadAt.UnderWater;
        return new Flag(o.Reading, o.Key, o.Read, m.Expected, m.Sigmas, Suspicion.Of(build.Design, reading, m, wet ? InWater : null)) { IsKept = m.IsKept };
    }

    /// <summary>What each cause does to the doubt of the grams to spare, by the belief's own covariance, largest first.</summary>
    private static ImmutableArray<Share> CausesOf(BuildModel build, Circumstances where, Belief belief)
    {
        Vector<double> slope = SpareSlope(build, where, belief);
        Vector<double> with = belief.Covariance * slope;
        double whole = slope * with;
        return [.. Enumerable.Range(0, slope.Count).GroupBy(i => belief.Unknowns[i].Cause).Select(g =>
        {
            int[] own = [.. g];
            Vector<double> shared = Vector<double>.Build.Dense(own.Length, i => with[own[i]]);
            Matrix<double> among = Matrix<double>.Build.Dense(own.Length, own.Length, (i, k) => belief.Covariance[own[i], own[k]]);
            double won = shared * among.Cholesky().Solve(shared);
            return new Share(g.Key, Math.Sqrt(Math.Max(whole - won, 0)), won / Math.Max(whole, 1e-12));
        }).Where(s => s.Part > 5e-3).OrderByDescending(s => s.Part)];
    }

    /// <summary>Slope of spare buoyancy along each unknown, g, by central differences at the belief's mean.</summary>
    internal static Vector<double> SpareSlope(BuildModel build, Circumstances where, Belief belief)
    {
        Sitting sitting = build.In(where);
        StageShape.Scratch scratch = sitting.Rent();
        double[] x = [.. belief.Mean];
        Vector<double> slope = Numerics.Propagation.Gradient(v => sitting.Model.Weigh(v, scratch).Spare(sitting.Model.Water), x, build.Unknowns.Count);
        sitting.Return(scratch);
        return slope;
    }
}
