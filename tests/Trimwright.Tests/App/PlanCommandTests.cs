using System.Text.Json;
using Trimwright.Core.Design;

namespace Trimwright.Tests.App;

/// <summary>The command <c>plan</c> as a shell sees it.</summary>
public class PlanCommandTests
{
    private const string Lure = "demo/tidegate-185.lure.json";
    private const string Box = "demo/kitchen.box.json";

    [Fact]
    public void Json_holds_the_plans_and_the_taken_one_is_written_as_a_lure()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-plan").FullName;
        try
        {
            string taken = Path.Combine(folder, "taken.lure.json");
            TheProgram.Ran ran = TheProgram.Run("plan", Lure, "--want", "sinks slowly, level", "--box", Box, "--json", "--take", "1", "--out", taken, "--trim-hole");
            Assert.Equal(0, ran.Exit);
            using JsonDocument json = JsonDocument.Parse(ran.Out);
            JsonElement root = json.RootElement, first = root.GetProperty("plans")[0];
            Assert.Equal("falls", root.GetProperty("wanted").GetProperty("does").GetString());
            Assert.True(first.GetProperty("proved").GetBoolean());
            Assert.Equal(0, first.GetProperty("gap").GetDouble());
            Assert.True(Math.Abs(first.GetProperty("miss").GetProperty("spare_buoyancy_g").GetDouble()) <= 0.3);
            Assert.NotEmpty(first.GetProperty("pieces").EnumerateArray().Select(p => p.GetProperty("box_id").GetString()!));
            Assert.True(first.GetProperty("tub_target").GetProperty("dry_fit").GetProperty("weight_g").GetDouble() > 50);
            Assert.Equal(JsonValueKind.Null, root.GetProperty("why_not").ValueKind);
            LureDesign design = LureFile.Read(File.ReadAllBytes(taken)).Value!;
            Assert.Equal(first.GetProperty("pieces").GetArrayLength(), design.Ballast.Length);
            // A second time it is not overwritten.
            Assert.Equal(1, TheProgram.Run("plan", Lure, "--want", "sinks slowly, level", "--box", Box, "--out", taken).Exit);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void What_cannot_be_met_says_why_with_status_3()
    {
        TheProgram.Ran ran = TheProgram.Run("plan", Lure, "--want", "floats level, 40 g to spare", "--box", Box);
        Assert.Equal(3, ran.Exit);
        Assert.Contains("too heavy for that already", ran.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Equal(2, TheProgram.Run("plan", Lure, "--want", "wobbles", "--box", Box).Exit);
        Assert.Equal(2, TheProgram.Run("plan", Lure, "--box", Box).Exit);
        Assert.Equal(2, TheProgram.Run("plan", Lure, "--want", "sinks", "--box", Box, "--keep", "nobody").Exit);
    }

    [Fact]
    public void A_want_file_is_taken_and_checked()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-want").FullName;
        try
        {
            string want = Path.Combine(folder, "level.want.json");
            File.WriteAllText(want, """{ "trimwright_want": 1, "does": "falls", "seconds_per_metre": 6 }""");
            Assert.Equal(0, TheProgram.Run("check", want).Exit);
            TheProgram.Ran ran = TheProgram.RunIn(Here.Root, columns: 48, "plan", Lure, "--want", want, "--box", Box);
            Assert.Equal(0, ran.Exit);
            Assert.All(ran.Out.Split('\n'), line => Assert.True(line.Length <= 48, line));
            File.WriteAllText(want, """{ "trimwright_want": 1, "does": "falls" }""");
            TheProgram.Ran bad = TheProgram.Run("plan", Lure, "--want", want, "--box", Box);
            Assert.Equal(1, bad.Exit);
            Assert.Contains("seconds_per_metre", bad.Error, StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
