using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Box;

/// <summary>What follows from what was measured: densities from boards and bars, weights from forms, and whose word it is.</summary>
public class BoxDensityTests
{
    private static Board Board(double length, double width, double thickness, double mass) =>
        new() { LengthMm = length, WidthMm = width, ThicknessMm = thickness, MassG = mass };

    [Fact]
    public void Two_boards_200_by_45_by_18_give_their_density_from_size_and_weight()
    {
        // 162 cm³ each; 60 + 66 g in 324 cm³. By hand.
        var wood = new BoxWood { Id = "w", Name = "w", DensityGPerCm3 = 0.5, Source = Source.Published, Boards = [Board(200, 45, 18, 60), Board(200, 45, 18, 66)] };
        Assert.Equal(162, wood.Boards[0].VolumeCm3, 1e-12);
        Assert.Equal(126.0 / 324, wood.Density.Value, 1e-12);
        Assert.Equal(Source.Measured, wood.Density.Source);
        // Two values differ by 6/162; the sample standard deviation of two is their difference over √2.
        Assert.Equal(6.0 / 162 / Math.Sqrt(2), wood.Scatter!.Value, 1e-12);
        Assert.Equal(60.0 / 162, wood.Boards[0].DensityGPerCm3, 1e-12);
    }

    [Fact]
    public void The_density_of_boards_of_unequal_size_is_that_of_all_of_them_glued_into_one()
    {
        var random = new Random(3);
        for (int i = 0; i < 200; i++)
        {
            double Between(double low, double high) => low + (high - low) * random.NextDouble();
            double width = Between(20, 80), thickness = Between(8, 30), density = Between(0.1, 1);
            double[] lengths = [Between(50, 400), Between(50, 400), Between(50, 400)];
            // Boards of one density have that density and no scatter, whatever their sizes.
            var same = new BoxWood { Id = "w", Name = "w", Boards = [.. lengths.Select(l => Board(l, width, thickness, density * l * width * thickness / 1000))] };
            Assert.Equal(density, same.Density.Value, 1e-12);
            Assert.Equal(0, same.Scatter!.Value, 1e-12);
            // Boards of one section end to end are one board.
            double[] masses = [.. lengths.Select(l => l * Between(0.05, 0.4))];
            var some = new BoxWood { Id = "w", Name = "w", Boards = [.. lengths.Zip(masses, (l, m) => Board(l, width, thickness, m))] };
            Assert.Equal(Board(lengths.Sum(), width, thickness, masses.Sum()).DensityGPerCm3, some.Density.Value, 1e-12);
        }
    }

    [Fact]
    public void A_wood_without_boards_has_the_tables_density_and_one_board_tells_no_scatter()
    {
        var table = new BoxWood { Id = "w", Name = "teak", DensityGPerCm3 = 0.675, Source = Source.Published };
        Assert.Equal(new Flagged(0.675, Source.Published), table.Density);
        Assert.Null(table.Scatter);
        Assert.Null((table with { Boards = [Board(100, 40, 20, 50)] }).Scatter);
        Assert.Equal(0.03, (table with { DensitySdGPerCm3 = 0.03 }).In(new WoodDesign { DensityGPerCm3 = 1 }).DensitySdGPerCm3);
    }

    [Theory]
    [InlineData("rod", 8, 18, 0, 0, 0, 904.7787)] // π/4·64·18
    [InlineData("plug", 10, 10, 0, 0, 0, 785.3982)] // π/4·100·10
    [InlineData("ball", 8, 0, 0, 0, 0, 268.0826)] // π/6·512
    [InlineData("barrel", 12, 12.2, 0, 0, 2.2, 1333.4113)] // π/4·(144 − 4.84)·12.2
    [InlineData("strip", 0, 30, 8, 1.8, 0, 432)] // 30·8·1.8
    public void A_weight_weighs_what_its_form_and_density_say_unless_it_was_weighed(
        string word, double diameter, double length, double width, double thickness, double bore, double volume)
    {
        var weight = new BoxWeight
        {
            Id = "w", Name = "w", Kind = BallastForm.All.Single(f => f.Word == word), IsLead = true, DiameterMm = diameter, LengthMm = length, WidthMm = width, ThicknessMm = thickness,
            BoreMm = bore, DensityGPerCm3 = 11.34, Published = ["density_g_cm3"],
        };
        Assert.Equal(11.34e-3 * volume, weight.Mass.Value, 1e-5);
        Assert.Equal(Source.Published, weight.Mass.Source);
        BoxWeight weighed = weight with { MassG = 9.9, Measured = ["mass_g"] };
        Assert.Equal(new Flagged(9.9, Source.Measured), weighed.Mass);
        Assert.Equal(9.9, weighed.Piece(Axis.Y, [80, 0, -5]).Mass);
    }

