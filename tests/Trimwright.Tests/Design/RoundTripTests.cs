using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>What is read is written back, digit for digit, unknown keys and all.</summary>
public class RoundTripTests
{
    private static LureDesign Read(string json) => Lures.Read(json);

    [Fact]
    public void Reading_what_was_written_gives_the_same_bytes_again()
    {
        var random = new Random(7);
        IEnumerable<string> files =
        [
            SampleDesigns.Everything().ToJsonString(),
            .. Enumerable.Range(0, 200).Select(_ => SampleDesigns.Plausible(random).ToJsonString()),
        ];
        int read = 0;
        foreach (string file in files)
        {
            if (LureFile.Read(Encoding.UTF8.GetBytes(file)).Value is not { } design) continue;
            read++;
            byte[] once = LureFile.Write(design);
            Reading<LureDesign> again = LureFile.Read(once);
            Assert.True(again.IsSound, string.Join("\n", again.Faults));
            Assert.Equal(Encoding.UTF8.GetString(once), Encoding.UTF8.GetString(LureFile.Write(again.Value!)));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{read} designs there and back");
        Assert.True(read > 50);
    }

    [Fact]
    public void The_demo_files_are_written_as_they_stand()
    {
        foreach (string path in Directory.GetFiles(Path.Combine(Here.Root, "demo"), "*.lure.json"))
            Assert.Equal(JsonNode.Parse(File.ReadAllText(path))!.ToJsonString(),
                JsonNode.Parse(LureFile.Write(Read(File.ReadAllText(path))))!.ToJsonString());
    }

    [Fact]
    public void Unknown_keys_are_kept_in_every_object_and_reported_but_for_notes_of_ones_own()
    {
        JsonObject design = SampleDesigns.Everything();
        int objects = 0;
        foreach (JsonObject node in SampleDesigns.Nodes(design).OfType<JsonObject>().Append(design).Distinct().ToList())
        {
            node["colour of the day"] = new JsonObject { ["deep"] = new JsonArray(1.5, null, "ü€😀") };
            node["x-note"] = "mine";
            objects++;
        }
        Reading<LureDesign> reading = LureFile.Read(Encoding.UTF8.GetBytes(design.ToJsonString()));
        Assert.True(reading.IsSound, string.Join("\n", reading.Faults));

        string written = Encoding.UTF8.GetString(LureFile.Write(reading.Value!));
        Assert.Equal(objects, written.Split("\"colour of the day\"").Length - 1);
        Assert.Equal(objects, written.Split("\"x-note\"").Length - 1);
        Assert.Equal(objects, reading.Warnings.Count(w => w.Path.Contains("colour of the day", StringComparison.Ordinal)));
        Assert.DoesNotContain(reading.Warnings, w => w.Path.Contains("x-note", StringComparison.Ordinal));
    }

    [Fact]
    public void A_near_miss_names_the_key_that_was_meant()
    {
        string file = File.ReadAllText(Path.Combine(Here.Root, "demo", "slipway-150.lure.json")).Replace("\"ballast\"", "\"balast\"");
        Reading<LureDesign> reading = LureFile.Read(Encoding.UTF8.GetBytes(file));

        Assert.True(reading.IsSound);
        Assert.Empty(reading.Value!.Ballast);
        Warning warning = Assert.Single(reading.Warnings, w => w.Path == "balast");
        Assert.Contains("\"ballast\"", warning.Text);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(1.0 / 3)]
    [InlineData(0.37)]
    [InlineData(5e-324)]
    [InlineData(1.7976931348623157e308)]
    [InlineData(123456789.123456789)]
    public void Numbers_survive_digit_for_digit(double number)
    {
        LureDesign design = Lures.Demo("slipway-150") with { SoakedG = Math.Min(number, 1000) };
        Assert.Equal(design.SoakedG, Read(Encoding.UTF8.GetString(LureFile.Write(design))).SoakedG);
    }

    [Theory]
    [InlineData("Lure № 7 — “grey”")]
    [InlineData("naïve 釣り 🎣 עברית")]
    [InlineData("tab\there, quote \" and \\ slash / <b>&amp;")]
    public void Names_survive_whatever_they_are_written_in(string name)
    {
        LureDesign design = Lures.Demo("slipway-150") with { Name = name };
        Assert.Equal(name, Read(Encoding.UTF8.GetString(LureFile.Write(design))).Name);
    }
}
