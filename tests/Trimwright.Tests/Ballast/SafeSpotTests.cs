using System.Collections.Concurrent;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Tests.Ledger;

namespace Trimwright.Tests.Ballast;

/// <summary>Safe spots against a sampling of the solid that knows nothing of them (<see cref="SampledSolid"/>).</summary>
public class SafeSpotTests
{
    private static readonly DrillBit[] Bits = [new(4, 1.2), new(6, 1.8), new(8, 2.5), new(12, 3)];

    private static readonly DrilledFrom[] Sides = [DrilledFrom.RightSide, DrilledFrom.LeftSide];

    private static IEnumerable<SafeSpot> SpotsOf(LureDesign lure)
    {
        var spots = new SafeSpots(lure);
        return Bits.SelectMany(bit => spots.Along(bit, lure.Body.LengthMm / 15).Concat(Sides.SelectMany(side => spots.Across(side, bit, lure.Body.LengthMm / 12))));
    }

    [Fact]
    public void No_safe_spot_breaks_into_wire_pocket_slot_or_eye_seat_or_out_of_the_wood()
    {
        int lures = Tier.Count(16, 600, 4000);
        var wrong = new ConcurrentBag<string>();
        int spots = 0, sampled = 0;
        Parallel.For(0, lures, seed =>
        {
            LureDesign lure = seed < 3 ? Lures.Demos.ElementAt(seed) : RandomLures.Of(400_000 + seed).Design;
            var solid = new SampledSolid(lure with { Finish = [] });
            var random = new Random(seed);
            foreach (SafeSpot spot in SpotsOf(lure))
            {
                Interlocked.Increment(ref spots);
                Interlocked.Add(ref sampled, Points);
                if (Breach(spot, solid, lure, random) is { } at) wrong.Add($"lure {seed}, {spot}: at {at}");
            }
        });
        TestContext.Current.TestOutputHelper?.WriteLine($"{spots} spots on {lures} lures, {sampled} points");
        foreach (string line in wrong.Take(20)) Console.WriteLine("wrong: " + line);
        Assert.Empty(wrong);
        Assert.True(spots > 20 * lures, $"only {spots} spots on {lures} lures say little");
    }

    private const int Points = 120;

    // Anywhere in the hole below its cover, in its point's cone, and in 1.5 mm of wood about them (walls are 2 mm and more).
    private static Vec3? Breach(SafeSpot spot, SampledSolid solid, LureDesign lure, Random random)
    {
        const double Wood = 0.123456e-3, About = 1.5;
        Span<double> density = stackalloc double[5], displaces = stackalloc double[5];
        (Vec3 e1, Vec3 e2) = spot.Into.Frame();
        double glue = lure.Joint?.GlueLineMm ?? 0.1;
        for (int i = 0; i < Points; i++)
        {
            Vec3 p;
            if (i % 4 == 3)
            {
                // Round the drill's point.
                Vec3 way = new Vec3(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5).Unit();
                p = spot.At(spot.Depth + random.NextDouble() * spot.Bit.Beyond) + About * way;
            }
            else
            {
                // Half of these on the wall's far side, where a breach is found first.
                double angle = 2 * Math.PI * random.NextDouble(), radius = (i % 2 == 0 ? 1 : Math.Sqrt(random.NextDouble())) * (spot.Bit.Diameter / 2 + About);
                double floor = spot.Depth + (radius < spot.Bit.Diameter / 2 ? About : 0);
                p = spot.At(spot.FillingFrom + random.NextDouble() * (floor - spot.FillingFrom)) + radius * (Math.Cos(angle) * e1 + Math.Sin(angle) * e2);
            }
            solid.At(p, Wood, Wood, density, displaces);
            bool inGlue = Math.Abs(p.Y) <= glue / 2 + 1e-9;
            if (density[4] == Wood || (inGlue && density[4] == density[3] && displaces[4] == 1 && density[4] != 0)) continue;
            return p;
        }
        return null;
    }

