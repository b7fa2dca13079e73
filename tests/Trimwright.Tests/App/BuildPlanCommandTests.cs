using System.Text.Json;
using Ical.Net;
using Ical.Net.CalendarComponents;

namespace Trimwright.Tests.App;

/// <summary>The contract of <c>buildplan</c>.</summary>
public class BuildPlanCommandTests
{
    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name);

    private static readonly string Lure = Demo("tidegate-185.lure.json");
    private static readonly string Box = Demo("kitchen.box.json");

    [Theory]
    [InlineData(40, "mm")]
    [InlineData(80, "mm")]
    [InlineData(40, "in")]
    public void No_line_is_wider_than_the_terminal(int columns, string units)
    {
        foreach (string lure in (string[])["mooring-post-210", "tidegate-185", "slipway-150"])
        {
            var ran = TheProgram.RunIn(Here.Root, columns, "buildplan", Demo(lure + ".lure.json"), "--box", Box, "--units", units, "--start", "2026-11-28T18:00+01:00", "--humidity", "90");
            Assert.Equal(0, ran.Exit);
            Assert.Contains("damp", ran.Out);
            foreach (string line in ran.Out.Split('\n')) Assert.True(line.Length <= columns, $"{line.Length} of {columns}: {line}");
        }
    }

    [Fact]
    public void Json_is_one_object_whose_mixes_keep_their_mass_and_whose_steps_follow_each_other()
    {
        var ran = TheProgram.Run("buildplan", Lure, "--box", Box, "--start", "2026-11-28T18:00+01:00", "--json");
        Assert.Equal(0, ran.Exit);
        JsonElement root = JsonDocument.Parse(ran.Out).RootElement;
        Assert.Equal("2026-11-28T17:00:00Z", root.GetProperty("start").GetString());
        double last = 0;
        int mixes = 0;
        foreach (JsonElement step in root.GetProperty("steps").EnumerateArray())
        {
            Assert.True(step.GetProperty("from_h").GetDouble() >= last - 1e-6);
            last = step.GetProperty("to_h").GetDouble();
            if (!step.TryGetProperty("mix", out JsonElement mix)) continue;
            mixes++;
            double Of(string key) => mix.GetProperty(key).GetDouble();
            Assert.Equal(Of("mixed_g") * Of("solids"), Of("dry_g") + (Of("lost_g") + Of("left_over_g")) * Of("solids"), 1e-5);
        }
        Assert.Equal(4, mixes);
    }

    [Fact]
    public void The_calendar_read_back_gives_the_same_instants_in_UTC()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-plan").FullName, file = Path.Combine(folder, "plan.ics");
        // The clock goes back in the first night of this one.
        string[] call = ["buildplan", Lure, "--box", Box, "--start", "2026-10-24T18:00+02:00", "--calendar", file, "--json"];
        var ran = TheProgram.Run(call);
        Assert.Equal(0, ran.Exit);
        string text = File.ReadAllText(file);
        CalendarEvent[] events = [.. Calendar.Load(text)!.Events];
        JsonElement[] steps = [.. JsonDocument.Parse(ran.Out).RootElement.GetProperty("steps").EnumerateArray()];
        Assert.Equal(steps.Length, events.Length);
        foreach (JsonElement step in steps)
        {
            DateTime from = step.GetProperty("from").GetDateTimeOffset().UtcDateTime;
            CalendarEvent at = events.Single(e => e.Uid!.EndsWith($"-{step.GetProperty("number").GetInt32()}@trimwright", StringComparison.Ordinal));
            Assert.Equal(from, at.Start!.AsUtc);
            Assert.True(at.End!.AsUtc > from);
            Assert.EndsWith(step.GetProperty("title").GetString()!, at.Summary);
        }
        Assert.Equal(1, TheProgram.Run(call).Exit);
        Assert.Equal(0, TheProgram.Run([.. call, "--force"]).Exit);
        Assert.Equal(text, File.ReadAllText(file));
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("--start", "tomorrow")]
    [InlineData("--start", "2026-11-28T18:00")]
    [InlineData("--temperature", "50")]
    [InlineData("--humidity", "0")]
    [InlineData("--pockets", "never")]
    [InlineData("--units", "cubits")]
    [InlineData("--zone", "Atlantis/Harbour")]
    [InlineData("--calendar", "x.ics")]
    public void A_wrong_option_names_itself_and_writes_nothing(string option, string value)
    {
        var ran = TheProgram.Run("buildplan", Lure, option, value, "--json");
        Assert.Equal(2, ran.Exit);
        Assert.Equal(option, JsonDocument.Parse(ran.Out).RootElement.GetProperty("fault").GetProperty("path").GetString());
        Assert.False(File.Exists(Path.Combine(Here.Root, "x.ics")));
    }

    [Fact]
    public void A_lure_is_no_box_and_says_so() => Assert.Equal(1, TheProgram.Run("buildplan", Lure, "--box", Lure).Exit);
}
