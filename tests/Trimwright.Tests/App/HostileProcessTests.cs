using System.Text.Json;
using Trimwright.Tests.Design;

namespace Trimwright.Tests.App;

/// <summary>Forty hostile files handed to the built program: finite numbers, or a fault that says what to do.</summary>
public class HostileProcessTests
{
    private const int Files = 40;

    [Fact]
    public void Forty_hostile_files_end_in_finite_numbers_or_a_fault()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-hostile").FullName;
        HostileClass[] classes = [.. HostileFilesMakers.All];
        int done = 0, refused = 0;
        try
        {
            for (int i = 0; i < Files; i++)
            {
                HostileClass hostile = classes[i % classes.Length];
                string file = Path.Combine(folder, $"{i}.lure.json");
                File.WriteAllBytes(file, hostile.Make(new Random(i)));
                TheProgram.Ran ran = TheProgram.Run("predict", file, "--json");
                string what = $"{hostile.Name} {i}: exit {ran.Exit}\n{ran.Out}\n{ran.Error}";
                Assert.True(ran.Exit is 0 or 1, what);
                Assert.DoesNotContain("   at ", ran.Out + ran.Error);
                JsonElement root = JsonDocument.Parse(ran.Out).RootElement;
                if (ran.Exit == 0)
                {
                    done++;
                    Assert.All(Numbers(root), n => Assert.True(double.IsFinite(n), what));
                    continue;
                }
                refused++;
                JsonElement fault = root.GetProperty("fault");
                Assert.True(fault.TryGetProperty("path", out _), what);
                foreach (string key in (string[])["kind", "got", "allowed", "next"]) Assert.NotEqual("", fault.GetProperty(key).GetString());
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{done} predicted, {refused} refused");
        Assert.True(refused > 10 && done > 0);
    }

    private static IEnumerable<double> Numbers(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Number => [element.GetDouble()],
        JsonValueKind.Object => element.EnumerateObject().SelectMany(p => Numbers(p.Value)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Numbers),
        _ => [],
    };
}
