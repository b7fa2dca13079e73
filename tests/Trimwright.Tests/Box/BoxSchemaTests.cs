using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Tests.Design;

namespace Trimwright.Tests.Box;

/// <summary>
/// The box's schema and its reader, held together by an independent validator: what the reader accepts is valid, and what is
/// valid has no fault that a schema could tell.
/// </summary>
public class BoxSchemaTests
{
    private static readonly string Text = File.ReadAllText(Path.Combine(Here.Root, "src", "Core", "Box", "box.schema.json"));

    private static readonly JsonSchema Schema = JsonSchema.FromText(Text);

    private static bool Valid(byte[] file)
    {
        using JsonDocument document = JsonDocument.Parse(file);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static List<Fault> FaultsOfForm(byte[] file)
    {
        var findings = new Findings();
        if (JsonParser.Parse(file, findings) is { } tree) BoxFile.Form.Read(tree, findings);
        return findings.Faults;
    }

    private static bool Agree(JsonNode box, string what)
    {
        byte[] file = Examiner.Bytes(box.ToJsonString());
        bool valid = Valid(file);
        if (BoxFile.Read(file).IsSound) Assert.True(valid, $"{what}: the reader accepts it, the schema does not");
        if (valid) Assert.True(FaultsOfForm(file) is [], $"{what}: the schema accepts it, the reader does not: {string.Join("; ", FaultsOfForm(file))}");
        return valid;
    }

    [Fact]
    public void The_boxes_that_there_are_are_valid()
    {
        Assert.True(Agree(SampleBoxes.Everything(), "everything"));
        Assert.True(Agree(JsonNode.Parse(SampleBoxes.DemoFile)!, "demo"));
        Assert.True(Agree(JsonNode.Parse(BoxFile.Write(Catalogue.Starter))!, "starter"));
    }

    private static JsonObject Sample(bool inches) => inches ? InOtherUnits.Of(SampleBoxes.Everything()) : SampleBoxes.Everything();

    private static readonly Func<JsonNode, JsonNode?>[] Slips =
    [
        _ => null, _ => true, _ => 1.5, _ => -1e9, _ => 1e9, _ => 0, _ => "a word that is none", _ => new string('x', 201), _ => new JsonObject(), _ => new JsonArray(),
        _ => new JsonArray(1, 2), _ => new JsonArray("a"), node => new JsonArray([.. Enumerable.Range(0, 201).Select(_ => (JsonNode)node.DeepClone())]), node => node.ToJsonString(),
    ];

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void One_slip_in_one_key_is_seen_by_both_or_by_neither(bool inches)
    {
        int slips = 0, refused = 0, share = Tier.Count(quick: inches ? 9 : 3, ci: 1);
        string[] places = [.. SampleDesigns.Nodes(Sample(inches)).Skip(1).Select(n => n.GetPath()[2..])];
        for (int i = 0; i < places.Length * Slips.Length; i += share, slips++)
        {
            JsonObject box = Sample(inches);
            JsonNode node = SampleBoxes.At(box, places[i / Slips.Length]);
            JsonNode? by = Slips[i % Slips.Length](node);
            SampleBoxes.Put(node, by);
            if (!Agree(box, $"{places[i / Slips.Length]}: {by?.ToJsonString() ?? "null"}")) refused++;
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{slips} slips, {refused} refused by the schema");
        Assert.True(refused > 1500 / share);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_key_left_out_is_missed_by_both_or_by_neither_whatever_the_kind(bool inches)
    {
        string[] keys = [.. SampleDesigns.Nodes(Sample(inches)).Where(n => n.Parent is JsonObject).Select(n => n.GetPath()[2..])];
        int needed = keys.Count(key =>
        {
            JsonObject box = Sample(inches);
            JsonNode node = SampleBoxes.At(box, key);
            node.Parent!.AsObject().Remove(node.GetPropertyName());
            return !Agree(box, "without " + key);
        });
        // Each form asks for sizes of its own: turn each weight and stock into each other form.
        foreach (string list in (string[])["weights", "stock"])
            for (int i = 0; i < Sample(inches)[list]!.AsArray().Count; i++)
                foreach (string? kind in (string?[])["rod", "ball", "barrel", "strip", "plug", "sheet", "wire", null])
                {
                    JsonObject box = Sample(inches);
                    box[list]![i]!["kind"] = kind;
                    if (!Agree(box, $"{list}[{i}] as {kind}")) needed++;
                }
        TestContext.Current.TestOutputHelper?.WriteLine($"{keys.Length} keys, {needed} times something was missed");
        Assert.True(needed > 60);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Every_limit_lies_in_the_same_place_for_both(bool inches)
    {
        double[] limits = [.. SampleDesigns.Nodes(JsonNode.Parse(Text)!).Where(n => n is JsonValue && n.Parent is JsonObject && n.GetPropertyName() is "minimum" or "maximum")
            .Select(n => n.GetValue<double>()).Distinct().Order()];
        double[] values = [.. limits.SelectMany(v => (double[])[v, v + 1e-6 * Math.Max(1, Math.Abs(v)), v - 1e-6 * Math.Max(1, Math.Abs(v))])];
        int places = SampleDesigns.Numbers(Sample(inches)).Count, looked = 0, share = Tier.Count(quick: inches ? 66 : 22, ci: inches ? 4 : 1);
        for (int i = 0; i < places * values.Length; i += share, looked++)
        {
            JsonObject box = Sample(inches);
            JsonValue number = SampleDesigns.Numbers(box)[i / values.Length];
            string path = number.GetPath();
            SampleBoxes.Put(number, values[i % values.Length]);
            Agree(box, $"{path} = {values[i % values.Length]}");
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{limits.Length} limits, {places} numbers, {looked} tried");
        Assert.True(limits.Length > 20 && looked > 3300 / share);
    }

    [Fact]
    public void Every_key_has_a_title_with_its_unit()
    {
        JsonNode schema = JsonNode.Parse(Text)!;
        Assert.Equal("urn:trimwright:box:1", (string?)schema["$id"]);
        foreach (JsonObject properties in SampleDesigns.Nodes(schema).OfType<JsonObject>().Where(o => o.Parent is JsonObject && o.GetPropertyName() == "properties"))
            foreach ((string key, JsonNode? value) in properties)
                if (!properties.GetPath().Contains(".allOf", StringComparison.Ordinal))
                {
                    string? title = (string?)value!["title"];
                    Assert.True(title is { Length: > 3 }, $"{properties.GetPath()}.{key} has no title");
                    (string Ending, string Unit)[] units = [("_g_cm3", "g/cm³"), ("_mm", "mm"), ("_g", " g"), ("_kg", "kg"), ("_mpa", "MPa"), ("_min", "minutes"), ("_at_c", "°C")];
                    string unit = OtherUnit.In(key)?.Plural ?? units.FirstOrDefault(u => key.EndsWith(u.Ending, StringComparison.Ordinal)).Unit ?? "";
                    Assert.Contains(unit, title, StringComparison.Ordinal);
                }
    }
}
