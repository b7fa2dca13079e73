using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Trimwright.App.Answers;
using Trimwright.App.Work;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Telling;
using Trimwright.Tests.Rules;
using Trimwright.Workshop;

namespace Trimwright.Tests.Answers;

/// <summary>
/// Answers to every question, over the demos and random lures, put before an independent validator with the published schemas. No
/// key stands in an answer that its schema does not list, and every key that a schema lists is seen with a value.
/// </summary>
public class ValidAnswersTests
{
    private static readonly string Box = Demo("kitchen.box.json");
    private static readonly string Stickbait = Demo("tidegate-185.lure.json"), StickbaitLog = Demo("tidegate-185.log.json");
    private static readonly string Pencil = Demo("mooring-post-210.lure.json"), PencilLog = Demo("mooring-post-210.log.json");
    private static readonly string[] Demos = [Stickbait, Pencil, Demo("slipway-150.lure.json"), Demo("old-pencil-210.lure.json")];

    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name);

    private readonly Dictionary<Type, (JsonSchema Schema, JsonObject Tree)> schemas = AnswerSchema.Answers.ToDictionary(a => a, a =>
    {
        string text = Sources.Text(AnswerSchema.FileOf(a));
        // The validator keeps schemas by their ids, and refuses one that it has.
        JsonObject tree = JsonNode.Parse(text)!.AsObject();
        tree.Remove("$id");
        return (JsonSchema.FromText(tree.ToJsonString()), tree);
    });

    private readonly HashSet<string> seen = [];
    private int answers;

    [Fact]
    public void Every_answer_is_valid_and_holds_the_keys_of_its_schema_and_no_other()
    {
        foreach (string lure in Demos) AskOf(lure, "finished", "rigged", "ocean");
        Ask(PredictJson.Of(Predict.Run(new(Pencil, "dry-fit", "standins", "tap", null, false))), "stand-ins in the tub");
        int count = Tier.Count(quick: 12, ci: 60);
        for (int seed = 0; seed < count; seed++)
        {
            Draw draw = RandomLures.Of(seed);
            using var file = new TemporaryFile(LureFile.Write(draw.Design), ".lure.json");
            AskOf(file.Path, Words.Of(draw.Circumstances.Stage), AnswerWords.Of(draw.Circumstances.Rig), FormattableString.Invariant($"{draw.Circumstances.Water.Salinity},{draw.Circumstances.Water.TemperatureC}"));
        }
        Plans();
        Swaps();
        Builds();
        LogsAndHands();
        Files();
        Stores();
        TestContext.Current.TestOutputHelper?.WriteLine($"{answers} answers, {seen.Count} keys seen");
        string[] never = [.. schemas.SelectMany(s => Keys(s.Key, s.Value.Tree)).Distinct().Where(key => !seen.Contains(key)).Order(StringComparer.Ordinal)];
        Assert.True(never.Length == 0, $"never seen with a value: {string.Join(", ", never)}");
    }

    // What can be asked of any lure.
    private void AskOf(string lure, string stage, string rig, string water)
    {
        Ask(PredictJson.Of(Predict.Run(new(lure, stage, rig, water, null, false))), lure);
        Asked(() => StrengthJson.Of(Strength.Run(new(lure, answers % 2 == 0 ? "9.5" : null))), lure);
        Asked(() => BuildPlanJson.Of(BuildPlans.Run(new(lure, answers % 2 == 0 ? Box : null, null, null, null, null, "after", "mm", null, false))), lure);
        Ask(CheckJson.Of(Check.Run(lure)), lure);
    }

    private void Plans()
    {
        PlanRequest request = new(Stickbait, "sinks slowly, level", Box, [], 4, null, null, 1, null, false);
        Asked(() => PlanJson.Of(Plan.Run(request with { TrimHole = true, Log = StickbaitLog, At = "blank" }, default)), "a plan with a trim hole and odds");
        Asked(() => PlanJson.Of(Plan.Run(request with { Log = StickbaitLog, At = "finished" }, default)), "remedies with odds");
        Asked(() => PlanJson.Of(Plan.Run(request with { Want = "floats level, 40 g to spare" }, default)), "no plan");
        Asked(() => PlanJson.Of(Plan.Run(new(Pencil, "stands at 70 deg, 30 mm of nose out", Box, [], 1, null, "tap", 1, null, false), default)), "nose out");
        Asked(() => CopyJson.Of(Copy.Run(new(Demo("old-pencil-210.lure.json"), Demo("old-pencil-210.log.json"), null, Box, 1, null, false), default)), "a copy");
    }

    private void Swaps()
    {
        Ask(SwapJson.Of(Swap.Run(new(Stickbait, Box, "ocean", true))), "swaps of a sinker");
        Ask(SwapJson.Of(Swap.Run(new(Pencil, null, "lake", true))), "swaps of a floater");
    }

    private void Builds() =>
        Ask(BuildPlanJson.Of(BuildPlans.Run(new(Stickbait, Box, "2026-11-28T18:00+01:00", "Europe/Oslo", "17.5", "62", "before", "mm", null, false))), "a build with dates");

    private void LogsAndHands()
    {
        Ask(ReadingsJson.Of(Readings.Run(new(Pencil, PencilLog, "finished", "rigged", "35,24"))), "readings of a floater");
        // One reading far off: it is flagged; all of them somewhat off: the doubt is widened.
        string far = File.ReadAllText(StickbaitLog);
        JsonNode log = JsonNode.Parse(far)!;
        JsonNode weight = log["readings"]!.AsArray().Last(r => (string?)r!["kind"] == "weight")!;
        weight["mass_g"] = (double)weight["mass_g"]! + 12;
        using var off = new TemporaryFile(Encoding.UTF8.GetBytes(log.ToJsonString()), ".log.json");
        Ask(ReadingsJson.Of(Readings.Run(new(Stickbait, off.Path, "finished", "rigged", "ocean"))), "a reading far off");
        using var wide = new TemporaryFile(Encoding.UTF8.GetBytes(Widened(far)), ".log.json");
        Ask(ReadingsJson.Of(Readings.Run(new(Stickbait, wide.Path, "finished", "rigged", "ocean"))), "all somewhat off");
        Ask(NextJson.Of(Readings.Next(new(Stickbait, null, "finished", "rigged", "ocean"), "blank", Box)), "next");
        string finished = Path.Combine(Here.Root, "demo", "finished");
        Ask(LearnJson.Of(Learn.Run(new(finished, null, null, false))), "a hand");
        string folder = Directory.CreateTempSubdirectory("trimwright-untaught").FullName;
        File.Copy(Pencil, Path.Combine(folder, "untaught.lure.json"));
        Ask(LearnJson.Of(Learn.Run(new(folder, null, null, false))), "a build that teaches nothing");
        Directory.Delete(folder, recursive: true);
    }

    private static string Widened(string log)
    {
        JsonNode tree = JsonNode.Parse(log)!;
        int i = 0;
        foreach (JsonNode? reading in tree["readings"]!.AsArray())
            if (reading!["mass_g"] is { } mass) reading["mass_g"] = (double)mass * (i++ % 2 == 0 ? 1.02 : 0.98);
        return tree.ToJsonString();
    }

    private void Files()
    {
        using var faulty = new TemporaryFile(Encoding.UTF8.GetBytes(File.ReadAllText(Pencil).Replace("\"trimwright\": 1", "\"trimwright\": 1, \"unheard_of\": 2", StringComparison.Ordinal).Replace("\"density_g_cm3\": 0.", "\"density_g_cm3\": -0.", StringComparison.Ordinal)), ".lure.json");
        Ask(CheckJson.Of(Check.Run(faulty.Path)), "a faulty file");
        Ask(CheckJson.Of(Check.Run(Box)), "a box");
        Asked(() => CheckJson.Of(Check.Run("no-such-file.lure.json")), "no file");
    }

    private void Stores()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-answers").FullName;
        try
        {
            string store = Path.Combine(folder, "store.trimwright"), copy = Path.Combine(folder, "copy.trimwright"), all = Path.Combine(folder, "all.json");
            Ask(StoreImportJson.Of(Keep.Import(store, Stickbait).Added), "import of a lure");
            Ask(StoreImportJson.Of(Keep.Import(store, Box).Added), "import of a box");
            (IReadOnlyList<KeptLure> lures, IReadOnlyList<Build> builds, var box) = Keep.List(store);
            Ask(StoreListJson.Of(lures, builds, box), "list");
            (int whole, int revisions) = Keep.Check(store);
            Ask(new StoreCheckJson(true, whole, revisions), "check");
            Keep.BackUp(store, copy, false);
            Ask(new StoreWrittenJson(copy), "backup");
            Keep.Export(store, all, null, null, false);
            Ask(StoreImportJson.Of(Keep.Import(Path.Combine(folder, "other.trimwright"), all).Added), "import of all");
            Ask(new StoreRestoreJson(Keep.Restore(store, copy)), "restore");
            Ask(StoreImportJson.Of(new Imported(1, 2, 1, 3, 1, ["Tidegate 185"])), "an import that differs");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private void Asked(Func<object> answer, string from)
    {
        object told;
        try
        {
            told = answer();
        }
        catch (Refusal refusal)
        {
            told = RefusalJson.Of(refusal.Faults[0]);
        }
        Ask(told, from);
    }

    private void Ask(object answer, string from)
    {
        answers++;
        (JsonSchema schema, JsonObject tree) = schemas[answer.GetType()];
        string text = AnswerJson.Text(answer);
        using JsonDocument document = JsonDocument.Parse(text);
        EvaluationResults told = schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(told.IsValid, $"{answer.GetType().Name}, {from}: {string.Join("; ", (told.Details ?? []).Where(d => d.Errors is not null).Select(d => $"{d.InstanceLocation} {string.Join(", ", d.Errors!.Values)}"))}");
        Look(document.RootElement, tree, tree, answer.GetType().Name, from);
    }

    // Follows answer and schema together; a key is known by the record of the schema that it stands in.
    private void Look(JsonElement value, JsonObject schema, JsonObject root, string record, string from)
    {
        if (schema["anyOf"] is JsonArray either) schema = either[0]!.AsObject();
        if ((string?)schema["$ref"] is { } name)
        {
            record = name["#/$defs/".Length..];
            schema = root["$defs"]![record]!.AsObject();
        }
        if (value.ValueKind == JsonValueKind.Array && schema["items"] is JsonObject items)
            foreach (JsonElement item in value.EnumerateArray()) Look(item, items, root, record, from);
        if (value.ValueKind != JsonValueKind.Object || schema["properties"] is not JsonObject properties) return;
        string[] order = [.. properties.Select(p => p.Key)];
        int last = -1;
        foreach (JsonProperty member in value.EnumerateObject())
        {
            int at = Array.IndexOf(order, member.Name);
            Assert.True(at >= 0, $"{record}, {from}: the schema does not list {member.Name}");
            Assert.True(at > last, $"{record}, {from}: {member.Name} stands elsewhere than in the schema");
            last = at;
            if (member.Value.ValueKind != JsonValueKind.Null) seen.Add($"{record}.{member.Name}");
            Look(member.Value, properties[member.Name]!.AsObject(), root, record, from);
        }
    }

    private static IEnumerable<string> Keys(Type answer, JsonObject tree)
    {
        IEnumerable<(string Record, JsonObject Schema)> records = [(answer.Name, tree), .. tree["$defs"]?.AsObject().Select(d => (d.Key, d.Value!.AsObject())) ?? []];
        return records.SelectMany(r => r.Schema["properties"]!.AsObject().Select(p => $"{r.Record}.{p.Key}"));
    }
}
