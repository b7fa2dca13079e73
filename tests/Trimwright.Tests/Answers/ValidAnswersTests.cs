using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Trimwright.App.Answers;
using Trimwright.App.Commands;
using Trimwright.App.Faults;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Telling;
using Trimwright.Frozen;
using Trimwright.Tests.Rules;
using Trimwright.Workshop;
using Answer = Trimwright.Frozen.Answer;
using Files = Trimwright.App.Commands.Files;
using Pace = Trimwright.Core.Numerics.Pace;

namespace Trimwright.Tests.Answers;

/// <summary>
/// Answers put before an independent validator with the published schemas: those that 0.1.0 gave, of the demos and two hundred random
/// lures, whose keys stay; and those of this program. No key stands in an answer that its schema does not list, or elsewhere than it
/// does, and every key that a schema lists is seen with a value.
/// </summary>
public class ValidAnswersTests
{
    private static readonly string Box = Demo("kitchen.box.json");
    private static readonly string Stickbait = Demo("tidegate-185.lure.json"), StickbaitLog = Demo("tidegate-185.log.json");
    private static readonly string Pencil = Demo("mooring-post-210.lure.json"), PencilLog = Demo("mooring-post-210.log.json");
    private static readonly string[] Demos = [Stickbait, Pencil, Demo("slipway-150.lure.json"), Demo("old-pencil-210.lure.json")];

    private static readonly Lazy<IReadOnlyDictionary<Type, (JsonSchema Schema, JsonObject Tree)>> Schemas = new(() => AnswerSchema.Answers.ToDictionary(a => a, a =>
    {
        string text = Sources.Text(AnswerSchema.FileOf(a));
        return (JsonSchema.FromText(text), JsonNode.Parse(text)!.AsObject());
    }));

