using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Strength;

namespace Trimwright.Tests.Carving;

/// <summary>Check 20, and that no flat cuts into the final section, whatever its fullness.</summary>
public sealed class TangentFlatsTests
{
    [Fact]
    public void Eight_side_marks_of_an_oval_are_those_of_the_spar_gauge()
    {
        // The spar gauge divides a side 7 : 10 : 7 (common boatbuilding practice, from memory); exact is (1 − 1/√2) of the side.
        double fromEdge = (1 - SectionCurve.Superellipse.Eight(2)) / 2;
        TestContext.Current.TestOutputHelper?.WriteLine($"{fromEdge:F5} of the side; 7/24 is {7.0 / 24:F5}");
        Assert.Equal(1 - 1 / Math.Sqrt(2), fromEdge, 1e-12);
        Assert.Equal(7.0 / 24, fromEdge, 0.005);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(1.0001)]
    [InlineData(1.3)]
    [InlineData(2)]
    [InlineData(2.15)]
    [InlineData(4)]
    [InlineData(20)]
    public void Flats_touch_the_section_and_never_cut_it(double fullness)
    {
        var section = new Section(11, 14, -17, 1, fullness, fullness);
        var marks = new FlatMarks(50, section, QuadrantMarks.Of(SectionCurve.Superellipse, 11, 13, fullness), QuadrantMarks.Of(SectionCurve.Superellipse, 11, 18, fullness));
        (double Y, double Z)[] final = [.. StationGauge.Half(section, 2000)];
        foreach (int sides in new[] { 4, 8, 16 })
        {
            (double Y, double Z)[] blank = [.. marks.Half(sides)];
            for (int i = 1; i < blank.Length; i++)
            {
                double dy = blank[i].Y - blank[i - 1].Y, dz = blank[i].Z - blank[i - 1].Z, length = double.Hypot(dy, dz);
                if (length < 1e-9) continue;
                // From back to belly over starboard the outside lies to the left of the way.
                double[] outside = [.. final.Select(p => (dz * (blank[i].Y - p.Y) - dy * (blank[i].Z - p.Z)) / -length)];
                Assert.True(outside.Min() > -1e-9, $"{sides} sides, flat {i}: cuts {-outside.Min():G3} mm deep");
                Assert.True(outside.Min() < 1e-3, $"{sides} sides, flat {i}: stays {outside.Min():G3} mm off");
            }
        }
    }

    [Fact]
    public void Random_lures_keep_every_drawn_mark_outside_their_final_section()
    {
        int flats = 0;
        double worst = 0;
        for (int seed = 0; seed < Tier.Count(60, 400, 4000); seed++)
        {
            Body body = RandomLures.Of(seed).Design.Body.Surface();
            double[] along = Stations.Fine(body);
            foreach (double t in new[] { 0.03, 0.11, 0.29, 0.5, 0.73, 0.92, 0.985 })
            {
                // Between two drawn points the lines run straight; the section there is the body's own.
                double x = t * body.Length;
                int i = Math.Clamp(Array.FindIndex(along, a => a >= x), 1, along.Length - 1);
                double share = (x - along[i - 1]) / (along[i] - along[i - 1]);
                FlatMarks a = FlatMarks.At(body, along[i - 1]), b = FlatMarks.At(body, along[i]);
                Section section = body.SectionAt(x);
                if (section.HalfBreadth < 0.3 || section.RiseAbove < 0.3 || section.RiseBelow < 0.3) continue;
                foreach (int sides in new[] { 8, 16 })
                {
                    (double Y, double Z)[] blank = [.. a.Half(sides).Zip(b.Half(sides), (p, q) => (p.Y + share * (q.Y - p.Y), p.Z + share * (q.Z - p.Z)))];
                    worst = Math.Max(worst, Cut(blank, section));
                    flats += blank.Length - 1;
                }
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{flats} flats, the deepest cut {worst:F4} mm");
        Assert.True(flats > 2000);
        // Drawn lines are chords of curves; their own flats touch exactly. A sixtieth of a pencil line.
        Assert.True(worst < 0.005, $"{worst:F4} mm");
    }

    private static double Cut((double Y, double Z)[] blank, Section section)
    {
        double worst = 0;
        (double Y, double Z)[] final = [.. StationGauge.Half(section, 60)];
        for (int i = 1; i < blank.Length; i++)
        {
            double dy = blank[i].Y - blank[i - 1].Y, dz = blank[i].Z - blank[i - 1].Z, length = double.Hypot(dy, dz);
            if (length < 1e-6) continue;
            foreach ((double y, double z) in final)
            {
                double along = ((y - blank[i - 1].Y) * dy + (z - blank[i - 1].Z) * dz) / length;
                if (along < 0 || along > length) continue;
                worst = Math.Max(worst, (dz * (blank[i].Y - y) - dy * (blank[i].Z - z)) / length);
            }
        }
        return worst;
    }

    [Fact]
    public void A_card_is_half_the_section()
    {
        var section = new Section(12, 15, -18, 0, 2.4, 1.8);
        (double Y, double Z)[] half = [.. StationGauge.Half(section, 400)];
        double area = 0;
        for (int i = 1; i < half.Length; i++) area += 0.5 * (half[i - 1].Y + half[i].Y) * (half[i - 1].Z - half[i].Z);
        Assert.Equal(section.Area / 2, area, 1e-4 * section.Area);
    }

    [Fact]
    public void Marks_on_the_straight_wire_add_up_to_its_developed_length()
    {
        int wires = 0;
        foreach (LureDesign design in Lures.Demos.Concat(Enumerable.Range(0, 60).Select(i => RandomLures.Of(i).Design)))
        {
            if (design.Wire is not { } wire) continue;
            var shape = new WireShape(wire, design.Body.Surface());
            WireBend[] bends = [.. WireBends.Of(wire, shape)];
            double held = bends.Where(b => b.Kind == BendKind.Held).Sum(b => b.To - b.From), whole = bends[^1].To;
            for (int i = 1; i < bends.Length; i++) Assert.Equal(bends[i - 1].To, bends[i].From, 1e-9);
            // The ledger lays an eye as 48 chords, (π/48)²/6 = 0.07 % shorter than its turn.
            double chords = 0.0008 * bends.Where(b => b.Kind == BendKind.Eye).Sum(b => b.To - b.From);
            Assert.InRange(whole - shape.Length - held, -1e-6, chords);
            Assert.InRange(LureStrength.Of(design)!.CutLength - whole, -chords, 5);
            wires++;
        }
        Assert.True(wires > 30, $"{wires}");
    }

    [Fact]
    public void A_trial_loop_gives_the_pin_for_the_eye_that_is_wanted()
    {
        TrialLoop coil = TrialLoop.Measured(1.6, 5, 5.4);
        Assert.Equal(5.4, coil.EyeFrom(5), 1e-9);
        Assert.Equal(5, coil.PinFor(5.4), 1e-9);
        Assert.InRange(coil.PinFor(5), 4.5, 4.7);
        // The plain formula once more, with numbers: 1.6 mm, σ_y 900: M_p 614.4 N·mm, E·I 59 515 N·mm², κ 0.01032.
        Assert.Equal(0.01032, TrialLoop.Expected(WireStrength.Of(1.6, "304 half-hard")!).Recovery, 1e-4);
        Assert.True(double.IsInfinity(new TrialLoop(1, 0.2).EyeFrom(12)));
    }
}
