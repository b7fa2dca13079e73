using System.Text.Json;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Telling;
using Trimwright.Tests.App;
using Trimwright.Tests.Finish;

namespace Trimwright.Tests.Box;

/// <summary>Boards that were measured and weighed count, for the lure that names their wood by its id, and for no other.</summary>
public class WoodOfBoxTests
{
    private const string Cedar = "western-redcedar";

    // The demo's board of that wood, 250 × 60 × 22, at another weight.
    private static MakersBox Weighing(double grams, string? name = null) => Plans.Kitchen is var box
        ? box with { Woods = [.. box.Woods.Select(w => w.Id != Cedar ? w : w with { Name = name ?? w.Name, Boards = [w.Boards[0] with { MassG = grams }] })] } : null!;

    private static LureDesign Tied(string? id, string? name = null) => Lures.Demo("tidegate-185") is var lure
        ? lure with { Wood = lure.Wood with { BoxId = id, Name = name ?? lure.Wood.Name } } : null!;

    private static PlanMade Plan(LureDesign lure, MakersBox box) => new WhichWeights(lure, box, WantWords.Parse("sinks slowly, level").Want!) { Pockets = 2 }
        .Answer(default(CancellationToken)).Match(found => found, cannot => cannot.Sought!, wrong => throw new InvalidOperationException(wrong.Flaw.Fault.ToString()));

    private static BuildPlan Build(LureDesign lure, MakersBox box) => new HowToBuild(lure, box, Plans.Quick)
        .Answer(default(CancellationToken)).Match(found => found, _ => throw new InvalidOperationException(), wrong => throw new InvalidOperationException(wrong.Flaw.Fault.ToString()));

    [Fact]
    public void A_board_weighed_anew_changes_the_plan_and_the_build_plan()
    {
        const double Board = 250 * 60 * 22 / 1000.0;
        double Wanted(double grams) => Plan(Tied(Cedar), Weighing(grams)).Answer.Target!.Weight;
        double wood = Build(Tied(Cedar), Weighing(114.8)).Steps.OfType<WeighBlankStep>().Single().Weighings[0].Expected;
        double heavier = Build(Tied(Cedar), Weighing(150)).Steps.OfType<WeighBlankStep>().Single().Weighings[0].Expected;
        Assert.Equal(150 / 114.8, heavier / wood, 6);
        // What the wood weighs more, weights have to weigh less: to a gram, for pockets and slots take some of the wood away again.
        double lighter = Wanted(114.8) - Wanted(150);
        Assert.InRange(lighter, heavier - wood - 1, heavier - wood + 0.1);
        PlanMade made = Plan(Tied(Cedar), Weighing(114.8));
        Assert.All(made.Answer.Plans, p => Assert.Equal(114.8 / Board, p.Design.Wood.DensityGPerCm3, 9));
        Assert.All(made.Answer.Plans, p => Assert.Equal(Cedar, p.Design.Wood.BoxId));
    }

    [Fact]
    public void A_name_ties_nothing_and_unties_nothing()
    {
        double Blank(LureDesign lure, MakersBox box) => Build(lure, box).Steps.OfType<WeighBlankStep>().Single().Weighings[0].Expected;
        Assert.Equal(Blank(Tied(null, "western redcedar"), Weighing(114.8)), Blank(Tied(null, "western redcedar"), Weighing(150)));
        Assert.Equal(Blank(Tied(Cedar), Weighing(150)), Blank(Tied(Cedar, "something else"), Weighing(150, "a gatepost")));
        Assert.NotEqual(Blank(Tied(Cedar), Weighing(114.8)), Blank(Tied(Cedar), Weighing(150)));
        // A wood that the box does not have leaves the lure's own density.
        Assert.Equal(Blank(Tied(null), Weighing(150)), Blank(Tied("birch"), Weighing(150)));
    }

    [Fact]
    public void Boards_show_their_scatter_but_no_less_than_two_per_cent_and_a_table_what_the_design_says()
    {
        MakersBox box = Plans.Kitchen;
        WoodDesign In(string id) => box.Cut(Tied(id)).Wood;
        // Two boards 1.2 % apart; the same, one of them 20 % lighter.
        Assert.Equal(0.02 * In("yellow-poplar").DensityGPerCm3, In("yellow-poplar").DensitySdGPerCm3);
        BoxWood poplar = box.Woods.Single(w => w.Id == "yellow-poplar");
        poplar = poplar with { Boards = [poplar.Boards[0], poplar.Boards[1] with { MassG = 0.8 * poplar.Boards[1].MassG }] };
        Assert.Equal(poplar.Scatter, poplar.In(Tied(null).Wood).DensitySdGPerCm3);
        Assert.Equal(0.02 * In(Cedar).DensityGPerCm3, In(Cedar).DensitySdGPerCm3);
        Assert.Equal(Lures.Demo("tidegate-185").Wood.DensitySdGPerCm3, In("spanish-cedar").DensitySdGPerCm3);
        Assert.Equal(0.03, In("paulownia").DensitySdGPerCm3);
    }

    [Fact]
    public void The_command_line_chooses_a_wood_by_its_id()
    {
        double Blank(params string[] more)
        {
            TheProgram.Ran ran = TheProgram.Run(["buildplan", "demo/tidegate-185.lure.json", "--box", "demo/kitchen.box.json", "--json", .. more]);
            Assert.Equal(0, ran.Exit);
            using JsonDocument json = JsonDocument.Parse(ran.Out);
            return json.RootElement.GetProperty("steps").EnumerateArray().SelectMany(s => s.GetProperty("weigh").EnumerateArray())
                .First(w => w.GetProperty("what").GetString() == "blank").GetProperty("expected_g").GetDouble();
        }
        Assert.Equal(0.491 / 0.52, Blank("--wood", "spanish-cedar") / Blank(), 4);
        TheProgram.Ran unknown = TheProgram.Run("plan", "demo/tidegate-185.lure.json", "--box", "demo/kitchen.box.json", "--want", "sinks slowly", "--wood", "Spanish cedar");
        Assert.Equal(2, unknown.Exit);
        Assert.Contains("spanish-cedar", unknown.Said, StringComparison.Ordinal);
        Assert.Equal(2, TheProgram.Run("buildplan", "demo/tidegate-185.lure.json", "--wood", "spanish-cedar").Exit);
    }
}
