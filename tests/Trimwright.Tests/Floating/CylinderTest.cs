using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Checks 6, 6a and 6b: a uniform cylinder of density ratio s stands, leans or lies. Sources: GM closed form (naval
/// architecture); Gilbert 1991, American Mathematical Monthly 98, 201 for the leaning one (abstract seen, values recomputed).
/// </summary>
public class CylinderTest
{
    private const double R = 30;

    // Its sides are straight: rings between the ends would change nothing.
    private static readonly MeshSize Round = new(17, 64);

    private static Prediction Afloat(double s, double lengthOverDiameter, MeshSize? mesh = null) =>
        Forms.Afloat(density => Forms.Cylinder(density, R, 2 * R * lengthOverDiameter), s, mesh ?? MeshSize.Coarse);

    private static double Limit(double s) => 1 / Math.Sqrt(8 * s * (1 - s));

    /// <summary>Angle between the axis and the vertical, degrees.</summary>
    private static double Lean(Posture posture) => Units.ToDegrees(Math.Acos(Math.Min(1, Math.Abs(posture.Plane.N.X))));

    [Theory]
    [InlineData(0.1, 1.17851)]
    [InlineData(0.2, 0.88388)]
    [InlineData(0.3, 0.77152)]
    [InlineData(0.4, 0.72169)]
    [InlineData(0.5, 0.70711)]
    [InlineData(0.6, 0.72169)]
    [InlineData(0.7, 0.77152)]
    [InlineData(0.8, 0.88388)]
    [InlineData(0.9, 1.17851)]
    public void A_cylinder_stands_just_below_the_limit_and_not_just_above(double s, double printed)
    {
        Assert.Equal(printed, Limit(s), 0.000005);
        Prediction shorter = Afloat(s, 0.99 * Limit(s)), longer = Afloat(s, 1.01 * Limit(s));
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"s {s}: −1 % leans {string.Join(", ", shorter.Postures.Select(Lean))}; +1 % {string.Join(", ", longer.Postures.Select(Lean))}");
        Assert.Contains(shorter.Postures, posture => Lean(posture) < 0.01);
        Assert.DoesNotContain(longer.Postures, posture => Lean(posture) < 1);
    }

    [Theory]
    [InlineData(0.65, 80, 100)]
    [InlineData(0.7, 300, 200)]
    public void A_standing_cylinder_has_the_worked_metacentric_height(double s, double diameter, double length)
    {
        Prediction cylinder = Forms.Afloat(density => Forms.Cylinder(density, diameter / 2, length), s, Round);
        Balance standing = Equilibrium.Afloat(cylinder.Body, Vec3.UnitX);
        (double least, double most) = Stability.MetacentricHeights(cylinder.Body, standing);
        string name = FormattableString.Invariant($"standing cylinder, s {s}, D {diameter}, L {length}, GM");
        Tolerances.Check(name, least);
        Tolerances.Check(name, most);
        double closed = diameter * diameter / (16 * s * length) - length * (1 - s) / 2;
        Tolerances.Check("standing cylinder, GM by the closed form", 0.5 * (least + most), closed, name);
    }

    [Theory]
    [InlineData(0.5, 0.75)]
    [InlineData(0.5, 0.8)]
    [InlineData(0.6, 0.76)]
    public void Between_standing_and_lying_a_cylinder_leans_as_gilbert_says(double s, double lengthOverDiameter)
    {
        Prediction cylinder = Afloat(s, lengthOverDiameter, Round);
        string name = FormattableString.Invariant($"leaning cylinder, s {s}, L/D {lengthOverDiameter}, degrees");
        TestContext.Current.TestOutputHelper?.WriteLine($"leans {string.Join(", ", cylinder.Postures.Select(Lean))}");
        double lean = cylinder.Postures.Select(Lean).First(angle => angle is > 5 and < 85);
        double formula = Units.ToDegrees(Math.Atan(Math.Sqrt(2 * (8 * s * (1 - s) * lengthOverDiameter * lengthOverDiameter - 1))));
        Tolerances.Check(name, lean);
        Tolerances.Check("leaning cylinder to the printed digits, degrees", lean, formula, name);
        // What is left is the mesh's: a regular polygon of 64 sides with the circle's area has this much more second moment.
        double a = 2 * Math.PI / 64, more = a * (2 + Math.Cos(a)) / (3 * Math.Sin(a));
        double prism = Units.ToDegrees(Math.Atan(Math.Sqrt(2 * (8 * s * (1 - s) * lengthOverDiameter * lengthOverDiameter / more - 1))));
        Tolerances.Check("leaning prism of 64 sides, degrees", lean, prism, name);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    public void A_lying_cylinder_is_stable_in_trim_only_if_longer_than_its_waterline_is_wide(double s)
    {
        // Immersed segment of the section: half its angle a obeys a − sin a·cos a = πs.
        double half = Core.Numerics.Roots.Between(a => a - Math.Sin(a) * Math.Cos(a) - Math.PI * s, 0, Math.PI, 1e-14);
        double chord = 2 * R * Math.Sin(half), area = Math.PI * R * R * s;
        foreach (double share in new[] { 0.98, 1.02 })
        {
            double length = share * chord;
            Prediction cylinder = Afloat(s, length / (2 * R));
            Balance lying = Equilibrium.Afloat(cylinder.Body, Vec3.UnitZ);
            double gm = Stability.MetacentricHeights(cylinder.Body, lying).Trim;
            double closed = chord * (length * length - chord * chord) / (12 * area);
            TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"s {s}, L = {share}·c: GM_L {gm:F4}, closed form {closed:F4} mm"));
            Assert.Equal(Math.Sign(closed), Math.Sign(gm));
            Tolerances.Check("lying cylinder, GM in trim, share of the diameter", gm / (2 * R), closed / (2 * R), $"s {s}, {share}");
            Assert.Equal(share > 1, cylinder.Postures.Any(posture => Math.Abs(posture.Trim) < 1e-3));
        }
    }
}
