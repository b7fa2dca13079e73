using Trimwright.Core.Quantities;

namespace Trimwright.Core.Strength;

/// <summary>
/// What wood holds of metal in its side grain. USDA Forest Products Laboratory, Wood Handbook (FPL-GTR-282, 2021),
/// chapter 8, metric forms, equations numbered as there; N and mm. G is specific gravity at 12 % moisture, D the diameter,
/// L the length in the wood. They are average loads at failure, of fasteners mostly above 2.5 mm; end grain holds less
/// (three quarters for screws, from memory), and glue on the thread is not in them.
/// </summary>
public static class WoodHold
{
    private const double MoistureOfTables = 12;

    /// <summary>G of wood of a density, g/mm³, as weighed air-dry, which is taken as 12 % moisture (eq. 4-14).</summary>
    public static double Gravity(double density) => Units.ToGramsPerCm3(density) / (1 + MoistureOfTables / 100);

    /// <summary>Withdrawal of a bright nail (eq. 8-1).</summary>
    public static double Nail(double g, double diameter, double length) => 54.12 * Math.Pow(g, 2.5) * diameter * length;

    /// <summary>Withdrawal of an annularly threaded nail (eq. 8-2a).</summary>
    public static double RingedNail(double g, double diameter, double length) => 77.57 * g * g * diameter * length;

    /// <summary>Bearing stress under a thin dowel, MPa, at any angle to the grain (eq. 8-3).</summary>
    public static double DowelBearing(double g) => 114.5 * Math.Pow(g, 1.84);

    /// <summary>Withdrawal of a drift pin (eq. 8-9).</summary>
    public static double DriftPin(double g, double diameter, double length) => 45.51 * g * g * diameter * length;

    /// <summary>Withdrawal of a wood screw (eq. 8-10); a screw eye is reckoned as one.</summary>
    public static double WoodScrew(double g, double diameter, double length) => 108.25 * g * g * diameter * length;

    /// <summary>Withdrawal of a lag screw (eq. 8-14).</summary>
    public static double LagScrew(double g, double diameter, double length) =>
        125.4 * Math.Pow(g, 1.5) * Math.Pow(diameter, 0.75) * length;

    /// <summary>Hankinson's formula (eq. 8-16): load at an angle to the grain, from those along it and across it.</summary>
    public static double AtAngle(double along, double across, double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        return along * across / (along * sin * sin + across * cos * cos);
    }

    /// <summary>
    /// Load, N, square to a wire that leaves the wood, at which it cuts sideways into it. The wood bears F_e·d a millimetre
    /// down to the depth b where the wire hinges; there the shear is nothing and the moment F_e·d·b²/2 = M_p, so
    /// V = F_e·d·b = √(2·M_p·F_e·d): one hinge of Johansen's yield theory (1949, from memory).
    /// </summary>
    public static double UnderWire(double plasticMoment, double bearing, double diameter) =>
        Math.Sqrt(2 * plasticMoment * bearing * diameter);
}
