using System.Text.Json.Nodes;
using Trimwright.Tests.Design;
using Trimwright.Tests.Rules;

namespace Trimwright.Tests.Answers;

/// <summary>The schemas in docs/schemas are those of the records, and each is found from the README.</summary>
public class PublishedSchemaTests
{
    // With this set the schemas are written anew instead of compared.
    private const string Write = "TRIMWRIGHT_WRITE_SCHEMAS";

    [Fact]
    public void The_schema_of_every_answer_is_the_one_that_its_records_give()
    {
        foreach (Type answer in AnswerSchema.Answers) Same(AnswerSchema.FileOf(answer), AnswerSchema.Of(answer), answer.Name);
        string[] there = [.. Sources.Files("docs/schemas", ".json")], meant = [.. AnswerSchema.Answers.Select(AnswerSchema.FileOf)];
        Assert.Equal(meant.Order(StringComparer.Ordinal), there);
    }

    /// <summary>Holds a schema that is kept in the repository to what the code gives, or writes it anew.</summary>
    internal static void Same(string file, string made, string from)
    {
        string path = Path.Combine(Here.Root, file);
        if (Environment.GetEnvironmentVariable(Write) == "1") File.WriteAllText(path, made);
        Assert.True(File.Exists(path) && Sources.Text(file) == made,
            $"{file} is not what {from} gives. If that is as you want it, set {Write}=1, run this test once, and read the difference before you commit it.");
    }

    [Fact]
    public void Every_command_that_has_json_links_to_its_schema_in_the_readme()
    {
        string[] rows = [.. Sources.Text("README.md").Split('\n').Where(l => l.StartsWith("| `", StringComparison.Ordinal) && l.Contains("`--json`", StringComparison.Ordinal))];
        Assert.True(rows.Length >= 11, "the README's table of commands was not found");
        foreach (string row in rows)
        {
            string command = row.Split('`')[1].Split(' ')[0];
            string[] files = [.. AnswerSchema.Answers.Where(a => AnswerSchema.Commands(a)[0].Split(' ')[0] == command).Select(AnswerSchema.FileOf)];
            Assert.True(files.Length > 0, $"README.md says that {command} has --json; no answer names that command");
            foreach (string file in files) Assert.True(row.Contains($"]({file})", StringComparison.Ordinal), $"README.md: the row of {command} does not link to {file}");
        }
        Assert.Contains("](docs/schemas/fault.schema.json)", Sources.Text("README.md"));
    }

    [Fact]
    public void A_key_with_a_unit_says_that_unit()
    {
        (string End, string Unit)[] units =
        [
            ("_mm_s", "mm/s"), ("_mm", "mm"), ("_g_cm3", "g/cm³"), ("_cm3", "cm³"), ("_cm2", "cm²"), ("_g", " g"), ("_deg", "egrees"), ("_kgf", "kgf"), ("_mpa", "MPa"),
            ("_nmm", "N·mm"), ("_mj", "mJ"), ("_c", "°C"), ("_pct", "%"), ("_h", "ours"), ("_s", " s"),
        ];
        int told = 0;
        var wrong = new List<string>();
        foreach (Type answer in AnswerSchema.Answers)
            foreach (JsonObject properties in SampleDesigns.Nodes(JsonNode.Parse(AnswerSchema.Of(answer))!).OfType<JsonObject>().Where(o => o.Parent is JsonObject && o.GetPropertyName() == "properties"))
                foreach ((string key, JsonNode? value) in properties)
                {
                    if (units.FirstOrDefault(u => key.EndsWith(u.End, StringComparison.Ordinal)).Unit is not { } unit) continue;
                    told++;
                    string said = (string)value!["description"]!;
                    if (!said.Contains(unit, StringComparison.Ordinal)) wrong.Add($"{answer.Name}: {key} is \"{said}\", which does not say {unit.Trim()}");
                }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.True(told > 150, $"only {told} keys with units were found");
    }
}
