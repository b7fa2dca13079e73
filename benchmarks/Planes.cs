using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Benchmarks;

/// <summary>Attitudes of a lure in the water, by class, all through the middle of the body give or take.</summary>
internal static class Planes
{
    public static readonly string[] Classes = ["near level", "any", "near perpendicular", "30-60 degrees"];

    public static WaterPlane[] Of(string attitude, ClosedMesh mesh, int count)
    {
        var random = new Random(20260101);
        Vec3 middle = SolidProperties.Of(mesh).Centroid;
        double Either(double size) => (2 * random.NextDouble() - 1) * size;
        Vec3 Up()
        {
            switch (attitude)
            {
                case "near level": return new Vec3(Either(0.03), Either(0.03), 1).Unit();
                case "near perpendicular": return new Vec3(1, Either(0.03), Either(0.03)).Unit();
                case "30-60 degrees": return WaterPlane.Up((30 + 30 * random.NextDouble()) * Math.PI / 180, Either(0.2));
                default:
                    while (true)
                    {
                        Vec3 v = new(Either(1), Either(1), Either(1));
                        if (v.Length is > 0.1 and < 1) return v.Unit();
                    }
            }
        }
        return [.. Enumerable.Range(0, count).Select(_ =>
        {
            Vec3 n = Up();
            return new WaterPlane(n, Vec3.Dot(n, middle) + Either(8));
        })];
    }
}
