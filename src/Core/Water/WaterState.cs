namespace Trimwright.Core.Water;

/// <summary>A water by its practical salinity and temperature (°C, ITS-90).</summary>
/// <param name="Salinity">Practical salinity, 0 to 42.</param>
/// <param name="TemperatureC">−2 to 40 °C.</param>
public readonly record struct WaterState(double Salinity, double TemperatureC)
{
    public static readonly WaterState Tap = new(0, 15);
    public static readonly WaterState Lake = new(0.2, 15);
    public static readonly WaterState Brackish = new(10, 20);
    public static readonly WaterState Ocean = new(35, 24);
    public static readonly WaterState Reef = new(35, 28);

    /// <summary>The named waters.</summary>
    public static readonly IReadOnlyList<(string Name, WaterState Water)> Named =
        [("tap", Tap), ("lake", Lake), ("brackish", Brackish), ("ocean", Ocean), ("reef", Reef)];

    /// <summary>Ranges within which <see cref="Density"/> is published.</summary>
    public const double SaltiestAllowed = 42;
    public const double ColdestAllowed = -2;
    public const double WarmestAllowed = 40;

    /// <summary>
    /// Density at atmospheric pressure, g/mm³.
    /// <para>
    /// UNESCO 1981 equation of state (EOS-80): Millero &amp; Poisson 1981, Deep-Sea Research 28A, 625, eq. 6;
    /// Fofonoff &amp; Millard 1983, UNESCO Technical Papers in Marine Science 44, eqs. 13–14. Its temperature is on
    /// the 1968 scale: t68 = 1.00024·t90.
    /// </para>
    /// </summary>
    public double Density
    {
        get
        {
            double t = 1.00024 * TemperatureC, s = Salinity;
            return 1e-6 * AtScale68(s, t);
        }
    }

    /// <summary>EOS-80 in kg/m³ with t on the 1968 temperature scale.</summary>
    internal static double AtScale68(double s, double t)
    {
        double fresh = 999.842594 + t * (6.793952e-2 + t * (-9.095290e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
        double b = 8.24493e-1 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
        double c = -5.72466e-3 + t * (1.0227e-4 + t * -1.6546e-6);
        return fresh + b * s + c * s * Math.Sqrt(s) + 4.8314e-4 * s * s;
    }

    /// <summary>
    /// Dynamic viscosity, g/(mm·ms); 1 Pa·s is 10⁻³ of it.
    /// <para>Sharqawy, Lienhard &amp; Zubair 2010, Desalination and Water Treatment 16, 354, eq. 22–23.</para>
    /// </summary>
    public double DynamicViscosity
    {
        get
        {
            double t = TemperatureC, s = Salinity * (35.16504 / 35) * 1e-3;
            double fresh = 4.2844324477e-5 + 1 / (0.15700386464 * (t + 64.992620050) * (t + 64.992620050) - 91.296496657);
            double a = 1.5409136040 + t * (1.9981117208e-2 + t * -9.5203865864e-5);
            double b = 7.9739318223 + t * (-7.5614568881e-2 + t * 4.7237011074e-4);
            return 1e-3 * fresh * (1 + a * s + b * s * s);
        }
    }

    /// <summary>Kinematic viscosity, mm²/ms; 1 m²/s is 10³ of it.</summary>
    public double KinematicViscosity => DynamicViscosity / Density;
}
