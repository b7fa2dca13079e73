using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>The schema that ships accepts whatever the reader accepts, by an independent validator.</summary>
public class SchemaTests
{
    private static readonly JsonSchema Schema =
        JsonSchema.FromText(File.ReadAllText(Path.Combine(Here.Root, "src", "Core", "Design", "lure.schema.json")));

    private static bool Valid(byte[] file)
    {
        ReadOnlyMemory<byte> bytes = file.AsSpan().StartsWith<byte>([0xEF, 0xBB, 0xBF]) ? file.AsMemory(3) : file;
        using JsonDocument document = JsonDocument.Parse(bytes);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    [Fact]
    public void Every_file_that_the_reader_accepts_is_valid_by_the_schema()
    {
        int each = Tier.Count(quick: 40, ci: 200), accepted = 0, seen = 0;
        foreach (HostileClass hostile in HostileFilesMakers.All)
            for (int i = 0; i < each; i++, seen++)
            {
                byte[] file = hostile.Make(new Random(1000 * i + hostile.Name.Length));
                if (!LureFile.Read(file).IsSound) continue;
                accepted++;
                Assert.True(Valid(file), $"{hostile.Name} {i}: the reader accepts it, the schema does not\n{Encoding.UTF8.GetString(file)}");
            }
        foreach (string path in Directory.GetFiles(Path.Combine(Here.Root, "demo"), "*.lure.json"))
            Assert.True(Valid(File.ReadAllBytes(path)), path);
        TestContext.Current.TestOutputHelper?.WriteLine($"{accepted} of {seen} mutated files were accepted by the reader, and each by the schema");
        Assert.True(accepted > 100);
    }

    [Fact]
    public void A_missing_key_a_wrong_type_and_a_number_out_of_range_are_refused_by_both()
    {
        (string Path, JsonNode? Value)[] violations =
        [
            ("name", null), ("body", null), ("wood", null), ("trimwright", null), ("name", 7), ("kind", 7), ("body.length_mm", "long"),
            ("body.length_mm", 1), ("body.length_mm", 99999), ("body.back", null), ("body.back.nose", "square"), ("body.plan.points_mm", "x"),
            ("wood.density_g_cm3", -1), ("wood.density_g_cm3", 100), ("wood.density_g_cm3", null), ("wire.diameter_mm", 0), ("wire.diameter_mm", true),
            ("soaked_g", -1), ("wire.line_tie", 3), ("leader.diameter_mm", 99), ("joint.tack", "glue"), ("eyes.mass_g", -2),
        ];
        foreach ((string path, JsonNode? value) in violations)
        {
            JsonObject design = SampleDesigns.Everything();
            JsonObject holder = design;
            string[] keys = path.Split('.');
            foreach (string key in keys[..^1]) holder = holder[key]!.AsObject();
            if (value is null) holder.Remove(keys[^1]);
            else holder[keys[^1]] = value.DeepClone();
            byte[] file = Encoding.UTF8.GetBytes(design.ToJsonString());
            Assert.False(LureFile.Read(file).IsSound, $"the reader accepts {path} = {value}");
            Assert.False(Valid(file), $"the schema accepts {path} = {value}");
        }
    }
}
