using System.Text.Json.Nodes;

namespace Trimwright.Tests.Design;

/// <summary>
/// Bodies and loads at and past the limits of what the format allows: well-formed files whose geometry is the attack.
/// </summary>
internal static class HostileGeometryMakers
{
    public static readonly IReadOnlyList<(string Name, Func<Random, JsonObject> Make)> All =
    [
        ("extremely thin", r => Lure(r, length: Between(r, 50, 400), tall: 0.5 + 3 * r.NextDouble() * r.NextDouble(), wide: 0.5 + Between(r, 0, 1))),
        ("extremely flat", r => Lure(r, length: 200, tall: Between(r, 0.9, 1.6), wide: Between(r, 20, 900))),
        ("extremely long", r => Lure(r, length: 2000, tall: Between(r, 0.6, 30), wide: Between(r, 0.6, 30))),
        ("extremely big", r => Lure(r, length: 2000, tall: Between(r, 500, 1900), wide: Between(r, 500, 1900))),
        ("tiny", r => Lure(r, length: 5, tall: Between(r, 0.5, 4), wide: Between(r, 0.5, 4))),
        ("tiny, full of metal", r => Loaded(r, Lure(r, length: Between(r, 5, 12), tall: Between(r, 0.6, 4), wide: Between(r, 0.6, 4)))),
        ("huge wire in a tiny body", HugeWire),
        ("ends that close off the axis", r => OffAxis(r)),
        ("edges and blades", Blade),
        ("fullness 1 and 20", Fullness),
        ("slanted faces at their limits", Slanted),
        ("cups at their limits", Cupped),
        ("coats thicker than the body", Coats),
        ("kerf nearly the whole width", Kerf),
        ("unequal halves", Halves),
        ("hardware lighter than water", LightHardware),
        ("spare buoyancy next to zero", NextToZero),
        ("pockets larger than the wood", Pockets),
        ("slots larger than the body", Slots),
        ("bores that leave nothing", Bores),
        ("wild outlines", Wild),
        ("waists of nothing", Waists),
        ("a wire that never ends", EndlessWire),
        ("hang points far away", FarHang),
        ("eyes larger than the head", BigEyes),
        ("everything at a limit", AtLimits),
    ];

    private static double Between(Random r, double low, double high) => low + (high - low) * r.NextDouble();

    private static T One<T>(Random r, params T[] of) => of[r.Next(of.Length)];

    private static JsonArray Points(params (double X, double V)[] points) =>
        new([.. points.Select(p => (JsonNode)new JsonArray(p.X, p.V))]);

    private static JsonObject Outline(Random r, params (double X, double V)[] points) =>
        new() { ["points_mm"] = Points(points), ["nose"] = One(r, "round", "pointed"), ["tail"] = One(r, "round", "pointed") };

    private static JsonObject Body(double length, JsonObject back, JsonObject belly, JsonObject plan) => new()
    {
        ["trimwright"] = 1, ["name"] = "attack",
        ["body"] = new JsonObject { ["length_mm"] = length, ["back"] = back, ["belly"] = belly, ["plan"] = plan },
        ["wood"] = new JsonObject { ["density_g_cm3"] = 0.4 },
    };

    /// <summary>A body of given greatest height and half-breadth, ends closed or flat at random.</summary>
    private static JsonObject Lure(Random r, double length, double tall, double wide)
    {
        double nose = One(r, 0, 0, 1e-9, 0.5), tail = One(r, 0, 0, 1e-6, 0.7), middle = length * Between(r, 0.2, 0.8), up = tall * r.NextDouble();
        double down = tall - up;
        JsonObject design = Body(length,
            Outline(r, (0, nose * up), (middle, up), (length, tail * up)),
            Outline(r, (0, -nose * down), (middle, -down), (length, -tail * down)),
            Outline(r, (0, nose * wide), (middle, wide), (length, tail * wide)));
        design["wood"]!["density_g_cm3"] = One(r, 0.01, 0.1, 0.5, 0.9, 1.02, 25);
        if (r.Next(2) == 0) design["wire"] = new JsonObject { ["diameter_mm"] = One(r, 0.2, 0.8, 1.6) };
        return design;
    }

