using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Checks 7 and 7a: a segment of a paraboloid r² = p·z of height H, uniform, vertex down. Sources: Archimedes, On Floating
/// Bodies II, propositions 2 and 4; Rorres 2004, Mathematical Intelligencer 26(3), for the leaning one (opening seen, values
/// recomputed).
/// </summary>
public class ParaboloidTest
{
    private const double P = 50;

    private static Prediction Afloat(double s, double heightOverP, MeshSize? mesh = null) =>
        Forms.Afloat(density => Forms.Paraboloid(density, P, heightOverP * P), s, mesh ?? MeshSize.Coarse);

    /// <summary>Angle between the axis, base up, and the vertical, degrees.</summary>
    private static double Lean(Posture posture) => Units.ToDegrees(Math.Acos(Math.Clamp(posture.Plane.N.X, -1, 1)));

    [Theory]
    [InlineData(1.0)]
    [InlineData(1.3)]
    [InlineData(1.6)]
    [InlineData(2.2)]
    public void A_paraboloid_stands_on_its_vertex_just_above_archimedes_limit_and_not_just_below(double h)
    {
        double limit = (h - 0.75) / h * ((h - 0.75) / h);
        Prediction heavier = Afloat(1.01 * limit, h), lighter = Afloat(0.99 * limit, h);
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"H/p {h}, limit {limit}: +1 % leans {string.Join(", ", heavier.Postures.Select(Lean))}; −1 % {string.Join(", ", lighter.Postures.Select(Lean))}");
        Assert.Contains(heavier.Postures, posture => Lean(posture) < 0.01);
        Assert.DoesNotContain(lighter.Postures, posture => Lean(posture) < 1);
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.3)]
    [InlineData(0.8)]
    public void A_low_paraboloid_stands_at_any_density(double s) =>
        Assert.Contains(Afloat(s, 0.99 * 0.75).Postures, posture => Lean(posture) < 0.01);

    [Theory]
    [InlineData(1.6, 0.25)]
    [InlineData(1.3, 0.09)]
    public void A_paraboloid_leans_as_archimedes_and_rorres_say(double h, double s)
    {
        Prediction leaning = Afloat(s, h, MeshSize.Live);
        TestContext.Current.TestOutputHelper?.WriteLine($"leans {string.Join(", ", leaning.Postures.Select(Lean))}");
        double lean = leaning.Postures.Select(Lean).First(angle => angle is > 5 and < 60);
        double formula = Units.ToDegrees(Math.Atan(Math.Sqrt(8 * h * (1 - Math.Sqrt(s)) / 3 - 2)));
        string name = FormattableString.Invariant($"leaning paraboloid, H/p {h}, s {s}, degrees");
        Tolerances.Check(name, lean);

        // The mesh's chords are of second order in the spacing of its rings: halving it twice and extrapolating leaves
        // the 64 sides' own error, some 5e-5°.
        Circumstances tap = Forms.Tap(MeshSize.Live);
        double[] leans = [.. new[] { 161, 321, 641 }.Select(rings => Refined(h, s, new MeshSize(rings, 64), tap, leaning.Postures.MinBy(Lean)!))];
        double order = Math.Log2((leans[1] - leans[0]) / (leans[2] - leans[1])), extrapolated = leans[2] + (leans[2] - leans[1]) / 3;
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant(
            $"161, 321, 641 rings: {leans[0]:F6}, {leans[1]:F6}, {leans[2]:F6}; order {order:F2}; extrapolated {extrapolated:F6}, closed form {formula:F6}"));
        Assert.InRange(order, 1.8, 2.2);
        Tolerances.Check("leaning paraboloid to the printed digits, degrees", extrapolated, formula, name);
    }

    private static double Refined(double h, double s, MeshSize mesh, Circumstances tap, Posture from)
    {
        double effective = tap.Water.Density - Units.AirDensity;
        WeightLedger ledger = Bookkeeper.Of(Forms.Paraboloid(Lures.DensityFor(s, tap), P, h * P), tap.Stage, tap.Rig, effective, mesh);
        Equilibrium.Found found = Equilibrium.Descend(new FloatingBody(ledger, effective), from.Plane.N);
        Assert.True(found.Converged);
        return Units.ToDegrees(Math.Acos(found.Balance.N.X));
    }
}
