using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>The axis that a solid lies along.</summary>
public enum Axis
{
    X,
    Y,
    Z,
}

/// <summary>Exact volumes and extents of the simple solids that ballast is made of. Lengths mm, volumes mm³.</summary>
public static class Solids
{
    public static double Cylinder(double diameter, double length) => Math.PI / 4 * diameter * diameter * length;

    public static double Ball(double diameter) => Math.PI / 6 * diameter * diameter * diameter;

    /// <summary>A cap of a sphere: πd(3a² + d²)/6 for rim radius a and depth d.</summary>
    public static double Cap(double rimDiameter, double depth) =>
        Math.PI * depth * (3 * rimDiameter * rimDiameter / 4 + depth * depth) / 6;

    public static Vec3 Direction(Axis axis) => axis switch
    {
        Axis.X => Vec3.UnitX,
        Axis.Y => Vec3.UnitY,
        Axis.Z => Vec3.UnitZ,
    };

    /// <summary>Points on a cylinder's two rims and its waist, for asking whether it lies inside something.</summary>
    public static IEnumerable<Vec3> CylinderPoints(Vec3 centre, Axis axis, double diameter, double length)
    {
        Vec3 along = Direction(axis);
        (Vec3 e1, Vec3 e2) = along.Frame();
        for (int end = -1; end <= 1; end++)
            for (int k = 0; k < 24; k++)
            {
                (double sin, double cos) = Math.SinCos(2 * Math.PI * k / 24);
                yield return centre + end * length / 2 * along + diameter / 2 * (cos * e1 + sin * e2);
            }
    }

    /// <summary>Points on a ball's surface.</summary>
    public static IEnumerable<Vec3> BallPoints(Vec3 centre, double diameter) =>
        SphereGrid.Of(1).Directions.Select(direction => centre + diameter / 2 * direction);

    /// <summary>Corners of an upright box and the middles of its edges and faces.</summary>
    public static IEnumerable<Vec3> BoxPoints(Vec3 centre, Vec3 size)
    {
        for (int i = -1; i <= 1; i++)
            for (int j = -1; j <= 1; j++)
                for (int k = -1; k <= 1; k++)
                    if ((i, j, k) != (0, 0, 0))
                        yield return centre + 0.5 * new Vec3(i * size.X, j * size.Y, k * size.Z);
    }
}
