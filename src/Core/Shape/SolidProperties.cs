using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>What a closed solid of uniform stuff is: volume mm³, centroid mm, surface mm², and second moments.</summary>
/// <param name="Volume">mm³.</param>
/// <param name="Centroid">mm, body axes.</param>
/// <param name="Area">Surface, mm².</param>
/// <param name="Second">∫x², ∫y², ∫z² dV about the centroid, mm⁵.</param>
public readonly record struct SolidProperties(double Volume, Vec3 Centroid, double Area, Vec3 Second)
{
    /// <summary>Volume times centroid, mm⁴.</summary>
    public Vec3 Moment => Volume * Centroid;

    /// <summary>Moments of inertia per unit density about the centroid's x, y and z axes, mm⁵.</summary>
    public Vec3 Inertia => new(Second.Y + Second.Z, Second.X + Second.Z, Second.X + Second.Y);

    /// <summary>
    /// Sums signed tetrahedra from a local origin (divergence theorem). For a tetrahedron with one corner at the
    /// origin and the others a, b, c: V = a·(b×c)/6, ∫p dV = V(a+b+c)/4 and
    /// ∫x² dV = V/20·((Σx)² + Σx²) (Tonon 2004, J. Math. Stat. 1, 8).
    /// </summary>
    public static SolidProperties Of(ClosedMesh mesh)
    {
        Vec3 origin = mesh.Vertex(0);
        double volume = 0, area = 0;
        Vec3 moment = Vec3.Zero, second = Vec3.Zero;
        int[] triangles = mesh.Triangles;
        for (int t = 0; t < triangles.Length; t += 3)
        {
            Vec3 a = mesh.Vertex(triangles[t]) - origin;
            Vec3 b = mesh.Vertex(triangles[t + 1]) - origin;
            Vec3 c = mesh.Vertex(triangles[t + 2]) - origin;
            double v = Vec3.Dot(a, Vec3.Cross(b, c)) / 6;
            Vec3 s = a + b + c;
            volume += v;
            moment += v / 4 * s;
            second += v / 20 * new Vec3(
                s.X * s.X + a.X * a.X + b.X * b.X + c.X * c.X,
                s.Y * s.Y + a.Y * a.Y + b.Y * b.Y + c.Y * c.Y,
                s.Z * s.Z + a.Z * a.Z + b.Z * b.Z + c.Z * c.Z);
            area += Vec3.Cross(b - a, c - a).Length / 2;
        }
        if (volume == 0) return new SolidProperties(0, origin, area, Vec3.Zero);
        Vec3 middle = moment / volume;
        Vec3 central = second - volume * new Vec3(middle.X * middle.X, middle.Y * middle.Y, middle.Z * middle.Z);
        return new SolidProperties(volume, origin + middle, area, central);
    }
}
