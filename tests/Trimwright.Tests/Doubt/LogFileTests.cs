using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Tests.Design;

namespace Trimwright.Tests.Doubt;

/// <summary>The log's file: there and back, against its schema by an independent validator, and what it refuses.</summary>
public class LogFileTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Here.Root, "src", "Core", "Doubt", "log.schema.json")));

    /// <summary>A reading of every kind, with every number that it may have.</summary>
    internal static TubLog Everything()
    {
        LogReading Full(ReadingKind kind)
        {
            var node = new JsonObject { ["kind"] = kind.Word, ["stage"] = "finished", ["rig"] = "standins", ["scale"] = "fine", ["soap"] = true };
            foreach (string key in kind.Needs.Concat(kind.May)) node[key] = 12.25;
            node["water"] = new JsonObject { ["salinity"] = 35.5, ["temperature_c"] = 17.25, ["x-tap"] = "kitchen" };
            if (kind == ReadingKind.Boards) node["size_mm"] = new JsonArray(200, 45.5, 36);
            if (kind == ReadingKind.Part) node["part"] = "wire";
            if (kind == ReadingKind.Tub) (node["sat"], node["film"]) = ("on_side", true);
            if (kind == ReadingKind.UnderWater) node["way"] = "jar";
            if (kind == ReadingKind.Drop) node["from_mm"] = 2;
            var file = new JsonObject { [LogFile.VersionKey] = 1, ["name"] = "one", ["scales"] = new JsonArray(new JsonObject { ["id"] = "fine", ["resolution_g"] = 0.01, ["capacity_g"] = 200 }), ["readings"] = new JsonArray(node) };
            Reading<TubLog> reading = LogFile.Read(Encoding.UTF8.GetBytes(file.ToJsonString()));
            Assert.True(reading.IsSound, $"{kind}: {string.Join("; ", reading.Faults)}");
            return reading.Value!.Readings[0];
        }
        return new TubLog
        {
            Name = "everything",
            Scales = [new LogScale { Id = "fine", ResolutionG = 0.01, CapacityG = 200 }],
            Readings = [.. ReadingKind.All.Select(Full)],
        };
    }

    [Fact]
    public void The_keys_that_a_kind_of_reading_names_are_keys_of_the_file_and_no_two_kinds_share_a_word()
    {
        foreach (ReadingKind kind in ReadingKind.All)
            Assert.All(kind.Needs.Concat(kind.May), key => Assert.Contains(LogReading.Numbers, n => n.Name == key));
        Assert.Equal(ReadingKind.All.Length, ReadingKind.All.Select(k => k.Word).Distinct().Count());
        // Each number is of use to some kind.
        Assert.All(LogReading.Numbers, n => Assert.Contains(ReadingKind.All, k => k.Needs.Contains(n.Name) || k.May.Contains(n.Name)));
    }

    private static byte[] Demo(string name) => File.ReadAllBytes(Path.Combine(Here.Root, "demo", name + ".log.json"));

    [Fact]
    public void Every_kind_of_reading_comes_back_digit_for_digit()
    {
        byte[] once = LogFile.Write(Everything()), again = LogFile.Write(LogFile.Read(once).Value!);
        Assert.Equal(Encoding.UTF8.GetString(once), Encoding.UTF8.GetString(again));
        Assert.Contains("x-tap", Encoding.UTF8.GetString(once));
        foreach (string demo in new[] { "tidegate-185", "mooring-post-210" })
            Assert.Equal(LogFile.Write(LogFile.Read(Demo(demo)).Value!), LogFile.Write(LogFile.Read(LogFile.Write(LogFile.Read(Demo(demo)).Value!)).Value!));
    }

    private static bool Valid(byte[] file)
    {
        using JsonDocument document = JsonDocument.Parse(file);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static List<Fault> FaultsOfForm(byte[] file)
    {
        var findings = new Findings();
        if (JsonParser.Parse(file, findings) is { } tree) LogFile.Form.Read(tree, findings);
        return findings.Faults;
    }

    private static readonly Func<JsonNode, JsonNode?>[] Slips =
    [
        _ => null, _ => true, _ => 1.5, _ => -1e9, _ => 1e9, _ => 0, _ => "a word that is none", _ => new string('x', 201), _ => new JsonObject(), _ => new JsonArray(),
        _ => new JsonArray(1, 2), _ => new JsonArray("a"), node => node.ToJsonString(),
    ];

    [Fact]
    public void Reader_and_schema_see_the_same_slips()
    {
        JsonNode whole = JsonNode.Parse(LogFile.Write(Everything()))!;
        Assert.True(Valid(Encoding.UTF8.GetBytes(whole.ToJsonString())));
        int slips = 0, refused = 0;
        string[] places = [.. SampleDesigns.Nodes(whole).Skip(1).Select(n => n.GetPath()[2..])];
        foreach (string place in places)
            foreach (Func<JsonNode, JsonNode?> slip in Slips)
            {
                JsonNode changed = whole.DeepClone();
                JsonNode node = SampleDesigns.Nodes(changed).First(n => n.GetPath() == "$." + place);
                JsonNode? other = slip(node);
                if (node.Parent is JsonObject parent) parent[node.GetPropertyName()] = other;
                else ((JsonArray)node.Parent!)[node.GetElementIndex()] = other;
                byte[] file = Encoding.UTF8.GetBytes(changed.ToJsonString());
                bool valid = Valid(file);
                slips++;
                if (!valid) refused++;
                if (LogFile.Read(file).IsSound) Assert.True(valid, $"{place}: the reader accepts {other}, the schema does not");
                if (valid) Assert.True(FaultsOfForm(file) is [], $"{place}: the schema accepts {other}, the reader does not: {string.Join("; ", FaultsOfForm(file))}");
            }
        TestContext.Current.TestOutputHelper?.WriteLine($"{slips} slips at {places.Length} places, {refused} refused by the schema");
        Assert.True(refused > slips / 4);
    }

    [Theory]
    [InlineData("""{"trimwright_log":2,"name":"a"}""", "newer-version")]
    [InlineData("""{"trimwright_log":1,"name":"a","name":"b"}""", "duplicate")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"weight"}]}""", "missing")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"weight","mass_g":1e400}]}""", "range|number|syntax|finite")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"guess","mass_g":1}]}""", "range")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"weight","mass_g":1,"scale":"none"}]}""", "reference")]
    [InlineData("""{"trimwright_log":1,"name":"a","scales":[{"id":"fine","resolution_g":0.01,"capacity_g":100}],"readings":[{"kind":"under_water","scale":"fine","sinker_g":212,"with_lure_g":99}]}""", "range")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"under_water","sinker_g":212,"with_lure_g":99,"before_g":45}]}""", "missing")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"under_water","sinker_g":212,"with_lure_g":99,"before_g":45,"after_g":44}]}""", "range")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"drop","depth_mm":500,"from_mm":600,"seconds":3}]}""", "range")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"tub","rig":"rigged","trim_deg":3}]}""", "range")]
    [InlineData("""{"trimwright_log":1,"name":"a","readings":[{"kind":"tub","stage":"glued"}]}""", "missing")]
    [InlineData("[[[", "syntax")]
    [InlineData("", "syntax|missing|empty")]
    public void A_hostile_or_careless_log_is_refused_with_a_reason(string text, string kinds)
    {
        Reading<TubLog> reading = LogFile.Read(Encoding.UTF8.GetBytes(text));
        Assert.False(reading.IsSound);
        foreach (Fault fault in reading.Faults) TestContext.Current.TestOutputHelper?.WriteLine($"{fault.Kind}: {fault}");
        Assert.Contains(reading.Faults, f => kinds.Split('|').Any(k => f.Kind.Contains(k, StringComparison.Ordinal)));
    }

    [Fact]
    public void A_scale_is_refused_what_it_does_not_bear()
    {
        Reading<TubLog> reading = LogFile.Read("""{"trimwright_log":1,"name":"a","scales":[{"id":"kitchen","resolution_g":0.1,"capacity_g":500}],"readings":[{"kind":"under_water","scale":"kitchen","way":"jar","reading_g":612}]}"""u8);
        Fault fault = Assert.Single(reading.Faults);
        Assert.Contains("500, where the scale \"kitchen\" stops", fault.ToString());
    }

    [Fact]
    public void Bytes_of_no_meaning_never_break_the_reader()
    {
        byte[] whole = LogFile.Write(Everything());
        var random = new Random(11);
        for (int i = 0; i < Tier.Count(300, 5000); i++)
        {
            byte[] broken = [.. whole];
            for (int k = 0; k < 1 + i % 5; k++) broken[random.Next(broken.Length)] = (byte)random.Next(256);
            Reading<TubLog> reading = LogFile.Read(i % 7 == 0 ? broken[..random.Next(broken.Length)] : broken);
            Assert.True(reading.IsSound || reading.Faults.Length > 0);
        }
    }
}