    private static JsonObject Loaded(Random r, JsonObject design)
    {
        design["wire"] = new JsonObject
        {
            ["diameter_mm"] = One(r, 0.2, 0.3, 2), ["slot_width_mm"] = One<JsonNode?>(r, null, 0.2, 20),
            ["hangers"] = new JsonArray(new JsonObject { ["name"] = "h", ["kind"] = One(r, "loop", "swivel", "screw_eye"), ["x_mm"] = 2.5, ["mass_g"] = One<JsonNode?>(r, null, 0.01, Between(r, 0.01, 100)), ["slot_mm"] = One<JsonNode?>(r, null, new JsonArray(0.5, 0.3)) }),
            ["tail_loop"] = new JsonObject { ["wraps"] = One(r, 0, 30), ["inside_mm"] = One(r, 0.5, 60) },
        };
        design["hardware"] = new JsonArray(new JsonObject { ["name"] = "anchor", ["hangs_from"] = "h", ["mass_g"] = Between(r, 0.001, 2000) });
        design["soaked_g"] = Between(r, 0, 10_000);
        return design;
    }

    private static JsonObject HugeWire(Random r)
    {
        JsonObject design = Lure(r, Between(r, 5, 60), Between(r, 1, 8), Between(r, 0.5, 4));
        design["wire"] = new JsonObject
        {
            ["diameter_mm"] = Between(r, 1, 6), ["density_g_cm3"] = One(r, 0.5, 7.9, 25), ["slot_width_mm"] = One(r, 0.2, 5, 20),
            ["line_tie"] = new JsonObject { ["closing"] = One(r, "open", "wrapped", "doubled", "welded"), ["wraps"] = One(r, 0, 30), ["inside_mm"] = One(r, 0.5, 60) },
            ["tail_loop"] = new JsonObject { ["closing"] = "doubled", ["stands_out_mm"] = One(r, 0, 100) },
        };
        return design;
    }

    private static JsonObject OffAxis(Random r)
    {
        double length = Between(r, 20, 300), nose = Between(r, -60, 60), tail = Between(r, -60, 60), half = Between(r, 1, 40);
        double middle = length * Between(r, 0.05, 0.95), centre = nose + (tail - nose) * middle / length;
        JsonObject design = Body(length,
            Outline(r, (0, nose), (middle, centre + half), (length, tail)),
            Outline(r, (0, nose), (middle, centre - half), (length, tail)),
            Outline(r, (0, One(r, 0, 0, 3)), (middle, Between(r, 1, 30)), (length, One(r, 0, 0, 3))));
        if (r.Next(2) == 0) design["wire"] = new JsonObject { ["diameter_mm"] = 1.2, ["line_tie"] = new JsonObject { ["z_mm"] = nose }, ["tail_loop"] = new JsonObject { ["z_mm"] = tail } };
        return design;
    }

    // Ends that close in one view only.
    private static JsonObject Blade(Random r)
    {
        double length = Between(r, 30, 200), a = One(r, 0, 8.0), b = One(r, 0, 8.0), c = One(r, 0, 6.0), d = One(r, 0, 6.0);
        JsonObject design = Body(length,
            Outline(r, (0, a), (length / 2, 10), (length, b)), Outline(r, (0, -a), (length / 2, -10), (length, -b)),
            Outline(r, (0, c), (length / 2, 7), (length, d)));
        if (r.Next(2) == 0) design["finish"] = new JsonArray(new JsonObject { ["name"] = "c", ["coats"] = r.Next(1, 20), ["thickness_mm"] = 0.2 });
        if (r.Next(2) == 0) design["joint"] = new JsonObject { ["kerf_mm"] = Between(r, 0, 5) };
        return design;
    }

