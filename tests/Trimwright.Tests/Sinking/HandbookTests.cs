using System.Globalization;
using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>
/// Balls, cylinders and spheroids as the lure's own flow has them, beside handbooks: the table in docs/method/handbooks.md, row for row. It says
/// what agrees and what doesn't; no coefficient is fitted to it.
/// </summary>
public class HandbookTests
{
    private const string Page = "docs/method/handbooks.md";

    private const double Water = 0.998e-3, Viscosity = 1.004e-3;

    /// <summary>A body without hardware, ends round or square: half-breadth at each share of its length.</summary>
    private static FallingBody Of(double length, double radius, Func<double, double> share, double volume, double area, bool square) => new()
    {
        Strips = [.. Enumerable.Range(0, 200).Select(i =>
        {
            double half = radius * Enumerable.Range(0, 8).Average(k => share((i + (k + 0.5) / 8) / 200));
            return new Strip(length * (i + 0.5) / 200, 0, length / 200, half, half, 1);
        })],
        Hardware = [], Weight = 2 * Water * volume, Cg = new Vec3(length / 2, 0, -1), Volume = volume, Cb = new Vec3(length / 2, 0, 0), SkinVolume = volume, SkinArea = area,
        Length = length, Breadth = 2 * radius, Height = 2 * radius, Frontal = Math.PI * radius * radius,
        NoseFace = square ? Math.PI * radius * radius : 0, TailFace = square ? Math.PI * radius * radius : 0,
        Inertia = new Vec3(1, 1, 1), Water = Water, Viscosity = Viscosity,
    };

    private static FallingBody Spheroid(double length, double radius)
    {
        double a = length / 2, e = Math.Sqrt(Math.Max(1 - radius * radius / (a * a), 0));
        double area = e < 1e-9 ? 4 * Math.PI * a * a : 2 * Math.PI * radius * radius * (1 + a / (radius * e) * Math.Asin(e));
        return Of(length, radius, x => Math.Sqrt(Math.Max(1 - (2 * x - 1) * (2 * x - 1), 0)), 4.0 / 3 * Math.PI * a * radius * radius, area, false);
    }

    private static FallingBody Cylinder(double length, double radius) =>
        Of(length, radius, _ => 1, Math.PI * radius * radius * length, 2 * Math.PI * radius * (radius + length), true);

    /// <summary>Drag coefficient of what the flow sees, on its shadow, at a speed in m/s.</summary>
    private static double Coefficient(FallingBody body, Vec3 v, double shadow) => Flow.Drag(body, v, Vec3.Zero).Force.Length / (0.5 * Water * v.LengthSquared * shadow);

    /// <param name="Doubt">What the drag's priors alone do to the rate of such a body, one standard deviation of its logarithm.</param>
    private sealed record Case(string Body, string Way, double Reynolds, double Ours, double Doubt, double Handbook, string Source);

    private static Case Of(string name, string way, double reynolds, FallingBody body, Vec3 v, double shadow, double handbook, string source)
    {
        double At(double across, double ends) => Coefficient(body.Dragging(Math.Exp(DragModel.AcrossSd * across), 1, Math.Exp(DragModel.EndsSd * ends), 0), v, shadow);
        // Speed goes with the square root of drag; half of either side's half.
        double a = Math.Log(At(1, 0) / At(-1, 0)) / 4, e = Math.Log(At(0, 1) / At(0, -1)) / 4;
        return new(name, way, reynolds, Coefficient(body, v, shadow), Math.Sqrt(a * a + e * e), handbook, source);
    }

    private static IEnumerable<Case> Cases()
    {
        const double Speed = 0.4, R = 12.5;
        double ball = Speed * 2 * R / Viscosity;
        double clift = SphereDrag.Coefficient(ball);
        const string Clift = "Clift, Grace & Weber 1978";
        double disc = Math.PI * R * R;
        yield return Of("ball", "across its axis", ball, Spheroid(2 * R, R), new Vec3(0, 0, -Speed), disc, clift, Clift);
        yield return Of("ball", "along its axis", ball, Spheroid(2 * R, R), new Vec3(-Speed, 0, 0), disc, clift, Clift);
        // The endless cylinder's 1.2 by Wieselsberger's shares of drag.
        foreach ((double slender, double share) in new[] { (2.0, 0.567), (5, 0.617), (10, 0.683), (20, 0.778) })
        {
            double length = slender * 2 * R, endless = CrossFlow.OfCylinder(Math.Log(ball));
            yield return Of($"cylinder, length {slender:0} breadths", "across its axis", ball, Cylinder(length, R), new Vec3(0, 0, -Speed), 2 * R * length,
                endless * share, "Wieselsberger 1922 by length");
        }
        foreach (double slender in new[] { 2.0, 5 })
            yield return Of($"cylinder, length {slender:0} breadths", "end-on", Speed * slender * 2 * R / Viscosity,
                Cylinder(slender * 2 * R, R), new Vec3(-Speed, 0, 0), disc, 0.85, "physics handbooks: 0.85 to 1.17");
        foreach (double slender in new[] { 4.0, 6, 8 })
        {
            FallingBody body = Spheroid(slender * 2 * R, R);
            double re = Speed * body.Length / Viscosity;
            yield return Of($"spheroid, length {slender:0} breadths", "end-on", re, body, new Vec3(-Speed, 0, 0), disc,
                1.328 / Math.Sqrt(re) * body.FormFactor * body.SkinArea / disc, "clean and laminar: Blasius, form by Hoerner 1965");
        }
    }

    private static string Row(Case c) => string.Create(CultureInfo.InvariantCulture,
        $"| {c.Body} | {c.Way} | {c.Reynolds:0} | {c.Handbook:0.00} | {c.Ours:0.00} | {Math.Sqrt(c.Handbook / c.Ours):0.00} | {(Agrees(c) ? "yes" : "no")} | {c.Source} |");

    // Where 95 of 100 of what is told by its drag alone lie.
    private static bool Agrees(Case c) => Math.Abs(0.5 * Math.Log(c.Handbook / c.Ours)) < 1.96 * c.Doubt;

    [Fact]
    public void The_page_has_the_rows_that_the_flow_gives_now()
    {
        string[] rows = [.. Cases().Select(Row)];
        foreach (string row in rows) Console.WriteLine(row);
        string page = File.ReadAllText(Path.Combine(Here.Root, Page));
        Assert.All(rows, row => Assert.Contains(row, page));
        Assert.Equal(rows.Length, page.Split('\n').Count(line => line.StartsWith("| ", StringComparison.Ordinal)) - 2);
    }

    [Fact]
    public void What_the_page_says_agrees_does()
    {
        Case[] cases = [.. Cases()];
        Assert.All(cases.Where(c => c.Way == "across its axis"), c => Assert.InRange(Math.Sqrt(c.Handbook / c.Ours), 0.85, 1.15));
        // What is known to be off, and which way: never faster than the handbook.
        Assert.All(cases, c => Assert.True(c.Handbook <= 1.05 * c.Ours, Row(c)));
    }
}
