using System.Collections.Immutable;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Doubt;

/// <summary>
/// How likely a lure does what is wanted, over the builds that agree with its readings: with the weights and hooks that it
/// has, or with others. What stays is as it is in each build; what is new varies as weights and hooks do.
/// </summary>
/// <param name="Chance">That it comes within <see cref="Grams"/> and <see cref="Angle"/> of what is wanted, 0 to 1.</param>
/// <param name="Spare">Spare buoyancy, g.</param>
/// <param name="Trim">As it is seen, radians.</param>
public sealed record Odds(double Chance, Ranged Spare, Ranged Trim)
{
    /// <summary>As wanted: within this of the wanted trim; common practice, no source.</summary>
    public static readonly double Angle = Units.FromDegrees(5);

    /// <summary>As wanted: within half a percent of what it displaces, the width of "suspends", g.</summary>
    /// <param name="displaced">g.</param>
    public static double Grams(double displaced) => Verdicts.SuspendsWithin * displaced;

    /// <summary>A changed lure: which of its weights and hooks are the design's own (their place there) and which are new (−1).</summary>
    public readonly record struct Change(LureDesign Design, ImmutableArray<int> Ballast, ImmutableArray<int> Hardware)
    {
        /// <summary>Nothing changed.</summary>
        public static Change None(LureDesign design) => new(design, [.. Enumerable.Range(0, design.Ballast.Length)], [.. Enumerable.Range(0, design.Hardware.Length)]);
    }

    /// <summary>The odds of a change.</summary>
    /// <param name="knowing">The lure and its readings.</param>
    /// <param name="change">Outlines, wood, wire and coats are those of the lure known.</param>
    /// <param name="want">How it is to sit or fall, and where.</param>
    /// <param name="wanted">Spare buoyancy that is wanted, g.</param>
    /// <param name="pace">How to go about it.</param>
    public static Odds Of(Knowing knowing, Change change, Want want, double wanted, Pace? pace = null)
    {
        var build = new BuildModel(change.Design, knowing.Build.Priors, knowing.Build.Mesh);
        int[] from = Places(knowing.Build.Unknowns, build.Unknowns, change);
        double[][] builds = [.. knowing.Builds.Select((known, i) =>
        {
            var fresh = new double[from.Length];
            // Far from the seeds that the builds themselves were drawn with.
            new NormalDraws(4, i).Fill(fresh);
            return from.Select((place, k) => place < 0 ? fresh[k] : known[place]).ToArray();
        })];
        Forecast forecast = Forecast.Of(build, want.Circumstances, builds, pace ?? Pace.Free);
        double water = want.Circumstances.Water.Density - Units.AirDensity;
        return new Odds(forecast.Outcomes.Average(o => Is(o, want, wanted, water) ? 1.0 : 0), forecast.Spare, forecast.Trim);
    }

    private static bool Is(in Outcome o, Want want, double wanted, double water)
    {
        bool manner = want.Manner switch { Manner.Floats => o.Spare > 0, Manner.Falls => o.Spare < 0 && !double.IsNaN(o.Rate), Manner.Suspends => true };
        return manner && Math.Abs(o.Spare - wanted) <= Grams(water * o.Volume) && Math.Abs(o.SeenTrim - want.Trim) <= Angle;
    }

    // Where each unknown of the changed lure is found among those of the known one; −1: nowhere.
    private static int[] Places(Unknowns known, Unknowns changed, Change change)
    {
        var byId = known.All.Index().ToDictionary(u => u.Item.Id, u => u.Index);
        int[] places = [.. changed.All.Select(u => byId.GetValueOrDefault(u.Id, -1))];
        foreach ((int i, int own) in change.Ballast.Index())
            for (int k = 0; k < 4; k++) places[changed.PieceMass(i) + k] = own < 0 ? -1 : known.PieceMass(own) + k;
        foreach ((int i, int own) in change.Hardware.Index()) places[changed.Hardware(i)] = own < 0 ? -1 : known.Hardware(own);
        return places;
    }

    /// <summary>Spare buoyancy that a want comes to, g; null when no weights could do it.</summary>
    /// <param name="bare">The lure without the weights that may change.</param>
    /// <param name="want">The want.</param>
    public static double? Wanted(LureDesign bare, Want want) => want.Spare
        ?? (Target.Of(bare, want).Target is { } target ? Prediction.Of(bare, want.Circumstances).SpareBuoyancy - target.Weight : null);
}
