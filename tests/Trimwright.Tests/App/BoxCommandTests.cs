using System.Text.Json;

namespace Trimwright.Tests.App;

/// <summary>Boxes on the command line: checked by their version key, and written by the demo.</summary>
public class BoxCommandTests
{
    private static string Demo => Path.Combine(Here.Root, "demo", "kitchen.box.json");

    [Fact]
    public void Check_knows_a_box_by_its_version_key_whatever_the_files_name()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-box").FullName;
        try
        {
            string renamed = Path.Combine(folder, "mine.json");
            File.Copy(Demo, renamed);
            var ran = TheProgram.Run("check", renamed);
            Assert.Equal((0, "Kitchen box, above the harbour chandlery is sound."), (ran.Exit, ran.Out.Trim()));

            File.WriteAllText(renamed, File.ReadAllText(Demo).Replace("\"kind\": \"ball\"", "\"kind\": \"marble\"").Replace("\"capacity_g\": 200", "\"capacity\": 200"));
            ran = TheProgram.Run("check", renamed, "--json");
            Assert.Equal(1, ran.Exit);
            JsonElement answer = JsonDocument.Parse(ran.Out).RootElement;
            Assert.False(answer.GetProperty("sound").GetBoolean());
            string[] paths = [.. answer.GetProperty("faults").EnumerateArray().Select(f => f.GetProperty("path").GetString()!)];
            Assert.Contains("weights[10].kind", paths);
            Assert.Contains("scales[0].capacity_g", paths);
            Assert.Contains("did you mean", answer.GetProperty("warnings").ToString());
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void A_box_where_a_lure_is_asked_for_is_told_so_in_one_sentence()
    {
        var ran = TheProgram.Run("predict", Demo, "--json");
        JsonElement fault = JsonDocument.Parse(ran.Out).RootElement.GetProperty("fault");
        Assert.Equal((1, "a box", "a lure"), (ran.Exit, fault.GetProperty("got").GetString(), fault.GetProperty("allowed").GetString()));
    }

    [Fact]
    public void Demo_writes_the_box_beside_the_lures_byte_for_byte()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-demo-box").FullName;
        try
        {
            Assert.Equal(0, TheProgram.RunIn(folder, 80, "demo").Exit);
            Assert.Equal(File.ReadAllBytes(Demo), File.ReadAllBytes(Path.Combine(folder, "kitchen.box.json")));
            Assert.Equal(4, Directory.GetFiles(folder, "*.lure.json").Length);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
