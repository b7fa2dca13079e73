using System.Text.Json.Nodes;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>What a maker is told: every fault, each at its exact place, in one sentence that helps.</summary>
public class MessagesTests
{
    private static Reading<LureDesign> Read(string json) => LureFile.Read(Examiner.Bytes(json));

    /// <summary>The lure that uses every key, with one value put somewhere.</summary>
    private static Reading<LureDesign> With(string path, JsonNode? value)
    {
        JsonObject design = SampleDesigns.Everything();
        JsonNode node = SampleDesigns.Nodes(design).Single(n => n.GetPath() == "$." + path);
        if (node.Parent is JsonArray list) list[node.GetElementIndex()] = value;
        else node.Parent![node.GetPropertyName()] = value;
        return Read(design.ToJsonString());
    }

    [Theory]
    [InlineData("body.back.points_mm[2]", "7", "wrong-type", "body.back.points_mm[2]")]
    [InlineData("body.back.points_mm[2]", "[1, 2, 3]", "wrong-type", "body.back.points_mm[2]")]
    [InlineData("body.plan.points_mm[1][1]", "-2", "range", "body.plan.points_mm[1][1]")]
    [InlineData("body.belly.points_mm[1][0]", "\"forty\"", "wrong-type", "body.belly.points_mm[1][0]")]
    [InlineData("body.section[1].above", "21", "range", "body.section[1].above")]
    [InlineData("body.section[1].x_mm", "0", "order", "body.section[1].x_mm")]
    [InlineData("body.nose_face.cup_depth_mm", "9", "range", "body.nose_face.cup_depth_mm")]
    [InlineData("body.nose_face.kind", "\"hollow\"", "range", "body.nose_face.kind")]
    [InlineData("wood.density_g_cm3", "0", "range", "wood.density_g_cm3")]
    [InlineData("wood.density_g_cm3", "null", "missing", "wood.density_g_cm3")]
    [InlineData("wire.hangers[1].x_mm", "161", "geometry", "wire.hangers[1].x_mm")]
    [InlineData("wire.hangers[2].name", "\"belly\"", "reference", "wire.hangers[2].name")]
    [InlineData("wire.hangers[0].slot_mm[1]", "0", "range", "wire.hangers[0].slot_mm[1]")]
    [InlineData("wire.line_tie.closing", "\"glued\"", "range", "wire.line_tie.closing")]
    [InlineData("wire.run_mm[1]", "[60, 90]", "geometry", "wire.run_mm[1]")]
    [InlineData("ballast[2].on_wire", "1", "wrong-type", "ballast[2].on_wire")]
    [InlineData("ballast[2].bore_mm", "1", "geometry", "ballast[2].bore_mm")]
    [InlineData("ballast[3].width_mm", "null", "missing", "ballast[3].width_mm")]
    [InlineData("ballast[4].at_mm", "[125, 0, 40]", "geometry", "ballast[4].at_mm")]
    [InlineData("finish[1].coats", "1.5", "range", "finish[1].coats")]
    [InlineData("hardware[1].hangs_from", "\"bely\"", "reference", "hardware[1].hangs_from")]
    [InlineData("halves.left_g", "null", "missing", "halves.left_g")]
    [InlineData("joint.pins_mm[1][1]", "1e4", "range", "joint.pins_mm[1][1]")]
    [InlineData("eyes.x_mm", "159", "geometry", "eyes")]
    public void A_fault_names_its_exact_place(string put, string value, string kind, string path)
    {
        Fault fault = Assert.Single(With(put, JsonNode.Parse(value)).Faults);
        TestContext.Current.TestOutputHelper?.WriteLine(fault.ToString());
        Assert.Equal((kind, path), (fault.Kind, fault.Path));
        Assert.All((string[])[fault.Got, fault.Allowed, fault.Next], text => Assert.NotEmpty(text));
        Assert.EndsWith(".", fault.Next, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{\n  \"trimwright\": 1,\n  \"length\": 160,5\n}", "line 3, column 17", "decimal comma")]
    [InlineData("{\n  \"naïve 釣\": 1,\n}", "line 3, column 1", "comma before this bracket")]
    [InlineData("{ \"ü\": 'x' }", "line 1, column 8", "double quotes")]
    [InlineData("{ \"a\": 1 // why\n}", "line 1, column 10", "comment")]
    [InlineData("{ \"a\": .5 }", "line 1, column 8", "0.5")]
    [InlineData("{ \"a\": NaN }", "line 1, column 8", "plain number")]
    [InlineData("{ \"a\": [1, 2", "line 1, column 13", "cut off")]
    [InlineData("", "line 1, column 1", "lure file")]
    public void A_slip_of_syntax_is_found_by_line_and_character_and_gets_a_hint(string text, string place, string hint)
    {
        Fault fault = Assert.Single(Read(text).Faults);
        TestContext.Current.TestOutputHelper?.WriteLine(fault.ToString());
        Assert.Equal(("syntax", place), (fault.Kind, fault.Path));
        Assert.Contains(hint, fault.Next);
    }

    [Fact]
    public void Several_faults_are_all_told_whatever_their_kind()
    {
        JsonObject design = SampleDesigns.Everything();
        design["wood"]!["density_g_cm3"] = "light";
        design["body"]!["length_mm"] = -1;
        design["ballast"]![0]!.AsObject().Remove("at_mm");
        design["joint"]!["tack"] = "nails";
        design["soaked_g"] = 1e9;
        Reading<LureDesign> reading = Read(design.ToJsonString());
        Assert.Equal(["ballast[0].at_mm", "body.length_mm", "joint.tack", "soaked_g", "wood.density_g_cm3"], reading.Faults.Select(f => f.Path).Order());
    }

    [Fact]
    public void Several_faults_of_geometry_are_all_told()
    {
        JsonObject design = SampleDesigns.Everything();
        design["ballast"]![0]!["at_mm"]![1] = 30;
        design["ballast"]![4]!["at_mm"]![0] = 500;
        design["hardware"]![0]!["hangs_from"] = "keel";
        design["hardware"]![2]!["hangs_from"] = "keel";
        design["wire"]!["hangers"]![0]!["x_mm"] = 400;
        string[] paths = [.. Read(design.ToJsonString()).Faults.Select(f => f.Path)];
        foreach (string path in (string[])["ballast[0].at_mm", "ballast[4].at_mm", "hardware[0].hangs_from", "hardware[2].hangs_from", "wire.hangers[0].x_mm"])
            Assert.Contains(path, paths);
    }

    [Fact]
    public void Every_duplicate_key_half_character_and_endless_number_is_told_at_once()
    {
        Reading<LureDesign> reading = Read("""
            { "trimwright": 1, "name": "a", "name": "b", "wood": { "density_g_cm3": 1e999, "density_\u0067_cm3": 0.4 },
              "body": { "x-note": ["fine", "\ud800"] } }
            """);
        Assert.Equal([("duplicate-key", "name"), ("not-finite", "wood.density_g_cm3"), ("duplicate-key", "wood.density_g_cm3"), ("encoding", "body.x-note[1]")],
            reading.Faults.Select(f => (f.Kind, f.Path)));
    }

    [Fact]
    public void What_is_missing_at_large_is_told_once_and_not_key_by_key()
    {
        Assert.Equal(["body", "name", "wood"], Read("""{ "trimwright": 1 }""").Faults.Select(f => f.Path).Order());
        Assert.Equal("", Assert.Single(Read("[]").Faults).Path);
        Assert.Equal("wire.hangers[1]", Assert.Single(With("wire.hangers[1]", 5).Faults).Path);
    }

    [Theory]
    [InlineData("lenght_mm", "body", "length_mm")]
    [InlineData("Points_mm", "body.back", "points_mm")]
    [InlineData("density", "wood", "density_g_cm3")]
    [InlineData("nose face", "body", "nose_face")]
    [InlineData("at_m", "ballast[0]", "at_mm")]
    [InlineData("hang_from", "hardware[0]", "hangs_from")]
    [InlineData("diametre_mm", "wire", "diameter_mm")]
    [InlineData("tackmm", "joint", "tack_mm")]
    [InlineData("x-lenght_mm", "body", null)]
    public void A_key_nearly_right_is_answered_with_the_key_that_was_meant(string key, string where, string? meant)
    {
        JsonObject design = SampleDesigns.Everything();
        SampleDesigns.Nodes(design).Single(n => n.GetPath() == "$." + where).AsObject()[key] = 1;
        Reading<LureDesign> reading = Read(design.ToJsonString());
        Assert.True(reading.IsSound);
        Warning? warning = reading.Warnings.SingleOrDefault(w => w.Path == $"{where}.{key}");
        if (meant is null) Assert.Null(warning);
        else Assert.EndsWith($"did you mean \"{meant}\"?", warning?.Text);
    }

    [Fact]
    public void Thirty_two_levels_are_read_and_five_million_bytes_are()
    {
        JsonObject design = SampleDesigns.Everything();
        JsonNode deep = new JsonArray();
        for (int i = 0; i < 30; i++) deep = new JsonArray(deep);
        design["x-deep"] = deep;
        byte[] file = Examiner.Bytes(design.ToJsonString()), full = new byte[5_000_000];
        Array.Fill(full, (byte)' ');
        file.CopyTo(full, 0);
        Assert.True(LureFile.Read(full).IsSound);
        Assert.Equal("too-large", Assert.Single(LureFile.Read([.. full, (byte)' ']).Faults).Kind);
    }

    [Fact]
    public void A_flood_of_unknown_keys_is_told_briefly()
    {
        JsonObject design = SampleDesigns.Everything();
        for (int i = 0; i < 5000; i++) design[$"key {i}"] = i;
        Reading<LureDesign> reading = Read(design.ToJsonString());
        Assert.True(reading.IsSound);
        Assert.Equal(101, reading.Warnings.Length);
        Assert.Contains("left out", reading.Warnings[^1].Text);
        Assert.Equal(5000, reading.Value!.Kept.All.Length);
    }

    [Fact]
    public void A_message_shows_no_character_that_steers_a_terminal_or_turns_its_lines_about()
    {
        JsonObject design = SampleDesigns.Everything();
        design["hardware"]![0]!["hangs_from"] = "\u001b[31mbelly\u202E\u2066\u0000";
        design["wood\u2029\u200F"] = 1;
        Reading<LureDesign> reading = Read(design.ToJsonString());
        Assert.All([.. reading.Faults.Select(f => f.ToString()), .. reading.Warnings.Select(w => w.ToString())],
            text => Assert.DoesNotContain(text, c => char.IsControl(c) || c is '\u202E' or '\u2066' or '\u2029' or '\u200F'));
    }
}
