using System.Text.Json;

namespace Trimwright.Tests.App;

/// <summary>The contract of <c>strength</c>.</summary>
public class StrengthCommandTests
{
    private static readonly string[] Demos = ["mooring-post-210", "tidegate-185", "slipway-150"];

    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name + ".lure.json");

    [Fact]
    public void Strength_says_what_lets_go_first_with_drag_and_leader_beside_it_and_ends_with_the_caution()
    {
        // A carver gets figures; formulas and sources come when they are asked for.
        TheProgram.Ran plain = TheProgram.Run("strength", Demo("mooring-post-210"), "--drag", "10");
        Assert.DoesNotMatch("MPa|F_e|M_p|R_m|√", plain.Out);
        Assert.Contains("--why shows formula and source", plain.Said);
        var ran = TheProgram.Run("strength", Demo("mooring-post-210"), "--drag", "10", "--why");
        Assert.Equal(0, ran.Exit);
        Assert.Equal("", ran.Error);
        string[] lines = ran.Out.TrimEnd().Split('\n');
        Assert.StartsWith("Mooring Post 210", lines[0]);
        Assert.Contains("lets go first", string.Join(' ', lines[2..4]));
        int drag = ran.Out.IndexOf("Drag as set", StringComparison.Ordinal), leader = ran.Out.IndexOf("The leader breaks at", StringComparison.Ordinal);
        int path = ran.Out.IndexOf("A fish on the", StringComparison.Ordinal), loop = ran.Out.IndexOf("  loop at the belly", StringComparison.Ordinal), line = ran.Out.IndexOf("  fluorocarbon leader", StringComparison.Ordinal);
        Assert.True(drag > 0 && leader > drag && path > leader && loop > path && line > loop);
        Assert.Contains("never a rating", lines[^2]);
        Assert.Contains("nobody in line", lines[^1]);
        Assert.Contains("from memory", ran.Out);
    }

    [Theory]
    [InlineData(28)]
    [InlineData(40)]
    [InlineData(80)]
    public void No_line_is_wider_than_the_terminal(int columns)
    {
        foreach (string lure in Demos)
        {
            var ran = TheProgram.RunIn(Here.Root, columns, "strength", Demo(lure), "--drag", "10");
            foreach (string line in ran.Out.Split('\n')) Assert.True(line.Length <= columns, $"{line.Length} of {columns}: {line}");
        }
    }

    [Fact]
    public void Strength_json_is_one_object_with_finite_numbers_and_a_source_beside_each_figure()
    {
        foreach (string lure in Demos)
        {
            var ran = TheProgram.Run("strength", Demo(lure), "--drag", "8", "--json");
            Assert.Equal(0, ran.Exit);
            JsonElement root = JsonDocument.Parse(ran.Out).RootElement;
            foreach (string key in (string[])["name", "drag_kgf", "weakest", "leader", "wire", "paths", "reach", "caution", "warnings"]) Assert.True(root.TryGetProperty(key, out _), key);
            Assert.Equal(8, root.GetProperty("drag_kgf").GetDouble());
            Assert.Equal(2, root.GetProperty("paths").GetArrayLength());
            double weakest = root.GetProperty("weakest").GetProperty("lets_go_kgf").GetDouble();
            foreach (JsonElement path in root.GetProperty("paths").EnumerateArray())
            {
                double last = 0;
                foreach (JsonElement link in path.GetProperty("links").EnumerateArray())
                {
                    if (link.GetProperty("lets_go").ValueKind == JsonValueKind.Null) continue;
                    double kgf = link.GetProperty("lets_go").GetProperty("kgf").GetDouble();
                    Assert.True(kgf >= last && kgf >= weakest);
                    Assert.Equal(kgf / 8, link.GetProperty("times_drag").GetDouble(), 1e-5);
                    last = kgf;
                }
                Assert.True(last > 0);
            }
            Inspect(root);
        }
    }

    private static void Inspect(JsonElement node)
    {
        if (node.ValueKind == JsonValueKind.Number) Assert.True(double.IsFinite(node.GetDouble()));
        if (node.ValueKind == JsonValueKind.Array) foreach (JsonElement item in node.EnumerateArray()) Inspect(item);
        if (node.ValueKind != JsonValueKind.Object) return;
        if (node.TryGetProperty("kgf", out JsonElement kgf))
        {
            Assert.NotEqual("", node.GetProperty("formula").GetString());
            Assert.NotEqual("", node.GetProperty("source").GetString());
            Assert.Contains(node.GetProperty("basis").GetString(), (string[])["given", "published", "from_memory"]);
            Assert.Equal(kgf.GetDouble() * 9.80665, node.GetProperty("n").GetDouble(), 1e-4);
        }
        foreach (JsonProperty member in node.EnumerateObject())
        {
            Assert.Matches("^[a-z][a-z0-9_]*$", member.Name);
            Inspect(member.Value);
        }
    }

    [Theory]
    [InlineData(1, "strength", "no-such-file.lure.json")]
    [InlineData(2, "strength")]
    [InlineData(2, "strength", "x.lure.json", "--pull", "3")]
    public void Wrong_calls_end_with_their_exit_status(int exit, params string[] arguments) =>
        Assert.Equal(exit, TheProgram.Run(arguments).Exit);

    [Theory]
    [InlineData("0")]
    [InlineData("1,5")]
    [InlineData("NaN")]
    [InlineData("900")]
    [InlineData("hard")]
    public void A_wrong_drag_names_itself_what_it_got_and_what_is_allowed(string drag)
    {
        var ran = TheProgram.Run("strength", Demo("slipway-150"), "--drag", drag, "--json");
        Assert.Equal(2, ran.Exit);
        JsonElement fault = JsonDocument.Parse(ran.Out).RootElement.GetProperty("fault");
        Assert.Equal("--drag", fault.GetProperty("path").GetString());
        Assert.Contains(drag, fault.GetProperty("got").GetString());
    }

    [Fact]
    public void A_lure_without_wire_cannot_be_answered_and_says_why()
    {
        string file = Path.Combine(Directory.CreateTempSubdirectory("trimwright-strength").FullName, "solid.lure.json");
        File.WriteAllText(file, """
            { "trimwright": 1, "name": "solid", "body": { "length_mm": 100,
              "back": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" },
              "belly": { "points_mm": [[0, 0], [50, -10], [100, 0]], "nose": "round", "tail": "round" },
              "plan": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" } }, "wood": { "density_g_cm3": 0.4 } }
            """);
        var ran = TheProgram.Run("strength", file);
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
        Assert.Equal(3, ran.Exit);
        Assert.Contains("wire", ran.Error);
    }

    [Fact]
    public void What_the_lure_leaves_out_the_box_says_by_kind_size_and_weight_and_never_by_name()
    {
        Core.Box.MakersBox box = Finish.Plans.Kitchen;
        Core.Box.BoxRing ring = box.Rings.First(r => r.StrengthKg is not null);
        Core.Design.LureDesign lure = Lures.Demo("mooring-post-210");
        Core.Design.HardwareItem hung = ring.Hanging("belly") with { Name = "something else", StrengthKgf = null };
        lure = lure with { Hardware = [hung, .. lure.Hardware.Where(h => h.HangsFrom != "belly")] };
        Assert.Equal(ring.StrengthKg, box.Strong(lure).Hardware[0].StrengthKgf);
        // Another weight is another ring, whatever it is called; and what the lure says itself counts.
        Assert.Null(box.Strong(lure with { Hardware = [hung with { Name = ring.Name, MassG = ring.MassG + 0.3 }] }).Hardware[0].StrengthKgf);
        Assert.Equal(12, box.Strong(lure with { Hardware = [hung with { StrengthKgf = 12 }] }).Hardware[0].StrengthKgf);
        // A lure that is rigged from the box has it from there.
        Assert.Equal(ring.StrengthKg, ring.Hanging("belly").StrengthKgf);
    }
}
