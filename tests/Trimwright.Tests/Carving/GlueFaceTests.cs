using Trimwright.Core.Carving;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Carving;

/// <summary>Pockets stay in the wood or are refused; depths differ left and right as the weight's place says.</summary>
public sealed class GlueFaceTests
{
    private static BallastPiece Rod(double y, Axis axis = Axis.X) => new()
    {
        Name = "rod", Form = BallastForm.Rod, Axis = axis, DiameterMm = 8, LengthMm = 14, DensityGPerCm3 = 11.3, AtMm = [60, y, -4], ClearanceMm = 0.5,
    };

    [Fact]
    public void A_pocket_on_the_plane_is_alike_in_both_halves_and_one_off_it_differs_by_twice_its_offset()
    {
        PocketCut right = PocketCut.Of(Rod(0), 1, WhichHalf.Right)!, left = PocketCut.Of(Rod(0), 1, WhichHalf.Left)!;
        Assert.Equal((4.25, 4.25), (right.Depth, left.Depth));
        (right, left) = (PocketCut.Of(Rod(1.5), 1, WhichHalf.Right)!, PocketCut.Of(Rod(1.5), 1, WhichHalf.Left)!);
        Assert.Equal(3, right.Depth - left.Depth, 1e-12);
        // Where the middle lies in the right half, the left sees a cap: chord 2√(r² − y²) of radius 4.25.
        Assert.Equal(8.5, right.High, 1e-12);
        Assert.Equal(2 * Math.Sqrt(4.25 * 4.25 - 1.5 * 1.5), left.High, 1e-12);
        Assert.Null(PocketCut.Of(Rod(4.5), 1, WhichHalf.Left));
        Assert.Equal(8.75, PocketCut.Of(Rod(4.5), 1, WhichHalf.Right)!.Depth, 1e-12);
        PocketCut across = PocketCut.Of(Rod(1.5, Axis.Y), 1, WhichHalf.Left)!;
        Assert.Equal((Cutter.FlatBit, true, 8.5), (across.Cutter, across.Round, across.Long));
        Assert.Equal(14.5 / 2 - 1.5, across.Depth, 1e-12);
    }

    [Fact]
    public void Random_lures_have_no_pocket_that_leaves_the_wood_unless_it_is_refused()
    {
        int pockets = 0, refused = 0;
        double worst = 0;
        for (int seed = 0; seed < Tier.Count(40, 600, 6000); seed++)
        {
            LureDesign design = RandomLures.Of(seed).Design;
            Body body = design.Body.Surface();
            GlueFace face = GlueFace.Of(design, body);
            HashSet<PocketCut> leaving = [.. face.Leaving(design, body)];
            double lost = Math.Max((design.Joint?.LostPerHalf ?? 0) - (design.Joint?.GlueLineMm ?? 0) / 2 + Math.Abs(design.Halves?.RightWiderMm ?? 0) / 2, 0);
            foreach (PocketCut pocket in face.Right.Concat(face.Left))
            {
                pockets++;
                // Another way: the whole of the weight's room, point by point, and a plain section test.
                double most = Sampled(pocket).Max(p => Outside(body, p, lost));
                if (leaving.Contains(pocket))
                {
                    refused++;
                    continue;
                }
                worst = Math.Max(worst, most);
                Assert.True(most < 0.05, $"{design.Name}: pocket {pocket.Number} {pocket.Half} comes {most:F2} mm out of the wood");
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{pockets} half pockets, {refused} refused, the others at most {worst:F3} mm out");
        Assert.True(pockets > 60 && refused < pockets / 2, $"{pockets}, {refused}");
    }

    private static IEnumerable<Vec3> Sampled(PocketCut pocket)
    {
        double side = pocket.Half == WhichHalf.Right ? 1 : -1, r = pocket.CutterSize / 2, into = side * pocket.Piece.Middle.Y;
        for (int i = 0; i <= 16; i++)
            for (int j = 0; j <= 16; j++)
                for (int k = 0; k <= 8; k++)
                {
                    double u = pocket.Long * (i / 16.0 - 0.5), w = pocket.High * (j / 16.0 - 0.5), y = pocket.Depth * k / 8;
                    double dy = Math.Max(y - Math.Max(into, 0), 0) is var below && into < 0 ? y - into : below;
                    bool there = pocket.Cutter switch
                    {
                        Cutter.Chisel => true,
                        Cutter.FlatBit => double.Hypot(u, w) <= pocket.Long / 2,
                        _ when pocket.Piece.Form == BallastForm.Ball => u * u + w * w + dy * dy <= r * r,
                        _ => (pocket.Piece.Axis == Axis.X ? w * w : u * u) + dy * dy <= r * r,
                    };
                    if (there) yield return new Vec3(pocket.X + u, side * y, pocket.Z + w);
                }
    }

    private static double Outside(Body body, Vec3 p, double lost)
    {
        if (p.X < 0 || p.X > body.Length) return Math.Max(-p.X, p.X - body.Length);
        Section s = body.SectionAt(p.X);
        double y = Math.Abs(p.Y) + lost;
        if (s.Contains(y, p.Z)) return 0;
        double sideways = y - s.BreadthAt(p.Z);
        return y < s.HalfBreadth ? Math.Min(sideways, Math.Max(p.Z - s.TopAt(y), s.BottomAt(y) - p.Z)) : sideways;
    }

    [Fact]
    public void Proposed_pins_are_clear_of_slot_pockets_outline_and_of_each_other()
    {
        foreach (LureDesign design in Lures.Demos)
        {
            Body body = design.Body.Surface();
            GlueFace face = GlueFace.Of(design, body);
            Assert.Equal(2, face.Pins.Length);
            foreach (Pin pin in face.Pins)
            {
                Assert.True(body.Contains(new Vec3(pin.X, GlueFace.PinDepth, pin.Z)));
                foreach (PocketCut pocket in face.Right.Concat(face.Left)) Assert.True(pocket.DistanceTo(pin.X, pin.Z) - GlueFace.PinDiameter / 2 >= 2);
                Assert.True(face.Slot!.DistanceTo(pin.X, pin.Z) - GlueFace.PinDiameter / 2 >= 2);
            }
            Assert.True(Math.Abs(face.Pins[0].X - face.Pins[1].X) > 0.19 * body.Length);
        }
    }
}
