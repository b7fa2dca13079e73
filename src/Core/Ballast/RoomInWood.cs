using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>
/// The room that something takes in the wood: a cylinder along an axis, an upright box, or a rod with round ends between two
/// points (a ball when they are one). Lengths mm, body axes.
/// </summary>
public sealed class RoomInWood
{
    private readonly Vec3 from;
    private readonly Vec3 to;
    private readonly double radius;
    private readonly Axis? axis;
    private readonly Vec3? half;

    private RoomInWood(Vec3 from, Vec3 to, double radius, Axis? axis, Vec3? half) =>
        (this.from, this.to, this.radius, this.axis, this.half) = (from, to, radius, axis, half);

    public static RoomInWood Rod(Vec3 from, Vec3 to, double diameter) => new(from, to, diameter / 2, null, null);

    public static RoomInWood Box(Vec3 middle, Vec3 size) => new(middle, middle, 0, null, 0.5 * size);

    public static RoomInWood Cylinder(Vec3 middle, Axis axis, double diameter, double length)
    {
        Vec3 end = length / 2 * Solids.Direction(axis);
        return new(middle - end, middle + end, diameter / 2, axis, null);
    }

    /// <summary>A weight's pocket: grown by its clearance, as it is cut.</summary>
    public static RoomInWood Of(BallastPiece piece)
    {
        double c = piece.Clearance;
        return piece.Shape switch
        {
            PieceShape.Ball => Rod(piece.Middle, piece.Middle, piece.DiameterMm + c),
            PieceShape.Flat => Box(piece.Middle, piece.Box + new Vec3(c, c, c)),
            PieceShape.Round => Cylinder(piece.Middle, piece.Axis, piece.DiameterMm + c, piece.LengthMm + c),
        };
    }

    /// <summary>A point in its middle, and the radius about it that nothing of it exceeds.</summary>
    public (Vec3 Middle, double Radius) Ball => (0.5 * (from + to), 0.5 * (to - from).Length + radius + (half?.Length ?? 0));

    /// <summary>Distance of a point from it, mm; 0 inside.</summary>
    public double DistanceTo(Vec3 p)
    {
        if (half is { } h) return Beyond(p - from, h);
        Vec3 along = to - from;
        double length = along.Length;
        if (axis is null)
        {
            double share = length > 0 ? Math.Clamp(Vec3.Dot(p - from, along) / (length * length), 0, 1) : 0;
            return Math.Max((p - (from + share * along)).Length - radius, 0);
        }
        Vec3 d = p - 0.5 * (from + to), unit = Solids.Direction(axis.Value);
        double ahead = Vec3.Dot(d, unit), aside = Math.Sqrt(Math.Max(d.LengthSquared - ahead * ahead, 0));
        return double.Hypot(Math.Max(Math.Abs(ahead) - length / 2, 0), Math.Max(aside - radius, 0));
    }

    private static double Beyond(Vec3 d, Vec3 half) =>
        new Vec3(Math.Max(Math.Abs(d.X) - half.X, 0), Math.Max(Math.Abs(d.Y) - half.Y, 0), Math.Max(Math.Abs(d.Z) - half.Z, 0)).Length;
}
