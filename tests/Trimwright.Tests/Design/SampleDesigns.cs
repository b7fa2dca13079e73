using System.Text.Json.Nodes;

namespace Trimwright.Tests.Design;

/// <summary>Design files as JSON trees: one that uses every key there is, and plausible lures at random.</summary>
internal static class SampleDesigns
{
    /// <summary>A cupped popper that uses every key of the format; sound.</summary>
    public static JsonObject Everything() => JsonNode.Parse("""
        {
          "trimwright": 1, "name": "Everything 160", "kind": "popper",
          "body": {
            "length_mm": 160,
            "back":  { "points_mm": [[0, 10], [40, 14.5], [100, 11], [160, 0]], "nose": "round", "tail": "round", "corners_mm": [100] },
            "belly": { "points_mm": [[0, -10], [40, -15], [100, -12], [160, 0]], "nose": "pointed", "tail": "pointed", "corners_mm": [] },
            "plan":  { "points_mm": [[0, 9], [40, 12], [100, 9], [160, 0]], "nose": "round", "tail": "round", "corners_mm": [40] },
            "section": [ { "x_mm": 0, "above": 2.2, "below": 2, "widest_mm": 0 }, { "x_mm": 160, "above": 2, "below": 3, "widest_mm": 0 } ],
            "nose_face": { "kind": "cupped", "slant_deg": 8, "cup_diameter_mm": 11, "cup_depth_mm": 3, "cup_at_z_mm": 0.5 }
          },
          "wood": { "name": "western red cedar", "density_g_cm3": 0.37, "density_sd_g_cm3": 0.04, "box_id": "western-redcedar" },
          "wire": {
            "diameter_mm": 1.6, "grade": "304 half-hard", "density_g_cm3": 7.9, "slot_width_mm": 2,
            "line_tie": { "z_mm": 0, "hang_at_mm": [-5, 0, 0], "plane": "flat", "inside_mm": 5, "stands_out_mm": 5, "closing": "wrapped", "wraps": 3 },
            "hangers": [
              { "name": "belly", "kind": "swivel", "x_mm": 60, "z_mm": 0, "slot_mm": [12, 4], "hang_at_mm": [60, 0, -18], "plane": "upright", "inside_mm": 4, "stands_out_mm": 4, "closing": "open", "wraps": 0 },
              { "name": "rear", "kind": "screw_eye", "x_mm": 110, "z_mm": 0, "mass_g": 0.8 },
              { "name": "loop", "kind": "loop", "x_mm": 85, "z_mm": -1 }
            ],
            "tail_loop": { "z_mm": 0, "closing": "whipped", "line_mm": 0.25, "whipped_mm": 12, "inside_mm": 4, "stands_out_mm": 4 },
            "run_mm": [[4, 0], [60, 1], [120, 0.5], [159, 0]]
          },
          "ballast": [
            { "name": "rod", "form": "rod", "axis": "x", "diameter_mm": 7, "length_mm": 12, "density_g_cm3": 11.3, "at_mm": [40, 0, -8], "clearance_mm": 0.4 },
            { "name": "ball", "form": "ball", "diameter_mm": 5, "mass_g": 0.7, "at_mm": [75, 0, -6] },
            { "name": "barrel", "form": "barrel", "axis": "x", "diameter_mm": 6, "length_mm": 8, "density_g_cm3": 11.3, "bore_mm": 2, "on_wire": true, "at_mm": [30, 0, 0] },
            { "name": "strip", "form": "strip", "axis": "x", "length_mm": 14, "width_mm": 5, "thickness_mm": 1.5, "density_g_cm3": 11.3, "at_mm": [98, 0, -6] },
            { "name": "plug", "form": "plug", "axis": "y", "diameter_mm": 5, "length_mm": 6, "density_g_cm3": 10.9, "at_mm": [125, 0, 0] }
          ],
          "finish": [ { "name": "epoxy", "coats": 2, "thickness_mm": 0.25, "density_g_cm3": 1.15, "hung": "alternate_ends" }, { "name": "paint", "coats": 1, "thickness_mm": 0.05, "density_g_cm3": 1.3, "hung": "turner" } ],
          "hardware": [
            { "name": "split ring", "hangs_from": "belly", "mass_g": 1.2, "density_g_cm3": 7.8, "length_mm": 10, "drag_area_mm2": 20, "strength_kgf": 90 },
            { "name": "treble 3/0", "hangs_from": "belly", "mass_g": 9.5, "density_g_cm3": 7.8, "length_mm": 48 },
            { "name": "ring", "hangs_from": "tail_loop", "mass_g": 1.2 },
            { "name": "snap", "hangs_from": "line_tie", "mass_g": 0.9 }
          ],
          "leader": { "material": "fluorocarbon", "diameter_mm": 1.0, "density_g_cm3": 1.78, "carried_mm": 200, "strength_kgf": 60.5 },
          "halves": { "right_g": 7.2, "left_g": 7.0, "right_wider_mm": 0.2 },
          "soaked_g": 0.6,
          "joint": { "tack": "paper", "tack_mm": 0.12, "kerf_mm": 0, "cleaned_off_mm": 0.1, "glue_line_mm": 0.1,
                     "glue_density_g_cm3": 1.15, "filler_density_g_cm3": 1.1, "pins_mm": [[20, 0], [140, 0]] },
          "eyes": { "diameter_mm": 7, "thickness_mm": 2, "mass_g": 0.5, "x_mm": 18, "z_mm": 3 }
        }
        """)!.AsObject();

