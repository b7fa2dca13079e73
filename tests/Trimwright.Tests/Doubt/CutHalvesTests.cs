using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Doubt;

/// <summary>Halves weighed after cutting: what the ledger cuts is gone from them, and what is gone besides is filler to come.</summary>
public class CutHalvesTests
{
    private static readonly LureDesign Lure = Lures.Demo("tidegate-185");

    private static LogReading Of(ReadingKind kind) => new() { Kind = kind, Stage = Stage.Blank, RightG = 0, LeftG = 0 };

    private static readonly LogReading[] Both = [Of(ReadingKind.Halves), Of(ReadingKind.CutHalves)];

    private static double[] With(BuildModel build, double filler)
    {
        var xi = new double[build.Unknowns.Count];
        xi[Unknowns.Filler] = filler;
        return xi;
    }

    [Fact]
    public void As_drawn_the_halves_lose_by_cutting_what_the_ledger_cuts_for_pockets_and_slots()
    {
        foreach (LureDesign lure in Lures.Demos)
        {
            var build = new BuildModel(lure, mesh: Simulation.Mesh);
            LogReading[] read = [.. Simulation.Log(build, Both, With(build, 0), 1, width: 0).Readings];
            double lost = read[0].RightG!.Value + read[0].LeftG!.Value - read[1].RightG!.Value - read[1].LeftG!.Value;
            WeightLedger dry = Bookkeeper.Of(lure, Stage.DryFit, Rig.Bare, 1e-3, Core.Shape.MeshSize.Live);
            double cut = -dry.Parts.Where(p => p.Kind is PartKind.WoodForWeight or PartKind.WoodForWire or PartKind.OpenSlot).Sum(p => p.Mass);
            Assert.True(cut > 0.5);
            Assert.Equal(cut, lost, 1e-9);
            // All of it lies in the middle, so each half loses as much.
            if (lure.Ballast.All(p => p.AtMm[1] == 0)) Assert.Equal(read[0].RightG!.Value - read[1].RightG!.Value, cut / 2, 1e-9);
        }
    }

    [Theory]
    [InlineData("ball", "x")]
    [InlineData("rod", "x")]
    [InlineData("rod", "y")]
    [InlineData("rod", "z")]
    [InlineData("strip", "x")]
    public void A_pocket_off_the_middle_takes_of_each_half_what_points_drawn_in_it_say(string form, string axis)
    {
        var random = new Random(5);
        BallastForm kind = BallastForm.All.Single(f => f.Word == form);
        Core.Shape.Axis along = Enum.Parse<Core.Shape.Axis>(axis.ToUpperInvariant());
        for (int i = 0; i < 6; i++)
        {
            var piece = new BallastPiece
            {
                Name = "p", Form = kind, Axis = along, DiameterMm = 8, LengthMm = 12, WidthMm = 7, ThicknessMm = 3, AtMm = [50, 6 * random.NextDouble() - 3, 0], ClearanceMm = 0.5,
            };
            int right = 0, all = 0;
            while (all < 40_000)
            {
                double x = 8 * random.NextDouble() - 4, y = 8 * random.NextDouble() - 4, z = 8 * random.NextDouble() - 4;
                double across = form == "ball" ? x * x + y * y + z * z : axis == "x" ? y * y + z * z : axis == "y" ? 0 : x * x + y * y;
                if (form != "strip" && across > 16) continue;
                // The unit of y is its own half extent.
                all++;
                if (y / 4 > -2 * piece.AtMm[1] / (piece.Box.Y + 0.5)) right++;
            }
            Assert.Equal((double)right / all, piece.RightShare, 0.012);
        }
    }

    [Theory]
    [InlineData(-1.5)]
    [InlineData(2)]
    public void Wood_cut_too_wide_is_believed_and_will_be_filler(double off)
    {
        var build = new BuildModel(Lure, mesh: Simulation.Mesh);
        double[] xi = With(build, off);
        TubLog log = Simulation.Log(build, Both, xi, 1, width: 0);
        Belief before = Belief.Prior(build.Unknowns.All), only = Knowing.Learn(build, log with { Readings = [log.Readings[0]] }), after = Knowing.Learn(build, log);
        TestContext.Current.TestOutputHelper?.WriteLine($"filler {off}: believed {after.Mean[Unknowns.Filler]:F2} ± {Math.Sqrt(after.Covariance[Unknowns.Filler, Unknowns.Filler]):F2}");
        Assert.Equal(0, only.Mean[Unknowns.Filler], 0.01);
        Assert.InRange(after.Mean[Unknowns.Filler] / off, 0.3, 1.05);
        Assert.True(after.Covariance[Unknowns.Filler, Unknowns.Filler] < 0.8 * before.Covariance[Unknowns.Filler, Unknowns.Filler]);
    }

    /// <summary>Only where a reading tells of cuts: filler beyond the planned takes the place of wood, at every stage from the dry-fit on.</summary>
    [Theory]
    [InlineData(Stage.Blank, 0, 0)]
    [InlineData(Stage.DryFit, 0, 1)]
    [InlineData(Stage.Glued, 1, 1)]
    [InlineData(Stage.Finished, 1, 1)]
    public void Filler_beyond_the_planned_comes_with_wood_gone_where_a_reading_tells_of_cuts(Stage stage, int filled, int gone)
    {
        var build = new BuildModel(Lure, mesh: Simulation.Mesh);
        BuildModel told = build.For(new TubLog { Name = "l", Readings = [Of(ReadingKind.CutHalves)] });
        Assert.Same(build, build.For(new TubLog { Name = "l", Readings = [Of(ReadingKind.Halves)] }));
        double Weight(BuildModel model, double filler)
        {
            Sitting sitting = model.In(new Circumstances(stage, Rig.Bare, WaterState.Tap));
            return sitting.Model.Weigh(With(model, filler), sitting.Rent()).Weight;
        }
        double room = build.Gaps.Mass / build.FillerDensity, factor = build.Unknowns[Unknowns.Filler].At(1) - 1;
        double wood = Core.Quantities.Units.FromGramsPerCm3(Lure.Wood.DensityGPerCm3);
        Assert.Equal(filled * build.Gaps.Mass * factor, Weight(build, 1) - Weight(build, 0), 1e-6);
        Assert.Equal(filled * build.Gaps.Mass * factor - gone * wood * room * factor, Weight(told, 1) - Weight(told, 0), 1e-3);
        Assert.Equal(Weight(build, 0), Weight(told, 0), 1e-12);
    }
}