    [Fact]
    public void A_spot_is_as_deep_as_its_walls_allow()
    {
        // Between the belly and a wire at z = 0 in a round dowel: 15 mm less the slot's half diagonal and the wall.
        LureDesign dowel = Dowel(15);
        double slot = 2 * Math.Sqrt(2) / 2;
        SafeSpot spot = new SafeSpots(dowel).Try(DrilledFrom.Belly, 75, 0, new DrillBit(6, 0))!;
        Assert.Equal("wire", spot.StoppedBy);
        Assert.InRange(spot.Depth, 15 - slot - Walls.Usual.ToWire - 0.75, 15 - slot - Walls.Usual.ToWire);
        // The point takes its length off.
        SafeSpot pointed = new SafeSpots(dowel).Try(DrilledFrom.Belly, 75, 0, new DrillBit(6, 2))!;
        Assert.Equal(spot.Depth - 2, pointed.Depth, 0.51);
        // Beside the wire it is the far skin that stops it: at z = 7 a chord of 2·√(15² − (7 + r)²) mm.
        SafeSpot across = new SafeSpots(dowel).Try(DrilledFrom.RightSide, 75, 7, new DrillBit(4, 0))!;
        Assert.Null(across.StoppedBy);
        double far = Math.Sqrt(15 * 15 - 49), corner = Math.Sqrt(15 * 15 - (7 + 2 + 3) * (7 + 2 + 3));
        Assert.InRange(across.Depth, far + corner - 0.6, far + corner);
    }

    [Fact]
    public void A_drill_that_does_not_reach_goes_no_deeper_and_a_leaning_skin_is_left_alone()
    {
        LureDesign dowel = Dowel(15);
        Assert.Equal(7.5, new SafeSpots(dowel).Try(DrilledFrom.Belly, 75, 0, new DrillBit(4, 0, 7.5))!.Depth);
        Assert.Null(new SafeSpots(dowel).Try(DrilledFrom.RightSide, 75, 14, new DrillBit(6, 0)));
        Assert.Null(new SafeSpots(dowel).Try(DrilledFrom.Belly, 1, 0, new DrillBit(4, 0)));
        Assert.Null(new SafeSpots(dowel).Try(DrilledFrom.Belly, 200, 0, new DrillBit(4, 0)));
    }

    [Fact]
    public void Wider_walls_leave_less()
    {
        foreach (LureDesign lure in Lures.Demos)
        {
            var bit = new DrillBit(6, 1.8);
            double usual = new SafeSpots(lure).Along(bit, 5).Sum(s => s.Depth);
            double wide = new SafeSpots(lure, Walls.Usual with { ToSkin = 5, ToWire = 4 }).Along(bit, 5).Sum(s => s.Depth);
            Assert.True(wide < usual);
            foreach (SafeSpot spot in new SafeSpots(lure, Walls.Usual with { ToWire = 4, ToHanger = 7, ToWeight = 4 }).Along(bit, 5))
                Assert.True(new SafeSpots(lure).Try(spot.From, spot.Mouth.X, 0, bit) is { } same && same.Depth >= spot.Depth, spot.ToString());
        }
    }

    [Fact]
    public void Distances_to_simple_solids_are_the_least_to_any_point_of_them()
    {
        var random = new Random(7);
        Vec3 Draw(double size) => size * new Vec3(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5);
        for (int n = 0; n < 60; n++)
        {
            Vec3 middle = Draw(10), p = Draw(50);
            double d = 2 + 8 * random.NextDouble(), l = 2 + 15 * random.NextDouble();
            var axis = (Axis)(n % 3);
            Vec3 along = Solids.Direction(axis);
            (Vec3 e1, Vec3 e2) = along.Frame();
            double nearest = double.PositiveInfinity;
            for (int i = 0; i <= 60; i++)
                for (int k = 0; k < 120; k++)
                    for (int ring = 0; ring <= 12; ring++)
                    {
                        (double sin, double cos) = Math.SinCos(2 * Math.PI * k / 120);
                        nearest = Math.Min(nearest, (middle + (i / 60.0 - 0.5) * l * along + d / 2 * ring / 12 * (cos * e1 + sin * e2) - p).Length);
                    }
            double told = RoomInWood.Cylinder(middle, axis, d, l).DistanceTo(p);
            if (told > 0) Assert.InRange(nearest, told - 1e-9, told + 0.3);
            else Assert.True(nearest < 0.6);
            Vec3 a = Draw(20), b = Draw(20);
            double rod = Enumerable.Range(0, 2001).Min(i => (a + i / 2000.0 * (b - a) - p).Length);
            Assert.Equal(Math.Max(rod - d / 2, 0), RoomInWood.Rod(a, b, d).DistanceTo(p), 1e-3);
        }
    }

    private static LureDesign Dowel(double radius) => Lures.Solid(0.5, 150, [(0, radius), (75, radius), (150, radius)], [(0, -radius), (75, -radius), (150, -radius)],
        [(0, radius), (75, radius), (150, radius)]) with
    {
        Wire = new WireDesign { DiameterMm = 1.6, SlotWidthMm = 2, TailLoop = new EyeDesign() },
    };
}
