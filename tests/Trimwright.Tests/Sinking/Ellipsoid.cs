using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>A three-axed ellipsoid in an ideal fluid: nothing drags, Munk's moment is whole.</summary>
internal static class Ellipsoid
{
    public static readonly Vec3 HalfAxes = new(75, 14, 20);

    /// <summary>
    /// Of a weight with its centre at an offset from the middle; lifted by so many grams less than it weighs.
    /// </summary>
    public static FallingBody Ideal(double weight, Vec3 offset, double heavy)
    {
        (double a, double b, double c) = HalfAxes;
        double volume = 4 * Math.PI / 3 * a * b * c;
        var body = new FallingBody
        {
            Strips = [],
            Hardware = [],
            Weight = weight,
            Cg = offset,
            Volume = volume,
            Cb = Vec3.Zero,
            SkinVolume = volume,
            SkinArea = 0,
            Length = 2 * a,
            Breadth = 2 * b,
            Height = 2 * c,
            Frontal = Math.PI * b * c,
            Inertia = weight / 5 * new Vec3(b * b + c * c, a * a + c * c, a * a + b * b),
            Water = 1e-3,
            Viscosity = 1e-3,
            Model = new DragModel { Wake = 1, Ends = 0 },
        };
        return body with { Volume = (weight - heavy) / body.Lift };
    }
}
