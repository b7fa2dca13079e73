using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>One half of a body of rings, closed by its glue face in the plane y = 0.</summary>
public static class HalfMesh
{
    /// <summary>The right half of a mesh whose rings are alike left and right; the left is its mirror image.</summary>
    public static ClosedMesh Right(ClosedMesh whole)
    {
        if (whole.Rings == 0) throw new ArgumentException("a mesh of rings is wanted", nameof(whole));
        int half = whole.Sides / 2, across = half + 1;
        var points = new List<Vec3> { OnSeam(whole.Vertex(0)) };
        for (int ring = 0; ring < whole.Rings; ring++)
            for (int side = 0; side <= half; side++)
            {
                Vec3 p = whole.Vertex(1 + ring * whole.Sides + side);
                points.Add(side == 0 || side == half ? OnSeam(p) : p);
            }
        points.Add(OnSeam(whole.Vertex(whole.VertexCount - 1)));
        var triangles = new List<int>();
        for (int t = 0; t < whole.Triangles.Length; t += 3)
        {
            int a = Mapped(whole.Triangles[t]), b = Mapped(whole.Triangles[t + 1]), c = Mapped(whole.Triangles[t + 2]);
            if (a >= 0 && b >= 0 && c >= 0) triangles.AddRange([a, b, c]);
        }
        int[] rim = [0, .. Enumerable.Range(0, whole.Rings).Select(r => 1 + r * across), points.Count - 1, .. Enumerable.Range(0, whole.Rings).Reverse().Select(r => 1 + r * across + half)];
        AddFace(points, rim, triangles);
        return new ClosedMesh(points, [.. triangles]);

        int Mapped(int vertex)
        {
            if (vertex == 0) return 0;
            if (vertex == whole.VertexCount - 1) return points.Count - 1;
            int ring = (vertex - 1) / whole.Sides, side = (vertex - 1) % whole.Sides;
            return side <= half ? 1 + ring * across + side : -1;
        }
    }

    private static Vec3 OnSeam(Vec3 p) => p with { Y = 0 };

    /// <summary>The rim's polygon in the plane y = 0, facing left, by cutting off ears.</summary>
    private static void AddFace(List<Vec3> points, int[] rim, List<int> triangles)
    {
        // Nose over the back to the tail and home along the belly turns clockwise seen with x right and z up.
        var left = new List<int>(rim);
        int at = 0, idle = 0;
        while (left.Count > 3 && idle < left.Count)
        {
            int n = left.Count, a = left[(at + n - 1) % n], b = left[at % n], c = left[(at + 1) % n];
            if (IsEar(points, left, a, b, c))
            {
                triangles.AddRange([c, b, a]);
                left.RemoveAt(at % n);
                // Taking ears in turn all along keeps slivers rare.
                at = (at + 1) % left.Count;
                idle = 0;
                continue;
            }
            at = (at + 1) % n;
            idle++;
        }
        for (int i = 1; i + 1 < left.Count; i++) triangles.AddRange([left[i + 1], left[i], left[0]]);
    }

    private static double Turn(Vec3 a, Vec3 b, Vec3 c) => (b.X - a.X) * (c.Z - a.Z) - (b.Z - a.Z) * (c.X - a.X);

    private static bool IsEar(List<Vec3> points, List<int> polygon, int a, int b, int c)
    {
        Vec3 pa = points[a], pb = points[b], pc = points[c];
        if (Turn(pa, pb, pc) >= 0) return false;
        foreach (int i in polygon)
        {
            if (i == a || i == b || i == c) continue;
            Vec3 p = points[i];
            if (Turn(pa, pb, p) <= 0 && Turn(pb, pc, p) <= 0 && Turn(pc, pa, p) <= 0) return false;
        }
        return true;
    }
}
