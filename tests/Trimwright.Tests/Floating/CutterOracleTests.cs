using System.Collections.Concurrent;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>The fast cut against the plain loop: 1e-12 of the scale, any attitude, any section, planes through anything.</summary>
public class CutterOracleTests
{
    private const double Allowed = 1e-12;

    [Fact]
    public void The_fast_cut_equals_the_plain_one_over_random_lures_and_planes()
    {
        int lures = Tier.Count(quick: 60, ci: 1000), planes = Tier.Count(quick: 50, ci: 100);
        double worst = 0;
        int cuts = 0;
        var wrong = new ConcurrentBag<string>();
        var guard = new Lock();
        Parallel.For(0, lures, i =>
        {
            var random = new Random(9000 + i);
            ClosedMesh mesh = Mesh(random, i);
            var fast = new StripCutter(mesh);
            var plain = new PlainCutter(mesh);
            double volume = SolidProperties.Of(mesh).Volume, most = 0;
            Vec3 low = new(mesh.X.Min(), mesh.Y.Min(), mesh.Z.Min()), high = new(mesh.X.Max(), mesh.Y.Max(), mesh.Z.Max());
            double length = (high - low).Length;
            for (int k = 0; k < planes; k++)
            {
                WaterPlane plane = Plane(random, mesh, low, high);
                double off = Difference(plain.Cut(plane), fast.Cut(plane), volume, length, 0.5 * (low + high));
                most = Math.Max(most, off);
                if (!(off <= Allowed)) wrong.Add($"mesh {i} ({mesh.Rings} × {mesh.Sides}), plane {k} {plane}: off by {off:E2} of the scale");
            }
            lock (guard)
            {
                worst = Math.Max(worst, most);
                cuts += planes;
            }
        });
        TestContext.Current.TestOutputHelper?.WriteLine($"{cuts} cuts, the worst off by {worst:E2} of the scale");
        Assert.True(wrong.IsEmpty, string.Join("\n", wrong.Take(10)));
    }

    private static ClosedMesh Mesh(Random random, int i)
    {
        LureDesign design = RandomLures.Of(i).Design;
        int[] sides = [8, 12, 16, 32, 48, 64];
        ClosedMesh mesh = BodyMesh.Of(design.Body.Surface(), new MeshSize(random.Next(8, 60), sides[random.Next(sides.Length)]));
        if (i % 4 != 0) return mesh;
        // Every fourth with concave sections: a groove along the back and a waist.
        double depth = 0.4 * random.NextDouble();
        return mesh.Mapped((_, p) => p with { Z = p.Z * (1 - depth * Math.Exp(-p.Y * p.Y / 4)), Y = p.Y * (1 - depth * Math.Exp(-p.Z * p.Z / 9)) });
    }

    private static WaterPlane Plane(Random random, ClosedMesh mesh, Vec3 low, Vec3 high)
    {
        Vec3 Direction()
        {
            while (true)
            {
                Vec3 v = new(2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1);
                if (v.Length is > 0.1 and < 1) return v.Unit();
            }
        }
        Vec3 Vertex() => mesh.Vertex(random.Next(mesh.VertexCount));
        Vec3 inside = new(low.X + random.NextDouble() * (high.X - low.X), low.Y + random.NextDouble() * (high.Y - low.Y), low.Z + random.NextDouble() * (high.Z - low.Z));
        switch (random.Next(6))
        {
            case 0:
                // Through a vertex.
                Vec3 n = Direction();
                return new WaterPlane(n, Vec3.Dot(n, Vertex()));
            case 1:
                // Through three vertices: along a face, or near it.
                int t = 3 * random.Next(mesh.TriangleCount);
                Vec3 a = mesh.Vertex(mesh.Triangles[t]), b = mesh.Vertex(mesh.Triangles[t + 1]), c = mesh.Vertex(mesh.Triangles[t + 2]);
                Vec3 normal = Vec3.Cross(b - a, c - a).Unit();
                return normal == Vec3.Zero ? new WaterPlane(Vec3.UnitZ, a.Z) : new WaterPlane(normal, Vec3.Dot(normal, a));
            case 2:
                // Along an axis, through a vertex: rings, flat ends, the plane of symmetry.
                Vec3 axis = random.Next(3) switch { 0 => Vec3.UnitX, 1 => Vec3.UnitY, _ => Vec3.UnitZ };
                Vec3 up = random.Next(2) == 0 ? axis : -axis;
                return new WaterPlane(up, Vec3.Dot(up, Vertex()));
            case 3:
                Vec3 level = new Vec3(0.02 * random.NextDouble(), 0.02 * random.NextDouble(), 1).Unit();
                return new WaterPlane(level, Vec3.Dot(level, inside));
            default:
                Vec3 any = Direction();
                return new WaterPlane(any, Vec3.Dot(any, inside));
        }
    }

    /// <summary>The largest difference of anything in two cuts, as a share of its own scale.</summary>
    private static double Difference(in Cut a, in Cut b, double volume, double length, Vec3 middle)
    {
        double area = length * length;
        (double S1, double S2, double I11, double I12, double I22) p = About(a, middle), q = About(b, middle);
        Vec3 moments = a.Moment + a.Volume * (a.Origin - middle) - (b.Moment + b.Volume * (b.Origin - middle));
        double[] off =
        [
            Math.Abs(a.Volume - b.Volume) / volume, moments.Length / (volume * length), Math.Abs(a.Area - b.Area) / area,
            Math.Abs(p.S1 - q.S1) / (area * length), Math.Abs(p.S2 - q.S2) / (area * length),
            Math.Abs(p.I11 - q.I11) / (area * area), Math.Abs(p.I12 - q.I12) / (area * area), Math.Abs(p.I22 - q.I22) / (area * area),
        ];
        return off.All(double.IsFinite) ? off.Max() : double.PositiveInfinity;
    }

    // Waterplane moments about one point, whatever origin the cut was taken from.
    private static (double, double, double, double, double) About(in Cut cut, Vec3 middle)
    {
        double o1 = Vec3.Dot(cut.Origin - middle, cut.E1), o2 = Vec3.Dot(cut.Origin - middle, cut.E2);
        return (cut.S1 + o1 * cut.Area, cut.S2 + o2 * cut.Area, cut.I11 + 2 * o1 * cut.S1 + o1 * o1 * cut.Area,
            cut.I12 + o1 * cut.S2 + o2 * cut.S1 + o1 * o2 * cut.Area, cut.I22 + 2 * o2 * cut.S2 + o2 * o2 * cut.Area);
    }

    [Fact]
    public void A_cut_allocates_nothing()
    {
        ClosedMesh mesh = BodyMesh.Of(Lures.Demo("slipway-150").Body.Surface(), MeshSize.Live);
        var cutter = new StripCutter(mesh);
        var random = new Random(1);
        Vec3 low = new(mesh.X.Min(), mesh.Y.Min(), mesh.Z.Min()), high = new(mesh.X.Max(), mesh.Y.Max(), mesh.Z.Max());
        WaterPlane[] planes = [.. Enumerable.Range(0, 300).Select(_ => Plane(random, mesh, low, high))];
        foreach (WaterPlane plane in planes) cutter.Cut(plane);
        // The runtime may tier the code up in the middle of a round, on this thread's account: the quietest round tells.
        double sum = 0;
        long least = long.MaxValue;
        for (int round = 0; round < 5; round++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            foreach (WaterPlane plane in planes) sum += cutter.Cut(plane).Volume;
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }
        Assert.Equal(0, least);
        Assert.True(sum > 0 && mesh.TriangleCount >= 20_000);
    }
}
