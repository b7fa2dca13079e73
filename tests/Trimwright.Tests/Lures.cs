using System.Globalization;
using System.Text;
using Trimwright.Core;
using Trimwright.Core.Design;

namespace Trimwright.Tests;

/// <summary>Lures for tests, made through the design file as a maker's would be.</summary>
internal static class Lures
{
    /// <summary>Reads a design; fails the test with every fault when it is not sound.</summary>
    public static LureDesign Read(string json)
    {
        Reading<LureDesign> reading = LureFile.Read(Encoding.UTF8.GetBytes(json));
        Assert.True(reading.IsSound, string.Join("\n", reading.Faults));
        return reading.Value!;
    }

    public static LureDesign Demo(string name) =>
        Read(File.ReadAllText(Path.Combine(Here.Root, "demo", name + ".lure.json")));

    public static IEnumerable<LureDesign> Demos => new[] { "tidegate-185", "mooring-post-210", "slipway-150" }.Select(Demo);

    /// <summary>
    /// A solid of uniform density through a design file: length, the three outlines as (x, value) lists, fullness.
    /// </summary>
    public static LureDesign Solid(
        double density, double length, (double X, double V)[] back, (double X, double V)[] belly, (double X, double V)[] plan,
        double fullness = 2, string nose = "round", string tail = "round")
    {
        string Points((double X, double V)[] points) =>
            "[" + string.Join(",", points.Select(p => string.Create(CultureInfo.InvariantCulture, $"[{p.X:R},{p.V:R}]"))) + "]";
        string Outline((double X, double V)[] points) =>
            $$"""{"points_mm":{{Points(points)}},"nose":"{{nose}}","tail":"{{tail}}"}""";
        string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);
        return Read($$"""
            { "trimwright": 1, "name": "solid",
              "body": { "length_mm": {{Number(length)}},
                "back": {{Outline(back)}}, "belly": {{Outline(belly)}}, "plan": {{Outline(plan)}},
                "section": [ { "x_mm": 0, "above": {{Number(fullness)}}, "below": {{Number(fullness)}} } ] },
              "wood": { "density_g_cm3": {{Number(density)}} } }
            """);
    }

    /// <summary>A solid of revolution of uniform density: radius at each x.</summary>
    public static LureDesign Round(
        double density, double length, (double X, double R)[] radius, string nose = "round", string tail = "round") =>
        Solid(density, length, radius, [.. radius.Select(p => (p.X, -p.R))], radius, 2, nose, tail);

    /// <summary>The effective density that makes a solid of this density float at a given ratio in these circumstances.</summary>
    public static double DensityFor(double ratio, Circumstances circumstances) =>
        ratio * (1e3 * circumstances.Water.Density - 0.0012);
}
