using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>How little is known beforehand of a weight that nobody sees, one standard deviation each.</summary>
/// <param name="Share">Of the logarithm of its grams.</param>
/// <param name="XMm">Fore and aft.</param>
/// <param name="ZMm">Up or down.</param>
public readonly record struct UnseenPrior(double Share, double XMm, double ZMm);

/// <summary>
/// The weights in a lure that can't be opened, from what it weighs and how it sits: they are one more unknown of the build,
/// a point of so many grams at one place in the plane of the seam, and the readings are taken in as of any other lure.
/// <para>
/// A point tells all that matters: any weights in pockets act on weighing, floating and falling by their grams less those of
/// the wood that they took the place of, and by where the two together have their middle. So the point is the net weight, and
/// lead in its stead weighs net/(1 − ρ_wood/ρ_lead).
/// </para>
/// <para>
/// Beforehand: the grams that would make the finished lure neither float nor sink, halfway along, a sixth of its depth under
/// the middle, give or take a factor of 2.2, a fifth of the length and a fifth of the depth (a guess that every reading
/// overrules; common practice, no source).
/// </para>
/// </summary>
/// <param name="Build">The lure with its unseen weight as the last of its weights.</param>
/// <param name="Log">The readings.</param>
/// <param name="Net">Grams beyond those of the wood whose place it takes.</param>
/// <param name="Lead">Grams of lead that do the same.</param>
/// <param name="X">mm from the nose.</param>
/// <param name="Z">mm above the axis.</param>
/// <param name="Told">By how much the readings narrowed grams, x and z: standard deviation after over before.</param>
/// <param name="Knowing">What the readings make of the whole lure, the unseen weight among it.</param>
public sealed record Unseen(
    BuildModel Build, TubLog Log, Ranged Net, Ranged Lead, Ranged X, Ranged Z, (double Grams, double X, double Z) Told, Knowing Knowing)
{
    /// <summary>What the weight is called in a design.</summary>
    public const string Name = "unseen weight";

    private const double Share = 0.8;
    private const double Part = 0.2;
    private const double Low = 1.0 / 6;
    private const double LeastShare = 0.03;
    private const double LeadDensity = 11.3e-3;

    // A little grid to start from: where the postures that were read can be met at all.
    private static readonly double[] Across = [-2, -1, 0, 1, 2];
    private static readonly double[] Along = [-2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2];
    private static readonly double[] Up = [-1.5, -0.5, 0.5, 1.5];

    /// <summary>Infers the unseen weights.</summary>
    /// <param name="design">Outlines, wood, wire, coats, hardware, and the weights that are known, if any.</param>
    /// <param name="log">Readings of it, mostly finished.</param>
    /// <param name="where">In which circumstances to say what it does.</param>
    /// <param name="count">Sampled builds.</param>
    /// <param name="seed">The same seed gives the same numbers.</param>
    /// <param name="mesh">As for a build.</param>
    /// <param name="pace">How to go about it.</param>
    public static Unseen Of(
        LureDesign design, TubLog log, Circumstances where, int count = Knowing.Usual, int seed = 1, Shape.MeshSize? mesh = null, Pace? pace = null)
    {
        pace ??= Pace.Free;
        (LureDesign with, UnseenPrior prior) = Hidden(design);
        var build = new BuildModel(with, Priors.Usual with { Unseen = prior }, mesh);
        int last = with.Ballast.Length - 1;
        (int mass, int x, int z) = (build.Unknowns.PieceMass(last), build.Unknowns.PieceX(last), build.Unknowns.PieceZ(last));
        Knowing knowing = Knowing.Of(build, log, where, count, seed, pace, observations => Start(observations, mass, x, z, pace));
        ImmutableArray<double[]> drawn = knowing.Builds;
        BallastPiece piece = with.Ballast[last];
        double wood = Units.FromGramsPerCm3(with.Wood.DensityGPerCm3);
        double Net(double[] b) => piece.Mass * build.Unknowns[mass].At(b[mass]);
        return new Unseen(
            build, log, Ranged.Of(drawn.Select(Net))!.Value,
            Ranged.Of(drawn.Select(b => Net(b) / (1 - wood * build.Unknowns[Unknowns.Density].At(b[Unknowns.Density]) / LeadDensity)))!.Value,
            Ranged.Of(drawn.Select(b => piece.AtMm[0] + build.Unknowns[x].At(b[x])))!.Value,
            Ranged.Of(drawn.Select(b => piece.AtMm[2] + build.Unknowns[z].At(b[z])))!.Value,
            // Before, they are unit normals.
            (Spread(drawn, mass), Spread(drawn, x), Spread(drawn, z)), knowing);
    }

    /// <summary>
    /// The lure as it is now believed to be, with a ball of lead for the unseen weight: the last of its weights.
    /// </summary>
    public LureDesign Copied
    {
        get
        {
            LureDesign believed = Knowing.Believed();
            int last = believed.Ballast.Length - 1;
            BallastPiece point = believed.Ballast[last];
            double wood = Ledger.Bookkeeper.WoodDensity(believed, Shape.MeshSize.Coarse);
            return believed with { Ballast = believed.Ballast.SetItem(last, Ball(Net.Median, wood, point.Middle)) };
        }
    }

    /// <summary>Of the readings that could still be made of the finished lure, the one that would narrow grams, length and height most.</summary>
    /// <param name="box">Whose scales and instruments; null: a kitchen's.</param>
    /// <param name="pace">How to go about it.</param>
    public LogReading? MostTelling(Box.MakersBox? box = null, Pace? pace = null)
    {
        pace ??= Pace.Free;
        int last = Build.Design.Ballast.Length - 1;
        int[] own = [Build.Unknowns.PieceMass(last), Build.Unknowns.PieceX(last), Build.Unknowns.PieceZ(last)];
        var hidden = new Thing(ThingKind.Weight, last);
        double Known(Belief belief) => own.Sum(i => Math.Log(belief.Covariance[i, i]));
        Candidate[] candidates = [.. Candidates.Of(Knowing, Ledger.Stage.Finished, box, pace).Where(c => c.Reading.Thing != hidden)];
        return candidates.Length == 0 ? null : candidates.MinBy(c => Known(Candidates.Try(Build, Knowing.Belief, Log, c.Reading, pace)))!.Reading;
    }

    private static double Spread(ImmutableArray<double[]> builds, int unknown)
    {
        double mean = builds.Average(b => b[unknown]);
        return Math.Sqrt(builds.Average(b => (b[unknown] - mean) * (b[unknown] - mean)));
    }

    // The design with the weight that would just hold it under.
    private static (LureDesign, UnseenPrior) Hidden(LureDesign design)
    {
        Prediction drawn = Prediction.Of(design, Circumstances.InTheSea);
        double displaced = drawn.Ledger.Weight + drawn.SpareBuoyancy;
        double length = design.Body.LengthMm, middle = drawn.Ledger.Cb.X;
        Shape.Body body = design.Body.Surface();
        double depth = body.BackAt(middle) - body.BellyAt(middle);
        LureDesign with = design with { Ballast = design.Ballast.Add(Point(Math.Max(drawn.SpareBuoyancy, LeastShare * displaced), new Vec3(middle, 0, drawn.Ledger.Cb.Z - Low * depth))) };
        return (with, new UnseenPrior(Share, Part * length, Part * depth));
    }

    /// <summary>A net weight without a pocket: a plug of a millimetre.</summary>
    public static BallastPiece Point(double grams, Vec3 at) => new()
    {
        Name = Name, Form = BallastForm.Plug, DiameterMm = 1, LengthMm = 1, MassG = grams, AtMm = [at.X, at.Y, at.Z],
    };

    /// <summary>A lead ball that acts as a net weight does, in wood of a density (g/mm³).</summary>
    public static BallastPiece Ball(double net, double wood, Vec3 at)
    {
        double grams = net / (1 - wood / LeadDensity);
        return new BallastPiece
        {
            Name = Name, Form = BallastForm.Ball, DiameterMm = Math.Cbrt(6 * grams / LeadDensity / Math.PI), DensityGPerCm3 = 1000 * LeadDensity,
            MassG = grams, AtMm = [at.X, at.Y, at.Z], ClearanceMm = 0,
        };
    }

    private static double[] Start(Observations observations, int mass, int x, int z, Pace pace)
    {
        var best = new double[observations.Unknowns.Length];
        double least = double.PositiveInfinity;
        var gate = new Lock();
        (double M, double X, double Z)[] grid = [.. from m in Across from a in Along from u in Up select (m, a, u)];
        Parallel.ForEach(grid, pace.Loops, at =>
        {
            var there = new double[best.Length];
            (there[mass], there[x], there[z]) = (at.M, at.X, at.Z);
            double cost = Update.Cost(there, Update.Residuals(observations.All, there, pace));
            lock (gate)
                // Of equals the first of the grid, so that threads don't decide.
                if (cost < least || (cost == least && (at.M, at.X, at.Z).CompareTo((best[mass], best[x], best[z])) < 0)) (least, best) = (cost, there);
        });
        return best;
    }
}
