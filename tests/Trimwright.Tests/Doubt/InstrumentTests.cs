using MathNet.Numerics.LinearAlgebra;
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

    private static T At<T>(BuildModel build, Stage stage, Rig rig, Func<Sitting, StageShape.Scratch, T> of)
    {
        Sitting sitting = build.In(new Circumstances(stage, rig, WaterState.Tap));
        StageShape.Scratch scratch = sitting.Rent();
        T found = of(sitting, scratch);
        sitting.Return(scratch);
        return found;
    }

    private static Truth Weighed(Stage stage, Func<Weighed, double, double> of) => (b, x) => At(b, stage, Rig.Bare, (s, scratch) => of(s.Model.Weigh(x, scratch), s.Model.Water));

    private static Truth Lies(Rig rig, Func<Posture, double> of, Extra taped = default) => (b, x) => At(b, Stage.DryFit, rig, (s, scratch) => of(s.Posed(x, scratch, taped, null)));

    private static Truth Girth(Func<(double Right, double Left, double Height), double> of) => (b, x) => At(b, Stage.Blank, Rig.Bare, (s, scratch) =>
    {
        s.Model.Weigh(x, scratch);
        return of(Calipers.Girth(scratch.Skin, 80));
    });

    private static readonly LureDesign Sinker = Lures.Demo("tidegate-185"), Stands = Lures.Demo("mooring-post-210");

    // Its lead at the nose: the tail comes out.
    private static readonly LureDesign OnItsNose = Stands with { Ballast = [Stands.Ballast[0] with { AtMm = [40, 0, 0] }] };

    private static readonly int Belly = Sinker.Hardware.Index().First(h => h.Item is { Name: "treble 3/0", HangsFrom: "belly" }).Index;

    private static readonly LogReading Tub = Of(ReadingKind.Tub, Stage.DryFit), Caliper = Of(ReadingKind.Caliper, Stage.Blank) with { XMm = 80 };

    /// <summary>The reading with its numbers still empty, the lure, and what it should tell of it.</summary>
    private static readonly Dictionary<string, (LureDesign Lure, LogReading Reading, Truth Of)> Instruments = new()
    {
        ["boards"] = (Sinker, Of(ReadingKind.Boards, Stage.Blank) with { SizeMm = [200, 45, 36], MassG = 160 }, (b, x) => b.Unknowns[Unknowns.Density].At(x[Unknowns.Density])),
        ["part"] = (Sinker, Of(ReadingKind.Part, Stage.Blank) with { Part = "treble 3/0 at belly", MassG = 0 }, (b, x) => b.Unknowns[b.Unknowns.Hardware(Belly)].At(x[b.Unknowns.Hardware(Belly)])),
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
        ["inclining"] = (Sinker, Of(ReadingKind.Inclining, Stage.DryFit) with { MassG = 8, XMm = 150, ZMm = 15, TurnedDeg = 0 },
            (b, x) => Lies(Rig.Bare, p => p.Trim, new Extra(8, 8 / 11.3e-3, new Vec3(150, 0, 15), 0, 0))(b, x) - Lies(Rig.Bare, p => p.Trim)(b, x)),
        ["tub, trim, bare"] = (Sinker, Tub with { TrimDeg = 0 }, Lies(Rig.Bare, p => p.Trim)),
        ["tub, trim, with stand-ins"] = (Stands, Tub with { Rig = Rig.StandIns, TrimDeg = 0 }, Lies(Rig.StandIns, p => p.Trim)),
        ["tub, trim, rigged"] = (Stands, Tub with { Rig = Rig.Rigged, TrimDeg = 0 }, Lies(Rig.Rigged, p => p.Trim)),
        ["tub, nose out"] = (Stands, Tub with { Rig = Rig.StandIns, NoseOutMm = 0 }, Lies(Rig.StandIns, p => p.NoseShowsAlong)),
        ["tub, tail out"] = (OnItsNose, Tub with { TailOutMm = 0 }, Lies(Rig.Bare, p => p.TailShowsAlong)),
        ["tub, waterline on the back"] = (Stands, Tub with { Rig = Rig.StandIns, WaterlineBackMm = 0 }, Lies(Rig.StandIns, p => p.WaterlineBack ?? 0)),
        ["tub, waterline on the belly"] = (Stands, Tub with { Rig = Rig.StandIns, WaterlineBellyMm = 0 }, Lies(Rig.StandIns, p => p.WaterlineBelly ?? 0)),
        ["tub, back proud"] = (Sinker, Tub with { BackProudMm = 0 }, Lies(Rig.Bare, p => p.BackProud)),
        ["drop"] = (Sinker, Of(ReadingKind.Drop, Stage.Finished, Rig.Rigged) with { DepthMm = 1000, FromMm = 200, Seconds = 5 },
            (b, x) => At(b, Stage.Finished, Rig.Rigged, (s, scratch) => s.Model.Weigh(x, scratch).Spare(s.Model.Water))),
    };

    public static TheoryData<string> Names => [.. Instruments.Keys];

    /// <summary>
    /// A truth two standard deviations off in just what the instrument tells, to either side, read without error: what is
    /// believed goes to it, not past it, and is surer than before.
    /// </summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void An_instrument_alone_moves_belief_toward_the_truth_and_narrows_it(string name)
    {
        (LureDesign lure, LogReading reading, Truth of) = Instruments[name];
        var build = new BuildModel(lure, mesh: Simulation.Mesh);
        int n = build.Unknowns.Count;
        int draws = Tier.Count(60, 200, 1000);
        double first = of(build, new double[n]), prior = Spread(Cloud.Of(Belief.Prior(build.Unknowns.All), [], draws, 1), build, of);
        Vector<double> slope = Slope(build, new double[n], of);
        int told = 0;
        // Two deviations heavier than drawn it has no steady fall to time; one is enough.
        double far = reading.Kind == ReadingKind.Drop ? 1 : 2;
        foreach (double off in new[] { -far, far })
        {
            double[] xi = [.. slope.Select(s => off * s / slope.L2Norm())];
            double truth = of(build, xi);
            TubLog log = Simulation.Log(build, [reading], xi, 1, width: 0);
            // What floats is not dropped.
            if (log.Readings[0].Seconds >= Observations.ForEver) continue;
            Update update = Update.Of(new Observations(build, log));
            double believed = of(build, update.Belief.Mean[..n]), gone = (believed - first) / (truth - first);
            double sd = Spread(Cloud.Of(update.Belief, update.Used, draws, 1), build, of);
            Say($"{name}: truth {truth:G5}, drawn {first:G5}, believed {believed:G5} ({gone:P0} of the way), ±{prior:G3} to ±{sd:G3}; {update.Misfits.Length} flagged");
            Assert.InRange(gone, 0.02, 1.1);
            Assert.True(sd < prior, "no narrower");
            told++;
        }
        Assert.True(told > 0);
    }

    private static double Spread(Cloud cloud, BuildModel build, Truth of)
    {
        double[] all = [.. cloud.Builds.Select(x => of(build, x[..build.Unknowns.Count])).Where(double.IsFinite)];
        double mean = all.Average();
        return Math.Sqrt(all.Average(v => (v - mean) * (v - mean)));
    }

    /// <summary>Over truths as the prior has them, with the instruments' noise: errors left are as large as is said of them.</summary>
    [Fact]
    public void Errors_left_after_one_reading_are_as_large_as_is_said()
    {
        if (!Tier.IsCi) Assert.Skip("half a minute's work; runs in CI");
        int truths = Tier.Count(4, 4, 40);
        var all = new List<double>();
        foreach ((int k, string name) in Instruments.Keys.Index())
        {
            (LureDesign lure, LogReading reading, Truth of) = Instruments[name];
            var build = new BuildModel(lure, mesh: Simulation.Mesh);
            double[] scores = [.. Enumerable.Range(0, truths).AsParallel().AsOrdered().Select(seed =>
            {
                double[] xi = Simulation.Truth(build, 100 * k + seed, 1);
                TubLog log = Simulation.Log(build, [reading], xi, 100 * k + seed, 1);
                double truth = log.Readings[0].Seconds >= Observations.ForEver ? double.NaN : of(build, xi);
                Update update = Update.Of(new Observations(build, log));
                double[] drawn = [.. Cloud.Of(update.Belief, update.Used, 200, seed).Builds.Select(x => of(build, x[..build.Unknowns.Count])).Where(double.IsFinite)];
                return double.IsFinite(truth) && drawn.Length > 100 ? (drawn.Count(v => v < truth) + 0.5) / (drawn.Length + 1) : double.NaN;
            }).Where(double.IsFinite)];
            Say($"{name}: {scores.Length} truths, within 80 %: {scores.Count(p => p is > 0.1 and < 0.9)}");
            all.AddRange(scores);
        }
        double within = all.Average(p => p is > 0.1 and < 0.9 ? 1.0 : 0), noise = 3 * Math.Sqrt(0.8 * 0.2 / all.Count);
        Say($"together: {within:P1} of {all.Count} within 80 %, give or take {noise / 3:P1}");
        Assert.InRange(within, 0.8 - noise, 0.8 + noise);
    }

    private static Vector<double> Slope(BuildModel build, double[] at, Truth of) => Propagation.Gradient(x => of(build, x[..build.Unknowns.Count].ToArray()), at, build.Unknowns.Count);

    private static LogReading Wet(UnderWaterWay way) => Of(ReadingKind.UnderWater, Stage.Blank) with { Way = way, SinkerG = way == UnderWaterWay.Sinker ? 300 : null, WithLureG = way == UnderWaterWay.Sinker ? 0 : null, ReadingG = way == UnderWaterWay.Jar ? 0 : null };

    /// <summary>A jar weighs the volume, a sinker the volume less the weight: with the lure weighed in air they say the same.</summary>
    [Fact]
    public void Jar_and_sinker_agree_to_their_errors()
    {
        var build = new BuildModel(Sinker, mesh: Simulation.Mesh);
        Truth spare = Weighed(Stage.Blank, (w, water) => w.Spare(water));
        int truths = Tier.Count(6, 40, 200);
        double sum = 0;
        for (int seed = 0; seed < truths; seed++)
        {
            double[] xi = Simulation.Truth(build, 700 + seed, 1);
            (double Believed, double Sd) By(UnderWaterWay way)
            {
                Belief belief = Knowing.Learn(build, Simulation.Log(build, [Of(ReadingKind.Weight, Stage.Blank) with { MassG = 0 }, Wet(way)], xi, 700 + seed + (int)way * 5000, 1));
                return (spare(build, belief.Mean[..build.Unknowns.Count]), belief.Spread(Slope(build, belief.Mean, spare)));
            }
            ((double jar, double jarSd), (double sinker, double sinkerSd)) = (By(UnderWaterWay.Jar), By(UnderWaterWay.Sinker));
            double apart = (jar - sinker) / Math.Sqrt(jarSd * jarSd + sinkerSd * sinkerSd);
            sum += apart * apart;
            Assert.InRange(apart, -4, 4);
            if (seed < 3) Say($"jar {jar:F2} ± {jarSd:F2} g, sinker {sinker:F2} ± {sinkerSd:F2} g, truth {spare(build, xi):F2} g");
        }
        Say($"over {truths} truths they lie {Math.Sqrt(sum / truths):F2} of their errors apart");
        Assert.InRange(Math.Sqrt(sum / truths), 0.3, 1.4);
    }

    /// <summary>Raw wood that drinks 1.6 g while it is weighed: weighed before and after, it says so, and half of it is taken off.</summary>
    [Theory]
    [InlineData(UnderWaterWay.Sinker)]
    [InlineData(UnderWaterWay.Jar)]
    public void Water_drunk_while_it_was_weighed_is_taken_off_again(UnderWaterWay way)
    {
        var build = new BuildModel(Sinker, mesh: Simulation.Mesh);
        double[] xi = Simulation.Truth(build, 21, 1);
        Truth spare = Weighed(Stage.Blank, (w, water) => w.Spare(water));
        const double Drunk = 1.6, ByThen = 0.7;
        TubLog dry = Simulation.Log(build, [Of(ReadingKind.Weight, Stage.Blank) with { MassG = 0 }, Wet(way)], xi, 3, width: 0);
        LogReading under = dry.Readings[1];
        // At the scale's reading it had drunk seven tenths of it: that much less to spare, and gone from the jar.
        LogReading wet = under with { WithLureG = under.WithLureG + ByThen * Drunk, ReadingG = under.ReadingG - ByThen * Drunk };
        (double Error, double Sd) After(LogReading reading)
        {
            Belief belief = Knowing.Learn(build, dry with { Readings = [dry.Readings[0], reading] });
            return (spare(build, belief.Mean[..build.Unknowns.Count]) - spare(build, xi), belief.Spread(Slope(build, belief.Mean, spare)));
        }
        (double blind, double blindSd) = After(wet);
        (double told, double toldSd) = After(wet with { BeforeG = 45, AfterG = 45 + Drunk });
        Say($"{way}: not said, {blind:F2} g off ± {blindSd:F2}; weighed before and after, {told:F2} g off ± {toldSd:F2}");
        Assert.True(Math.Abs(blind) > 5 * blindSd);
        Assert.True(Math.Abs(told) < 1.5 * toldSd);
        Assert.True(Math.Abs(told) < Math.Abs(blind) / 2);
    }

    /// <summary>Two days under water tell of the seal, not of the build.</summary>
    [Theory]
    [InlineData(0.2, 0)]
    [InlineData(1.8, 1)]
    public void A_soak_flags_a_leak_and_nothing_else(double taken, int flags)
    {
        var build = new BuildModel(Sinker, mesh: Simulation.Mesh);
        var log = new TubLog { Name = "soaked", Readings = [Of(ReadingKind.Soak, Stage.Finished) with { BeforeG = 90, AfterG = 90 + taken }] };
        Knowing knowing = Knowing.Of(build, log, Circumstances.InTheSea, count: 50);
        Assert.Equal(flags, knowing.Flags.Length);
        Assert.All(knowing.Flags, f => Assert.Equal(SuspectKind.Leak, f.Suspects[0].Kind));
        Assert.All(knowing.Belief.Mean, m => Assert.Equal(0, m));
    }
}
