using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>Coats grow the body: every face moves out by the film's thickness.</summary>
public static class Offset
{
    // A film does not stand out from a knife edge further than this many of its own thicknesses.
    private const double LongestMitre = 3;

    /// <summary>
    /// The mesh with each face moved outward by <paramref name="thickness"/> mm.
    /// <para>
    /// With angle-weighted face normals n_f (weights w_f, Σw = 1) and S = Σ w_f n_f, the vertex moves by t·S/(S·S):
    /// that is t along the unit normal, divided by the cosine of half the edge's angle. Where two faces meet it is
    /// the exact mitre, so a rim gets its whole coat; on a smooth surface S is the normal itself.
    /// </para>
    /// </summary>
    public static ClosedMesh By(ClosedMesh mesh, double thickness) => From(mesh).By(thickness);

    /// <summary>The same for several films on one mesh: its normals are summed once.</summary>
    public static Grown From(ClosedMesh mesh) => new(mesh);

    /// <summary>A mesh under films.</summary>
    public sealed class Grown(ClosedMesh mesh)
    {
        private Vec3[]? sums;
        private (double Middle, double Half)? along;

        /// <summary>Its faces moved outward.</summary>
        /// <param name="thickness">Of the film, mm.</param>
        /// <param name="lean">By how much more at the tail end, and less at the nose, in a straight line between, mm; even where the skin's area has its middle.</param>
        public ClosedMesh By(double thickness, double lean = 0)
        {
            if (thickness == 0) return mesh;
            sums ??= WeightedNormals(mesh);
            double least = 1 / LongestMitre;
            (double middle, double half) = lean == 0 ? (0, 1) : along ??= Along(mesh);
            return mesh.Mapped((i, p) =>
            {
                Vec3 s = sums[i];
                double length = s.Length, film = lean == 0 ? thickness : Math.Max(thickness + lean * (p.X - middle) / half, 0);
                return length == 0 ? p : p + film / Math.Max(length, least) * (s / length);
            });
        }
    }

    /// <summary>Where the skin's area has its middle along the body, and half of the body's length, mm.</summary>
    public static (double Middle, double Half) Along(ClosedMesh mesh)
    {
        double area = 0, moment = 0;
        int[] t = mesh.Triangles;
        for (int k = 0; k < t.Length; k += 3)
        {
            Vec3 a = mesh.Vertex(t[k]), b = mesh.Vertex(t[k + 1]), c = mesh.Vertex(t[k + 2]);
            double twice = Vec3.Cross(b - a, c - a).Length;
            area += twice;
            moment += twice * (a.X + b.X + c.X) / 3;
        }
        return (moment / area, 0.5 * (mesh.X.Max() - mesh.X.Min()));
    }

    private static Vec3[] WeightedNormals(ClosedMesh mesh)
    {
        var sums = new Vec3[mesh.VertexCount];
        var weights = new double[mesh.VertexCount];
        int[] t = mesh.Triangles;
        for (int k = 0; k < t.Length; k += 3)
        {
            Vec3 a = mesh.Vertex(t[k]), b = mesh.Vertex(t[k + 1]), c = mesh.Vertex(t[k + 2]);
            Vec3 ab = b - a, ac = c - a, bc = c - b, twice = Vec3.Cross(ab, ac);
            double size = twice.Length;
            if (size == 0) continue;
            // Each corner's angle has the same cross product, twice the triangle's area; the three make π.
            Vec3 normal = twice / size;
            double atA = Math.Atan2(size, Vec3.Dot(ab, ac)), atB = Math.Atan2(size, -Vec3.Dot(ab, bc));
            Add(t[k], atA, normal);
            Add(t[k + 1], atB, normal);
            Add(t[k + 2], Math.PI - atA - atB, normal);
        }
        for (int i = 0; i < sums.Length; i++)
            if (weights[i] > 0) sums[i] /= weights[i];
        return sums;

        void Add(int vertex, double angle, Vec3 normal)
        {
            sums[vertex] += angle * normal;
            weights[vertex] += angle;
        }
    }
}
