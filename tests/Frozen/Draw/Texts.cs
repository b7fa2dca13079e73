namespace Trimwright.Frozen.Draw;

/// <summary>Wants, and files that are not as they should be.</summary>
internal static class Texts
{
    public static IEnumerable<(string Name, string Text)> All(string lure)
    {
        yield return ("wants/slow.want.json", """
            { "trimwright_want": 1, "does": "falls", "seconds_per_metre": 7, "trim_deg": 5, "weight_within_g": 0.4 }

            """);
        yield return ("wants/standing.want.json", """
            { "trimwright_want": 1, "does": "floats", "nose_out_mm": 42, "trim_deg": 68, "salinity": 8, "temperature_c": 11 }

            """);
        yield return ("wants/in-the-tub.want.json", """
            { "trimwright_want": 1, "does": "floats", "spare_g": 5, "stage": "sealed", "rig": "standins", "salinity": 0, "temperature_c": 15 }

            """);
        yield return ("faults/syntax.lure.json", lure[..(lure.Length / 2)]);
        yield return ("faults/newer.lure.json", lure.Replace("\"trimwright\": 1", "\"trimwright\": 99", StringComparison.Ordinal));
        yield return ("faults/many.lure.json", """
            { "trimwright": 1, "name": "Many faults", "colour": "red",
              "body": { "length_mm": 9000,
                "back": { "points_mm": [[0, 0], [50, -10], [40, 0]], "nose": "round", "tail": "square" },
                "belly": { "points_mm": [[0, 0], [50, -10], [100, 0]], "nose": "round", "tail": "round" } },
              "wood": { "density_g_cm3": -0.4 },
              "ballast": [ { "name": "egg", "form": "egg", "at_mm": [1, 2] } ] }

            """);
        yield return ("faults/stranger.json", """
            { "nothing": "known" }

            """);
        yield return ("faults/many.box.json", """
            { "trimwright_box": 1, "name": "Many faults", "woods": [ { "id": "a", "name": "a" }, { "id": "a", "density_g_cm3": 90 } ], "wires": [ 7 ] }

            """);
        yield return ("faults/many.log.json", """
            { "trimwright_log": 1, "name": "Many faults", "scales": [ { "id": "s", "resolution_g": 0.1, "capacity_g": 50 } ],
              "readings": [ { "kind": "weight", "scale": "s", "mass_g": 80 }, { "kind": "weight", "scale": "t", "mass_g": 8 }, { "kind": "guess" }, { "kind": "tub", "rig": "rigged" } ] }

            """);
        yield return ("faults/many.want.json", """
            { "trimwright_want": 1, "does": "falls", "spare_g": 3, "trim_deg": 200 }

            """);
        yield return ("faults/unknown-keys.lure.json", lure.Replace("\"trimwright\": 1,", "\"trimwright\": 1, \"paint\": \"sand eel\", \"x-mine\": 7,", StringComparison.Ordinal));
    }
}
