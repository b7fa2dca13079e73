using System.Text.Json;
using System.Text.Json.Nodes;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>The same file in inches and ounces: every key that may be written so is.</summary>
internal static class InOtherUnits
{
    public static JsonObject Of(JsonObject file)
    {
        var other = new JsonObject();
        foreach ((string key, JsonNode? value) in file)
            if (OtherUnit.Of(key) is { } unit) other[unit.Key(key)] = Converted(value, unit);
            else other[key] = Each(value);
        return other;
    }

    private static JsonNode? Each(JsonNode? value) => value switch
    {
        JsonObject inner => Of(inner),
        JsonArray list => new JsonArray([.. list.Select(Each)]),
        _ => value?.DeepClone(),
    };

    // As a maker would type it, or, of a size that comes from a metric drawing, so that nothing is lost.
    private static JsonNode? Converted(JsonNode? value, OtherUnit unit) => value switch
    {
        JsonArray list => new JsonArray([.. list.Select(item => Converted(item, unit))]),
        JsonValue number when number.GetValueKind() == JsonValueKind.Number => JsonNode.Parse(unit.Written(number.GetValue<double>())),
        _ => value?.DeepClone(),
    };

    /// <summary>The lure that uses every key, of the version that knows other units.</summary>
    public static JsonObject Lure()
    {
        JsonObject lure = SampleDesigns.Everything();
        lure["trimwright"] = 2;
        foreach (JsonNode? item in lure["hardware"]!.AsArray()) item!["kind"] = "other";
        foreach (JsonNode? coat in lure["finish"]!.AsArray()) coat!["use"] = "clear";
        return lure;
    }
}
