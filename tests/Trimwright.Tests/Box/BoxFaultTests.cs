using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Tests.Design;

namespace Trimwright.Tests.Box;

/// <summary>What a maker is told of a box: every fault, each at its exact place.</summary>
public class BoxFaultTests
{
    private static Reading<MakersBox> With(string path, string json)
    {
        JsonObject box = SampleBoxes.Everything();
        SampleBoxes.Put(SampleBoxes.At(box, path), JsonNode.Parse(json));
        return SampleBoxes.Read(box);
    }

    [Theory]
    [InlineData("name", "null", "missing", "name")]
    [InlineData("no_lead", "1", "wrong-type", "no_lead")]
    [InlineData("woods", "{}", "wrong-type", "woods")]
    [InlineData("woods[0]", "7", "wrong-type", "woods[0]")]
    [InlineData("woods[0].id", "\"Red Cedar\"", "range", "woods[0].id")]
    [InlineData("woods[0].id", "null", "missing", "woods[0].id")]
    [InlineData("woods[0].boards[1].mass_g", "null", "missing", "woods[0].boards[1].mass_g")]
    [InlineData("woods[0].boards[0].thickness_mm", "1.8", "range", "woods[0].boards[0]")]
    [InlineData("woods[1].density_g_cm3", "null", "missing", "woods[1].density_g_cm3")]
    [InlineData("wires[0].diameter_mm", "16", "range", "wires[0].diameter_mm")]
    [InlineData("wires[0].published[1]", "\"strength\"", "reference", "wires[0].published[1]")]
    [InlineData("weights[0].kind", "\"cube\"", "range", "weights[0].kind")]
    [InlineData("weights[0].is_lead", "null", "missing", "weights[0].is_lead")]
    [InlineData("weights[0].density_g_cm3", "null", "missing", "weights[0].density_g_cm3")]
    [InlineData("weights[0].count", "1.5", "range", "weights[0].count")]
    [InlineData("weights[0].bore_mm", "8", "geometry", "weights[0].bore_mm")]
    [InlineData("weights[1].mass_g", "30.3", "range", "weights[1].mass_g")]
    [InlineData("weights[1].id", "\"bits\"", "reference", "cutters[0].id")]
    [InlineData("weights[2].bore_mm", "null", "missing", "weights[2].bore_mm")]
    [InlineData("weights[2].bore_mm", "0", "range", "weights[2].bore_mm")]
    [InlineData("weights[3].width_mm", "null", "missing", "weights[3].width_mm")]
    [InlineData("weights[4].diameter_mm", "\"10\"", "wrong-type", "weights[4].diameter_mm")]
    [InlineData("stock[0].bore_mm", "8", "geometry", "stock[0].bore_mm")]
    [InlineData("stock[0].length_mm", "0.5", "range", "stock[0].length_mm")]
    [InlineData("stock[1].length_mm", "null", "missing", "stock[1].length_mm")]
    [InlineData("stock[1].measured[0]", "7", "wrong-type", "stock[1].measured[0]")]
    [InlineData("hooks[0].mass_g", "0", "range", "hooks[0].mass_g")]
    [InlineData("hooks[1].length_mm", "null", "missing", "hooks[1].length_mm")]
    [InlineData("rings[1].kind", "true", "wrong-type", "rings[1].kind")]
    [InlineData("finishes[0].ratio_by_volume", "[2]", "wrong-type", "finishes[0].ratio_by_volume")]
    [InlineData("finishes[0].ratio_by_volume[1]", "0", "range", "finishes[0].ratio_by_volume[1]")]
    [InlineData("finishes[0].recoat_until_h", "3", "order", "finishes[0].recoat_until_h")]
    [InlineData("cutters[0].diameters_mm", "null", "missing", "cutters[0].diameters_mm")]
    [InlineData("cutters[0].diameters_mm[2]", "-1", "range", "cutters[0].diameters_mm[2]")]
    [InlineData("cutters[0].kind", "\"flat bit\"", "range", "cutters[0].kind")]
    [InlineData("scales[0].resolution_g", "200", "order", "scales[0].resolution_g")]
    [InlineData("hooks[0].source", "\"guessed\"", "range", "hooks[0].source")]
    public void A_fault_names_its_exact_place(string put, string value, string kind, string path)
    {
        Fault fault = Assert.Single(With(put, value).Faults);
        TestContext.Current.TestOutputHelper?.WriteLine(fault.ToString());
        Assert.Equal((kind, path), (fault.Kind, fault.Path));
        Assert.All((string[])[fault.Got, fault.Allowed, fault.Next], text => Assert.NotEmpty(text));
        Assert.EndsWith(".", fault.Next, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_fault_is_told_not_the_first()
    {
        JsonObject box = SampleBoxes.Everything();
        string[] paths = ["wires[0].diameter_mm", "weights[4].density_g_cm3", "hooks[0].mass_g", "scales[0].capacity_g"];
        foreach (string path in paths) SampleBoxes.Put(SampleBoxes.At(box, path), -1);
        Assert.Equal(paths, SampleBoxes.Read(box).Faults.Select(f => f.Path));
    }

    [Theory]
    [InlineData("weights[2].density_g_cm3", "11.3", "weights[2].mass_g", "the weight counts")]
    [InlineData("weights[1].is_lead", "false", "weights[1].is_lead", "lead's density")]
    [InlineData("stock[2].is_lead", "false", "stock[2].is_lead", "lead's density")]
    [InlineData("woods[0].density_g_cm3", "0.7", "woods[0].boards", "the boards count")]
    [InlineData("finishes[0].ratio_by_weight", "[47, 100]", "finishes[0].ratio_by_weight", "turned round")]
    public void What_is_allowed_but_hardly_meant_is_a_note(string put, string value, string path, string says)
    {
        Reading<MakersBox> reading = With(put, value);
        Assert.True(reading.IsSound, string.Join("; ", reading.Faults));
        Warning warning = Assert.Single(reading.Warnings);
        TestContext.Current.TestOutputHelper?.WriteLine(warning.ToString());
        Assert.Equal(path, warning.Path);
        Assert.Contains(says, warning.Text);
    }

    [Fact]
    public void A_newer_box_is_refused_in_one_sentence_and_a_lure_is_no_box()
    {
        JsonObject box = SampleBoxes.Everything();
        (box["trimwright_box"], box["woods"]) = (2, "what only the newer version knows");
        Assert.Equal("newer-version", Assert.Single(SampleBoxes.Read(box).Faults).Kind);

        byte[] lure = File.ReadAllBytes(Path.Combine(Here.Root, "demo", "tidegate-185.lure.json"));
        Assert.False(BoxFile.IsBox(lure));
        Assert.True(BoxFile.IsBox(SampleBoxes.DemoFile));
        Assert.Equal("trimwright_box", Assert.Single(BoxFile.Read(lure).Faults).Path);
    }

    [Fact]
    public void The_demo_box_is_sound_without_a_note_and_holds_a_makers_share_of_weights()
    {
        Reading<MakersBox> reading = BoxFile.Read(SampleBoxes.DemoFile);
        Assert.Empty(reading.Faults);
        Assert.Empty(reading.Warnings);
        MakersBox box = reading.Value!;
        Assert.True(box.Weights.Length + box.Stock.Length >= 30);
        Assert.Equal(BallastForm.All.ToHashSet(), box.Weights.Select(w => w.Kind).ToHashSet());
        Assert.Equal(Enum.GetValues<StockKind>(), box.Stock.Select(s => s.Kind).Distinct().Order());
        Assert.Equal(Enum.GetValues<CutterKind>(), box.Cutters.Select(c => c.Kind).Distinct().Order());
        Assert.Contains(box.Items, i => i.Item.Source == Source.Measured);
    }

    [Fact]
    public void Broken_boxes_are_refused_by_name_and_never_throw()
    {
        byte[] whole = SampleBoxes.DemoFile;
        for (int length = 0; length < whole.Length - 2; length += Math.Max(1, whole.Length / Tier.Count(quick: 300, ci: 3000)))
            // A cut through a character leaves bytes that are no text.
            Assert.Contains(Assert.Single(BoxFile.Read(whole.AsSpan(0, length)).Faults).Kind, (string[])["syntax", "encoding"]);
        string text = Encoding.UTF8.GetString(whole);
        (string File, string Kind)[] broken =
        [
            (text.Replace("\"count\": 14", "\"count\": 14, \"count\": 15", StringComparison.Ordinal), "duplicate-key"),
            (text.Replace("\"count\": 14", "\"count\": 1e999", StringComparison.Ordinal), "not-finite"),
            (text.Replace("\"count\": 14", "\"count\": 1,4", StringComparison.Ordinal), "syntax"),
            (text.Replace("\"count\": 14", "\"count\": 14, \"x-deep\": " + new string('[', 200) + new string(']', 200), StringComparison.Ordinal), "too-deep"),
            (text + new string(' ', 5_000_001), "too-large"),
            (text.Replace("crowns", "\\ud800", StringComparison.Ordinal), "encoding"),
            ("[]", "wrong-type"), ("7", "wrong-type"), ("", "syntax"),
        ];
        foreach ((string file, string kind) in broken)
        {
            Assert.NotEqual(text, file);
            Reading<MakersBox> reading = BoxFile.Read(Examiner.Bytes(file));
            Assert.False(reading.IsSound);
            Assert.Contains(reading.Faults, f => f.Kind == kind);
        }
        Assert.True(BoxFile.Read([0xEF, 0xBB, 0xBF, .. whole]).IsSound);
    }

    [Fact]
    public void Flipped_bytes_and_wild_numbers_give_a_sound_box_or_faults_that_say_something()
    {
        var random = new Random(17);
        byte[] whole = Examiner.Bytes(SampleBoxes.Everything().ToJsonString());
        int sound = 0, refused = 0;
        for (int i = 0; i < Tier.Count(quick: 1500, ci: 40_000); i++)
        {
            byte[] file = [.. whole];
            if (i % 2 == 0)
                for (int k = random.Next(1, 4); k > 0; k--) file[random.Next(file.Length)] = (byte)random.Next(32, 127);
            else
            {
                JsonObject box = SampleBoxes.Everything();
                List<JsonValue> numbers = SampleDesigns.Numbers(box);
                SampleBoxes.Put(numbers[random.Next(1, numbers.Count)], random.NextDouble() * Math.Pow(10, random.Next(-30, 30)) * (random.Next(3) - 1));
                file = Examiner.Bytes(box.ToJsonString());
            }
            Reading<MakersBox> reading = BoxFile.Read(file);
            Assert.Equal(reading.IsSound, reading.Faults.IsEmpty);
            Assert.All(reading.Faults, f => Assert.True(f.Got.Length > 0 && f.Allowed.Length > 0 && f.Next.EndsWith('.') && f.ToString().Length < 1500, f.ToString()));
            if (!reading.IsSound)
            {
                refused++;
                continue;
            }
            sound++;
            // What is sound can be reckoned with: every weight weighs, every stock and wood has a density.
            Assert.All(reading.Value!.Weights, w => Assert.True(w.Mass.Value > 0 && double.IsFinite(w.Mass.Value)));
            Assert.All(reading.Value.Stock, s => Assert.True(s.Density.Value is > 0 and <= 25 && s.Cuttable(10) > 0));
            Assert.All(reading.Value.Woods, w => Assert.True(w.Density.Value is > 0 and <= 25 && w.Scatter is null or >= 0));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{sound} sound, {refused} refused");
        Assert.True(sound > 100 && refused > 100);
    }

    [Fact]
    public void A_box_of_a_thousand_weights_is_read_and_one_more_is_too_many()
    {
        JsonObject box = SampleBoxes.Everything();
        JsonArray many = [];
        for (int i = 0; i < 1000; i++) many.Add(new JsonObject { ["id"] = $"w-{i}", ["name"] = "ball", ["kind"] = "ball", ["is_lead"] = true, ["diameter_mm"] = 8, ["density_g_cm3"] = 11.34 });
        box["weights"] = many;
        Assert.Equal(1000, SampleBoxes.Read(box).Value!.Weights.Length);
        many.Add(many[0]!.DeepClone());
        Fault fault = Assert.Single(SampleBoxes.Read(box).Faults);
        Assert.Equal(("range", "weights"), (fault.Kind, fault.Path));
    }
}
