using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Ballast;

/// <summary>Wants in words and in files.</summary>
public class WantTests
{
    [Theory]
    [InlineData("sinks slowly, level", "falls level, a metre in 6.0 s (167 mm/s)")]
    [InlineData("Sinks", "falls level, a metre in 3.0 s (333 mm/s)")]
    [InlineData("sinks fast, tail first", "falls 20° tail down, a metre in 2.0 s (500 mm/s)")]
    [InlineData("falls 5 s a metre, 10 deg tail down", "falls 10° tail down, a metre in 5.0 s (200 mm/s)")]
    [InlineData("falls 5 s/m 10° nose down", "falls 10° nose down, a metre in 5.0 s (200 mm/s)")]
    [InlineData("falls 250 mm/s level", "falls level, a metre in 4.0 s (250 mm/s)")]
    [InlineData("floats level, 6 g to spare", "floats level, 6.0 g to spare")]
    [InlineData("floats", "floats level, 6.0 g to spare")]
    [InlineData("floats 12.5 deg tail down with 3 g", "floats 13° tail down, 3.0 g to spare")]
    [InlineData("stands, 30 mm of nose out", "stands at 70°, 30 mm of nose out")]
    [InlineData("stands at 75 deg, 40 mm", "stands at 75°, 40 mm of nose out")]
    [InlineData("suspends level", "suspends level")]
    [InlineData("suspends 8 deg nose down", "suspends a little nose down, 8°")]
    [InlineData("a metre in 5 s, sinks", "falls level, a metre in 5.0 s (200 mm/s)")]
    [InlineData("sinks, one metre in about 5 seconds, a little tail down", "falls a little tail down, 7°, a metre in 5.0 s (200 mm/s)")]
    [InlineData("falls 0.2 m/s", "falls level, a metre in 5.0 s (200 mm/s)")]
    [InlineData("Sinks slowly, a little tail down, 8°: a metre in about 6.0 s. 4.3 g heavy in the sea.", "falls a little tail down, 8°, a metre in 6.0 s (167 mm/s), 4.3 g heavy")]
    [InlineData("Stands at 70°, 37 mm of nose out. 4.8 g to spare in the sea.", "stands at 70°, 4.8 g to spare")]
    [InlineData("Floats level, the back 8 mm proud. 19.3 g to spare in tap water.", "floats level, 19.3 g to spare")]
    [InlineData("stands upright on its nose, 5 g to spare", "stands on its nose at 85°, 5.0 g to spare")]
    [InlineData("Suspends, hardly afloat: lies level. 0.2 g to spare in the sea.", "suspends level, 0.2 g to spare")]
    [InlineData("Suspends, hardly afloat: stands at 76°. 0.1 g to spare in the sea.", "suspends 76° tail down, 0.1 g to spare")]
    [InlineData("Suspends, hanging 12° tail down. 0.1 g heavy in the sea.", "suspends 12° tail down, 0.1 g heavy")]
    [InlineData("floats level, eyes at the waterline", "floats level, eyes at the waterline")]
    [InlineData("eyes in the water, floats a little nose down", "floats a little nose down, 7°, eyes at the waterline")]
    public void Words_mean_numbers_that_are_shown(string words, string shown)
    {
        (Want? want, string unknown) = WantWords.Parse(words);
        Assert.True(want is not null, unknown);
        Assert.Equal(shown, WantWords.Of(want, Notation.Metric).Replace('\u00A0', ' '));
    }

    [Theory]
    [InlineData("wobbles", "wobbles")]
    [InlineData("sinks slowly like a leaf", "like")]
    [InlineData("sinks floats", "sinks floats")]
    [InlineData("level", "level")]
    [InlineData("", "")]
    [InlineData("floats 5 s a metre", "floats 5 s a metre")]
    [InlineData("sinks 6 g to spare", "sinks 6 g to spare")]
    [InlineData("floats level tail down", "floats level tail down")]
    [InlineData("falls 0 s a metre", "falls 0 s a metre")]
    [InlineData("stands at 95 deg", "stands at 95 deg")]
    [InlineData("floats 6,5 g to spare", "6,5")]
    [InlineData("falls 1e9 s a metre", "1e9")]
    [InlineData("sinks, 4 g heavy", "sinks, 4 g heavy")]
    [InlineData("floats level, the back 8 mm proud", "floats level, the back 8 mm proud")]
    [InlineData("sinks, eyes at the waterline", "sinks, eyes at the waterline")]
    [InlineData("floats a little", "floats a little")]
    [InlineData("Floats level, leaning 17° to the left, the back 8 mm proud. 2.0 g to spare in the sea.", "leaning 17°")]
    [InlineData("Sinks fast, and flutters: it finds no steady fall. 9.9 g heavy in the sea.", "flutters")]
    public void What_is_not_understood_is_named(string words, string named)
    {
        (Want? want, string unknown) = WantWords.Parse(words);
        Assert.Null(want);
        Assert.Equal(named, unknown.Trim());
    }

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Here.Root, "src", "Core", "Ballast", "want.schema.json")));

    private static JsonObject Sample() => new()
    {
        ["trimwright_want"] = 1, ["does"] = "floats", ["trim_deg"] = 70, ["nose_out_mm"] = 30, ["weight_within_g"] = 0.5, ["trim_within_deg"] = 4,
        ["stage"] = "sealed", ["rig"] = "standins", ["salinity"] = 0, ["temperature_c"] = 15,
    };

    private static (Reading<Want> Reading, bool Valid) Ask(JsonObject want)
    {
        byte[] file = Encoding.UTF8.GetBytes(want.ToJsonString());
        using JsonDocument document = JsonDocument.Parse(file);
        return (WantFile.Read(file), Schema.Evaluate(document.RootElement).IsValid);
    }

    [Fact]
    public void A_file_is_read_as_it_stands()
    {
        (Reading<Want> reading, bool valid) = Ask(Sample());
        Assert.True(valid);
        Want want = reading.Value!;
        Assert.Equal((Manner.Floats, 30.0, 0.5), (want.Manner, want.NoseOut, want.WeightWithin));
        Assert.Equal(70, Units.ToDegrees(want.Trim), 1e-9);
        Assert.Equal(0, want.Circumstances.Water.Salinity);
    }

    [Fact]
    public void What_the_reader_takes_is_valid_and_slips_are_named_by_their_key()
    {
        JsonNode?[] slips = [null, true, -1e9, 1e9, "none", new JsonArray(), new JsonObject()];
        int refused = 0;
        foreach (string key in Sample().Select(m => m.Key).ToArray())
            foreach (JsonNode? slip in slips)
            {
                JsonObject want = Sample();
                want[key] = slip?.DeepClone();
                (Reading<Want> reading, bool valid) = Ask(want);
                if (reading.Value is not null) Assert.True(valid, $"{key} = {slip}: read, yet not valid");
                else Assert.NotEmpty(reading.Faults);
                if (!valid) refused++;
            }
        Assert.True(refused > 20);
        foreach (string key in new[] { "trimwright_want", "does", "nose_out_mm" })
        {
            JsonObject want = Sample();
            want.Remove(key);
            Assert.False(Ask(want).Reading.IsSound, key);
        }
        JsonObject both = Sample();
        both["spare_g"] = 5;
        Assert.Equal("spare_g", Ask(both).Reading.Faults[0].Path);
        JsonObject odd = Sample();
        odd["trim_dge"] = 5;
        Assert.Contains("trim_deg", Ask(odd).Reading.Warnings[0].Text, StringComparison.Ordinal);
    }
}
