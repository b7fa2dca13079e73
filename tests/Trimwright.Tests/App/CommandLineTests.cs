using System.Text.Json;

namespace Trimwright.Tests.App;

/// <summary>The contract of the command line: exit statuses, faults, keys, and what a person sees first.</summary>
public class CommandLineTests
{
    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name + ".lure.json");

    [Fact]
    public void Predict_says_the_makers_sentence_first_then_weights_then_ways_to_sit()
    {
        var ran = TheProgram.Run("predict", Demo("mooring-post-210"));

        Assert.Equal(0, ran.Exit);
        string[] lines = ran.Out.Split('\n');
        Assert.StartsWith("Mooring Post 210 (finished, rigged, in the sea)", lines[0]);
        Assert.StartsWith("Stands at ", lines[2]);
        int weights = ran.Out.IndexOf("What it weighs", StringComparison.Ordinal), ways = ran.Out.IndexOf("How it can sit", StringComparison.Ordinal);
        Assert.True(weights > 0 && ways > weights);
        Assert.Equal("", ran.Error);
    }

    [Fact]
    public void A_rig_of_which_nothing_hangs_is_said_and_not_taken_silently_for_another()
    {
        using var bare = new TemporaryFile(Core.Design.LureFile.Write(Lures.Demo("tidegate-185") with { Hardware = [] }), ".lure.json");
        foreach (string command in (string[])["predict", "readings"])
            foreach (string rig in (string[])["rigged", "standins"])
            {
                TheProgram.Ran blank = TheProgram.Run(command, Demo("tidegate-185"), "--stage", "blank", "--rig", rig);
                Assert.Equal(0, blank.Exit);
                Assert.Contains($"note: --rig: a blank has no wire to hang anything on, so this is told bare; {rig} goes with --stage dry-fit or later", blank.Said, StringComparison.Ordinal);
                Assert.Contains("(blank, bare, in the sea)", blank.Said, StringComparison.Ordinal);
                TheProgram.Ran none = TheProgram.Run(command, bare.Path, "--rig", rig);
                Assert.Contains($"so {rig} is the same as bare", none.Said, StringComparison.Ordinal);
                // Where it hangs, or nobody asked, nothing is said.
                Assert.Equal("", TheProgram.Run(command, Demo("tidegate-185"), "--stage", "dry-fit", "--rig", rig).Error);
            }
        foreach (string command in (string[])["predict", "readings"])
        {
            TheProgram.Ran usual = TheProgram.Run(command, Demo("tidegate-185"), "--stage", "blank"), json = TheProgram.Run(command, Demo("tidegate-185"), "--stage", "blank", "--rig", "rigged", "--json");
            Assert.Equal("", usual.Error);
            JsonElement root = JsonDocument.Parse(json.Out).RootElement;
            Assert.Equal("bare", root.GetProperty("rig").GetString());
            Assert.Contains("told bare", root.GetProperty("warnings")[0].GetProperty("text").GetString(), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(28)]
    [InlineData(40)]
    [InlineData(80)]
    public void No_line_is_wider_than_the_terminal(int columns)
    {
        foreach (string lure in new[] { "mooring-post-210", "tidegate-185", "slipway-150" })
        {
            var ran = TheProgram.RunIn(Here.Root, columns, "predict", Demo(lure));
            foreach (string line in ran.Out.Split('\n').Skip(1)) Assert.True(line.Length <= columns, $"{line.Length} of {columns}: {line}");
        }
    }

    [Fact]
    public void Predict_json_holds_every_key_of_the_contract_with_finite_numbers()
    {
        foreach (string lure in new[] { "mooring-post-210", "tidegate-185" })
        {
            var ran = TheProgram.Run("predict", Demo(lure), "--json");
            Assert.Equal(0, ran.Exit);
            JsonElement root = JsonDocument.Parse(ran.Out).RootElement;
            foreach (string key in (string[])["stage", "rig", "water", "weight_g", "volume_cm3", "spare_buoyancy_g", "wetted_area_cm2", "cg_mm", "cb_mm", "verdict", "posture", "other_postures", "sink", "ledger"])
                Assert.True(root.TryGetProperty(key, out _), key);
            foreach (string key in (string[])["trim_deg", "heel_deg", "submerged_cm3", "nose_shows_mm", "tail_shows_mm", "nose_shows_along_mm", "waterline_back_mm", "waterline_belly_mm", "back_proud_mm", "heel_is_free", "mirror"])
                Assert.True(root.GetProperty("posture").TryGetProperty(key, out _), key);
            Assert.Equal(1.0236, root.GetProperty("water").GetProperty("density_g_cm3").GetDouble(), 1e-4);
            double weight = root.GetProperty("weight_g").GetDouble();
            Assert.Equal(weight, root.GetProperty("ledger").EnumerateArray().Sum(p => p.GetProperty("weight_g").GetDouble()), 1e-3);
            double volume = root.GetProperty("volume_cm3").GetDouble(), spare = root.GetProperty("spare_buoyancy_g").GetDouble();
            Assert.Equal(spare, (root.GetProperty("water").GetProperty("density_g_cm3").GetDouble() - 0.0012) * volume - weight, 1e-3);
        }
    }

    [Fact]
    public void A_sinker_tells_its_fall_and_a_floater_none()
    {
        JsonElement floater = JsonDocument.Parse(TheProgram.Run("predict", Demo("mooring-post-210"), "--json").Out).RootElement;
        JsonElement sinker = JsonDocument.Parse(TheProgram.Run("predict", Demo("tidegate-185"), "--json").Out).RootElement;

        Assert.Equal(JsonValueKind.Null, floater.GetProperty("sink").ValueKind);
        Assert.True(sinker.GetProperty("sink").GetProperty("steady").GetBoolean());
        Assert.InRange(sinker.GetProperty("sink").GetProperty("rate_mm_s").GetDouble(), 50, 450);
    }

    [Theory]
    [InlineData(2, "predict")]
    [InlineData(2, "conjure", "x")]
    [InlineData(2, "predict", "x.lure.json", "--nonsense")]
    [InlineData(1, "predict", "no-such-file.lure.json")]
    [InlineData(1, "check", "no-such-file.lure.json")]
    public void Wrong_calls_end_with_their_exit_status_and_one_sentence(int exit, params string[] arguments)
    {
        var ran = TheProgram.Run(arguments);
        Assert.Equal(exit, ran.Exit);
        Assert.DoesNotContain("   at ", ran.Error + ran.Out);
        Assert.NotEqual("", ran.Error.Trim());
    }

    [Theory]
    [InlineData("--water", "soup")]
    [InlineData("--water", "35,99")]
    [InlineData("--stage", "half-done")]
    [InlineData("--rig", "naked")]
    public void A_wrong_option_names_itself_what_it_got_and_what_is_allowed(string option, string value)
    {
        var ran = TheProgram.Run("predict", Demo("slipway-150"), option, value, "--json");
        Assert.Equal(2, ran.Exit);
        JsonElement fault = JsonDocument.Parse(ran.Out).RootElement.GetProperty("fault");
        Assert.Equal(option, fault.GetProperty("path").GetString());
        Assert.Contains(value, fault.GetProperty("got").GetString());
        Assert.NotEqual("", fault.GetProperty("allowed").GetString());
        Assert.NotEqual("", fault.GetProperty("next").GetString());
    }

    [Fact]
    public void Demo_writes_lures_that_check_finds_sound_and_does_not_overwrite_them()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-demo").FullName;
        try
        {
            var first = TheProgram.RunIn(folder, 80, "demo", "lures");
            Assert.Equal(0, first.Exit);
            string[] lures = Directory.GetFiles(Path.Combine(folder, "lures"), "*.lure.json");
            Assert.Equal(4, lures.Length);
            foreach (string lure in lures) Assert.Equal(0, TheProgram.Run("check", lure).Exit);
            // And finished builds to learn from.
            var learned = TheProgram.RunIn(folder, 80, "learn", Path.Combine("lures", "finished"));
            Assert.Equal(0, learned.Exit);
            Assert.StartsWith("Your hand, from 5 finished builds", learned.Out);
            Assert.Equal(TheProgram.Run("learn", Path.Combine(Here.Root, "demo", "finished")).Out, learned.Out);
            byte[] before = File.ReadAllBytes(lures[0]);
            File.WriteAllText(lures[0], "mine");
            Assert.Equal(1, TheProgram.RunIn(folder, 80, "demo", "lures").Exit);
            Assert.Equal("mine", File.ReadAllText(lures[0]));
            Assert.Equal(0, TheProgram.RunIn(folder, 80, "demo", "lures", "--force").Exit);
            Assert.Equal(before, File.ReadAllBytes(lures[0]));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void A_picture_is_not_overwritten_without_force()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-picture").FullName;
        try
        {
            string picture = Path.Combine(folder, "it.svg");
            Assert.Equal(0, TheProgram.Run("predict", Demo("slipway-150"), "--picture", picture).Exit);
            string drawn = File.ReadAllText(picture);
            Assert.Contains("<svg", drawn);
            Assert.Equal(1, TheProgram.Run("predict", Demo("slipway-150"), "--picture", picture).Exit);
            Assert.Equal(0, TheProgram.Run("predict", Demo("slipway-150"), "--picture", picture, "--force").Exit);
            Assert.Equal(drawn, File.ReadAllText(picture));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void Check_lists_every_fault_not_the_first()
    {
        string file = Path.Combine(Directory.CreateTempSubdirectory("trimwright-check").FullName, "bad.lure.json");
        File.WriteAllText(file, File.ReadAllText(Demo("slipway-150"))
            .Replace("\"density_g_cm3\": 0.42", "\"density_g_cm3\": -1").Replace("\"diameter_mm\": 1.6", "\"diameter_mm\": \"thick\""));
        var ran = TheProgram.Run("check", file, "--json");
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);

        Assert.Equal(1, ran.Exit);
        string[] paths = [.. JsonDocument.Parse(ran.Out).RootElement.GetProperty("faults").EnumerateArray().Select(f => f.GetProperty("path").GetString()!)];
        Assert.Contains("wood.density_g_cm3", paths);
        Assert.Contains("wire.diameter_mm", paths);
    }
}
