using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>
/// The schema that ships and the reader, held together by an independent validator: what the reader accepts is valid, and
/// what is valid has no fault that a schema could tell (a key missing, a wrong type, a number out of its range).
/// </summary>
public class SchemaTests
{
    private static readonly string Text = File.ReadAllText(Path.Combine(Here.Root, "src", "Core", "Design", "lure.schema.json"));

    private static readonly JsonSchema Schema = JsonSchema.FromText(Text);

    private static bool Valid(byte[] file)
    {
        ReadOnlyMemory<byte> bytes = file.AsSpan().StartsWith<byte>([0xEF, 0xBB, 0xBF]) ? file.AsMemory(3) : file;
        using JsonDocument document = JsonDocument.Parse(bytes);
        try
        {
            return Schema.Evaluate(document.RootElement).IsValid;
        }
        catch (FormatException)
        {
            // The validator compares a constant as a decimal and throws at 1e300, which is not that constant.
            return false;
        }
    }

    /// <summary>The faults of form alone: those found before geometry is looked at.</summary>
    private static List<Fault> FaultsOfForm(byte[] file)
    {
        var findings = new Findings();
        if (JsonParser.Parse(file, findings) is { } tree) LureFile.Form.Read(tree, findings);
        return findings.Faults;
    }

    /// <summary>Holds the two against each other; whether the schema takes the file.</summary>
    private static bool Agree(byte[] file, string what)
    {
        bool valid = Valid(file);
        if (LureFile.Read(file).IsSound) Assert.True(valid, $"{what}: the reader accepts it, the schema does not\n{Encoding.UTF8.GetString(file)}");
        if (valid) Assert.True(FaultsOfForm(file) is [], $"{what}: the schema accepts it, the reader does not: {string.Join("; ", FaultsOfForm(file))}");
        return valid;
    }

    [Fact]
    public void What_the_reader_accepts_is_valid_and_what_is_valid_has_no_fault_of_form()
    {
        int each = Tier.Count(quick: 16, ci: 200), accepted = 0, seen = 0;
        foreach (HostileClass hostile in HostileFilesMakers.All)
            for (int i = 0; i < each; i++)
            {
                byte[] file = hostile.Make(new Random(1000 * i + hostile.Name.Length));
                // Only what is JSON at all can be put before a validator.
                if (file.Length > 1_000_000 || JsonParser.Parse(file, new Findings()) is null) continue;
                seen++;
                if (LureFile.Read(file).IsSound) accepted++;
                Agree(file, $"{hostile.Name} {i}");
            }
        int geometries = 0;
        foreach ((string name, Func<Random, JsonObject> make) in HostileGeometryMakers.All)
            for (int i = 0; i < each / 4; i++, geometries++) Agree(Examiner.Bytes(make(new Random(i)).ToJsonString()), $"{name} {i}");
        foreach (string path in Directory.GetFiles(Path.Combine(Here.Root, "demo"), "*.lure.json")) Agree(File.ReadAllBytes(path), path);
        TestContext.Current.TestOutputHelper?.WriteLine($"{seen} mutated files, {accepted} of them sound, and {geometries} geometries");
        Assert.True(accepted > 3 * each);
    }