    /// <summary>A plausible lure: nearly all of them are sound.</summary>
    public static JsonObject Plausible(Random random)
    {
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        bool Sometimes(double share) => random.NextDouble() < share;
        string One(params string[] words) => words[random.Next(words.Length)];
        double length = Math.Round(Between(40, 320), 1), tall = length * Between(0.06, 0.14), wide = length * Between(0.05, 0.11);
        bool popper = Sometimes(0.25);
        JsonObject Outline(double size, int sign)
        {
            double nose = popper ? 0.7 : 0;
            double[] at = [0, 0.2, 0.45, 0.75, 1], share = [nose, Between(0.75, 0.9), 1, Between(0.6, 0.8), 0];
            var points = new JsonArray();
            for (int i = 0; i < at.Length; i++) points.Add(new JsonArray(Math.Round(at[i] * length, 4), sign * share[i] * size));
            points[4]![0] = length;
            return new JsonObject { ["points_mm"] = points, ["nose"] = One("round", "pointed"), ["tail"] = One("round", "pointed") };
        }
        var body = new JsonObject
        {
            ["length_mm"] = length,
            ["back"] = Outline(tall, 1),
            ["belly"] = Outline(tall, -1),
            ["plan"] = Outline(wide, 1),
        };
        if (Sometimes(0.7)) body["section"] = new JsonArray(new JsonObject { ["x_mm"] = 0, ["above"] = Between(1.5, 6), ["below"] = Between(1.5, 6) });
        if (popper && Sometimes(0.6)) body["nose_face"] = new JsonObject { ["kind"] = "slanted", ["slant_deg"] = Between(-25, 25) };
        var design = new JsonObject
        {
            ["trimwright"] = 1, ["name"] = "Random " + random.Next(1000), ["body"] = body,
            ["wood"] = new JsonObject { ["name"] = "wood", ["density_g_cm3"] = Between(0.1, 1.05) },
        };
        bool wire = Sometimes(0.7);
        if (wire)
        {
            design["wire"] = new JsonObject
            {
                ["diameter_mm"] = Between(0.8, 1.8),
                ["hangers"] = new JsonArray(new JsonObject { ["name"] = "belly", ["kind"] = One("loop", "swivel", "screw_eye"), ["x_mm"] = length * Between(0.3, 0.6) }),
                ["tail_loop"] = new JsonObject { ["z_mm"] = 0 },
            };
            design["hardware"] = new JsonArray(
                new JsonObject { ["name"] = "ring", ["hangs_from"] = One("belly", "tail_loop", "line_tie"), ["mass_g"] = Between(0.3, 2) },
                new JsonObject { ["name"] = "treble", ["hangs_from"] = "belly", ["mass_g"] = Between(1, 12), ["length_mm"] = Between(15, 50) });
            if (Sometimes(0.3)) design["leader"] = new JsonObject { ["diameter_mm"] = Between(0.3, 1.2), ["density_g_cm3"] = Between(0.9, 1.8), ["carried_mm"] = Between(0, 600) };
        }
        if (Sometimes(0.7))
            design["ballast"] = new JsonArray(new JsonObject
            {
                ["name"] = "lead", ["form"] = "rod", ["diameter_mm"] = Math.Min(tall, wide) * Between(0.3, 0.8), ["length_mm"] = length * Between(0.05, 0.15),
                ["density_g_cm3"] = Between(7, 19), ["at_mm"] = new JsonArray(length * Between(0.3, 0.6), 0, 0),
            });
        if (Sometimes(0.7)) design["finish"] = new JsonArray(new JsonObject { ["name"] = "epoxy", ["coats"] = random.Next(1, 5), ["thickness_mm"] = Between(0.02, 0.3) });
        if (Sometimes(0.3)) design["joint"] = new JsonObject { ["kerf_mm"] = Between(0, 1.2), ["glue_line_mm"] = Between(0, 0.3) };
        if (Sometimes(0.2)) design["soaked_g"] = Between(0, 3);
        return design;
    }

    /// <summary>Every node below a tree, each with its parent.</summary>
    public static IEnumerable<JsonNode> Nodes(JsonNode tree)
    {
        yield return tree;
        IEnumerable<JsonNode?> inner = tree switch
        {
            JsonObject o => o.Select(p => p.Value),
            JsonArray a => a,
            _ => [],
        };
        foreach (JsonNode? child in inner)
            if (child is not null)
                foreach (JsonNode node in Nodes(child)) yield return node;
    }

    /// <summary>The numbers of a tree.</summary>
    public static List<JsonValue> Numbers(JsonNode tree) =>
        [.. Nodes(tree).OfType<JsonValue>().Where(v => v.GetValueKind() == System.Text.Json.JsonValueKind.Number)];
}
