namespace Trimwright.Core.Numerics;

/// <summary>Three numbers in the axes of whoever holds them; double precision.</summary>
public readonly record struct Vec3(double X, double Y, double Z)
{
    public static readonly Vec3 Zero = new(0, 0, 0);
    public static readonly Vec3 UnitX = new(1, 0, 0);
    public static readonly Vec3 UnitY = new(0, 1, 0);
    public static readonly Vec3 UnitZ = new(0, 0, 1);

    public static Vec3 operator +(Vec3 a, Vec3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Vec3 operator -(Vec3 a, Vec3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Vec3 operator -(Vec3 a) => new(-a.X, -a.Y, -a.Z);

    public static Vec3 operator *(Vec3 a, double k) => new(a.X * k, a.Y * k, a.Z * k);

    public static Vec3 operator *(double k, Vec3 a) => new(a.X * k, a.Y * k, a.Z * k);

    public static Vec3 operator /(Vec3 a, double k) => new(a.X / k, a.Y / k, a.Z / k);

    public double LengthSquared => X * X + Y * Y + Z * Z;

    public double Length => Math.Sqrt(LengthSquared);

    public bool IsFinite => double.IsFinite(X) && double.IsFinite(Y) && double.IsFinite(Z);

    /// <summary>The unit vector along this one; zero stays zero.</summary>
    public Vec3 Unit()
    {
        double length = Length;
        return length > 0 ? this / length : Zero;
    }

    public static double Dot(Vec3 a, Vec3 b) => a.X * b.X + a.Y * b.Y + a.Z * b.Z;

    public static Vec3 Cross(Vec3 a, Vec3 b) =>
        new(a.Y * b.Z - a.Z * b.Y, a.Z * b.X - a.X * b.Z, a.X * b.Y - a.Y * b.X);

    /// <summary>The angle between two vectors, radians, exact near 0 and π too.</summary>
    public static double Angle(Vec3 a, Vec3 b) => Math.Atan2(Cross(a, b).Length, Dot(a, b));

    /// <summary>Two unit vectors that with this unit vector make a right-handed frame (e1 × e2 = this).</summary>
    public (Vec3 E1, Vec3 E2) Frame()
    {
        // The axis that this vector leans on least gives the best-conditioned cross product.
        Vec3 helper = Math.Abs(X) <= Math.Abs(Y) && Math.Abs(X) <= Math.Abs(Z) ? UnitX
            : Math.Abs(Y) <= Math.Abs(Z) ? UnitY : UnitZ;
        Vec3 e1 = Cross(helper, this).Unit();
        return (e1, Cross(this, e1));
    }

    /// <summary>This vector turned by an angle (radians, right-handed) about a unit axis (Rodrigues).</summary>
    public Vec3 Turned(Vec3 axis, double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        return cos * this + sin * Cross(axis, this) + (1 - cos) * Dot(axis, this) * axis;
    }
}