    private static JsonObject Sample(bool inches) => inches ? InOtherUnits.Of(InOtherUnits.Lure()) : SampleDesigns.Everything();

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void One_slip_in_one_key_is_seen_by_both_or_by_neither(bool inches)
    {
        int slips = 0, refused = 0, met = 0, share = Tier.Count(quick: inches ? 9 : 3, ci: 1);
        JsonObject whole = Sample(inches);
        int places = SampleDesigns.Nodes(whole).Count() - 1;
        for (int place = 0; place < places; place++)
            foreach (Func<JsonNode, JsonNode?> slip in Slips)
            {
                if (met++ % share != 0) continue;
                JsonObject design = Sample(inches);
                JsonNode node = SampleDesigns.Nodes(design).Skip(1).ElementAt(place);
                string path = node.GetPath();
                Put(node, slip(node));
                byte[] file = Examiner.Bytes(design.ToJsonString());
                if (!Agree(file, $"{path}: {slip(node)?.ToJsonString() ?? "null"}")) refused++;
                slips++;
            }
        TestContext.Current.TestOutputHelper?.WriteLine($"{slips} slips, {refused} refused by the schema");
        Assert.True(refused > 2000 / share);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_key_left_out_is_missed_by_both_or_by_neither(bool inches)
    {
        int needed = 0, keys = 0;
        foreach (string path in SampleDesigns.Nodes(Sample(inches)).Where(n => n.Parent is JsonObject).Select(n => n.GetPath()).ToList())
        {
            JsonObject design = Sample(inches);
            JsonNode node = SampleDesigns.Nodes(design).Single(n => n.GetPath() == path);
            node.Parent!.AsObject().Remove(node.GetPropertyName());
            byte[] file = Examiner.Bytes(design.ToJsonString());
            keys++;
            if (Agree(file, $"without {path}")) continue;
            needed++;
            Assert.Contains(LureFile.Read(file).Faults, f => f.Kind == "missing");
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{keys} keys, {needed} of them needed");
        Assert.True(needed > 30);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Every_limit_lies_in_the_same_place_for_both(bool inches)
    {
        double[] limits = [.. Limits(JsonNode.Parse(Text)!).Distinct().Order()];
        double[] values = [.. limits.SelectMany(v => (double[])[v, v + 1e-6 * Math.Max(1, Math.Abs(v)), v - 1e-6 * Math.Max(1, Math.Abs(v))])];
        int places = SampleDesigns.Numbers(Sample(inches)).Count, looked = 0, share = Tier.Count(quick: inches ? 96 : 32, ci: inches ? 4 : 1);
        for (int i = 0; i < places * values.Length; i += share, looked++)
        {
            JsonObject design = Sample(inches);
            JsonValue number = SampleDesigns.Numbers(design)[i / values.Length];
            string path = number.GetPath();
            Put(number, values[i % values.Length]);
            Agree(Examiner.Bytes(design.ToJsonString()), $"{path} = {values[i % values.Length]}");
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{limits.Length} limits, {places} numbers, {looked} tried");
        Assert.True(limits.Length > 20 && looked > 8000 / share);
    }

    [Fact]
    public void Every_key_has_a_title_and_the_schema_names_no_machine()
    {
        JsonNode schema = JsonNode.Parse(Text)!;
        Assert.Equal("urn:trimwright:lure:1", (string?)schema["$id"]);
        foreach (JsonObject properties in SampleDesigns.Nodes(schema).OfType<JsonObject>().Where(o => o.Parent is JsonObject && o.GetPropertyName() == "properties"))
            foreach ((string key, JsonNode? value) in properties)
                // In a condition a key stands for its value alone.
                if (!Conditions.Any(c => properties.GetPath().Contains(c, StringComparison.Ordinal)))
                {
                    string? title = (string?)value!["title"];
                    Assert.True(title is { Length: > 3 }, $"{properties.GetPath()}.{key} has no title");
                    string? unit = OtherUnit.In(key) is { } other ? other.Plural : key.EndsWith("_mm", StringComparison.Ordinal) ? "mm" : key.EndsWith("_g", StringComparison.Ordinal) ? " g"
                        : key.EndsWith("_deg", StringComparison.Ordinal) ? "degrees" : key.EndsWith("_g_cm3", StringComparison.Ordinal) ? "g/cm³" : null;
                    if (unit is not null) Assert.Contains(unit, title, StringComparison.Ordinal);
                }
    }

    private static readonly string[] Conditions = [".allOf", ".if", ".then", ".else"];

    private static readonly Func<JsonNode, JsonNode?>[] Slips =
    [
        _ => null, _ => true, _ => 1.5, _ => -1e9, _ => 1e9, _ => 0, _ => "a word that is none", _ => new string('x', 201), _ => new JsonObject(), _ => new JsonArray(),
        _ => new JsonArray(1, 2), _ => new JsonArray("a"), node => new JsonArray([.. Enumerable.Range(0, 501).Select(_ => (JsonNode)node.DeepClone())]),
        node => new JsonArray(node.DeepClone()), node => node.ToJsonString(),
    ];

    private static void Put(JsonNode old, JsonNode? by)
    {
        if (old.Parent is JsonObject o) o[old.GetPropertyName()] = by;
        else if (old.Parent is JsonArray a) a[old.GetElementIndex()] = by;
    }

    private static IEnumerable<double> Limits(JsonNode schema) =>
        SampleDesigns.Nodes(schema).Where(n => n.Parent is JsonObject && n is JsonValue && n.GetPropertyName() is "minimum" or "maximum")
            .Select(n => n.GetValue<double>());
}