    [Fact]
    public void Stock_that_was_weighed_gives_its_density_and_what_is_cut_adds_up_to_the_whole()
    {
        MakersBox box = SampleBoxes.Sound(SampleBoxes.DemoFile);
        var bar = (BoxStock)box.Find("lead-bar-8")!;
        // 348 g of a bar 8 × 620 mm: 31 164.6 mm³.
        Assert.Equal(348 / 31.1646, bar.Density.Value, 1e-4);
        Assert.Equal(348, 31 * bar.Cut(20, Axis.X, [0, 0, 0]).Mass, 1e-9);
        var sheet = (BoxStock)box.Find("roof-lead")!;
        Assert.Equal(851, 10 * 14 * sheet.Cut(30, Axis.X, [0, 0, 0], widthMm: 10).Mass, 1e-9);
        Assert.Equal(BallastForm.Strip, sheet.Cut(30, Axis.X, [0, 0, 0], 10).Form);
    }

    [Fact]
    public void Stock_is_cut_in_its_steps_and_never_longer_than_it_is()
    {
        var bar = new BoxStock { Id = "s", Name = "s", IsLead = true, DiameterMm = 8, DensityGPerCm3 = 11.3, LengthMm = 40.2 };
        Assert.Equal(0.5, bar.StepMm);
        Assert.Equal(18.5, bar.Cuttable(18.4));
        Assert.Equal(0.5, bar.Cuttable(0.01));
        Assert.Equal(40, bar.Cuttable(500));
        Assert.Equal(500, (bar with { LengthMm = null }).Cuttable(500.2));
        Assert.Equal(0.3, (bar with { StepMm = 0.1, LengthMm = 0.3 }).Cuttable(7), 1e-12);
    }

    [Fact]
    public void With_no_lead_no_plan_gets_lead_and_used_up_pieces_are_no_longer_offered()
    {
        MakersBox box = SampleBoxes.Sound(SampleBoxes.DemoFile);
        int all = box.UsableWeights.Count();
        MakersBox free = box with { NoLead = true };
        Assert.Equal(box.Weights.Length, all);
        Assert.NotEmpty(free.UsableWeights);
        Assert.DoesNotContain(free.UsableWeights, w => w.IsLead);
        Assert.DoesNotContain(free.UsableStock, s => s.IsLead);
        Assert.NotEmpty(free.UsableStock);
        Assert.Equal(all - 1, (box with { Weights = box.Weights.SetItem(0, box.Weights[0] with { Count = 0 }) }).UsableWeights.Count());
    }

    [Fact]
    public void A_number_carries_its_own_source_before_its_items()
    {
        MakersBox box = SampleBoxes.Read(SampleBoxes.Everything()).Value!;
        BoxHook hook = box.Hooks[0];
        Assert.Equal(new Flagged(9.5, Source.Measured), hook.Told("mass_g"));
        Assert.Equal(new Flagged(70, Source.Published), hook.Told("strength_kg"));
        Assert.Null(box.Hooks[1].Told("strength_kg"));
        Assert.Equal(Source.Typical, box.Hooks[1].SourceOf("mass_g"));
    }

    [Fact]
    public void Points_and_spurs_go_beyond_the_hole()
    {
        MakersBox box = SampleBoxes.Read(SampleBoxes.Everything()).Value!;
        Assert.Equal(2.4, box.Cutters[0].BeyondMm(10));
        Assert.Equal(3, (box.Cutters[0] with { SpurMm = null }).BeyondMm(10));
        // A drill's point of 118°: half its diameter over tan 59°.
        Assert.Equal(2.5 / Math.Tan(59 * Math.PI / 180), box.Cutters[1].BeyondMm(5), 0.01);
        Assert.Equal(0, box.Cutters[2].BeyondMm(8));
    }

    [Fact]
    public void What_a_design_takes_from_the_box_is_a_sound_design()
    {
        MakersBox box = SampleBoxes.Sound(SampleBoxes.DemoFile);
        LureDesign lure = Lures.Demo("tidegate-185");
        var rod = (BoxWeight)box.Find("lead-rod-8x18")!;
        LureDesign built = lure with
        {
            Wood = box.Woods[0].In(lure.Wood),
            Ballast = [rod.Piece(Axis.X, lure.Ballast[0].AtMm)],
            Finish = [box.Finishes[1].ForDesign(2)],
            Hardware = [.. lure.Wire!.Hangers.Take(1).SelectMany(h => new[] { box.Rings[1].Hanging(h.Name), box.Hooks[2].Hanging(h.Name) })],
            Leader = box.Leaders[1].ForDesign(200),
        };
        Reading<LureDesign> reading = LureFile.Read(LureFile.Write(built));
        Assert.True(reading.IsSound, string.Join("; ", reading.Faults));
        Assert.Equal(10.15, reading.Value!.Ballast[0].Mass);
    }
}
