using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Trimwright.Core.Design;

/// <summary>A schema of keys in the program's own units, with each of them in its other unit beside it, and never both.</summary>
internal static partial class SchemaUnits
{
    /// <summary>For the description of a whole file.</summary>
    public const string Says = "A key in mm may be written in inches instead and one in g in ounces, lists too, under a key that ends so: length_in for length_mm, "
        + "mass_oz for mass_g; likewise _in2, _lb, _lbf, _f and _per_yard. Never both.";

    /// <summary>The schema with both.</summary>
    public static void WriteBoth(Utf8JsonWriter json, ReadOnlySpan<byte> schema)
    {
        JsonObject whole = JsonNode.Parse(schema)!.AsObject();
        if (Both(whole)) whole["description"] = $"{(string?)whole["description"]} {Says}";
        foreach ((string key, JsonNode? value) in whole)
        {
            json.WritePropertyName(key);
            value!.WriteTo(json);
        }
        json.WriteEndObject();
    }

    // Whether there was any key with another unit.
    private static bool Both(JsonNode? node)
    {
        bool any = false;
        if (node is JsonArray list)
            foreach (JsonNode? item in list) any |= Both(item);
        if (node is not JsonObject schema) return any;
        foreach ((string key, JsonNode? value) in schema.ToList())
            if (key != "properties") any |= Both(value);
        var together = new List<JsonNode>();
        if (schema["properties"] is JsonObject properties)
            foreach ((string key, JsonNode? value) in properties.ToList())
            {
                any |= Both(value);
                if (OtherUnit.Of(key) is not { } unit) continue;
                any = true;
                properties.Insert(properties.IndexOf(key) + 1, unit.Key(key), Other(unit, key, value!.AsObject()));
                // In a condition a key stands for its value alone, and that both are there has been refused.
                if (value["title"] is not null) together.Add(new JsonObject { ["not"] = Together(key, unit.Key(key)) });
            }
        if (schema["required"] is JsonArray required)
        {
            foreach (string key in required.Select(k => (string)k!).Where(k => OtherUnit.Of(k) is not null).ToList())
            {
                required.Remove(required.First(k => (string?)k == key));
                together.Add(new JsonObject { ["anyOf"] = new JsonArray(Required(key), Required(OtherUnit.Of(key)!.Key(key))) });
            }
            if (required.Count == 0) schema.Remove("required");
        }
        if (together.Count == 0) return any;
        if (schema["allOf"] is not JsonArray all) schema["allOf"] = all = [];
        foreach (JsonNode each in together) all.Add(each);
        return any;
    }

    // What is no object has no keys, and nothing to be refused for.
    private static JsonObject Together(string key, string other)
    {
        JsonObject both = Required(key, other);
        both.Insert(0, "type", "object");
        return both;
    }

    private static JsonObject Required(params ReadOnlySpan<string> keys)
    {
        var list = new JsonArray();
        foreach (string key in keys) list.Add((JsonNode)key);
        return new JsonObject { ["required"] = list };
    }

    private static JsonObject Other(OtherUnit unit, string key, JsonObject value)
    {
        var other = (JsonObject)value.DeepClone();
        if ((string?)other["title"] is { } title)
        {
            string said = unit == OtherUnit.Inch ? Millimetres().Replace(title, unit.Plural) : unit == OtherUnit.Ounce ? Grams().Replace(title, unit.Plural) : title;
            other["title"] = said == title ? $"{title}: {unit.Plural}" : said;
            other["description"] = $"Instead of {key}.";
        }
        Scale(unit, other);
        return other;
    }

    private static void Scale(OtherUnit unit, JsonNode? node)
    {
        if (node is JsonArray list)
            foreach (JsonNode? item in list) Scale(unit, item);
        if (node is not JsonObject schema) return;
        schema.Remove("default");
        foreach ((string key, JsonNode? value) in schema.ToList())
            if (key is "minimum" or "maximum") schema[key] = JsonNode.Parse(unit.Written(value!.GetValue<double>()));
            else Scale(unit, value);
    }

    [GeneratedRegex(@"\bmm\b")]
    private static partial Regex Millimetres();

    [GeneratedRegex(@"\bg\b(?!/)")]
    private static partial Regex Grams();
}
