using Trimwright.Core;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Finish;

/// <summary>A plan says of each step what the prediction of its stage says, for any lure.</summary>
public class BuildPlanTests
{
    private static double Weight(LureDesign design, Stage stage, Rig rig = Rig.Bare, bool sea = false) =>
        Prediction.Of(design, new Circumstances(stage, rig, sea ? WaterState.Ocean : WaterState.Tap) { Mesh = MeshSize.Coarse }).Ledger.Weight;

    [Fact]
    public void Every_weight_to_expect_is_the_prediction_s_less_what_is_cut_early()
    {
        int weighings = 0, before = 0, coats = 0, eyes = 0;
        for (int seed = 0; seed < Tier.Count(24, 500); seed++)
        {
            var random = new Random(seed);
            MakersBox? box = Plans.Box(random);
            LureDesign design = Plans.Named(RandomLures.Of(seed).Design, box, random);
            bool early = random.Next(2) == 0;
            BuildPlan plan = BuildPlan.Of(design, box, Plans.Quick with { PocketsBefore = early });
            double pockets = early ? -design.Ballast.Sum(p => p.Pocket) * Wood(design) : 0;
            double sockets = design.Eyes is { } e ? -Wood(design) * 2 * Solids.Cylinder(e.DiameterMm, e.ThicknessMm) : 0;
            foreach (Weighing weighing in plan.Steps.SelectMany(s => s.Weighings))
            {
                double? expected = weighing.Point switch
                {
                    WeighPoint.Blank => Weight(design, Stage.Blank) + pockets,
                    WeighPoint.DryFit => Weight(design, Stage.DryFit),
                    WeighPoint.Glued => Weight(design, Stage.Glued),
                    WeighPoint.Sealed => Weight(design, Stage.Sealed) + sockets,
                    WeighPoint.Coat or WeighPoint.Eyes when weighing.Stage == Stage.Finished => Weight(design, Stage.Finished),
                    WeighPoint.Rigged => Weight(design, Stage.Finished, Rig.Rigged, sea: true),
                    WeighPoint.Wire => Bookkeeper.Of(design, Stage.DryFit, Rig.Bare, 0.001, MeshSize.Coarse).Parts.Where(p => p.Kind is PartKind.Wire or PartKind.Captive).Sum(p => p.Mass)
                        + design.Ballast.Where(p => p.OnWire).Sum(p => p.Mass),
                    _ => null,
                };
                if (expected is not { } value) continue;
                weighings++;
                Assert.True(Math.Abs(value - weighing.Expected) < 1e-7 * Math.Max(1, value), $"draw {seed}, {weighing.Point}: {weighing.Expected} where the prediction says {value}");
            }
            before += early && design.Ballast.Length > 0 ? 1 : 0;
            coats += design.Finish.Sum(c => c.Coats);
            eyes += design.Eyes is null ? 0 : 1;
            InOrder(plan, seed);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{weighings} weighings compared; {before} lures with pockets cut first, {coats} coats, {eyes} pairs of eyes");
        Assert.True(before > 3 && coats > 20 && eyes > 3);
    }

    [Fact]
    public void Calipers_are_set_where_the_sheets_have_marks()
    {
        foreach (double step in (double[])[Stations.Centimetre, Stations.HalfInch])
            for (int seed = 0; seed < Tier.Count(24, 200); seed++)
            {
                LureDesign design = RandomLures.Of(seed).Design;
                double[] marks = [.. Stations.Even(design.Body.Surface(), step)];
                RoundStep round = BuildPlan.Of(design, null, Plans.Quick with { StationStep = step }).Steps.OfType<RoundStep>().Single();
                Assert.NotEmpty(round.Calipers);
                Assert.True(marks.Length == 0 || round.Calipers.All(c => marks.Contains(c.X)),
                    $"draw {seed}: {string.Join(", ", round.Calipers.Select(c => c.X))} where the sheets mark {string.Join(", ", marks)}");
            }
    }

    private static double Wood(LureDesign design)
    {
        // The ledger's own mean density: weighed halves outrank the file's.
        Part[] parts = [.. Bookkeeper.Of(design, Stage.Finished, Rig.Bare, 0.001, MeshSize.Coarse).Parts];
        if (design.Halves is not { RightG: { } right, LeftG: { } left }) return Units.FromGramsPerCm3(design.Wood.DensityGPerCm3);
        return (right + left) / parts.Where(p => p.Kind is PartKind.CarvedWood or PartKind.PartedWood).Sum(p => p.Displaces);
    }

    private static void InOrder(BuildPlan plan, int seed)
    {
        string kinds = string.Join(' ', plan.Steps.Select(s => s.GetType().Name));
        int At<T>() => Array.FindIndex([.. plan.Steps], s => s is T);
        Assert.IsType<BoardsStep>(plan.Steps[0]);
        Assert.IsType<FishStep>(plan.Steps[^1]);
        if (At<GlueStep>() < 0) return;
        Assert.True(At<DryFitStep>() < At<GateStep>() && At<GateStep>() + 1 == At<GlueStep>(), $"draw {seed}: {kinds}");
        Assert.True(At<SealStep>() > At<GlueStep>() && At<SoakStep>() > At<SealStep>(), kinds);
        if (At<WeightsStep>() >= 0) Assert.True(At<WeightsStep>() < At<DryFitStep>() && (At<WireStep>() < 0 || At<WeightsStep>() < At<WireStep>()), kinds);
        if (At<PocketsStep>() >= 0) Assert.Equal(plan.Conditions.PocketsBefore, At<PocketsStep>() < At<SawStep>());
    }

    [Fact]
    public void Coats_add_up_to_the_ledger_s_lines_and_mixes_hold_them()
    {
        for (int seed = 0; seed < Tier.Count(24, 500); seed++)
        {
            LureDesign design = RandomLures.Of(seed).Design;
            if (design.Finish.IsEmpty) continue;
            BuildPlan plan = BuildPlan.Of(design, null, Plans.Quick);
            Part[] lines = [.. plan.InTheSea.Ledger.Parts.Where(p => p.Group == PartGroup.Coats)];
            CoatStep[] coats = [.. plan.Steps.OfType<CoatStep>()];
            for (int entry = 0; entry < design.Finish.Length; entry++)
            {
                CoatStep[] own = [.. coats.Where(c => c.Film.Entry == entry)];
                Assert.Equal(design.Finish[entry].Coats, own.Length);
                Assert.Equal(lines[entry].Mass, own.Sum(c => c.Film.Mass), 1e-9 * Math.Max(1, lines[entry].Mass));
                // The film is area × dry thickness × density, and so is what the mix dries to.
                foreach (CoatStep coat in own)
                {
                    Assert.Equal(coat.Film.Area * design.Finish[entry].ThicknessMm * design.Finish[entry].DensityGPerCm3 / 1000, coat.Film.Mass, 1e-9);
                    Assert.Equal(coat.Film.Mass, coat.Mix.OnG * coat.Mix.Solids, 1e-9);
                }
            }
        }
    }

    [Fact]
    public void A_film_s_area_is_the_body_s_own()
    {
        // A ball of radius 30: three films of 0.2 mm, each over the sphere of its middle; closed form, 4πr².
        LureDesign ball = Lures.Round(0.5, 60, [.. Enumerable.Range(0, 13).Select(i => 5.0 * i).Select(x => (x, Math.Sqrt(Math.Max(0, x * (60 - x)))))]) with
        {
            Finish = [new Coat { Name = "clear", Coats = 3, ThicknessMm = 0.2 }],
        };
        CoatStep[] coats = [.. BuildPlan.Of(ball, null, new BuildConditions()).Steps.OfType<CoatStep>()];
        for (int i = 0; i < 3; i++)
        {
            double inner = 30 + 0.2 * i, outer = inner + 0.2;
            Assert.Equal(4.0 / 3 * Math.PI * (Math.Pow(outer, 3) - Math.Pow(inner, 3)) / 0.2, coats[i].Film.Area, 0.002 * coats[i].Film.Area);
        }
    }

    [Fact]
    public void Under_water_both_ways_read_the_same_spare_buoyancy_and_the_sinker_sinks()
    {
        foreach (LureDesign design in Lures.Demos)
            foreach (bool early in (bool[])[false, true])
            {
                BuildPlan plan = BuildPlan.Of(design, Plans.Kitchen, new BuildConditions { PocketsBefore = early });
                WeighBlankStep step = plan.Steps.OfType<WeighBlankStep>().Single();
                UnderWater under = step.UnderWater;
                double weight = step.Weighings.Single(w => w.Point == WeighPoint.Blank).Expected;
                Assert.Equal(under.Spare, under.SinkerReads - under.BothRead, 1e-9);
                Assert.Equal(under.Spare, under.JarReads - weight, 1e-9);
                Assert.True(under.BothRead > 0);
                Assert.Equal(early, step.HasPockets);
                if (!early) Assert.Equal(Prediction.Of(design, new Circumstances(Stage.Blank, Rig.Bare, WaterState.Tap)).SpareBuoyancy, under.Spare, 1e-6);
                // A pocket scale stops at 200 g: the jar needs the kitchen's.
                Assert.Equal(("pocket-scale", "kitchen-scale"), (under.SinkerScale!.Id, under.JarScale!.Id));
            }
    }

    [Fact]
    public void Boards_hold_the_body_and_weigh_what_their_size_says()
    {
        for (int seed = 0; seed < Tier.Count(40, 1000); seed++)
        {
            LureDesign design = RandomLures.Of(seed).Design;
            BoardPlan boards = BoardPlan.Of(design, design.Body.Surface(), null);
            SolidProperties solid = SolidProperties.Of(BodyMesh.Of(design.Body.Surface(), MeshSize.Coarse));
            Assert.True(boards.Length >= design.Body.LengthMm + 10);
            double volume = boards.Pieces * boards.Length * boards.Width * boards.Thickness;
            Assert.True(volume > solid.Volume);
            Assert.Equal(volume * boards.Density, boards.Mass, 1e-9);
            double half = Enumerable.Range(0, 301).Max(i => design.Body.Surface().HalfBreadthAt(design.Body.LengthMm * i / 300));
            Assert.True(boards.Thickness * (boards.OneBlock ? 0.5 : 1) >= half, $"draw {seed}");
        }
    }

    [Fact]
    public void Halves_come_from_one_board_where_one_holds_both_else_from_two_that_are_alike()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        BoxWood Wood(params Board[] boards) => new() { Id = "w", Name = design.Wood.Name!, Boards = [.. boards] };
        Board Sized(string name, double length, double grams) => new() { Name = name, LengthMm = length, WidthMm = 45, ThicknessMm = 18, MassG = grams };
        BoardPlan Choose(BoxWood wood) => BoardPlan.Of(design, design.Body.Surface(), new MakersBox { Name = "b", Woods = [wood] });
        Assert.Equal(["long"], Choose(Wood(Sized("a", 210, 90), Sized("long", 430, 180), Sized("b", 210, 91))).Pair.Select(p => p.Name));
        Assert.Equal(["a", "c"], Choose(Wood(Sized("a", 210, 90), Sized("b", 210, 99), Sized("c", 210, 91))).Pair.Select(p => p.Name));
        Assert.Empty(Choose(Wood(Sized("short", 150, 60))).Pair);
    }