    private static JsonObject Fullness(Random r)
    {
        JsonObject design = SampleDesigns.Plausible(r);
        double length = design["body"]!["length_mm"]!.GetValue<double>();
        var stations = new JsonArray();
        int count = One(r, 1, 2, 5, 400);
        for (int i = 0; i < count; i++)
            stations.Add(new JsonObject
            {
                ["x_mm"] = 1.2 * length * i / count, ["above"] = One(r, 1.0, 20, 1, 2.5), ["below"] = One(r, 1.0, 20, 1, 2.5),
                ["widest_mm"] = One<JsonNode?>(r, null, -1000, 1000, Between(r, -10, 10)),
            });
        design["body"]!["section"] = stations;
        return design;
    }

    private static JsonObject Slanted(Random r)
    {
        double length = Between(r, 20, 200), nose = Between(r, 0.5, 30), drop = Between(r, 0, 0.3);
        JsonObject design = Body(length,
            Outline(r, (0, nose), (length * 0.4, nose * Between(r, 0.4, 1.4)), (length, 0)),
            Outline(r, (0, -nose * (1 + drop)), (length * 0.4, -nose * Between(r, 0.4, 1.4)), (length, 0)),
            Outline(r, (0, Between(r, 0.1, 20)), (length * 0.4, Between(r, 1, 20)), (length, 0)));
        design["body"]!["nose_face"] = new JsonObject { ["kind"] = One(r, "slanted", "flat"), ["slant_deg"] = One(r, -60, 60, Between(r, -60, 60)) };
        if (r.Next(2) == 0) design["wire"] = new JsonObject { ["diameter_mm"] = 1, ["tail_loop"] = new JsonObject() };
        if (r.Next(2) == 0) design["finish"] = new JsonArray(new JsonObject { ["name"] = "c", ["coats"] = 2, ["thickness_mm"] = 0.3 });
        if (r.Next(2) == 0) design["joint"] = new JsonObject { ["kerf_mm"] = 1 };
        return design;
    }

    private static JsonObject Cupped(Random r)
    {
        JsonObject design = Slanted(r);
        double nose = design["body"]!["back"]!["points_mm"]![0]![1]!.GetValue<double>();
        design["body"]!["plan"]!["points_mm"]![0]![1] = nose;
        double diameter = Math.Max(1, 2 * nose * Between(r, 0.3, 1));
        design["body"]!["nose_face"] = new JsonObject
        {
            ["kind"] = "cupped", ["slant_deg"] = One(r, 0, Between(r, -40, 40)), ["cup_diameter_mm"] = diameter,
            ["cup_depth_mm"] = One(r, 0.1, diameter / 2, diameter * Between(r, 0.01, 0.5)), ["cup_at_z_mm"] = One(r, 0, Between(r, -3, 3)),
        };
        return design;
    }

    private static JsonObject Coats(Random r)
    {
        JsonObject design = Lure(r, Between(r, 5, 200), Between(r, 0.6, 12), Between(r, 0.5, 6));
        design["finish"] = new JsonArray(
            new JsonObject { ["name"] = "a", ["coats"] = r.Next(1, 51), ["thickness_mm"] = Between(r, 0.001, 0.3), ["density_g_cm3"] = One(r, 0.05, 1.2, 25) },
            new JsonObject { ["name"] = "b", ["coats"] = 1, ["thickness_mm"] = Between(r, 0.001, 5) });
        return design;
    }

    private static JsonObject Kerf(Random r)
    {
        double wide = Between(r, 0.5, 20), share = One(r, 0.999999, 0.5, 0.4999, 0.25, Between(r, 0, 1));
        JsonObject design = Lure(r, Between(r, 20, 200), Between(r, 2, 20), wide);
        design["joint"] = new JsonObject
        {
            ["kerf_mm"] = Math.Min(20, wide * share), ["cleaned_off_mm"] = One(r, 0, Math.Min(10, wide * (1 - share) / 2)), ["tack"] = One(r, "tape", "paper", "spots"),
            ["glue_line_mm"] = One(r, 0, 0.1, 5, Math.Min(5, wide / 2)), ["glue_density_g_cm3"] = One(r, 0.05, 25), ["tack_mm"] = One<JsonNode?>(r, null, 0, 5),
        };
        return design;
    }

