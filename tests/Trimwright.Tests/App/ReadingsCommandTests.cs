using System.Text.Json;
using Trimwright.App.Faults;

namespace Trimwright.Tests.App;

/// <summary>The contract of <c>readings</c> and <c>next</c>.</summary>
public class ReadingsCommandTests
{
    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name);

    private static readonly string Lure = Demo("tidegate-185.lure.json"), Log = Demo("tidegate-185.log.json"), Box = Demo("kitchen.box.json");

    private static TemporaryFile Written(string text) => new(System.Text.Encoding.UTF8.GetBytes(text), ".json");

    private static JsonElement Json(params string[] arguments)
    {
        var ran = TheProgram.Run(arguments);
        Assert.True(ran.Exit == 0, ran.Error);
        return JsonDocument.Parse(ran.Out).RootElement;
    }

    private static double[] Pair(JsonElement number, string key) => [.. number.GetProperty(key).EnumerateArray().Select(v => v.GetDouble())];

    [Fact]
    public void Readings_json_has_before_and_after_with_ranges_that_nest_and_narrow()
    {
        JsonElement root = Json("readings", Lure, "--log", Log, "--json");
        foreach (string key in (string[])["stage", "rig", "water", "readings", "before", "after", "flags", "causes", "ladder", "sampling", "warnings"]) Assert.True(root.TryGetProperty(key, out _), key);
        Assert.Equal(8, root.GetProperty("readings").GetInt32());
        Assert.Equal(0, root.GetProperty("flags").GetArrayLength());
        foreach (string key in (string[])["weight_g", "spare_buoyancy_g", "trim_deg", "rate_mm_s"])
        {
            JsonElement before = root.GetProperty("before").GetProperty(key), after = root.GetProperty("after").GetProperty(key);
            foreach (JsonElement side in new[] { before, after })
            {
                (double[] p80, double[] p95) = (Pair(side, "p80"), Pair(side, "p95"));
                double median = side.GetProperty("median").GetDouble();
                Assert.True(p95[0] <= p80[0] && p80[0] <= median && median <= p80[1] && p80[1] <= p95[1], key);
            }
            Assert.True(Pair(after, "p95")[1] - Pair(after, "p95")[0] < Pair(before, "p95")[1] - Pair(before, "p95")[0], key);
        }
        Assert.Equal(1, root.GetProperty("after").GetProperty("verdicts").EnumerateObject().Sum(v => v.Value.GetDouble()), 0.01);
    }

    private static JsonElement Kind(JsonElement root, string list, string kind) => root.GetProperty(list).EnumerateArray().FirstOrDefault(c => c.GetProperty("kind").GetString() == kind);

    [Fact]
    public void Next_json_ranks_what_the_lure_and_the_box_allow()
    {
        // A sinker is dropped once it is sealed, and tilted only bare, when it floats; a floater is tilted, never dropped.
        JsonElement sinks = Json("next", Lure, "--log", Log, "--at", "finished", "--json"), floats = Json("next", Demo("mooring-post-210.lure.json"), "--at", "dry-fit", "--json");
        Assert.Equal(JsonValueKind.Object, Kind(sinks, "candidates", "drop").ValueKind);
        Assert.DoesNotContain("stand-ins", Kind(sinks, "candidates", "inclining").GetProperty("measure").GetString());
        Assert.DoesNotContain(sinks.GetProperty("candidates").EnumerateArray(), c => c.GetProperty("kind").GetString() == "tub" && c.GetProperty("measure").GetString()!.Contains("stand-ins", StringComparison.Ordinal));
        Assert.Equal(JsonValueKind.Object, Kind(floats, "candidates", "inclining").ValueKind);
        Assert.Equal(JsonValueKind.Undefined, Kind(floats, "candidates", "drop").ValueKind);
        foreach (JsonElement c in sinks.GetProperty("candidates").EnumerateArray().Concat(floats.GetProperty("candidates").EnumerateArray()))
        {
            Assert.True(c.GetProperty("drop_g").GetDouble() >= -1e-3 && c.GetProperty("drop_deg").GetDouble() >= -1e-3, c.ToString());
            Assert.InRange(c.GetProperty("chance_after").GetDouble(), 0, 1);
            Assert.NotEqual(0, c.GetProperty("minutes").GetDouble());
        }
        // The demo box has neither calipers nor deep water; its fine scale is named for what it bears.
        JsonElement own = Json("next", Lure, "--at", "blank", "--box", Box, "--json"), late = Json("next", Lure, "--log", Log, "--at", "finished", "--box", Box, "--json");
        Assert.Equal(JsonValueKind.Undefined, Kind(own, "candidates", "caliper").ValueKind);
        Assert.Contains("calipers", Kind(own, "lacking", "caliper").GetProperty("says").GetString());
        Assert.Contains("clear water", Kind(late, "lacking", "drop").GetProperty("says").GetString());
        Assert.Equal("pocket-scale", Kind(own, "candidates", "weight").GetProperty("scale").GetString());
    }

    [Fact]
    public void A_scale_that_stops_too_early_is_not_proposed_but_named()
    {
        using var box = Written("""{"trimwright_box":1,"name":"weak","scales":[{"id":"letters","name":"letter scale","resolution_g":0.1,"capacity_g":40}],"instruments":["sinker","tub","jar","needle"]}""");
        JsonElement root = Json("next", Lure, "--box", box.Path, "--at", "blank", "--json");
        Assert.Contains("stops at 40", Kind(root, "lacking", "weight").GetProperty("says").GetString());
        Assert.Equal(JsonValueKind.Undefined, Kind(root, "candidates", "weight").ValueKind);
        // Hooks are light enough.
        Assert.Equal("letters", Kind(root, "candidates", "part").GetProperty("scale").GetString());
    }

    [Theory]
    [InlineData("a broken log", "--log", "BROKEN")]
    [InlineData("a log that is no log", "--log", "BOX")]
    [InlineData("a log that is not there", "--log", "nowhere.log.json")]
    [InlineData("a stage that is none", "--at", "varnished")]
    [InlineData("a box that is a lure", "--box", "LURE")]
    [InlineData("a water that is none", "--water", "soup")]
    public void Next_refuses_in_one_sentence(string what, string option, string value)
    {
        using var broken = Written("""{"trimwright_log":1,"name":"a","readings":[{"kind":"guess"}]}""");
        value = value switch { "BROKEN" => broken.Path, "BOX" => Box, "LURE" => Lure, _ => value };
        Refused(what, "next", Lure, option, value);
        if (option is "--log" or "--water") Refused(what, "readings", Lure, option, value);
        if (option is "--at") Refused(what, "readings", Lure, "--stage", value);
    }

    [Fact]
    public void The_log_of_another_lure_is_refused_for_its_parts_and_noted_for_its_name()
    {
        Refused("another lure's log", "readings", Demo("slipway-150.lure.json"), "--log", Log);
        Refused("a box for a lure", "readings", Box);
        Refused("a log for a lure", "next", Log);
        using var other = Written("""{"trimwright_log":1,"name":"Another","readings":[{"kind":"weight","mass_g":47}]}""");
        var ran = TheProgram.Run("readings", Lure, "--log", other.Path);
        Assert.Equal(0, ran.Exit);
        Assert.Contains("Another", ran.Error);
    }

    private static void Refused(string what, params string[] arguments)
    {
        var ran = TheProgram.Run(arguments);
        TestContext.Current.TestOutputHelper?.WriteLine($"{what}: {ran.Error.Trim()}");
        Assert.True(ran.Exit is (int)Exit.InputWrong or (int)Exit.CommandLineWrong, $"{ran.Exit}");
        Assert.Equal("", ran.Out);
        Assert.DoesNotContain("   at ", ran.Error);
        Assert.NotEqual("", ran.Error.Trim());
    }
}
