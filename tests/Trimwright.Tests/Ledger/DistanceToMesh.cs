using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Ledger;

/// <summary>Distance from points near a mesh to it, by triangles sorted into boxes; far points come out as infinite.</summary>
internal sealed class DistanceToMesh
{
    private const double Box = 2;

    private readonly Dictionary<(int, int, int), List<int>> boxes = [];
    private readonly ClosedMesh mesh;

    public DistanceToMesh(ClosedMesh mesh, double reach)
    {
        this.mesh = mesh;
        for (int t = 0; t < mesh.TriangleCount; t++)
        {
            Vec3 a = Corner(t, 0), b = Corner(t, 1), c = Corner(t, 2);
            (int, int) Range(double u, double v, double w) =>
                ((int)Math.Floor((Math.Min(u, Math.Min(v, w)) - reach) / Box), (int)Math.Floor((Math.Max(u, Math.Max(v, w)) + reach) / Box));
            (int x0, int x1) = Range(a.X, b.X, c.X);
            (int y0, int y1) = Range(a.Y, b.Y, c.Y);
            (int z0, int z1) = Range(a.Z, b.Z, c.Z);
            for (int i = x0; i <= x1; i++)
                for (int j = y0; j <= y1; j++)
                    for (int k = z0; k <= z1; k++)
                    {
                        if (!boxes.TryGetValue((i, j, k), out List<int>? list)) boxes[(i, j, k)] = list = [];
                        list.Add(t);
                    }
        }
    }

    private Vec3 Corner(int t, int k) => mesh.Vertex(mesh.Triangles[3 * t + k]);

    public double Distance(Vec3 p)
    {
        var key = ((int)Math.Floor(p.X / Box), (int)Math.Floor(p.Y / Box), (int)Math.Floor(p.Z / Box));
        if (!boxes.TryGetValue(key, out List<int>? list)) return double.PositiveInfinity;
        double least = double.PositiveInfinity;
        foreach (int t in list) least = Math.Min(least, ToTriangle(p, Corner(t, 0), Corner(t, 1), Corner(t, 2)));
        return Math.Sqrt(least);
    }

    // Closest point of a triangle by its Voronoi regions (Ericson 2005, Real-Time Collision Detection, 5.1.5); squared.
    private static double ToTriangle(Vec3 p, Vec3 a, Vec3 b, Vec3 c)
    {
        Vec3 ab = b - a, ac = c - a, ap = p - a, bp = p - b, cp = p - c;
        double d1 = Vec3.Dot(ab, ap), d2 = Vec3.Dot(ac, ap);
        if (d1 <= 0 && d2 <= 0) return ap.LengthSquared;
        double d3 = Vec3.Dot(ab, bp), d4 = Vec3.Dot(ac, bp);
        if (d3 >= 0 && d4 <= d3) return bp.LengthSquared;
        double vc = d1 * d4 - d3 * d2;
        if (vc <= 0 && d1 >= 0 && d3 <= 0) return (ap - d1 / (d1 - d3) * ab).LengthSquared;
        double d5 = Vec3.Dot(ab, cp), d6 = Vec3.Dot(ac, cp);
        if (d6 >= 0 && d5 <= d6) return cp.LengthSquared;
        double vb = d5 * d2 - d1 * d6;
        if (vb <= 0 && d2 >= 0 && d6 <= 0) return (ap - d2 / (d2 - d6) * ac).LengthSquared;
        double va = d3 * d6 - d5 * d4;
        if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) return (bp - (d4 - d3) / (d4 - d3 + (d5 - d6)) * (c - b)).LengthSquared;
        double sum = 1 / (va + vb + vc);
        return (ap - vb * sum * ab - vc * sum * ac).LengthSquared;
    }
}