    private static JsonObject Halves(Random r)
    {
        JsonObject design = Kerf(r);
        double wide = design["body"]!["plan"]!["points_mm"]![1]![1]!.GetValue<double>();
        design["halves"] = new JsonObject
        {
            ["right_g"] = Between(r, 0.01, 30), ["left_g"] = One(r, 0.01, 10_000, Between(r, 0.01, 30)),
            ["right_wider_mm"] = One(r, 0, wide, -wide, 0.999 * wide, Between(r, -wide, wide)),
        };
        return design;
    }

    private static JsonObject LightHardware(Random r)
    {
        JsonObject design = Lure(r, 120, 20, 9);
        design["wire"] = new JsonObject
        {
            ["diameter_mm"] = 1.2, ["tail_loop"] = new JsonObject(),
            ["hangers"] = new JsonArray(new JsonObject { ["name"] = "belly", ["x_mm"] = 50 }),
        };
        design["wood"]!["density_g_cm3"] = One(r, 0.2, 0.9, 1.5, 8, 25);
        var items = new JsonArray();
        for (int i = r.Next(1, 6); i > 0; i--)
            items.Add(new JsonObject
            {
                ["name"] = "float", ["hangs_from"] = One(r, "belly", "tail_loop", "line_tie"), ["mass_g"] = One(r, 0.001, 5, 2000),
                ["density_g_cm3"] = One(r, 0.05, 0.5, 1.0236, 7.8), ["length_mm"] = One(r, 0.5, 10, 1000),
            });
        design["hardware"] = items;
        if (r.Next(2) == 0) design["leader"] = new JsonObject { ["diameter_mm"] = One(r, 0.05, 1, 10), ["density_g_cm3"] = One(r, 0.5, 0.97, 1.78, 25), ["carried_mm"] = One(r, 1, 500, 100_000) };
        return design;
    }

    private static JsonObject NextToZero(Random r)
    {
        JsonObject design = Lure(r, Between(r, 30, 200), Between(r, 6, 30), Between(r, 3, 15));
        design.Remove("wire");
        // Effective density of the ocean water asked for, less air; see Examiner.
        double water = 1e3 * Trimwright.Core.Water.WaterState.Ocean.Density - 0.0012;
        design["wood"]!["density_g_cm3"] = water * (1 + One(r, -1, 1) * Math.Pow(10, -Between(r, 5, 16)));
        if (r.Next(3) == 0) design["joint"] = new JsonObject { ["tack_mm"] = 0, ["glue_line_mm"] = 0 };
        return design;
    }

    private static JsonObject Pockets(Random r)
    {
        JsonObject design = Lure(r, Between(r, 20, 100), Between(r, 6, 30), Between(r, 3, 15));
        design["wood"]!["density_g_cm3"] = One(r, 0.4, 25);
        double length = design["body"]!["length_mm"]!.GetValue<double>();
        var pieces = new JsonArray();
        for (int i = One(r, 1, 3, 50, 200); i > 0; i--)
            pieces.Add(new JsonObject
            {
                ["name"] = "p", ["form"] = One(r, "rod", "ball", "barrel", "plug", "strip"), ["diameter_mm"] = Between(r, 0.5, 4), ["length_mm"] = Between(r, 0.5, 5),
                ["width_mm"] = 1, ["thickness_mm"] = 0.5, ["density_g_cm3"] = One(r, 0.01, 11.3, 25), ["clearance_mm"] = One(r, 0, 0.5, 20.0),
                ["at_mm"] = new JsonArray(length * Between(r, 0.3, 0.7), 0, 0),
            });
        design["ballast"] = pieces;
        return design;
    }

