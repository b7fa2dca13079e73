using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Tests.Box;

namespace Trimwright.Tests.Design;

/// <summary>A file may say inches and ounces where its keys say so: read as what they are, told as they stand, written back as they were.</summary>
public class OtherUnitsTests
{
    private static Reading<LureDesign> Read(JsonNode lure) => LureFile.Read(Examiner.Bytes(lure.ToJsonString()));

    private static JsonObject Written(LureDesign design) => JsonNode.Parse(LureFile.Write(design))!.AsObject();

    [Fact]
    public void What_is_said_in_inches_and_ounces_is_the_same_lure_and_is_written_back_so()
    {
        var random = new Random(12);
        IEnumerable<JsonObject> files = [Written(Read(InOtherUnits.Lure()).Value!), .. Lures.Demos.Select(Written),
            .. Enumerable.Range(0, 60).Select(_ => SampleDesigns.Plausible(random)).Select(Read).Where(r => r.IsSound).Select(r => Written(r.Value!))];
        int read = 0;
        foreach (JsonObject metric in files)
        {
            JsonObject inches = InOtherUnits.Of(metric);
            Assert.Equal([], SampleDesigns.Nodes(inches).Where(n => n.Parent is JsonObject && OtherUnit.Of(n.GetPropertyName()) is not null).Select(n => n.GetPath()));
            Reading<LureDesign> same = Read(metric), reading = Read(inches);
            Assert.True(reading.IsSound, string.Join("\n", reading.Faults));
            Assert.Equal(same.Warnings.Length, reading.Warnings.Length);
            // Number for number what the metric file holds, kept units apart.
            Assert.Equal(Numbers(same.Value!), Numbers(reading.Value!));
            string once = Encoding.UTF8.GetString(LureFile.Write(reading.Value!));
            Assert.Equal(Values(InOtherUnits.Of(Written(same.Value!))), Values(JsonNode.Parse(once)!));
            Assert.Equal(once, Encoding.UTF8.GetString(LureFile.Write(LureFile.Read(Encoding.UTF8.GetBytes(once)).Value!)));
            read++;
        }
        Assert.True(read > 40);
    }

    // The same in the program's own units.
    private static List<double> Numbers(LureDesign design)
    {
        var numbers = new List<double>();
        void Gather(JsonNode? node, OtherUnit? unit)
        {
            if (node is JsonObject o)
                foreach ((string key, JsonNode? value) in o) Gather(value, OtherUnit.In(key));
            else if (node is JsonArray a)
                foreach (JsonNode? item in a) Gather(item, unit);
            else if (node is JsonValue v && v.GetValueKind() == JsonValueKind.Number)
                numbers.Add(unit is null ? v.GetValue<double>() : unit.Own(v.ToJsonString()));
        }
        Gather(Written(design), null);
        return numbers;
    }

    private static List<string> Values(JsonNode file) => [.. SampleDesigns.Nodes(file).OfType<JsonValue>().Select(v => $"{v.GetPath()} {v.ToJsonString()}")];

    [Theory]
    [InlineData("_mm")]
    [InlineData("_g")]
    [InlineData("_mm2")]
    [InlineData("_kgf")]
    [InlineData("_kg")]
    [InlineData("_c")]
    [InlineData("_per_metre")]
    public void What_was_typed_comes_back_digit_for_digit(string ending)
    {
        OtherUnit unit = OtherUnit.Of("a" + ending)!;
        var random = new Random(ending.Length);
        for (int i = 0; i < 4000; i++)
        {
            // Sixteenths and thousandths, and whatever else is typed.
            string typed = i % 3 == 0 ? (random.Next(4000) / 64m).ToString(CultureInfo.InvariantCulture)
                : Math.Round((decimal)(random.NextDouble() * Math.Pow(10, random.Next(4))), random.Next(1, 9)).ToString(CultureInfo.InvariantCulture);
            string plain = typed.Contains('.') ? typed.TrimEnd('0').TrimEnd('.') : typed;
            Assert.Equal(plain, unit.Written(unit.Own(typed)));
            // And any number of the program's own has one in the other unit that is read as it.
            double own = 1000 * random.NextDouble() - 200;
            Assert.Equal(own, unit.Own(unit.Written(own)));
        }
    }

