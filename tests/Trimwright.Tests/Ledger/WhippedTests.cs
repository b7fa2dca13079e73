using System.Text;
using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;
using Trimwright.Core.Strength;
using Trimwright.Core.Telling;
using Trimwright.Tests.Finish;

namespace Trimwright.Tests.Ledger;

/// <summary>An eye whipped with line and glue: its grams, its groove, its strength that nobody knows, and what is said of it.</summary>
public class WhippedTests
{
    private static LureDesign Demo => Lures.Demo("mooring-post-210");

    private static LureDesign With(Func<EyeDesign, EyeDesign> tie)
    {
        LureDesign lure = Demo;
        return Lures.Read(Encoding.UTF8.GetString(LureFile.Write(lure with { Wire = lure.Wire! with { LineTie = tie(lure.Wire.LineTie) } })));
    }

    private static LureDesign Whipped => With(e => e with { Closing = EyeClosing.Whipped, LineMm = 0.4, WhippedMm = 14 });

    /// <summary>Line and glue fill what lies within a line's thickness of two round wires and the hull round them: counted on a grid.</summary>
    [Theory]
    [InlineData(1.2, 0.3, 12)]
    [InlineData(1.6, 0.8, 20)]
    [InlineData(0.9, 0.05, 5)]
    public void Line_and_glue_fill_the_room_round_both_wires(double wire, double line, double length)
    {
        Binding bound = EyeClosing.Whipped.Bound(new EyeDesign { LineMm = line, WhippedMm = length }, wire)!.Value;
        const int Cells = 1500;
        double wide = 2 * wire + 2 * line, cell = wide / Cells;
        long inside = 0;
        for (int i = 0; i < Cells; i++)
            for (int k = 0; k < Cells; k++)
            {
                double y = (i + 0.5) * cell - wide / 2, z = (k + 0.5) * cell - wide / 2;
                double hull = double.Hypot(Math.Max(Math.Abs(y) - wire / 2, 0), z), near = double.Hypot(Math.Abs(y) - wire / 2, z);
                if (hull <= wire / 2 + line && near > wire / 2) inside++;
            }
        Assert.Equal(1, inside * cell * cell * length / bound.Volume, 2e-3);
        // Turn beside turn, each once round the hull at half its thickness: straight sides and half circles.
        double turns = length / line, round = 2 * wire + 2 * Math.PI * (wire + line) / 2;
        Assert.Equal(1, turns * round / bound.LineLength, 0.01);
        Assert.Equal(Math.PI / 4 * line * line * bound.LineLength, bound.LineVolume, 1e-9);
    }

    [Fact]
    public void The_ledger_has_line_and_glue_as_a_line_of_its_own_and_as_much_less_filler()
    {
        WeightLedger Of(LureDesign design, Stage stage) => Bookkeeper.Of(design, stage, Rig.Bare, 1e-3, MeshSize.Live);
        foreach (Stage stage in (Stage[])[Stage.DryFit, Stage.Finished])
        {
            WeightLedger ledger = Of(Whipped, stage);
            Part bound = Assert.Single(ledger.Of(PartKind.Binding));
            // 35 turns of 0.4 mm line on 1.6 mm wire: 9.5 mm a turn, 332 mm of it, 42 mm³; with its glue, 59 mm³ of about 1.14 g/cm³.
            Assert.InRange(bound.Mass, 0.05, 0.1);
            Assert.Equal("line and glue at the line tie", bound.Name);
            Assert.Equal(0, bound.Displaces, 1e-9);
        }
        // The same eye with a doubled end of that length, but for the groove: what is bound in it can't be filled.
        var shape = new WireShape(Whipped.Wire!, Whipped.Body.Surface());
        double gap = Of(Whipped, Stage.Glued).Of(PartKind.Filler).Sum(p => p.Mass) / 1.1e-3;
        double area = Math.PI / 4 * 1.6 * 1.6, pockets = Whipped.Ballast.Sum(p => p.Pocket - p.Stuff);
        Assert.Equal(shape.SlotVolume - area * shape.InsideLength - shape.Bindings[0].Of.Volume + pockets, gap, 0.5);
        Assert.Equal(1, shape.Bindings[0].Inside, 1e-9);
    }

    [Fact]
    public void What_it_holds_is_not_reckoned_and_everybody_says_so()
    {
        LureStrength strength = LureStrength.Of(Whipped)!;
        Link tie = strength.Paths[0].Links.Single(l => l.Kind == LinkKind.LineTie);
        Assert.Null(tie.LetsGo);
        Assert.Null(tie.OutOfShape);
        Link open = LureStrength.Of(With(e => e with { Closing = EyeClosing.Open }))!.Paths[0].Links.Single(l => l.Kind == LinkKind.LineTie);
        Assert.Equal(open.LetsGo!.Newtons, tie.Otherwise!.Figure.Newtons, 1e-9);
        Assert.Contains("pull it", StrengthWords.Of(tie.Otherwise.Condition));
        Assert.NotEqual(LinkKind.LineTie, strength.Weakest!.Value.Link.Kind);
        Reading<LureDesign> read = LureFile.Read(LureFile.Write(Whipped));
        Assert.Contains(read.Warnings, w => w.Path == "wire.line_tie.closing" && w.ToString().Contains("pull it", StringComparison.Ordinal));
        BuildPlan plan = BuildPlan.Of(Whipped, null, Plans.Quick);
        string said = string.Join(" ", plan.Steps.OfType<WireStep>().SelectMany(s => new BuildWords(plan, Notation.Metric).Of(s).Do));
        Assert.Contains("whipped over 14.0", said);
        Assert.Contains("35 turns of line", said);
        Assert.Contains("pull it", said);
    }

    [Fact]
    public void The_glue_face_has_a_groove_for_both_wires_and_the_line_round_them()
    {
        LureDesign lure = Whipped;
        GlueFace face = GlueFace.Of(lure, lure.Body.Surface());
        EyeGroove groove = face.Slot!.Wraps.Single(w => w.Name == "whipping groove");
        Assert.Equal(face.Slot.Width + 1.6 + 0.8, groove.Cut.Width, 1e-9);
        Assert.Equal((face.Slot.Width + 0.8) / 2, groove.Depth, 1e-9);
        Assert.Equal(14, double.Hypot(groove.Cut.ToX - groove.Cut.FromX, groove.Cut.ToZ - groove.Cut.FromZ), 1e-9);
        WireBend bend = WireBends.Of(lure.Wire!, new WireShape(lure.Wire!, lure.Body.Surface())).First(b => b.Kind == BendKind.Closing);
        Assert.Equal(14, bend.To - bend.From, 1e-9);
        Assert.Contains("whipped with 35 turns", bend.Design!.Closing.Bent(bend.Design, Notation.Metric));
    }
}
