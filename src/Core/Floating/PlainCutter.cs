using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Floating;

/// <summary>
/// The water-plane cut, plainly: heights once per vertex, one determinant per wet triangle, any closed mesh.
/// <para>
/// With O on the plane, the submerged solid is the signed sum of the tetrahedra from O over its wet skin: the cap that
/// the water makes contributes nothing, since O lies in it. V = Σ a·(b×c)/6 and ∫p dV = Σ v(a+b+c)/4, all from O.
/// </para>
/// <para>
/// A crossed triangle has one lone vertex c (height h_c) on its side of the water; P and Q are where its two edges
/// meet the plane. Since P and Q lie in the plane, c·(P×Q) = h_c·(P×Q)·n. With σ = +1 for a wet lone vertex and −1
/// for a dry one, and cr = σ(P×Q)·n: volume += h_c·cr/6, moment += that times (c+P+Q)/4; for a dry lone vertex the
/// whole triangle counts as wet besides. The wet side's boundary runs from Q to P, so by Green's theorem the same cr
/// gives the waterplane: A −= cr/2, S −= cr(P+Q)/6, I₁₁ −= cr(P₁²+P₁Q₁+Q₁²)/12, I₁₂ −= cr(2P₁P₂+P₁Q₂+Q₁P₂+2Q₁Q₂)/24.
/// </para>
/// A vertex counts as wet when its height is below 0, by the same arithmetic as in <see cref="StripCutter"/>, from the same
/// local origin: no 0/0 through vertices, and a face that lies in the water's surface is on the same side for both.
/// </summary>
public sealed class PlainCutter : ICutter
{
    private readonly int[] triangles;
    private readonly double[] x;
    private readonly double[] y;
    private readonly double[] z;
    private readonly double[] height;
    private Vec3 middle;

    public PlainCutter(ClosedMesh mesh)
    {
        triangles = mesh.Triangles;
        height = new double[mesh.VertexCount];
        x = new double[mesh.VertexCount];
        y = new double[mesh.VertexCount];
        z = new double[mesh.VertexCount];
        Take(mesh);
    }

    /// <summary>Takes up the vertices of another mesh of the same triangles: for thousands of builds that differ by a hair.</summary>
    internal void Take(ClosedMesh mesh)
    {
        middle = LocalOrigin(mesh);
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = mesh.X[i] - middle.X;
            y[i] = mesh.Y[i] - middle.Y;
            z[i] = mesh.Z[i] - middle.Z;
        }
    }

    /// <summary>The point that both cutters measure from: between the first and the last vertex.</summary>
    internal static Vec3 LocalOrigin(ClosedMesh mesh) => 0.5 * (mesh.Vertex(0) + mesh.Vertex(mesh.VertexCount - 1));

    public Cut Cut(WaterPlane plane)
    {
        Vec3 n = plane.N;
        (Vec3 e1, Vec3 e2) = n.Frame();
        double d = plane.D - Vec3.Dot(n, middle);
        Vec3 origin = d * n;
        double[] h = height;
        for (int i = 0; i < h.Length; i++) h[i] = x[i] * n.X + y[i] * n.Y + z[i] * n.Z - d;
        var sums = new Sums(middle + origin, e1, e2);
        int[] t = triangles;
        for (int k = 0; k < t.Length; k += 3)
        {
            int a = t[k], b = t[k + 1], c = t[k + 2];
            bool wetA = h[a] < 0, wetB = h[b] < 0, wetC = h[c] < 0;
            if (!wetA && !wetB && !wetC) continue;
            Vec3 pa = new(x[a] - origin.X, y[a] - origin.Y, z[a] - origin.Z);
            Vec3 pb = new(x[b] - origin.X, y[b] - origin.Y, z[b] - origin.Z);
            Vec3 pc = new(x[c] - origin.X, y[c] - origin.Y, z[c] - origin.Z);
            int wet = (wetA ? 1 : 0) + (wetB ? 1 : 0) + (wetC ? 1 : 0);
            if (wet >= 2) sums.AddWhole(pa, pb, pc);
            if (wet == 3) continue;
            bool lone = wet == 1;
            if (wetA == lone && wetB != lone) sums.AddCorner(pa, h[a], pb, h[b], pc, h[c], lone);
            else if (wetB == lone && wetC != lone) sums.AddCorner(pb, h[b], pc, h[c], pa, h[a], lone);
            else sums.AddCorner(pc, h[c], pa, h[a], pb, h[b], lone);
        }
        return sums.Cut();
    }

    private struct Sums(Vec3 origin, Vec3 e1, Vec3 e2)
    {
        private double volume;
        private Vec3 moment;
        private double area, s1, s2, i11, i12, i22;

        public void AddWhole(Vec3 a, Vec3 b, Vec3 c)
        {
            double v = Vec3.Dot(a, Vec3.Cross(b, c)) / 6;
            volume += v;
            moment += v / 4 * (a + b + c);
        }

        public void AddCorner(Vec3 c, double hc, Vec3 a, double ha, Vec3 b, double hb, bool wet)
        {
            Vec3 p = c + hc / (hc - ha) * (a - c);
            Vec3 q = c + hc / (hc - hb) * (b - c);
            double p1 = Vec3.Dot(p, e1), p2 = Vec3.Dot(p, e2), q1 = Vec3.Dot(q, e1), q2 = Vec3.Dot(q, e2);
            double cr = p1 * q2 - p2 * q1;
            if (!wet) cr = -cr;
            double v = hc * cr / 6;
            volume += v;
            moment += v / 4 * (c + p + q);
            area -= cr / 2;
            s1 -= cr / 6 * (p1 + q1);
            s2 -= cr / 6 * (p2 + q2);
            i11 -= cr / 12 * (p1 * p1 + p1 * q1 + q1 * q1);
            i22 -= cr / 12 * (p2 * p2 + p2 * q2 + q2 * q2);
            i12 -= cr / 24 * (2 * p1 * p2 + p1 * q2 + q1 * p2 + 2 * q1 * q2);
        }

        public readonly Cut Cut() => new(volume, moment, area, s1, s2, i11, i12, i22, origin, e1, e2);
    }
}
