using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Tests.Design;

namespace Trimwright.Tests.Box;

/// <summary>Boxes for tests, through the box file as a maker's would be.</summary>
internal static class SampleBoxes
{
    /// <summary>A box that uses every key of the format; sound.</summary>
    public static JsonObject Everything() => JsonNode.Parse("""
        {
          "trimwright_box": 1, "name": "Everything", "currency": "crowns", "labour_per_h": 18.5, "no_lead": true, "syringe_step_ml": 0.2,
          "woods": [
            { "id": "cedar", "name": "red cedar", "source": "published", "measured": ["density_sd_g_cm3"], "price": 3.2, "density_g_cm3": 0.37, "density_sd_g_cm3": 0.03,
              "boards": [ { "name": "A", "length_mm": 200, "width_mm": 45, "thickness_mm": 18, "mass_g": 58.6 }, { "length_mm": 210, "width_mm": 45.5, "thickness_mm": 18.2, "mass_g": 66 } ] },
            { "id": "alder", "name": "alder", "density_g_cm3": 0.46 }
          ],
          "wires": [ { "id": "wire", "name": "wire 1.6", "diameter_mm": 1.6, "grade": "304 half-hard", "density_g_cm3": 7.9, "tensile_mpa": 1000, "length_mm": 4200, "published": ["density_g_cm3", "tensile_mpa"], "price": 1.1 } ],
          "weights": [
            { "id": "rod", "name": "rod", "kind": "rod", "is_lead": true, "diameter_mm": 8, "length_mm": 18, "bore_mm": 1, "density_g_cm3": 11.3, "count": 6, "source": "published", "price": 0.4 },
            { "id": "ball", "name": "ball", "kind": "ball", "is_lead": true, "diameter_mm": 8, "mass_g": 3.03, "source": "measured" },
            { "id": "barrel", "name": "barrel", "kind": "barrel", "is_lead": false, "diameter_mm": 8, "length_mm": 12, "bore_mm": 2.2, "density_g_cm3": 17.5, "mass_g": 9.7, "count": 0 },
            { "id": "strip", "name": "strip", "kind": "strip", "is_lead": true, "length_mm": 30, "width_mm": 8, "thickness_mm": 1.8, "mass_g": 4.9 },
            { "id": "plug", "name": "plug", "kind": "plug", "is_lead": false, "diameter_mm": 10, "length_mm": 10, "density_g_cm3": 9.75 }
          ],
          "stock": [
            { "id": "bar", "name": "bar", "kind": "rod", "is_lead": false, "diameter_mm": 8, "bore_mm": 2, "length_mm": 260, "step_mm": 1, "density_g_cm3": 8.5, "price": 9 },
            { "id": "sheet", "name": "sheet", "kind": "sheet", "is_lead": true, "width_mm": 140, "thickness_mm": 1.8, "length_mm": 300, "mass_g": 850, "measured": ["mass_g"] },
            { "id": "lead-wire", "name": "lead wire", "kind": "wire", "is_lead": true, "diameter_mm": 1.6, "density_g_cm3": 11.34 }
          ],
          "hooks": [ { "id": "hook", "name": "treble 3/0", "kind": "treble", "size": "3/0", "mass_g": 9.5, "length_mm": 48, "density_g_cm3": 7.8, "strength_kg": 70, "count": 10, "source": "measured", "published": ["strength_kg"], "price": 2.6 },
                     { "id": "single", "name": "single 7/0", "kind": "single", "mass_g": 6.7, "length_mm": 55 } ],
          "rings": [ { "id": "split", "name": "split ring", "kind": "split", "size": "9", "mass_g": 1.2, "length_mm": 14, "density_g_cm3": 7.9, "strength_kg": 100, "count": 30 },
                     { "id": "solid", "name": "solid ring", "kind": "solid", "mass_g": 1, "length_mm": 9 } ],
          "swivels": [ { "id": "swivel", "name": "swivel", "size": "2/0", "mass_g": 1.8, "length_mm": 28, "density_g_cm3": 8, "strength_kg": 115, "count": 4 } ],
          "leaders": [ { "id": "leader", "name": "leader", "material": "nylon", "diameter_mm": 1.06, "density_g_cm3": 1.14, "strength_kg": 59 } ],
          "finishes": [ { "id": "epoxy", "name": "epoxy", "density_g_cm3": 1.16, "thickness_mm": 0.25, "use": "clear", "ratio_by_volume": [2, 1], "ratio_by_weight": [100, 47], "resin_density_g_cm3": 1.16,
                          "hardener_density_g_cm3": 1.09, "solids": 0.98, "losses": 0.2, "pot_minimum_g": 10, "sand_from_h": 24, "turn_h": 5, "pot_life_min": 35,
                          "recoat_from_h": 4, "recoat_until_h": 12, "cure_h": 120, "times_at_c": 20, "published": ["ratio_by_weight"] } ],
          "cutters": [ { "id": "bits", "name": "flat bits", "kind": "flat_bit", "diameters_mm": [8, 10, 12], "spur_mm": 2.4, "reach_mm": 60, "measured": ["diameters_mm"] },
                       { "id": "drills", "name": "drills", "kind": "twist", "diameters_mm": [2, 5] },
                       { "id": "nose", "name": "round nose", "kind": "round_nose", "diameters_mm": [8] }, { "id": "gouge", "name": "gouge", "kind": "gouge", "diameters_mm": [10] } ],
          "scales": [ { "id": "scale", "name": "pocket scale", "resolution_g": 0.01, "capacity_g": 200 } ],
          "instruments": ["ruler", "calipers", "deep_water"]
        }
        """)!.AsObject();

