using System.Text.Json;

namespace Trimwright.Tests.App;

/// <summary>The contract of <c>swap</c>.</summary>
public class SwapCommandTests
{
    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name + ".lure.json");

    private static string Box => Path.Combine(Here.Root, "demo", "kitchen.box.json");

    [Fact]
    public void Swap_tells_hooks_waters_leaders_and_remedies_and_ends_with_the_cautions()
    {
        var ran = TheProgram.Run("swap", Demo("tidegate-185"), "--box", Box);
        Assert.Equal((0, ""), (ran.Exit, ran.Error));
        string[] wanted =
        [
            "Tidegate 185", "Own hooks: treble 3/0 at the belly", "  tap, lake", "  ocean", "A size up: treble 3/0 at the tail loop", "A size down:", "Singles:", "No hooks",
            "It sank, and with this it floats.", "with a leader let down", "1.5\u00A0m of nylon 130 lb", "1.5\u00A0m of fluorocarbon 150 lb", "What is left once it is glued",
            "Lighter in the water, the seal whole", "Heavier in the water, the seal broken", "Nose up, the seal whole", "Nose down, the seal whole", "A hole breaks the seal", "Lead: wash your hands",
        ];
        int at = 0;
        foreach (string text in wanted)
        {
            int found = ran.Out.IndexOf(text, at, StringComparison.Ordinal);
            Assert.True(found >= 0, $"\"{text}\" is not there, or not in its place");
            at = found;
        }
        Assert.DoesNotContain("usual ones, from memory", ran.Out);
        Assert.Contains("usual ones, from memory", TheProgram.Run("swap", Demo("tidegate-185")).Out);
    }

    [Theory]
    [InlineData(28)]
    [InlineData(48)]
    [InlineData(80)]
    public void No_line_is_wider_than_the_terminal(int columns)
    {
        var ran = TheProgram.RunIn(Here.Root, columns, "swap", Demo("tidegate-185"), "--box", Box);
        foreach (string line in ran.Out.Split('\n')) Assert.True(line.Length <= columns, $"{line.Length} of {columns}: {line}");
    }

    [Fact]
    public void Swap_json_is_one_object_whose_rows_add_up_and_agree_with_predict()
    {
        var ran = TheProgram.Run("swap", Demo("tidegate-185"), "--box", Box, "--json");
        Assert.Equal(0, ran.Exit);
        JsonElement root = JsonDocument.Parse(ran.Out).RootElement;
        foreach (string key in (string[])["name", "box", "swaps", "as_it_is", "remedies", "cautions", "warnings"]) Assert.True(root.TryGetProperty(key, out _), key);
        JsonElement[] swaps = [.. root.GetProperty("swaps").EnumerateArray()];
        // Hook sets × 5 waters × slack, nylon, fluorocarbon.
        Assert.Equal(11 * 5 * 3, swaps.Length);
        foreach (JsonElement row in swaps)
        {
            JsonElement own = swaps.First(s => s.GetProperty("water_name").GetString() == row.GetProperty("water_name").GetString());
            double grams = row.GetProperty("spare_buoyancy_g").GetDouble() - own.GetProperty("spare_buoyancy_g").GetDouble();
            Assert.Equal(grams, row.GetProperty("change").GetProperty("spare_buoyancy_g").GetDouble(), 2e-6);
        }
        JsonElement now = root.GetProperty("as_it_is"), predicted = JsonDocument.Parse(TheProgram.Run("predict", Demo("tidegate-185"), "--json").Out).RootElement;
        Assert.Equal(predicted.GetProperty("spare_buoyancy_g").GetDouble(), now.GetProperty("spare_buoyancy_g").GetDouble(), 1e-6);
        Assert.Equal(predicted.GetProperty("sink").GetProperty("rate_mm_s").GetDouble(), now.GetProperty("sink").GetProperty("rate_mm_s").GetDouble(), 1e-5);
        foreach (JsonElement remedy in root.GetProperty("remedies").EnumerateArray())
            Assert.Equal(remedy.GetProperty("breaks_seal").GetBoolean(), remedy.GetProperty("hole").ValueKind == JsonValueKind.Object);
        Inspect(root);
    }

    private static void Inspect(JsonElement node)
    {
        if (node.ValueKind == JsonValueKind.Number) Assert.True(double.IsFinite(node.GetDouble()));
        if (node.ValueKind == JsonValueKind.Array) foreach (JsonElement item in node.EnumerateArray()) Inspect(item);
        if (node.ValueKind != JsonValueKind.Object) return;
        foreach (JsonProperty member in node.EnumerateObject())
        {
            Assert.Matches("^[a-z][a-z0-9_]*$", member.Name);
            Inspect(member.Value);
        }
    }

    [Fact]
    public void A_lure_without_wire_or_hooks_is_answered_too()
    {
        string file = Path.Combine(Directory.CreateTempSubdirectory("trimwright-swap").FullName, "solid.lure.json");
        File.WriteAllText(file, """
            { "trimwright": 1, "name": "solid", "body": { "length_mm": 100,
              "back": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" },
              "belly": { "points_mm": [[0, 0], [50, -10], [100, 0]], "nose": "round", "tail": "round" },
              "plan": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" } }, "wood": { "density_g_cm3": 0.4 } }
            """);
        var ran = TheProgram.Run("swap", file);
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
        Assert.Equal((0, ""), (ran.Exit, ran.Error));
        Assert.Contains("As it is, without hooks", ran.Out);
        Assert.Contains("Nothing is left to do", ran.Out);
    }

    [Theory]
    [InlineData(1, "no-such-file.lure.json")]
    [InlineData(2)]
    [InlineData(2, "x.lure.json", "--pull", "3")]
    [InlineData(2, "x.lure.json", "--water", "soup")]
    public void Wrong_calls_end_with_their_exit_status(int exit, params string[] arguments) =>
        Assert.Equal(exit, TheProgram.Run(["swap", .. arguments]).Exit);

    [Fact]
    public void A_lure_where_a_box_is_asked_for_is_told_so()
    {
        var ran = TheProgram.Run("swap", Demo("slipway-150"), "--box", Demo("tidegate-185"), "--json");
        Assert.Equal(1, ran.Exit);
        JsonElement fault = JsonDocument.Parse(ran.Out).RootElement.GetProperty("fault");
        Assert.Equal(("a lure", "a box"), (fault.GetProperty("got").GetString(), fault.GetProperty("allowed").GetString()));
    }
}