    private readonly HashSet<string> seen = [];
    private int answers;

    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name);

    [Fact]
    public void What_0_1_0_printed_is_valid_still()
    {
        LookAtFrozen();
        TestContext.Current.TestOutputHelper?.WriteLine($"{answers} answers, {seen.Count} keys seen");
        Assert.True(answers > 250, "too few answers were found to mean anything");
    }

    private void LookAtFrozen()
    {
        string archive = Path.Combine(Here.Root, "tests", "Frozen", "0.1.0", "answers.zip");
        Ask[] all = [.. Archive.Asks(archive).Where(a => a.Commands.Any(c => c.Contains("--json")))];
        // The quick tier looks at some of each command.
        Ask[] some = [.. all.GroupBy(a => a.Command).SelectMany(c => c.Where((_, i) => i % Every(c.Key) == 0))];
        foreach ((Ask ask, Answer answer) in Archive.Read(archive, some))
            foreach (Said said in answer.Said.Where(s => s.Command.Contains("--json") && s.Out.Length > 0)) Look(said.Out, AnswerTo(said), ask.Name);
    }

    private static int Every(string command) => Tier.IsCi ? 1 : command switch { "predict" => 12, "swap" => 9, "plan" or "strength" or "buildplan" or "check" => 4, _ => 1 };

    private static Type AnswerTo(Said said)
    {
        using JsonDocument document = JsonDocument.Parse(said.Out);
        if (document.RootElement.EnumerateObject().First().Name == "fault") return typeof(RefusalJson);
        string command = said.Command[0] == "store" ? $"store {said.Command[1]}" : said.Command[0];
        return AnswerSchema.Answers.Single(a => AnswerSchema.Commands(a).Contains(command));
    }

    [Fact]
    public void What_is_printed_of_demos_and_random_lures_is_valid()
    {
        foreach (string lure in Demos) AskOf(lure, "finished", "rigged", "ocean");
        for (int seed = 0, count = Tier.Count(quick: 4, ci: 60); seed < count; seed++)
        {
            Draw draw = RandomLures.Of(seed);
            using var file = new TemporaryFile(LureFile.Write(draw.Design), ".lure.json");
            AskOf(file.Path, Words.Of(draw.Circumstances.Stage), AnswerWords.Of(draw.Circumstances.Rig), FormattableString.Invariant($"{draw.Circumstances.Water.Salinity},{draw.Circumstances.Water.TemperatureC}"));
        }
        Ask(PredictJson.Of(new HowItSits(Lure(Pencil), Options.Where("dry-fit", "standins", "tap")).Answer(Pace.Free), []), "stand-ins in the tub");
        BuildConditions shop = new()
        {
            Start = new DateTimeOffset(2026, 11, 28, 18, 0, 0, TimeSpan.FromHours(1)), Zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/Oslo"), TemperatureC = 17.5, Humidity = 0.62, PocketsBefore = true,
        };
        Asked(new HowToBuild(Lure(Stickbait), KitchenBox, shop).Answer(Pace.Free), plan => BuildPlanJson.Of(plan, Notation.Metric, []), "a build with dates");
        WhichWeights weights = new(Lure(Stickbait), KitchenBox, WantWords.Parse("sinks slowly, level").Want!);
        Asked((weights with { TrimHoleOf = 1 }).Answer(Pace.Free), made => PlanJson.Of(made, []), "a plan with a trim hole");
        Asked((weights with { Want = WantWords.Parse("floats level, 40 g to spare").Want! }).Answer(Pace.Free), made => PlanJson.Of(made, []), "no plan");
        Asked(new WhatToMeasureNext(Known(Stickbait, Log(StickbaitLog)), null, KitchenBox).Answer(Pace.Free), next => NextJson.Of(next, []), "next");
        (Learned learned, _, IReadOnlyList<Warning> ofBuilds) = LearnCommand.Learn(new() { Folder = Path.Combine(Here.Root, "demo", "finished") }, default);
        Ask(LearnJson.Of(learned, ofBuilds), "a hand");
        using var faulty = new TemporaryFile(Encoding.UTF8.GetBytes(File.ReadAllText(Pencil).Replace("\"density_g_cm3\": 0.", "\"density_g_cm3\": -0.", StringComparison.Ordinal)), ".lure.json");
        Ask(CheckJson.Of(Check(faulty.Path)), "a faulty file");
        Ask(RefusalJson.Of(Assert.Throws<Refusal>(() => Files.Load("no-such-file.lure.json")).Faults[0]), "no file");
        Stores();
        if (Tier.IsCi) Slow(weights);
        TestContext.Current.TestOutputHelper?.WriteLine($"{answers} answers, {seen.Count} keys seen");
        if (!Tier.IsCi) return;
        LookAtFrozen();
        string[] never = [.. Schemas.Value.SelectMany(s => Keys(s.Key, s.Value.Tree)).Distinct().Where(key => !seen.Contains(key)).Order(StringComparer.Ordinal)];
        Assert.True(never.Length == 0, $"never seen with a value: {string.Join(", ", never)}");
    }

    private void Stores()
    {
        string folder = Directory.CreateTempSubdirectory("trimwright-answers").FullName;
        try
        {
            string store = Path.Combine(folder, "store.trimwright"), copy = Path.Combine(folder, "copy.trimwright"), all = Path.Combine(folder, "all.json");
            Ask(StoreImportJson.Of(Keep.Import(store, Stickbait, begin: true).Added), "import of a lure");
            Ask(StoreImportJson.Of(Keep.Import(store, Box, begin: false).Added), "import of a box");
            (IReadOnlyList<KeptLure> lures, IReadOnlyList<Build> builds, Revision<Core.Box.MakersBox>? box) = Keep.List(store, _ => { });
            Ask(StoreListJson.Of(lures, builds, box), "list");
            (int whole, int revisions) = Keep.Check(store, _ => { });
            Ask(new StoreCheckJson(true, whole, revisions), "check");
            Keep.BackUp(store, copy, false, _ => { });
            Ask(new StoreWrittenJson(copy), "backup");
            Keep.Export(store, all, null, null, false, _ => { });
            Ask(StoreImportJson.Of(Keep.Import(Path.Combine(folder, "other.trimwright"), all, begin: true).Added), "import of all");
            Ask(new StoreRestoreJson(Keep.Restore(store, copy, begin: false)), "restore");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private void Slow(WhichWeights weights)
    {
        Ask(SwapJson.Of(new WhatSwapsDo(Lure(Stickbait), KitchenBox, Options.Water("ocean"), Everything: true).Answer(Pace.Free), []), "swaps of a sinker");
        Ask(SwapJson.Of(new WhatSwapsDo(Lure(Pencil), null, Options.Water("lake"), Everything: true).Answer(Pace.Free), []), "swaps of a floater");
        Asked((weights with { Log = Log(StickbaitLog), At = Stage.Finished }).Answer(Pace.Free), made => PlanJson.Of(made, []), "remedies with odds");
        Asked(new WhatIsUnseen(Lure(Demo("old-pencil-210.lure.json")), Log(Demo("old-pencil-210.log.json")), Circumstances.InTheSea, KitchenBox).Answer(Pace.Free), made => CopyJson.Of(made, []), "a copy");
        Asked(Known(Pencil, Log(PencilLog), "35,24").Answer(Pace.Free), read => ReadingsJson.Of(read, []), "readings");
        // One weighing far off is set aside; of many a little off, the doubt is widened.
        foreach ((double[] more, string from) in (ReadOnlySpan<(double[], string)>)[([12], "a weighing far off"), ([0.1, -0.1, 0.1, -0.1, 0.1, -0.1], "weighings a little off")])
        {
            TubLog off = LogFile.Read(Encoding.UTF8.GetBytes(WeighedAgain(more))).Value!;
            Asked(Known(Stickbait, off).Answer(Pace.Free), read => ReadingsJson.Of(read, []), from);
        }
        // At dry-fit: a weight that slipped, and one that is missing.
        LureDesign stick = Lure(Stickbait);
        Want own = WantWords.Parse(Sentence.Of(Prediction.Of(stick, Circumstances.InTheSea), Notation.Metric)).Want!;
        BallastPiece first = stick.Ballast[0];
        LureDesign slipped = stick with { Ballast = stick.Ballast.SetItem(0, first with { AtMm = [first.AtMm[0] + 9, first.AtMm[1], first.AtMm[2]] }) };
        foreach (LureDesign lure in (LureDesign[])[stick, slipped, stick with { Ballast = stick.Ballast.RemoveAt(0) }])
            foreach (TubLog log in (TubLog[])[new TubLog { Name = "none" }, Log(StickbaitLog)])
                Asked(new WhichWeights(lure, KitchenBox, own) { At = Stage.DryFit, Log = log }.Answer(Pace.Free), made => PlanJson.Of(made, []), "the smallest change");
        Asked(new HowToBuild(stick with { Finish = [.. stick.Finish.Select(c => c with { Hung = HowHung.NoseUp })] }, KitchenBox, new BuildConditions()).Answer(Pace.Free),
            plan => BuildPlanJson.Of(plan, Notation.Metric, []), "coats that hung");
        Asked(new WhatBuildsTeach(Hand.Unknown, [new FinishedBuild(Lure(Pencil), null)]).Answer(Pace.Free), told => LearnJson.Of(told, []), "a build that teaches nothing");
    }

    // The stickbait's log, and its blank weighed again, each time so many grams off.
    private static string WeighedAgain(double[] off)
    {
        JsonNode log = JsonNode.Parse(File.ReadAllText(StickbaitLog))!;
        JsonArray readings = log["readings"]!.AsArray();
        int at = readings.ToList().FindIndex(r => (string?)r!["kind"] == "weight");
        foreach (double grams in off)
        {
            JsonNode again = readings[at]!.DeepClone();
            again["mass_g"] = (double)readings[at]!["mass_g"]! + grams;
            readings.Insert(at + 1, again);
        }
        return log.ToJsonString();
    }

    // What can be asked of any lure; some have no wire, and then the reason is the answer.
    private void AskOf(string lure, string stage, string rig, string water)
    {
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(lure);
        Ask(PredictJson.Of(new HowItSits(design, Options.Where(stage, rig, water)).Answer(Pace.Free), warnings), lure);
        Asked(new WhatHolds(design, answers % 2 == 0 ? 9.5 : null).Answer(Pace.Free), strength => StrengthJson.Of(strength, warnings), lure);
        Asked(new HowToBuild(design, answers % 2 == 0 ? KitchenBox : null, new BuildConditions()).Answer(Pace.Free), plan => BuildPlanJson.Of(plan, Notation.Metric, warnings), lure);
        Ask(CheckJson.Of(Check(lure)), lure);
    }

    private static readonly Core.Box.MakersBox KitchenBox = Files.LoadBox(Box).Box;

    private static LureDesign Lure(string file) => Files.LoadLure(file).Design;

    private static TubLog Log(string file) => Files.LoadLog(file).Log;

    private static Checked Check(string file) => new IsItSound(Files.Load(file), Notation.Metric).Answer(Pace.Free);

    private static WhatIsKnown Known(string lure, TubLog log, string water = "ocean") => new(Lure(lure), log, Hand.Unknown, Options.Where("finished", "rigged", water));

    private void Asked<T>(Reply<T> reply, Func<T, object> told, string from)
        where T : class => Ask(reply.Match(
            told, cannot => cannot.Sought is { } sought ? told(sought) : RefusalJson.Of(cannot.Because), wrong => RefusalJson.Of(wrong.Flaw.Fault)), from);

    private void Ask(object answer, string from) => Look(AnswerJson.Text(answer), answer.GetType(), from);

    private void Look(string text, Type answer, string from)
    {
        answers++;
        (JsonSchema schema, JsonObject tree) = Schemas.Value[answer];
        using JsonDocument document = JsonDocument.Parse(text);
        if (!schema.Evaluate(document.RootElement).IsValid)
        {
            EvaluationResults why = schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
            Assert.Fail($"{answer.Name}, {from}: {string.Join("; ", (why.Details ?? []).Where(d => d.Errors is not null).Take(5).Select(d => $"{d.InstanceLocation} {string.Join(", ", d.Errors!.Values)}"))}");
        }
        Walk(document.RootElement, tree, tree, answer.Name, from);
    }

    // Follows answer and schema together; a key is known by the record of the schema that it stands in.
    private void Walk(JsonElement value, JsonObject schema, JsonObject root, string record, string from)
    {
        if (schema["anyOf"] is JsonArray either) schema = either[0]!.AsObject();
        if ((string?)schema["$ref"] is { } name)
        {
            record = name["#/$defs/".Length..];
            schema = root["$defs"]![record]!.AsObject();
        }
        if (value.ValueKind == JsonValueKind.Array && schema["items"] is JsonObject items)
            foreach (JsonElement item in value.EnumerateArray()) Walk(item, items, root, record, from);
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
            Walk(member.Value, properties[member.Name]!.AsObject(), root, record, from);
        }
    }

    private static IEnumerable<string> Keys(Type answer, JsonObject tree)
    {
        IEnumerable<(string Record, JsonObject Schema)> records = [(answer.Name, tree), .. tree["$defs"]?.AsObject().Select(d => (d.Key, d.Value!.AsObject())) ?? []];
        return records.SelectMany(r => r.Schema["properties"]!.AsObject().Select(p => $"{r.Record}.{p.Key}"));
    }
}
