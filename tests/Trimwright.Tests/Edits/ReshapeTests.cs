using Trimwright.App.Edits;
using Trimwright.App.Pages;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Edits;

/// <summary>What a maker does to shape and hardware: designs from designs, told in words.</summary>
public class ReshapeTests
{
    public static TheoryData<string> Names => ["tidegate-185", "mooring-post-210", "slipway-150"];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_point_dragged_anywhere_stays_between_its_neighbours(string name)
    {
        LureDesign lure = Lures.Demo(name);
        foreach (Line line in Enum.GetValues<Line>())
            for (int i = 0; i < Reshape.Of(lure.Body, line).Points.Length; i++)
                foreach (double x in new[] { -1e9, -5, 50, 400, 1e9, 60.123 })
                {
                    LureDesign moved = Reshape.Move(lure, line, i, x, Reshape.Of(lure.Body, line).Points[i].Value);
                    Assert.True(LureFile.Read(LureFile.Write(moved)).Faults.All(f => f.Kind != "order"), $"{line} {i} to {x}");
                }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_point_put_back_gives_the_lure_back_digit_for_digit(string name)
    {
        LureDesign lure = Lures.Demo(name);
        LureDesign back = Reshape.Move(Reshape.Move(lure, Line.Belly, 3, 44, -12.3), Line.Belly, 3, lure.Body.Belly.Points[3].X, lure.Body.Belly.Points[3].Value);
        Assert.Equal(LureFile.Write(lure), LureFile.Write(back));
    }

    [Fact]
    public void Where_back_and_belly_meet_they_move_together()
    {
        LureDesign moved = Reshape.Move(Lures.Demo("tidegate-185"), Line.Back, 0, 7, 2.5);
        Assert.Equal((0, 2.5, 2.5), (moved.Body.Back.Points[0].X, moved.Body.Back.Points[0].Value, moved.Body.Belly.Points[0].Value));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void In_proportion_wood_and_its_lift_grow_with_the_cube_of_the_length(string name)
    {
        LureDesign lure = Lures.Demo(name);
        double was = Prediction.Of(lure, Circumstances.InTheSea).Ledger.Parts.Where(p => p.Name.StartsWith("wood", StringComparison.Ordinal)).Sum(p => p.Displaces);
        LureDesign longer = Sound(Reshape.Length(lure, lure.Body.LengthMm * 1.2, inProportion: true));
        double now = Prediction.Of(longer, Circumstances.InTheSea).Ledger.Parts.Where(p => p.Name.StartsWith("wood", StringComparison.Ordinal)).Sum(p => p.Displaces);
        // The tack and the kerf between the halves don't grow.
        Assert.Equal(1.728, now / was, 0.002);
        Assert.Equal(lure.Hardware, longer.Hardware);
        Assert.Equal(lure.Ballast.Sum(p => p.Mass), longer.Ballast.Sum(p => p.Mass), 9);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_point_added_on_the_curve_hardly_changes_it_and_can_be_taken_out_again(string name)
    {
        LureDesign lure = Lures.Demo(name);
        LureDesign more = Sound(Reshape.Add(lure, Line.Back, 33.3));
        int at = more.Body.Back.Points.IndexOf(more.Body.Back.Points.Single(p => p.X == 33.3));
        Assert.Equal(Prediction.Of(lure, Circumstances.InTheSea).Ledger.Volume, Prediction.Of(more, Circumstances.InTheSea).Ledger.Volume, 300.0);
        Assert.Equal(LureFile.Write(lure), LureFile.Write(Reshape.Remove(more, Line.Back, at)));
    }

    [Fact]
    public void A_hook_a_size_up_is_told_in_grams_and_degrees()
    {
        LureDesign lure = Lures.Demo("tidegate-185");
        MakersBox box = Catalogue.Starter;
        BoxHardware up = Rehang.Size(lure, 6, box, up: true)!;
        Assert.True(up.MassG > lure.Hardware[6].MassG);
        LureDesign changed = Sound(Rehang.Swap(lure, 6, up));
        Prediction before = Prediction.Of(lure, Circumstances.InTheSea), after = Prediction.Of(changed, Circumstances.InTheSea);
        string told = Difference.Of(before, after, Notation.Metric);
        Assert.StartsWith($"+{Notation.Metric.Weight(up.MassG - lure.Hardware[6].MassG)}", told);
        Assert.Contains("more tail down", told);
        Assert.Contains("less tail down", Difference.Of(after, before, Notation.Metric));
        Assert.Equal("nothing that a scale or an eye would notice", Difference.Of(before, before, Notation.Metric));
        Assert.Null(Rehang.Size(Rehang.Swap(lure, 6, Rehang.Instead(lure, 6, box)[^1]), 6, box, up: true));
    }

    [Fact]
    public void Things_come_off_and_are_hung_below_what_hangs_there()
    {
        LureDesign lure = Lures.Demo("tidegate-185");
        LureDesign off = Sound(Rehang.TakeOff(lure, 4));
        Assert.Equal(["swivel", "split ring"], off.Hardware.Where(h => h.HangsFrom == "belly").Select(h => h.Name));
        LureDesign on = Sound(Rehang.Hang(off, "belly", Catalogue.Starter.Hooks[0]));
        Assert.Equal(Catalogue.Starter.Hooks[0].Name, on.Hardware.Last(h => h.HangsFrom == "belly").Name);
        Assert.Equal(["line_tie", "belly", "tail_loop"], Rehang.Places(lure));
    }

    private static LureDesign Sound(LureDesign design)
    {
        Reading<LureDesign> reading = LureFile.Read(LureFile.Write(design));
        Assert.True(reading.IsSound, string.Join("\n", reading.Faults));
        return reading.Value!;
    }

    [Fact]
    public void A_section_is_made_boxier_by_a_word_and_then_floats_more()
    {
        LureDesign round = Fullnesses.Set(Fullnesses.Set(Lures.Demo("tidegate-185"), above: true, "round"), above: false, "round");
        LureDesign boxy = Fullnesses.Set(round, above: false, "boxy");
        Assert.Equal(("round", "boxy"), (Fullnesses.Word(boxy.Body, above: true), Fullnesses.Word(boxy.Body, above: false)));
        Assert.True(LureFile.Read(LureFile.Write(boxy)).IsSound);
        // The lower half of a superellipse of fullness 4 against one of 2: Γ(5/4)²/Γ(3/2) = 0.9270 of its box against π/4; all that follows the wood.
        double grown = boxy.Body.Surface().SectionAt(90).Area / round.Body.Surface().SectionAt(90).Area;
        var section = round.Body.Surface().SectionAt(90);
        double share = section.RiseBelow / (section.RiseAbove + section.RiseBelow);
        Assert.Equal(1 + share * (0.92704 / (Math.PI / 4) - 1), grown, 1e-4);
        Assert.Same(round, Fullnesses.Set(round, above: true, "square"));
    }

    [Fact]
    public void Wood_that_gets_too_thin_is_said_with_its_millimetres()
    {
        LureDesign demo = Lures.Demo("tidegate-185");
        // Its front rod is a little nearer to the skin than is usual, and that is said as the pockets sheet says it.
        Assert.Equal($"only {Notation.Metric.Caliper(new WoodOutside(demo).Of(demo.Ballast[0]))} of wood outside the pocket of front lead rod; 3.0\u00A0mm is the usual least.",
            Assert.Single(ThinWood.Of(demo, Notation.Metric)));
        // By another way: the skin point by point against the cylinder of the pocket. The tack between the boards, 0.1 mm, is in one of the two.
        BallastPiece front = demo.Ballast[0];
        double nearest = double.MaxValue, radius = (front.DiameterMm + front.Clearance) / 2, half = (front.LengthMm + front.Clearance) / 2;
        for (double x = front.AtMm[0] - half - 8; x < front.AtMm[0] + half + 8; x += 0.2)
        {
            var section = demo.Body.Surface().SectionAt(x);
            for (double z = section.Belly; z < section.Back; z += 0.02)
                nearest = Math.Min(nearest, double.Hypot(Math.Max(Math.Abs(x - front.AtMm[0]) - half, 0),
                    Math.Max(double.Hypot(section.BreadthAt(z) - front.AtMm[1], z - front.AtMm[2]) - radius, 0)));
        }
        Assert.Equal(nearest, new WoodOutside(demo).Of(front), 0.1);
        LureDesign lure = demo with { Ballast = demo.Ballast.SetItem(0, demo.Ballast[0] with { AtMm = [demo.Ballast[0].AtMm[0], 0, demo.Ballast[0].AtMm[2] + 1] }) };
        Assert.Empty(ThinWood.Of(lure, Notation.Metric));
        BallastPiece rod = lure.Ballast[0];
        LureDesign low = lure with { Ballast = lure.Ballast.SetItem(0, rod with { AtMm = [rod.AtMm[0], rod.AtMm[1], rod.AtMm[2] - 5] }) };
        Assert.Contains(rod.Name, Assert.Single(ThinWood.Of(low, Notation.Metric)));
        LureDesign slim = Reshape.Move(Reshape.Move(lure, Line.Back, 7, 165, 1), Line.Belly, 7, 165, -1);
        Assert.Contains(ThinWood.Of(slim, Notation.Metric), said => said.EndsWith("mm high.", StringComparison.Ordinal));
    }
}
