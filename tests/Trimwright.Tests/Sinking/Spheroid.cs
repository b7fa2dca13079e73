using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>The prolate spheroid of 75 by 15 mm as a falling body, made by hand from closed forms.</summary>
internal static class Spheroid
{
    public const double A = 75;
    public const double B = 15;

    public static double Volume => 4.0 / 3 * Math.PI * A * B * B;

    /// <summary>Its centre of buoyancy at x = A on the axis; its centre of gravity so many mm ahead of it.</summary>
    public static FallingBody Of(double water, double viscosity, double weight, double ahead, double? heavy = null)
    {
        const int Strips = 400;
        double eccentricity = Math.Sqrt(1 - B * B / (A * A));
        double lift = water - Units.AirDensity, net = heavy ?? weight - lift * Volume;
        return new FallingBody
        {
            Strips = [.. Enumerable.Range(0, Strips).Select(i =>
            {
                double x0 = 2 * A * i / Strips, x1 = 2 * A * (i + 1) / Strips, x = 0.5 * (x0 + x1);
                // The half-breadth whose strip has the ellipse's own area.
                double Under(double at)
                {
                    double u = Math.Clamp(at / A - 1, -1, 1);
                    return 0.5 * A * B * (u * Math.Sqrt(1 - u * u) + Math.Asin(u));
                }
                double half = (Under(x1) - Under(x0)) / (x1 - x0);
                return new Strip(x, 0, x1 - x0, half, half, 1);
            })],
            Hardware = [],
            Weight = weight,
            Cg = new Vec3(A - ahead, 0, 0),
            Volume = (weight - net) / lift,
            Cb = new Vec3(A, 0, 0),
            SkinVolume = Volume,
            SkinArea = 2 * Math.PI * B * B * (1 + A / (B * eccentricity) * Math.Asin(eccentricity)),
            Length = 2 * A,
            Breadth = 2 * B,
            Height = 2 * B,
            Frontal = Math.PI * B * B,
            Inertia = weight / 5 * new Vec3(2 * B * B, A * A + B * B, A * A + B * B),
            Water = water,
            Viscosity = viscosity,
        };
    }
}