    [Fact]
    public void An_inch_is_25_4_mm_and_an_ounce_28_349523125_g()
    {
        // International yard and pound agreement, 1959: a yard is 0.9144 m, a pound 0.45359237 kg; an ounce is its sixteenth.
        Assert.Equal(914.4 / 36, OtherUnit.Inch.Own("1"), 12);
        Assert.Equal(453.59237 / 16, OtherUnit.Ounce.Own("1"), 12);
        Assert.Equal(0.45359237, OtherUnit.Of("strength_kgf")!.Own("1"), 12);
        Assert.Equal((212.0 - 32) / 1.8, OtherUnit.Of("temperature_c")!.Own("212"), 12);
        // A yard in two seconds is a metre in 2 / 0.9144.
        Assert.Equal(2 / 0.9144, OtherUnit.Of("seconds_per_metre")!.Own("2"), 12);
    }

    [Theory]
    [InlineData("body.length_in", "100", "range", "body.length_in: got 100; allowed: 0.1969 to 78.74. Correct the number; its key names the unit.")]
    [InlineData("body.length_in", "\"6 in\"", "wrong-type", "body.length_in: got the text \"6 in\"; allowed: a number, 0.1969 to 78.74.")]
    [InlineData("body.back.points_in[1][0]", "-1", "range", "body.back.points_in[1][0]: got -1; allowed: 0 to 78.74.")]
    [InlineData("wire.hangers[1].x_in", "6.5", "geometry", "wire.hangers[1].x_in: got 6.5; allowed: between 0 and 6.2992.")]
    [InlineData("ballast[4].at_in", "[5, 0, 1.5]", "geometry", "ballast[4].at_in: got plug comes out of the wood")]
    [InlineData("ballast[4].at_in", "[5, 0, 1.5]", "geometry", "5 in from the nose, 1.598 in above the axis, 0.118 in to the left")]
    [InlineData("ballast[2].bore_in", "0.05", "geometry", "ballast[2].bore_in: got 0.05; allowed: at least the wire's 0.063 in.")]
    [InlineData("halves.left_oz", "0", "range", "halves.left_oz: got 0; allowed: 0.0003528 to 352.7.")]
    [InlineData("halves.left_oz", "null", "missing", "halves.left_oz: got nothing; allowed: both halves' weights.")]
    [InlineData("joint.kerf_in", "0.7", "geometry", "Check kerf_in, tack_in and cleaned_off_in.")]
    [InlineData("eyes.mass_oz", "null", "missing", "eyes.mass_oz: got null; allowed: 0.00003528 to 7.054. Give \"mass_oz\" a value.")]
    public void A_fault_is_told_in_the_units_and_by_the_key_that_the_file_has(string place, string value, string kind, string says)
    {
        JsonObject lure = InOtherUnits.Of(InOtherUnits.Lure());
        JsonNode node = SampleDesigns.Nodes(lure).Single(n => n.GetPath() == "$." + place);
        if (node.Parent is JsonArray list) list[node.GetElementIndex()] = JsonNode.Parse(value);
        else node.Parent![node.GetPropertyName()] = JsonNode.Parse(value);
        string[] told = [.. Read(lure).Faults.Where(f => f.Kind == kind).Select(f => f.ToString())];
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join("\n", told));
        Assert.Contains(told, t => t.Contains(says, StringComparison.Ordinal));
        Assert.DoesNotContain(told, t => t.Contains("mm", StringComparison.Ordinal) || t.Contains("_g:", StringComparison.Ordinal));
    }

    [Fact]
    public void A_key_that_is_missing_is_asked_for_in_the_units_of_the_others()
    {
        JsonObject lure = InOtherUnits.Of(InOtherUnits.Lure());
        lure["eyes"]!.AsObject().Remove("mass_oz");
        lure["body"]!.AsObject().Remove("length_in");
        Assert.Equal(["body.length_in: got nothing; allowed: 0.1969 to 78.74. Add \"length_in\".", "eyes.mass_oz: got nothing; allowed: 0.00003528 to 7.054. Add \"mass_oz\"."],
            Read(lure).Faults.Select(f => f.ToString()).Order());
        // Of a file in millimetres it is asked for in those.
        lure = InOtherUnits.Lure();
        lure["eyes"]!.AsObject().Remove("mass_g");
        Assert.Equal(["eyes.mass_g: got nothing; allowed: 0.001 to 200. Add \"mass_g\"."], Read(lure).Faults.Select(f => f.ToString()));
    }

    [Fact]
    public void One_file_may_have_some_of_each_and_each_is_told_as_it_stands()
    {
        JsonObject lure = InOtherUnits.Lure();
        JsonObject eyes = lure["eyes"]!.AsObject();
        eyes.Remove("diameter_mm");
        eyes["diameter_in"] = 0.25;
        LureDesign design = Read(lure).Value!;
        Assert.Equal(6.35, design.Eyes!.DiameterMm);
        Assert.Equal("0.25", Written(design)["eyes"]!["diameter_in"]!.ToJsonString());
        Assert.Equal("18", Written(design)["eyes"]!["x_mm"]!.ToJsonString());
        // A key in millimetres is told in those, though others are in inches.
        lure["wire"]!["hangers"]![1]!["x_mm"] = 161;
        Assert.StartsWith("wire.hangers[1].x_mm: got 161; allowed: between 0 and 160.", Assert.Single(Read(lure).Faults).ToString());
    }

    [Fact]
    public void A_key_in_both_units_is_refused_in_one_sentence()
    {
        JsonObject lure = InOtherUnits.Lure();
        lure["body"]!["length_in"] = 6.3;
        Assert.Equal("body.length_in: got length_in beside length_mm; allowed: one of the two. Delete one of the two.", Assert.Single(Read(lure).Faults).ToString());
    }

    [Fact]
    public void A_lure_of_version_1_knows_no_inches()
    {
        JsonObject lure = SampleDesigns.Everything();
        lure["body"]!["length_in"] = 7;
        Reading<LureDesign> reading = Read(lure);
        Assert.Equal(160, reading.Value!.Body.LengthMm);
        Assert.Contains(reading.Warnings, w => w.ToString() == "body.length_in: this key had no meaning when the file was written; kept as \"x-length_in\"");
        Assert.Equal("7", Written(reading.Value)["body"]!["x-length_in"]!.ToJsonString());
        lure["body"]!.AsObject().Remove("length_mm");
        Assert.Equal("body.length_mm: got nothing; allowed: 5 to 2000. Only files of version 2 may say \"length_in\"; write that version, or add \"length_mm\".",
            Read(lure).Faults.First(f => f.Kind == "missing").ToString());
    }

    [Fact]
    public void A_box_and_a_log_in_inches_are_the_same_and_come_back_so()
    {
        JsonObject box = InOtherUnits.Of(JsonNode.Parse(BoxFile.Write(SampleBoxes.Read(SampleBoxes.Everything()).Value!))!.AsObject());
        // The sources of numbers name their keys.
        foreach (JsonArray keys in SampleDesigns.Nodes(box).OfType<JsonArray>().Where(a => a.Parent is JsonObject && a.GetPropertyName() is "measured" or "published"))
            for (int i = 0; i < keys.Count; i++)
                if (OtherUnit.Of((string)keys[i]!) is { } unit) keys[i] = unit.Key((string)keys[i]!);
        MakersBox read = SampleBoxes.Sound(Examiner.Bytes(box.ToJsonString())), same = SampleBoxes.Read(SampleBoxes.Everything()).Value!;
        foreach (((string list, int index, BoxItem item), var other) in read.Items.Zip(same.Items))
        {
            Assert.Equal(other.Item.Numbers, item.Numbers);
            foreach (string key in item.Numbers.Select(n => n.Key)) Assert.Equal(other.Item.SourceOf(key), item.SourceOf(key));
        }
        Assert.Equal(Values(InOtherUnits.Of(JsonNode.Parse(BoxFile.Write(same))!.AsObject())).Where(v => !v.Contains("ed[")),
            Values(JsonNode.Parse(BoxFile.Write(read))!).Where(v => !v.Contains("ed[")));
        Assert.Contains("\"mass_oz\"", JsonNode.Parse(BoxFile.Write(read))!["stock"]![1]!["measured"]!.ToJsonString());

        TubLog log = Trimwright.Tests.Doubt.LogFileTests.Everything();
        JsonObject metric = JsonNode.Parse(LogFile.Write(log))!.AsObject(), inches = InOtherUnits.Of(metric);
        Reading<TubLog> again = LogFile.Read(Examiner.Bytes(inches.ToJsonString()));
        Assert.True(again.IsSound, string.Join("\n", again.Faults));
        Assert.Equal(Values(inches), Values(JsonNode.Parse(LogFile.Write(again.Value!))!));
        foreach ((LogReading mine, LogReading its) in again.Value!.Readings.Zip(log.Readings))
            Assert.Equal(LogReading.Numbers.Select(n => n.Of(its)), LogReading.Numbers.Select(n => n.Of(mine)));
    }

    [Fact]
    public void Faults_of_a_box_a_log_and_a_want_are_told_in_inches_and_ounces()
    {
        Assert.Equal("weights[0].bore_in: got 0.35 in, which leaves nothing of the piece; allowed: less than its 0.315 in. Correct the bore.", Only(BoxFile.Read(Examiner.Bytes("""
            { "trimwright_box": 1, "name": "b", "weights": [ { "id": "a", "name": "a", "is_lead": false, "diameter_in": 0.3150, "length_in": 1, "bore_in": 0.35, "density_g_cm3": 8 } ] }
            """)).Faults));
        string log = Only(LogFile.Read(Examiner.Bytes("""
            { "trimwright_log": 1, "name": "l", "scales": [ { "id": "s", "resolution_oz": 0.01, "capacity_oz": 10 } ], "readings": [ { "kind": "weight", "scale": "s", "mass_oz": 12.5 } ] }
            """)).Faults);
        Assert.StartsWith("readings[0].mass_oz: got 12.5; allowed: at most 10, where the scale", log);
        Assert.Equal("readings[0].mass_oz: got nothing; allowed: a number. A reading of the kind \"weight\" needs it.", Only(LogFile.Read(Examiner.Bytes("""
            { "trimwright_log": 1, "name": "l", "scales": [ { "id": "s", "resolution_oz": 0.01, "capacity_oz": 10 } ], "readings": [ { "kind": "weight", "scale": "s" } ] }
            """)).Faults));
        Assert.StartsWith("seconds_per_yard: got nothing; allowed: 0.27432 to 109.728. Say how long a yard is to take.", Only(WantFile.Read(Examiner.Bytes("""
            { "trimwright_want": 1, "does": "falls", "seconds_per_yard": null }
            """)).Faults));
        Assert.StartsWith("spare_oz: got spare_oz and nose_out_in; allowed: one of the three.", Only(WantFile.Read(Examiner.Bytes("""
            { "trimwright_want": 1, "does": "floats", "spare_oz": 0.2, "nose_out_in": 1 }
            """)).Faults));

        static string Only(IEnumerable<Fault> faults) => Assert.Single(faults).ToString();
    }

    [Fact]
    public void A_want_in_yards_ounces_and_fahrenheit_is_the_same_want()
    {
        Want yards = WantFile.Read("""{ "trimwright_want": 1, "does": "falls", "seconds_per_yard": 1.5, "weight_within_oz": 0.02, "temperature_f": 77 }"""u8).Value!;
        Assert.Equal(914.4 / 1500, yards.Rate, 12);
        Assert.Equal(0.02 * 28.349523125, yards.WeightWithin, 12);
        Assert.Equal(25, yards.Circumstances.Water.TemperatureC, 12);
    }
}
