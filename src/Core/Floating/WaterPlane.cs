using Trimwright.Core.Numerics;

namespace Trimwright.Core.Floating;

/// <summary>
/// The water's surface seen from the body: all p with n·p = d, n being the world's up in body axes. With θ the trim
/// (positive nose up) and φ the heel (positive starboard down), n = (−sin θ, −cos θ sin φ, cos θ cos φ).
/// </summary>
/// <param name="N">Unit vector up.</param>
/// <param name="D">mm.</param>
public readonly record struct WaterPlane(Vec3 N, double D)
{
    /// <summary>Height of a point above the water, mm.</summary>
    public double Height(Vec3 p) => Vec3.Dot(N, p) - D;

    /// <summary>Trim, radians, positive nose up.</summary>
    public static double Trim(Vec3 up) => Math.Atan2(-up.X, Math.Sqrt(up.Y * up.Y + up.Z * up.Z));

    /// <summary>Heel, radians, positive starboard down; without meaning at ±90° of trim.</summary>
    public static double Heel(Vec3 up) => Math.Atan2(-up.Y, up.Z);

    /// <summary>The world's up in body axes at a trim and heel in radians.</summary>
    public static Vec3 Up(double trim, double heel)
    {
        (double sinT, double cosT) = Math.SinCos(trim);
        (double sinH, double cosH) = Math.SinCos(heel);
        return new Vec3(-sinT, -cosT * sinH, cosT * cosH);
    }
}

/// <summary>What lies under the water plane, and the waterplane itself.</summary>
/// <param name="Volume">Submerged volume, mm³.</param>
/// <param name="Moment">∫(p − O) dV over it, mm⁴, body axes.</param>
/// <param name="Area">Waterplane area, mm².</param>
/// <param name="S1">∫q₁ dA in the plane's own axes from O, mm³.</param>
/// <param name="S2">∫q₂ dA.</param>
/// <param name="I11">∫q₁² dA, mm⁴.</param>
/// <param name="I12">∫q₁q₂ dA.</param>
/// <param name="I22">∫q₂² dA.</param>
/// <param name="Origin">O, a point on the plane, mm, body axes.</param>
/// <param name="E1">First axis of the plane; E1 × E2 = n.</param>
/// <param name="E2">Second axis of the plane.</param>
public readonly record struct Cut(
    double Volume, Vec3 Moment, double Area, double S1, double S2, double I11, double I12, double I22,
    Vec3 Origin, Vec3 E1, Vec3 E2)
{
    /// <summary>Centre of buoyancy of the submerged volume, mm; the origin when nothing is wet.</summary>
    public Vec3 Centroid => Volume > 0 ? Origin + Moment / Volume : Origin;

    /// <summary>Centre of flotation: the waterplane's centroid, mm.</summary>
    public Vec3 Flotation => Area > 0 ? Origin + S1 / Area * E1 + S2 / Area * E2 : Origin;
}

/// <summary>Cuts one closed solid by water planes.</summary>
public interface ICutter
{
    /// <summary>The part under a plane.</summary>
    Cut Cut(WaterPlane plane);
}
