using System.Globalization;
using System.Text;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Sinking;

/// <summary>
/// Random lures that sink, through the design file: long and stubby, flat and deep, boxy and keeled, with closed, flat,
/// slanted and cupped noses, with and without weights and hooks. The wood is made just as dense as the wanted heaviness
/// needs, so that none has to be thrown away for floating.
/// </summary>
internal sealed class RandomSinkers(int seed)
{
    /// <summary>Enough slices to have a shape, few enough to drop thousands.</summary>
    public static readonly MeshSize Mesh = new(49, 16);

    private readonly Random random = new(seed);

    /// <summary>The next one, with its falling body.</summary>
    public (LureDesign Design, FallingBody Body) Next()
    {
        while (true)
        {
            var draft = Draft();
            double heavy = 0.003 * Math.Pow(100, random.NextDouble());
            if (Read(draft, 1) is not { } first) continue;
            FallingBody light = Body(first);
            WeightLedger ledger = Ledger(first);
            double wood = ledger.Parts.Where(p => p.Group == PartGroup.Wood).Sum(p => p.Mass);
            double density = 1 + (heavy * light.Lift * light.Volume - light.Heavy) / wood;
            if (density is < 0.1 or > 2.5 || Read(draft, density) is not { } design) continue;
            FallingBody body = Body(design);
            if (body.Heavy > 0.001 * body.Weight) return (design, body);
        }
    }

    /// <summary>A design as the sea sees it.</summary>
    public static FallingBody Body(LureDesign design) => FallingBody.Of(design, Ledger(design), WaterState.Ocean);

    private static WeightLedger Ledger(LureDesign design) =>
        Bookkeeper.Of(design, Stage.Finished, Rig.Rigged, WaterState.Ocean.Density - Units.AirDensity, Mesh);

    private double Between(double low, double high) => low + (high - low) * random.NextDouble();

    private static LureDesign? Read(Func<double, string> draft, double density)
    {
        Reading<LureDesign> reading = LureFile.Read(Encoding.UTF8.GetBytes(draft(density)));
        return reading.IsSound ? reading.Value : null;
    }

    private Func<double, string> Draft()
    {
        double length = Between(60, 240), height = length * Between(0.04, 0.16), breadth = height * Math.Exp(Between(-0.9, 0.5));
        bool round = random.Next(8) == 0, blunt = random.Next(4) == 0;
        if (round) breadth = height;
        double peak = Between(0.25, 0.75), bow = round ? 0 : Between(-0.3, 0.3) * height;
        double start = blunt ? Between(0.4, 0.9) : 0;
        string Outline(double half, double middle, string tail)
        {
            double[] at = [0, 0.08, 0.2, 0.4, 0.6, 0.8, 0.92, 1];
            string points = string.Join(",", at.Select(t =>
            {
                double arch = t < peak ? 1 - Math.Pow(1 - t / peak, 2) * (1 - start) : 1 - Math.Pow((t - peak) / (1 - peak), 2);
                double up = middle * 4 * t * (1 - t);
                return $"[{N(t * length)},{N(half * arch + up)}]";
            }));
            return $$"""{"points_mm":[{{points}}],"nose":"round","tail":"{{tail}}"}""";
        }
        string ends = random.Next(3) == 0 ? "pointed" : "round";
        string fullness = round ? "2" : N(Between(1.3, 5)), below = round ? "2" : N(Between(1.3, 5));
        string face = blunt && random.Next(2) == 0
            ? $$""" , "nose_face": { "kind": "slanted", "slant_deg": {{N(Between(-25, 25))}} } """
            : blunt && random.Next(2) == 0
                ? $$""" , "nose_face": { "kind": "cupped", "cup_diameter_mm": {{N(start * Math.Min(height, breadth))}}, "cup_depth_mm": 2 } """
                : "";
        string weights = Weights(length, height), hardware = Hardware(length, out string wire);
        string back = Outline(height, bow, ends), belly = Outline(-height, bow, ends), plan = Outline(breadth, 0, ends);
        string name = $"sinker {random.Next()}";
        return density => $$"""
            { "trimwright": 1, "name": "{{name}}",
              "body": { "length_mm": {{N(length)}}, "back": {{back}}, "belly": {{belly}}, "plan": {{plan}},
                "section": [ { "x_mm": 0, "above": {{fullness}}, "below": {{below}} } ] {{face}} },
              "wood": { "density_g_cm3": {{N(density)}} },
              "ballast": [{{weights}}],
              "finish": [ { "name": "clear", "coats": 2, "thickness_mm": 0.25, "density_g_cm3": 1.15 } ]
              {{wire}}{{hardware}} }
            """;
    }

    private string Weights(double length, double height)
    {
        var list = new List<string>();
        for (int i = random.Next(5); i > 0; i--)
            list.Add($$"""
                { "name": "lead {{i}}", "form": "ball", "diameter_mm": {{N(height * Between(0.3, 0.8))}}, "density_g_cm3": 11.3,
                  "at_mm": [{{N(length * Between(0.15, 0.85))}}, 0, {{N(-height * Between(0.1, 0.6))}}] }
                """);
        return string.Join(",", list);
    }

    private string Hardware(double length, out string wire)
    {
        wire = "";
        if (random.Next(3) == 0) return "";
        wire = $$"""
            , "wire": { "diameter_mm": 1.6, "hangers": [ { "name": "belly", "x_mm": {{N(length * Between(0.25, 0.6))}} } ], "tail_loop": {} }
            """;
        double hook = length / 30 * Between(0.3, 1.3);
        string Hung(string place, double mass) => $$"""
            { "name": "treble", "hangs_from": "{{place}}", "mass_g": {{N(mass)}}, "length_mm": {{N(18 * Math.Cbrt(mass))}} }
            """;
        return random.Next(3) switch
        {
            0 => $$""", "hardware": [ {{Hung("belly", hook)}} ]""",
            1 => $$""", "hardware": [ {{Hung("tail_loop", hook)}} ]""",
            _ => $$""", "hardware": [ {{Hung("belly", hook)}}, {{Hung("tail_loop", 0.8 * hook)}} ]""",
        };
    }

    private static string N(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