    private static JsonObject Slots(Random r)
    {
        JsonObject design = Lure(r, Between(r, 20, 100), Between(r, 3, 30), Between(r, 2, 15));
        var hangers = new JsonArray();
        for (int i = One(r, 1, 2, 20); i > 0; i--)
            hangers.Add(new JsonObject { ["name"] = $"s{i}", ["kind"] = "swivel", ["x_mm"] = 10 + i * 0.1, ["slot_mm"] = new JsonArray(Between(r, 0.1, 100), Between(r, 0.1, 100)) });
        design["wire"] = new JsonObject { ["diameter_mm"] = One(r, 0.2, 1.5, 6), ["hangers"] = hangers };
        design["wood"]!["density_g_cm3"] = One(r, 0.1, 0.9, 25);
        return design;
    }

    private static JsonObject Bores(Random r)
    {
        JsonObject design = Lure(r, 120, 30, 15);
        design["wire"] = new JsonObject { ["diameter_mm"] = 1.2, ["tail_loop"] = new JsonObject() };
        double diameter = Between(r, 1.5, 8), bore = diameter * One(r, 0.5, 0.9, 0.9999, 1, 3);
        design["ballast"] = new JsonArray(new JsonObject
        {
            ["name"] = "b", ["form"] = One(r, "ball", "barrel", "strip", "plug"), ["diameter_mm"] = diameter, ["length_mm"] = 6, ["width_mm"] = 4, ["thickness_mm"] = 3,
            ["density_g_cm3"] = 11.3, ["bore_mm"] = bore, ["on_wire"] = r.Next(2) == 0, ["at_mm"] = new JsonArray(60, 0, 0),
        });
        return design;
    }

    // Points as near together and as far up and down as the format allows.
    private static JsonObject Wild(Random r)
    {
        double length = Between(r, 20, 200), size = One(r, 5, 30, 300), power = One(r, 0.02, 0.3, 3);
        JsonObject Jagged(double sign)
        {
            var points = new List<(double, double)> { (0, One(r, 0, sign * size)) };
            double x = 0;
            for (int i = One(r, 1, 4, 30); i > 0; i--)
            {
                x += One(r, 0.00101, 0.0011, 0.01, length / 31, length / 10);
                if (x < length - 0.002) points.Add((x, sign * size * (0.6 + 0.4 * Math.Pow(r.NextDouble(), power))));
            }
            points.Add((length, One(r, 0, sign * size)));
            JsonObject outline = Outline(r, [.. points]);
            outline["corners_mm"] = new JsonArray([.. points.Skip(1).SkipLast(1).Where(_ => r.Next(2) == 0).Select(p => (JsonNode)p.Item1)]);
            return outline;
        }
        JsonObject design = Body(length, Jagged(1), Jagged(-1), Jagged(1));
        if (r.Next(2) == 0) design["finish"] = new JsonArray(new JsonObject { ["name"] = "c", ["coats"] = 10, ["thickness_mm"] = One(r, 0.05, 0.5), ["density_g_cm3"] = One(r, 1.2, 25) });
        if (r.Next(2) == 0) design["joint"] = new JsonObject { ["kerf_mm"] = Between(r, 0, 2) };
        return design;
    }

    // A plan that narrows to next to nothing in the middle.
    private static JsonObject Waists(Random r)
    {
        double length = 120, waist = One(r, 0, 1e-9, 0.03, 0.05, 0.2);
        JsonObject design = Body(length,
            Outline(r, (0, 0), (30, 10), (60, One(r, 0, 1e-6, 10.0)), (90, 10), (120, 0)),
            Outline(r, (0, 0), (30, -10), (60, One(r, 0, -1e-6, -10.0)), (90, -10), (120, 0)),
            Outline(r, (0, 0), (30, 8), (59, waist), (60, waist), (61, waist), (90, 8), (120, 0)));
        foreach (string outline in (string[])["back", "belly", "plan"])
            design["body"]![outline]!["corners_mm"] = new JsonArray([.. design["body"]![outline]!["points_mm"]!.AsArray().Skip(1).SkipLast(1).Select(p => p![0]!.DeepClone())]);
        design["joint"] = new JsonObject { ["kerf_mm"] = One(r, 0, 0.1, 2), ["tack"] = "tape" };
        if (r.Next(2) == 0) design["finish"] = new JsonArray(new JsonObject { ["name"] = "c", ["thickness_mm"] = 0.3 });
        return design;
    }

