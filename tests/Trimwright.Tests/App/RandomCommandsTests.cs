using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Tests.Design;
using Trimwright.Tests.Doubt;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.App;

/// <summary>Random lures, plans and logs through every command: answered or refused in plain words, in numbers, within the terminal's width.</summary>
public partial class RandomCommandsTests
{
    private sealed record Asked(int Seed, LureDesign Design, string Folder, Random Random)
    {
        public string Lure => Path.Combine(Folder, "one.lure.json");

        public string Log => Path.Combine(Folder, "one.log.json");

        public T One<T>(params T[] of) => of[Random.Next(of.Length)];
    }

    private static readonly string[] Wants =
    [
        "sinks slowly, level", "floats level, 4 g to spare", "stands at 70 deg, 25 mm of nose out", "suspends level", "falls 3 s a metre, 10 deg tail down",
        "floats a little tail down, 1/4 oz to spare", "sinks level, a foot in 2 s",
    ];

    private static readonly (string Name, Func<Asked, string[]> Typed)[] Commands =
    [
        ("check", a => ["check", a.Lure]),
        ("predict", a => ["predict", a.Lure, "--stage", a.One("blank", "dry-fit", "glued", "sealed", "finished"), "--rig", a.One("bare", "standins", "rigged"), "--water", a.One("tap", "lake", "ocean", "reef", "20,4")]),
        ("strength", a => ["strength", a.Lure, "--drag", a.One("2", "10", "24"), .. a.One<string[]>([], ["--why"])]),
        ("buildplan", a => ["buildplan", a.Lure, .. a.One<string[]>([], ["--box", Demo("kitchen.box.json")]), "--temperature", a.One("12", "28")]),
        ("swap", a => ["swap", a.Lure]),
        ("sheets", a => ["sheets", a.Lure, "--out", Path.Combine(a.Folder, $"sheets-{a.Seed}"), "--only", a.One("side,wire", "pockets,stand-ins", "drill", "glue-card,label", "calipers,flats"), "--force", "--measured-100", a.One("99.2", "100.4")]),
        ("plan", a => ["plan", a.Lure, "--want", a.One(Wants), "--pockets", "2"]),
        ("readings", a => ["readings", a.Lure, "--log", a.Log]),
        ("next", a => ["next", a.Lure, "--log", a.Log]),
        ("plan by a log", a => ["plan", a.Lure, "--log", a.Log, "--want", a.One(Wants), "--pockets", "1"]),
        ("new", a => ["new", Path.Combine(a.Folder, $"new-{a.Seed}.lure.json"), "--from", a.Lure, "--length", a.One("60", "7.25in", "300"), "--force"]),
        ("learn", a => ["learn", a.Folder]),
        ("predict as JSON", a => ["predict", a.Lure, "--json"]),
        ("readings as JSON", a => ["readings", a.Lure, "--log", a.Log, "--json"]),
        ("check a log", a => ["check", a.Log]),
        ("copy", a => ["copy", a.Lure, "--log", a.Log]),
    ];

    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name);

    [Fact]
    public void Whatever_is_asked_of_whatever_lure_is_answered_in_plain_words_and_numbers()
    {
        int lures = Tier.Count(quick: 12, ci: 15, @long: 1000);
        using var temp = new TempStore();
        var wrong = new List<string>();
        var exits = new SortedDictionary<int, int>();
        Parallel.For(0, lures, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
        {
            Asked asked = Drawn(seed, Directory.CreateDirectory(temp.In($"{seed}")).FullName);
            foreach (int command in Chosen(seed))
            {
                (string name, Func<Asked, string[]> typed) = Commands[command];
                int columns = 28 + 13 * ((seed + command) % 9);
                string[] arguments = typed(asked);
                bool takesUnits = name != "learn";
                if (takesUnits && (seed + command) % 3 == 0) arguments = [.. arguments, "--units", "in"];
                TheProgram.Ran ran = TheProgram.Attended(temp.Folder, columns, arguments);
                string[] faults = [.. Wrong(asked, ran, columns, arguments.Contains("--json"))];
                lock (wrong)
                {
                    exits[ran.Exit] = exits.GetValueOrDefault(ran.Exit) + 1;
                    wrong.AddRange(faults.Select(f => $"lure {seed}, {string.Join(' ', arguments).Replace(temp.Folder, "")}, {columns} columns: {f}"));
                }
            }
        });
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(", ", exits.Select(e => $"{e.Value} ended with {e.Key}")));
        Assert.True(wrong.Count == 0, $"{wrong.Count}:\n{string.Join('\n', wrong.Take(60))}");
        Assert.True(exits.GetValueOrDefault(0) > exits.Values.Sum() / 2, "most are answered");
    }

    // Which of them a lure is asked: all in CI but the one that takes seconds, two by turns otherwise.
    private static IEnumerable<int> Chosen(int seed)
    {
        int copy = Commands.Length - 1;
        if (Tier.IsCi) return Enumerable.Range(0, Commands.Length).Where(c => c != copy || seed % 25 == 0);
        return new[] { seed % copy, (seed * 7 + 3) % copy }.Distinct();
    }

    private static Asked Drawn(int seed, string folder)
    {
        var random = new Random(seed);
        LureDesign design = RandomLures.Of(880_000 + seed).Design;
        if (seed % 3 == 1) design = RandomNames.Dress(design, seed);
        var asked = new Asked(seed, design, folder, random);
        byte[] lure = LureFile.Write(design), log = LogFile.Write(LogOf(design, seed, random));
        // A quarter of them in inches and ounces.
        if (seed % 4 == 2) (lure, log) = (Inches(lure), Inches(log));
        File.WriteAllBytes(asked.Lure, lure);
        File.WriteAllBytes(asked.Log, log);
        return asked;
    }

    private static byte[] Inches(byte[] file) => Encoding.UTF8.GetBytes(InOtherUnits.Of(JsonNode.Parse(file)!.AsObject()).ToJsonString());

    // What a build of it would show, one number of four slipped.
    private static TubLog LogOf(LureDesign design, int seed, Random random)
    {
        var model = new BuildModel(design, mesh: Simulation.Mesh);
        LogReading[] readings = [.. Simulation.Readings(design, random.Next(1, 4)).Where(r => r.Kind != ReadingKind.Part && r.Kind != ReadingKind.Tub)];
        TubLog log = Simulation.Log(model, readings, Simulation.Truth(model, seed, 1), seed, 1);
        if (random.Next(4) > 0) return log;
        int at = random.Next(log.Readings.Length);
        LogReading slipped = log.Readings[at] with { MassG = log.Readings[at].MassG is { } grams ? grams * new[] { 0.1, 10, 1 / 28.35 }[random.Next(3)] : null };
        return log with { Readings = log.Readings.SetItem(at, slipped) };
    }

    private static IEnumerable<string> Wrong(Asked asked, TheProgram.Ran ran, int columns, bool isJson)
    {
        string all = ran.Out + "\n" + ran.Error;
        if (ran.Exit is < 0 or > 9) yield return $"ended with {ran.Exit}: {ran.Error}";
        if (NoNumber().Match(all) is { Success: true } none) yield return $"no number: {Around(all, none.Index)}";
        if (OfALibrary().Match(all) is { Success: true } foreign) yield return $"a library's words: {Around(all, foreign.Index)}";
        if (!isJson)
        {
            // A refusal is one sentence on one line, which a terminal folds as it likes.
            foreach (string line in ran.Out.Split('\n').Concat(ran.Error.Split('\n').SkipWhile(l => !l.StartsWith("note:", StringComparison.Ordinal))))
                if (line.EnumerateRunes().Count() > columns && line.Trim().Contains(' ')) yield return $"a line of {line.Length}: {line}";
            if (IsAlike(asked.Design) && OneWay().Match(all) is { Success: true } lean) yield return $"leans one way: {Around(all, lean.Index)}";
        }
    }

    private static string Around(string text, int at) => text[Math.Max(0, at - 60)..Math.Min(text.Length, at + 80)].Replace('\n', '|');

    // Left and right the same: whatever it does to one side it may do to the other.
    private static bool IsAlike(LureDesign design) => design.Ballast.All(b => b.AtMm[1] == 0) && design.Halves is null
        && (design.Wire is not { } wire || new[] { wire.LineTie, wire.TailLoop }.Concat(wire.Hangers.Select(h => h.Eye)).All(e => e?.HangAtMm is not { } at || at[1] == 0));

    [GeneratedRegex(@"\bNaN\b|Infinity|∞|-?\d+E[+-]\d+ (?:mm|g)")]
    private static partial Regex NoNumber();

    [GeneratedRegex(@"\(Parameter|System\.|Spectre|Exception|^   at [A-Z]|Object reference|Index was|Sequence contains|Nullable object|correct format|Value cannot be|Specified argument|Unhandled|Unknown command|Required argument|Could not match|mistake in Trimwright", RegexOptions.Multiline)]
    private static partial Regex OfALibrary();

    [GeneratedRegex(@"leaning\s+\d+°\s+to\s+the\s+(?:left|right)|on\s+its\s+side\s+\(to\s+the|off\s+to\s+the\s+(?:left|right)")]
    private static partial Regex OneWay();
}
