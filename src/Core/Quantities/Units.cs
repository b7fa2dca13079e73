namespace Trimwright.Core.Quantities;

/// <summary>
/// The one unit system inside: millimetre, gram, millisecond. Force then comes out in newtons, stress in
/// megapascals, speed in metres a second and energy in millijoules, and a number that a maker types is the number
/// in the code. Angles are radians inside; density is g/mm³. Everything else is converted here, at the edges.
/// </summary>
public static class Units
{
    /// <summary>Standard gravity, mm/ms² (9.80665 m/s², the conventional value of the 3rd CGPM, 1901).</summary>
    public const double Gravity = 9.80665e-3;

    /// <summary>
    /// Density of the air around a kitchen scale, g/mm³. Every mass and density is <em>as weighed in air</em>, so
    /// the air is taken off once, in the water's density, and never again.
    /// </summary>
    public const double AirDensity = 1.2e-6;

    /// <summary>A kilogram-force in newtons.</summary>
    public const double KilogramForce = 9.80665;

    /// <summary>Cubic millimetres in a cubic centimetre.</summary>
    public const double CubicCentimetre = 1000.0;

    /// <summary>Millimetres in an inch, exactly.</summary>
    public const double Inch = 25.4;

    /// <summary>Millimetres in a foot, exactly.</summary>
    public const double Foot = 304.8;

    /// <summary>Millimetres in a yard, exactly.</summary>
    public const double Yard = 914.4;

    /// <summary>Grams in an avoirdupois ounce, exactly.</summary>
    public const double Ounce = 28.349523125;

    /// <summary>Kilograms in an avoirdupois pound, exactly.</summary>
    public const double Pound = 0.45359237;

    /// <summary>g/cm³ to g/mm³.</summary>
    public static double FromGramsPerCm3(double density) => density * 1e-3;

    /// <summary>g/mm³ to g/cm³.</summary>
    public static double ToGramsPerCm3(double density) => density * 1e3;

    /// <summary>Degrees to radians.</summary>
    public static double FromDegrees(double degrees) => degrees * (Math.PI / 180);

    /// <summary>Radians to degrees.</summary>
    public static double ToDegrees(double radians) => radians * (180 / Math.PI);

    /// <summary>Milliseconds to seconds.</summary>
    public static double ToSeconds(double milliseconds) => milliseconds * 1e-3;
}