    private static JsonObject EndlessWire(Random r)
    {
        double length = One(r, 100.0, 2000);
        JsonObject design = Lure(r, length, length / 2, length / 8);
        var run = new JsonArray();
        double swing = length / One(r, 20.0, 60, 400, 2000);
        for (int i = 0; i < 500; i++) run.Add(new JsonArray(length * (0.3 + 0.4 * i / 500) - One(r, 0, 0.01 * length), One(r, -1, 1) * swing));
        design["wire"] = new JsonObject
        {
            ["diameter_mm"] = One(r, 0.2, 6), ["slot_width_mm"] = One(r, 0.2, 20), ["run_mm"] = run,
            ["hangers"] = new JsonArray(new JsonObject { ["name"] = "s", ["kind"] = "swivel", ["x_mm"] = length / 2 }),
        };
        return design;
    }

    private static JsonObject FarHang(Random r)
    {
        JsonObject design = LightHardware(r);
        JsonArray Far() => new(Between(r, -110, 230), Between(r, -210, 210), Between(r, -210, 210));
        design["wire"]!["line_tie"] = new JsonObject { ["hang_at_mm"] = Far() };
        design["wire"]!["tail_loop"] = new JsonObject { ["hang_at_mm"] = Far(), ["stands_out_mm"] = One(r, 0, 100), ["inside_mm"] = One(r, 0.5, 60) };
        design["wire"]!["hangers"]![0]!["hang_at_mm"] = Far();
        design["wire"]!["hangers"]![0]!["kind"] = One(r, "loop", "swivel", "screw_eye");
        return design;
    }

    private static JsonObject BigEyes(Random r)
    {
        JsonObject design = Lure(r, Between(r, 5, 100), Between(r, 1, 20), Between(r, 0.6, 10));
        design["wood"]!["density_g_cm3"] = One(r, 0.4, 25);
        design["eyes"] = new JsonObject
        {
            ["diameter_mm"] = Between(r, 0.5, 100), ["thickness_mm"] = Between(r, 0.1, 8), ["mass_g"] = One(r, 0.001, 200),
            ["x_mm"] = design["body"]!["length_mm"]!.GetValue<double>() * r.NextDouble(), ["z_mm"] = Between(r, -2, 2),
        };
        return design;
    }

    private static JsonObject AtLimits(Random r)
    {
        JsonObject design = SampleDesigns.Everything();
        (string Path, double[] Limits)[] limits =
        [
            ("wood.density_g_cm3", [0.01, 25]), ("wire.diameter_mm", [0.2, 2, 6]), ("wire.density_g_cm3", [0.5, 25]), ("wire.slot_width_mm", [0.2, 20]),
            ("joint.filler_density_g_cm3", [0.05, 25]), ("joint.glue_density_g_cm3", [0.05, 25]), ("joint.glue_line_mm", [0, 5]), ("joint.cleaned_off_mm", [0, 5]),
            ("joint.kerf_mm", [0, 8]), ("soaked_g", [0, 10_000]), ("eyes.mass_g", [0.001, 200]), ("eyes.diameter_mm", [0.5, 100]), ("leader.carried_mm", [0, 100_000]),
            ("leader.density_g_cm3", [0.5, 25]), ("leader.diameter_mm", [0.05, 10]), ("halves.right_g", [0.01, 10_000]), ("halves.left_g", [0.01, 10_000]),
            ("halves.right_wider_mm", [-12, 12]),
        ];
        for (int i = r.Next(1, 6); i > 0; i--)
        {
            (string path, double[] of) = One(r, limits);
            string[] keys = path.Split('.');
            JsonNode at = design;
            foreach (string key in keys[..^1]) at = at[key]!;
            at[keys[^1]] = One(r, of);
        }
        return design;
    }
}
