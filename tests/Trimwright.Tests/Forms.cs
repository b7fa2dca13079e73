using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests;

/// <summary>Solids with closed forms, as design files. Lengths in mm, density in g/cm³; the axis of revolution is x.</summary>
internal static class Forms
{
    /// <summary>A density that sinks in any water: for geometry, where nobody asks for postures.</summary>
    public const double Heavy = 2;

    /// <summary>Semi-axes a along x, b across, c up.</summary>
    public static LureDesign Ellipsoid(double density, double a, double b, double c) =>
        Lures.Solid(density, 2 * a, [(0, 0), (a, c), (2 * a, 0)], [(0, 0), (a, -c), (2 * a, 0)], [(0, 0), (a, b), (2 * a, 0)]);

    public static LureDesign Cylinder(double density, double radius, double length) =>
        Lures.Round(density, length, [(0, radius), (length, radius)]);

    /// <summary>Point at the nose, base aft.</summary>
    public static LureDesign Cone(double density, double radius, double length) =>
        Lures.Round(density, length, [(0, 0), (length, radius)], nose: "pointed");

    public static LureDesign Frustum(double density, double first, double last, double length) =>
        Lures.Round(density, length, [(0, first), (length, last)]);

    /// <summary>r² = p·x from the vertex at the nose to a base at x = height.</summary>
    public static LureDesign Paraboloid(double density, double p, double height) =>
        Lures.Round(density, height, [(0, 0), (height, Math.Sqrt(p * height))]);

    /// <summary>Round nose, base aft, through points every few degrees as a maker with compasses would give it.</summary>
    public static LureDesign Hemisphere(double density, double radius) =>
        Lures.Round(density, radius, [.. Enumerable.Range(0, 25).Select(k =>
        {
            (double sin, double cos) = Math.SinCos(Math.PI / 2 * k / 24);
            return k == 24 ? (radius, radius) : (radius * (1 - cos), radius * sin);
        })]);

    /// <summary>A uniform log whose section is a square standing on its corner: fullness 1 with equal breadth and height.</summary>
    public static LureDesign LogOnItsCorner(double density, double halfDiagonal, double length) =>
        Lures.Solid(density, length, [(0, halfDiagonal), (length, halfDiagonal)], [(0, -halfDiagonal), (length, -halfDiagonal)],
            [(0, halfDiagonal), (length, halfDiagonal)], fullness: 1);

    /// <summary>Bare, in tap water: what a solid by itself is floated in.</summary>
    public static Circumstances Tap(MeshSize mesh) => new(Stage.Finished, Rig.Bare, WaterState.Tap) { Mesh = mesh };

    /// <summary>The prediction of a solid whose density is a ratio of the water's.</summary>
    public static Prediction Afloat(Func<double, LureDesign> solid, double ratio, MeshSize mesh)
    {
        Circumstances tap = Tap(mesh);
        return Prediction.Of(solid(Lures.DensityFor(ratio, tap)), tap);
    }
}
