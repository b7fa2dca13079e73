using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Doubt;

/// <summary>Each instrument by itself, from a build that never was to what is believed of it.</summary>
public class InstrumentTests
{
    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    private static LogReading Of(ReadingKind kind, Stage stage, Rig rig = Rig.Bare) => new() { Kind = kind, Stage = stage, Rig = rig, TemperatureC = 15, Soap = true };

    /// <summary>A thing that is true of a build.</summary>
    private delegate double Truth(BuildModel build, double[] x);

    private static T At<T>(BuildModel build, Stage stage, Rig rig, Func<Sitting, StageModel.Scratch, T> of)
    {
        Sitting sitting = build.In(new Circumstances(stage, rig, WaterState.Tap));
        StageModel.Scratch scratch = sitting.Rent();
        T found = of(sitting, scratch);
        sitting.Return(scratch);
        return found;
    }

    private static Truth Weighed(Stage stage, Func<Weighed, double, double> of) => (b, x) => At(b, stage, Rig.Bare, (s, scratch) => of(s.Model.Weigh(x, scratch), s.Model.Water));

    private static Truth Lies(Rig rig, Func<Posture, double> of) => (b, x) => At(b, Stage.DryFit, rig, (s, scratch) => of(s.Posed(x, scratch, default, null)));

    private static Truth Girth(Func<(double Right, double Left, double Height), double> of) => (b, x) => At(b, Stage.Blank, Rig.Bare, (s, scratch) =>
    {
        s.Model.Weigh(x, scratch);
        return of(Calipers.Girth(scratch.Skin, 80));
    });

    private const string Floater = "mooring-post-210", Sinker = "tidegate-185";

    private static readonly LogReading Tub = Of(ReadingKind.Tub, Stage.DryFit), Caliper = Of(ReadingKind.Caliper, Stage.Blank) with { XMm = 80 };

    /// <summary>The reading with its numbers still empty, the lure, and what it should tell of it.</summary>
    private static readonly Dictionary<string, (string Lure, LogReading Reading, Truth Of)> Instruments = new()
    {
        ["boards"] = (Sinker, Of(ReadingKind.Boards, Stage.Blank) with { SizeMm = [200, 45, 36], MassG = 160 }, (b, x) => b.Unknowns[Unknowns.Density].At(x[Unknowns.Density])),
        ["part"] = (Sinker, Of(ReadingKind.Part, Stage.Blank) with { Part = "treble 3/0 at belly", MassG = 0 }, (b, x) => b.Unknowns.All.Index().First(u => u.Item.Id == "hardware[0].mass") is var h ? h.Item.At(x[h.Index]) : 0),
        ["halves, together"] = (Sinker, Of(ReadingKind.Halves, Stage.Blank) with { RightG = 0, LeftG = 0 }, Weighed(Stage.Blank, (w, _) => w.Weight)),
        ["halves, against each other"] = (Sinker, Of(ReadingKind.Halves, Stage.Blank) with { RightG = 0, LeftG = 0 }, Weighed(Stage.Blank, (w, _) => w.WeightMoment.Y)),
        ["weight"] = (Sinker, Of(ReadingKind.Weight, Stage.Sealed) with { MassG = 0 }, Weighed(Stage.Sealed, (w, _) => w.Weight)),
        ["sinker way"] = (Sinker, Of(ReadingKind.UnderWater, Stage.Blank) with { SinkerG = 300, WithLureG = 0 }, Weighed(Stage.Blank, (w, water) => w.Spare(water))),
        ["jar way"] = (Sinker, Of(ReadingKind.UnderWater, Stage.Blank) with { Way = UnderWaterWay.Jar, ReadingG = 0 }, Weighed(Stage.Blank, (w, _) => w.Volume)),
        ["jar way, wrapped in film"] = (Sinker, Of(ReadingKind.UnderWater, Stage.Blank) with { Way = UnderWaterWay.Jar, ReadingG = 0, Film = true }, Weighed(Stage.Blank, (w, _) => w.Volume)),
        ["sinker way, dry-fit"] = (Sinker, Of(ReadingKind.UnderWater, Stage.DryFit) with { SinkerG = 300, WithLureG = 0 }, Weighed(Stage.DryFit, (w, water) => w.Spare(water))),
        ["needle"] = (Sinker, Of(ReadingKind.Needle, Stage.Blank) with { XMm = 0 }, Weighed(Stage.Blank, (w, water) => (water * w.VolumeMoment.X - w.WeightMoment.X) / w.Spare(water))),
        ["balance"] = (Sinker, Of(ReadingKind.Balance, Stage.DryFit) with { XMm = 0 }, Weighed(Stage.DryFit, (w, _) => w.Cg.X)),
        ["calipers, width"] = (Sinker, Caliper with { WidthMm = 0 }, Girth(g => g.Right + g.Left)),
        ["calipers, height"] = (Sinker, Caliper with { HeightMm = 0 }, Girth(g => g.Height)),
        ["calipers, right"] = (Sinker, Caliper with { RightMm = 0 }, Girth(g => g.Right)),
        ["calipers, left"] = (Sinker, Caliper with { LeftMm = 0 }, Girth(g => g.Left)),
        ["inclining"] = (Floater, Of(ReadingKind.Inclining, Stage.DryFit) with { MassG = 1, XMm = 150, ZMm = 10, TurnedDeg = 0 }, Lies(Rig.Bare, p => p.Trim)),
        ["tub, trim, bare"] = (Floater, Tub with { TrimDeg = 0 }, Lies(Rig.Bare, p => p.Trim)),
        ["tub, trim, with stand-ins"] = (Floater, Tub with { Rig = Rig.StandIns, TrimDeg = 0 }, Lies(Rig.StandIns, p => p.Trim)),
        ["tub, trim, rigged"] = (Floater, Tub with { Rig = Rig.Rigged, TrimDeg = 0 }, Lies(Rig.Rigged, p => p.Trim)),
        ["tub, nose out"] = (Floater, Tub with { Rig = Rig.StandIns, NoseOutMm = 0 }, Lies(Rig.StandIns, p => p.NoseShowsAlong)),
        ["tub, tail out"] = ("slipway-150", Tub with { TailOutMm = 0 }, Lies(Rig.Bare, p => p.TailShowsAlong)),
        ["tub, waterline on the back"] = (Floater, Tub with { Rig = Rig.StandIns, WaterlineBackMm = 0 }, Lies(Rig.StandIns, p => p.WaterlineBack ?? 0)),
        ["tub, waterline on the belly"] = (Floater, Tub with { Rig = Rig.StandIns, WaterlineBellyMm = 0 }, Lies(Rig.StandIns, p => p.WaterlineBelly ?? 0)),
        ["tub, back proud"] = (Floater, Tub with { BackProudMm = 0 }, Lies(Rig.Bare, p => p.BackProud)),
        ["drop"] = (Sinker, Of(ReadingKind.Drop, Stage.Finished, Rig.Rigged) with { DepthMm = 1000, FromMm = 200, Seconds = 5 },
            (b, x) => At(b, Stage.Finished, Rig.Rigged, (s, scratch) => s.FallOf(s.Model.Weigh(x, scratch), x)?.Rate ?? double.NaN)),
    };