    [Fact]
    public void A_pocket_off_the_glue_face_is_deeper_on_its_own_side_by_twice_its_offset()
    {
        BallastPiece piece = Lures.Demo("tidegate-185").Ballast[0];
        Pocket middle = Pocket.Of(piece), off = Pocket.Of(piece with { AtMm = [piece.AtMm[0], 1.5, piece.AtMm[2]] });
        Assert.Equal(middle.Right, middle.Left, 1e-12);
        Assert.Equal(3, off.Right - off.Left, 1e-12);
        Assert.Equal(piece.DiameterMm + 0.5, off.Right + off.Left, 1e-12);
        Assert.Equal(piece.LengthMm + 0.5, off.Along, 1e-12);
    }

    [Fact]
    public void What_it_takes_is_counted_priced_and_only_what_is_short_is_bought()
    {
        MakersBox box = Plans.Kitchen;
        BuildPlan plan = BuildPlan.Of(Lures.Demo("tidegate-185"), box, Plans.Quick);
        ShoppingList list = plan.Shopping;
        Need treble = list.Needs.Single(n => n.Name == "treble 3/0"), eyes = list.Needs.Single(n => n.Name == "eyes"), epoxy = list.Needs.Single(n => n.Name == "clear epoxy");
        Assert.Equal((1, 0, 2.6), (treble.Needed, treble.ToBuy, treble.Cost));
        Assert.Equal((2, 2, (double?)null), (eyes.Needed, eyes.ToBuy, eyes.Cost));
        double mixed = plan.Steps.OfType<CoatStep>().Sum(s => s.Mix.MixedG);
        Assert.Equal((mixed, mixed * 7 / 100), (epoxy.Needed, epoxy.Cost!.Value));
        Assert.Equal(list.Needs.Sum(n => n.Cost ?? 0), list.Materials!.Value, 1e-9);
        Assert.Equal(plan.Hands.TotalHours * 18, list.Labour!.Value, 1e-9);
        Need bar = list.Needs.Single(n => n.Name.Contains("front lead rod", StringComparison.Ordinal));
        Assert.Equal((Counted.Millimetres, 16, "lead-bar-8"), (bar.In, bar.Needed, bar.Item!.Id));
    }

    [Fact]
    public void Damp_or_cold_air_is_told_by_the_dew_point()
    {
        BuildPlan At(double t, double humidity) => BuildPlan.Of(Lures.Demo("slipway-150"), null, Plans.Quick with { TemperatureC = t, Humidity = humidity });
        Assert.False(At(20, 0.5).IsTooDamp);
        Assert.True(At(20, 0.9).IsTooDamp);
        Assert.True(At(20, 0.75) is { IsTooDamp: false, IsDamp: true });
        Assert.Equal(DewPoint.MostHumidity(20) < 0.83 && DewPoint.MostHumidity(20) > 0.82, !At(20, 0.82).IsTooDamp && At(20, 0.84).IsTooDamp);
        Assert.True(At(12, 0.5).IsCold);
    }
}
