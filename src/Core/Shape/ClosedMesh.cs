using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>
/// A closed triangle mesh, outward by the right hand, in body axes (mm). Vertices are held as three arrays so that
/// kernels read them in order. A mesh of rings (<see cref="Sides"/> &gt; 0) has vertex 0 at the nose pole, then
/// <see cref="Rings"/> rings of <see cref="Sides"/> vertices nose to tail, each from the back over starboard, and
/// the tail pole last.
/// </summary>
public sealed class ClosedMesh
{
    public double[] X { get; }

    public double[] Y { get; }

    public double[] Z { get; }

    /// <summary>Three vertex indices a triangle.</summary>
    public int[] Triangles { get; }

    /// <summary>Number of rings, 0 for a mesh of no particular order.</summary>
    public int Rings { get; }

    /// <summary>Vertices in each ring, 0 for a mesh of no particular order.</summary>
    public int Sides { get; }

    /// <summary>How many of the rings lie on the nose face, before the body's own first ring.</summary>
    public int FaceRings { get; }

    /// <summary>
    /// How much larger each ring is drawn than its section, for the sake of its area; empty: not at all.
    /// </summary>
    public double[] Growth { get; }

    public int VertexCount => X.Length;

    public int TriangleCount => Triangles.Length / 3;

    /// <param name="vertices">Positions, mm.</param>
    /// <param name="triangles">Three indices each; closed and outward (not checked here: <c>Defects</c> checks).</param>
    /// <param name="rings">Number of rings, or 0.</param>
    /// <param name="sides">Vertices in a ring, or 0.</param>
    /// <param name="faceRings">Rings on the nose face.</param>
    /// <param name="growth">Growth of each ring, or null.</param>
    public ClosedMesh(
        IReadOnlyList<Vec3> vertices, int[] triangles, int rings = 0, int sides = 0, int faceRings = 0, double[]? growth = null)
    {
        FaceRings = faceRings;
        Growth = growth ?? [];
        X = new double[vertices.Count];
        Y = new double[vertices.Count];
        Z = new double[vertices.Count];
        if (vertices is List<Vec3> list) Take(CollectionsMarshal.AsSpan(list));
        else if (vertices is Vec3[] array) Take(array);
        else Take([.. vertices]);
        Triangles = triangles;
        Rings = rings;
        Sides = sides;
    }

    private void Take(ReadOnlySpan<Vec3> vertices)
    {
        for (int i = 0; i < vertices.Length; i++) (X[i], Y[i], Z[i]) = (vertices[i].X, vertices[i].Y, vertices[i].Z);
    }

    public Vec3 Vertex(int i) => new(X[i], Y[i], Z[i]);

    /// <summary>The least and the greatest of n·p over all vertices p, mm.</summary>
    public (double Low, double High) Along(Vec3 n)
    {
        ref double px = ref MemoryMarshal.GetArrayDataReference(X), py = ref MemoryMarshal.GetArrayDataReference(Y);
        ref double pz = ref MemoryMarshal.GetArrayDataReference(Z);
        Vector256<double> nx = Vector256.Create(n.X), ny = Vector256.Create(n.Y), nz = Vector256.Create(n.Z);
        Vector256<double> least = Vector256.Create(double.PositiveInfinity), most = Vector256.Create(double.NegativeInfinity);
        int i = 0;
        for (; i <= X.Length - 4; i += 4)
        {
            nuint at = (nuint)i;
            Vector256<double> h = nx * Vector256.LoadUnsafe(ref px, at) + ny * Vector256.LoadUnsafe(ref py, at) + nz * Vector256.LoadUnsafe(ref pz, at);
            (least, most) = (Vector256.Min(least, h), Vector256.Max(most, h));
        }
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int k = 0; k < 4; k++) (low, high) = (Math.Min(low, least[k]), Math.Max(high, most[k]));
        for (; i < X.Length; i++)
        {
            double h = n.X * X[i] + n.Y * Y[i] + n.Z * Z[i];
            (low, high) = (Math.Min(low, h), Math.Max(high, h));
        }
        return (low, high);
    }

    /// <summary>A ring's vertex where the section itself has it, its growth for the area's sake taken back.</summary>
    public Vec3 OnSection(int ring, int side)
    {
        int first = 1 + ring * Sides;
        Vec3 p = Vertex(first + side);
        if (Growth.Length == 0) return p;
        Vec3 middle = 0.5 * (Vertex(first + Sides / 4) + Vertex(first + 3 * Sides / 4));
        return middle + (p - middle) / Growth[ring];
    }

    /// <summary>The same mesh with every vertex mapped.</summary>
    public ClosedMesh Mapped(Func<int, Vec3, Vec3> map)
    {
        var moved = new Vec3[VertexCount];
        for (int i = 0; i < moved.Length; i++) moved[i] = map(i, Vertex(i));
        return new ClosedMesh(moved, Triangles, Rings, Sides, FaceRings, Growth);
    }

    /// <summary>
    /// Edges that are not shared by exactly two triangles running opposite ways; 0 for a closed, oriented mesh.
    /// </summary>
    public int Defects()
    {
        var seen = new Dictionary<(int, int), int>();
        for (int t = 0; t < Triangles.Length; t += 3)
            for (int k = 0; k < 3; k++)
            {
                int a = Triangles[t + k], b = Triangles[t + (k + 1) % 3];
                seen[(a, b)] = seen.GetValueOrDefault((a, b)) + 1;
            }
        return seen.Count(edge => edge.Value != 1 || !seen.ContainsKey((edge.Key.Item2, edge.Key.Item1)));
    }
}