    public static TheoryData<string> Names => [.. Instruments.Keys];

    /// <summary>
    /// Over truths as the prior has them: squared errors of what is believed fall, what is believed narrows, and the errors
    /// left are as large as is said of them.
    /// </summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void An_instrument_alone_moves_belief_toward_the_truth_and_narrows_it(string name)
    {
        (string lure, LogReading reading, Truth of) = Instruments[name];
        var build = new BuildModel(Lures.Demo(lure), mesh: Simulation.Mesh);
        int truths = Tier.Count(6, 12, 60), n = build.Unknowns.Count, counted = 0;
        double before = 0, after = 0, score = 0, wide = 0, narrow = 0;
        double first = of(build, new double[n]);
        for (int seed = 0; seed < truths; seed++)
        {
            double[] xi = Simulation.Truth(build, 300 + seed, 1);
            double truth = of(build, xi);
            TubLog log = Simulation.Log(build, [reading], xi, 300 + seed, 1);
            if (!double.IsFinite(truth) || log.Readings[0].Seconds >= Observations.ForEver) continue;
            Belief belief = Knowing.Learn(build, log);
            double believed = of(build, belief.Mean[..n]);
            double sd = Spread(build, belief, of), prior = Spread(build, Belief.Prior(belief.Unknowns), of);
            if (!double.IsFinite(believed)) continue;
            (counted, before, after) = (counted + 1, before + Squared(first - truth), after + Squared(believed - truth));
            (score, wide, narrow) = (score + Squared((believed - truth) / sd), wide + prior, narrow + sd);
        }
        Say($"{name}: {counted} truths; error {Math.Sqrt(before / counted):G3} to {Math.Sqrt(after / counted):G3}, believed ±{wide / counted:G3} to ±{narrow / counted:G3}; errors over what is believed {Math.Sqrt(score / counted):F2}");
        Assert.True(counted >= truths / 2);
        Assert.True(after < before, "no nearer to the truth");
        Assert.True(narrow < wide, "no narrower");
    }

    private static double Squared(double v) => v * v;

    private static double Spread(BuildModel build, Belief belief, Truth of)
    {
        int n = build.Unknowns.Count;
        double[] at = [.. belief.Mean];
        return belief.Spread(Propagation.Gradient(x => of(build, x[..n].ToArray()), at, n));
    }
}