    public static Reading<MakersBox> Read(JsonNode box) => BoxFile.Read(Examiner.Bytes(box.ToJsonString()));

    public static MakersBox Sound(ReadOnlySpan<byte> file)
    {
        Reading<MakersBox> reading = BoxFile.Read(file);
        Assert.True(reading.IsSound, string.Join("\n", reading.Faults) + "\n" + Encoding.UTF8.GetString(file)[..Math.Min(file.Length, 3000)]);
        return reading.Value!;
    }

    public static byte[] DemoFile => File.ReadAllBytes(Path.Combine(Here.Root, "demo", "kitchen.box.json"));

    /// <summary>The node at a path such as <c>weights[2].bore_mm</c>.</summary>
    public static JsonNode At(JsonNode box, string path) => SampleDesigns.Nodes(box).Single(n => n.GetPath() == "$." + path);

    public static void Put(JsonNode old, JsonNode? by)
    {
        if (old.Parent is JsonObject o) o[old.GetPropertyName()] = by;
        else if (old.Parent is JsonArray a) a[old.GetElementIndex()] = by;
    }

    /// <summary>The first place where two boxes differ, member by member, or null.</summary>
    public static string? Difference(MakersBox a, MakersBox b)
    {
        (string List, int Index, BoxItem Item)[] left = [.. a.Items], right = [.. b.Items];
        if (left.Length != right.Length) return $"{left.Length} and {right.Length} items";
        return RoundTripDeepTests.Difference((a.Name, a.Currency, a.LabourPerHour, a.NoLead, a.SyringeStepMl), (b.Name, b.Currency, b.LabourPerHour, b.NoLead, b.SyringeStepMl), "box")
            ?? RoundTripDeepTests.Difference(a.Kept, b.Kept, "box")
            ?? RoundTripDeepTests.Difference(a.Instruments?.ToArray(), b.Instruments?.ToArray(), "instruments")
            ?? left.Select((item, i) => RoundTripDeepTests.Difference(item.Item, right[i].Item, $"{item.List}[{item.Index}]")).FirstOrDefault(found => found is not null);
    }
}
