using System.Runtime.Intrinsics;
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
        if (mesh.Rings > 0 && mesh.Sides % 4 == 0) return OfRings(mesh);
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
        return About(origin, volume, moment, area, second);
    }

    // The same sums, four triangles at a time, their factors taken out.
    private static SolidProperties OfRings(ClosedMesh mesh)
    {
        Vec3 origin = mesh.Vertex(0);
        Vector256<double> volume = Vector256<double>.Zero, area = volume;
        Vec3x4 moment = new(volume, volume, volume), second = moment;
        var strip = new Strip(stackalloc double[Strip.Room(mesh.Sides)], mesh.Sides);
        strip.Next(mesh.X, mesh.Y, mesh.Z, 0, isPole: true, origin);
        for (int ring = 0; ring <= mesh.Rings; ring++)
        {
            strip.Next(mesh.X, mesh.Y, mesh.Z, 1 + ring * mesh.Sides, isPole: ring == mesh.Rings, origin);
            for (int slot = 0; slot < 2; slot++)
                for (int side = 0; side < mesh.Sides; side += 4)
                {
                    strip.Corners(slot, side, out Vec3x4 a, out Vec3x4 b, out Vec3x4 c);
                    Vector256<double> v = Vec3x4.Dot(a, Vec3x4.Cross(b, c));
                    Vec3x4 s = a + b + c, across = Vec3x4.Cross(b - a, c - a);
                    volume += v;
                    moment += v * s;
                    second += v * new Vec3x4(
                        s.X * s.X + a.X * a.X + b.X * b.X + c.X * c.X,
                        s.Y * s.Y + a.Y * a.Y + b.Y * b.Y + c.Y * c.Y,
                        s.Z * s.Z + a.Z * a.Z + b.Z * b.Z + c.Z * c.Z);
                    area += Vector256.Sqrt(Vec3x4.Dot(across, across));
                }
        }
        return About(origin, Sum(volume) / 6, Sum(moment) / 24, Sum(area) / 2, Sum(second) / 120);
    }

    private static double Sum(Vector256<double> v) => v[0] + v[1] + (v[2] + v[3]);

    private static Vec3 Sum(in Vec3x4 v) => new(Sum(v.X), Sum(v.Y), Sum(v.Z));

    private static SolidProperties About(Vec3 origin, double volume, Vec3 moment, double area, Vec3 second)
    {
        if (volume == 0) return new SolidProperties(0, origin, area, Vec3.Zero);
        Vec3 middle = moment / volume;
        Vec3 central = second - volume * new Vec3(middle.X * middle.X, middle.Y * middle.Y, middle.Z * middle.Z);
        return new SolidProperties(volume, origin + middle, area, central);
    }
}
