using System.Globalization;

namespace Trimwright.Frozen;

/// <summary>Everything that is asked when answers are frozen. The list is kept with the answers, so what is added here is asked of the next program frozen.</summary>
internal static class Asks
{
    private static readonly string[] Demos = ["mooring-post-210", "old-pencil-210", "slipway-150", "tidegate-185"];

    private static readonly string[] Finished = ["finished/ebb", "finished/flood", "finished/neap", "finished/slack", "finished/spring"];

    private static readonly string[] Stages = ["blank", "dry-fit", "glued", "sealed", "finished"];

    private static readonly string[] Drawings = [".svg", ".dxf"];

    private const string Box = "kitchen.box.json", Store = "kept/workshop.trimwright", KeptIn = "out/shop.trimwright";

    /// <param name="inputs">The folder with demos, lures and the rest.</param>
    public static Ask[] Of(string inputs)
    {
        // Each drawn lure with the circumstances drawn with it: "017 dry-fit rigged 10,20".
        string[][] drawn = [.. File.ReadLines(Path.Combine(inputs, "lures", "drawn.txt")).Select(line => line.Split(' '))];
        Ask[] all =
        [
            .. Whole(), .. Check(inputs, drawn), .. Predict(drawn), .. Strength(drawn), .. BuildPlan(drawn), .. Sheets(drawn), .. Swap(drawn),
            .. Plan(drawn), .. Readings(inputs, drawn), .. Copy(), .. Learn(), .. Kept(), .. Wrong(),
        ];
        return all.DistinctBy(a => a.Name).Count() == all.Length ? [.. all.GroupBy(a => a.Command).SelectMany(c => c.GroupBy(a => a.Rest.Of).SelectMany(g => g))] : throw new InvalidOperationException("two asks of one name");
    }

    private static Ask One(string name, Pace pace, params string[] command) => new(name, [command]) { Pace = pace };

    private static IEnumerable<Ask> TextAndJson(string name, Pace pace, params string[] command) =>
        [One(name + "-text", pace, command), One(name + "-json", pace, [.. command, "--json"])];

    private static string Short(string lure) => lure.Replace("finished/", "", StringComparison.Ordinal);

    private static string LureOf(string lure) => lure + ".lure.json";

    private static (string Name, string File) Random(string[] draw) => ("random-" + draw[0], $"lures/random-{draw[0]}.lure.json");

    private static int Number(string[] draw) => int.Parse(draw[0], CultureInfo.InvariantCulture);

    private static IEnumerable<Ask> Whole() =>
    [
        One("help/whole/text", Pace.Quick, "--help"),
        .. ((string[])["serve", "predict", "plan", "swap", "strength", "check", "buildplan", "sheets", "readings", "copy", "next", "learn", "demo", "store", "notices"])
            .Select(c => One($"help/{c}/text", Pace.Quick, c, "--help")),
        One("help/version/text", Pace.Quick, "--version") with { SaysVersions = true },
        One("demo/all/files", Pace.Quick, "demo", "out/demo"),
        new("demo/twice/files", [["demo", "out/demo"], ["demo", "out/demo"], ["demo", "out/demo", "--force"]]) { Keeps = [] },
        One("notices/all/text", Pace.Quick, "notices") with { SaysVersions = true },
        One("notices/one/text", Pace.Usual, "notices", "MathNet.Numerics") with { SaysVersions = true },
    ];

    private static IEnumerable<Ask> Check(string inputs, string[][] drawn)
    {
        foreach (string lure in (string[])[.. Demos, .. Finished])
            foreach (Ask ask in TextAndJson($"check/{Short(lure)}/lure", Pace.Quick, "check", LureOf(lure))) yield return ask;
        string[] others = [Box, "mooring-post-210.log.json", "tidegate-185.log.json", "old-pencil-210.log.json", "finished/ebb.log.json", "finished/harbour.hand.json"];
        foreach (string file in others)
            foreach (Ask ask in TextAndJson($"check/{Path.GetFileName(file).Replace(".json", "", StringComparison.Ordinal)}/file", Pace.Quick, "check", file)) yield return ask;
        foreach (string folder in (string[])["wants", "faults"])
            foreach (string file in Directory.GetFiles(Path.Combine(inputs, folder)).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal))
                foreach (Ask ask in TextAndJson($"check/{file.Replace(".json", "", StringComparison.Ordinal)}/file", Pace.Quick, "check", folder + "/" + file)) yield return ask;
        foreach (string[] draw in drawn)
        {
            (string name, string file) = Random(draw);
            yield return One($"check/{name}/text", Pace.Usual, "check", file);
            yield return One($"check/{name}/json", Pace.Usual, "check", file, "--json");
        }
    }

    private static IEnumerable<Ask> Predict(string[][] drawn)
    {
        foreach (string lure in (string[])[.. Demos, .. Finished])
        {
            Pace pace = Demos.Contains(lure) ? Pace.Quick : Pace.Usual;
            foreach (Ask ask in TextAndJson($"predict/{Short(lure)}/usual", pace, "predict", LureOf(lure))) yield return ask;
            foreach (string stage in Stages)
                foreach (string rig in stage == "blank" ? (string[])["bare"] : ["bare", "standins", "rigged"])
                    foreach (string water in (string[])["tap", "reef"])
                        foreach (Ask ask in TextAndJson($"predict/{Short(lure)}/{stage}-{rig}-{water}", Pace.Usual, "predict", LureOf(lure), "--stage", stage, "--rig", rig, "--water", water))
                            yield return ask;
            foreach (string water in (string[])["lake", "brackish", "12.5,8"])
                yield return One($"predict/{Short(lure)}/finished-rigged-{water}-json", Pace.Usual, "predict", LureOf(lure), "--water", water, "--json");
            yield return One($"predict/{Short(lure)}/picture", pace, "predict", LureOf(lure), "--picture", "out/lure.svg");
        }
        foreach (string[] draw in drawn)
        {
            (string name, string file) = Random(draw);
            foreach (Ask ask in TextAndJson($"predict/{name}/usual", Pace.Usual, "predict", file)) yield return ask;
            foreach (Ask ask in TextAndJson($"predict/{name}/dry-fit-standins-tap", Pace.Usual, "predict", file, "--stage", "dry-fit", "--rig", "standins", "--water", "tap")) yield return ask;
            foreach (Ask ask in TextAndJson($"predict/{name}/blank", Pace.Usual, "predict", file, "--stage", "blank", "--rig", "bare", "--water", "tap")) yield return ask;
            yield return One($"predict/{name}/dry-fit-rigged-tap-json", Pace.Usual, "predict", file, "--stage", "dry-fit", "--rig", "rigged", "--water", "tap", "--json");
            yield return One($"predict/{name}/finished-bare-tap-json", Pace.Usual, "predict", file, "--rig", "bare", "--water", "tap", "--json");
            yield return One($"predict/{name}/as-drawn-json", Pace.Usual, "predict", file, "--stage", draw[1], "--rig", draw[2], "--water", draw[3], "--json");
        }
    }

    private static IEnumerable<Ask> Strength(string[][] drawn)
    {
        foreach (string lure in (string[])[.. Demos, .. Finished])
        {
            Pace pace = Demos.Contains(lure) ? Pace.Quick : Pace.Usual;
            foreach (Ask ask in TextAndJson($"strength/{Short(lure)}/usual", pace, "strength", LureOf(lure))) yield return ask;
            foreach (Ask ask in TextAndJson($"strength/{Short(lure)}/drag", Pace.Usual, "strength", LureOf(lure), "--drag", "12")) yield return ask;
        }
        foreach (string[] draw in drawn)
            foreach (Ask ask in TextAndJson($"strength/{Random(draw).Name}/drag", Pace.Usual, "strength", Random(draw).File, "--drag", "9.5")) yield return ask;
    }

    private static IEnumerable<Ask> BuildPlan(string[][] drawn)
    {
        string[] dated = ["--start", "2025-03-14T18:00+01:00", "--zone", "Europe/Oslo", "--humidity", "62", "--temperature", "17"];
        foreach (string lure in (string[])[.. Demos, .. Finished])
        {
            Pace pace = lure == "tidegate-185" ? Pace.Quick : Pace.Usual;
            foreach (Ask ask in TextAndJson($"buildplan/{Short(lure)}/usual", pace, "buildplan", LureOf(lure))) yield return ask;
            foreach (Ask ask in TextAndJson($"buildplan/{Short(lure)}/dated-box", pace, ["buildplan", LureOf(lure), "--box", Box, .. dated])) yield return ask;
            foreach (Ask ask in TextAndJson($"buildplan/{Short(lure)}/inches", Pace.Usual, "buildplan", LureOf(lure), "--units", "in", "--pockets", "before")) yield return ask;
            yield return One($"buildplan/{Short(lure)}/files", Pace.Usual, ["buildplan", LureOf(lure), "--box", Box, .. dated,
                "--calendar", "out/plan.ics", "--text", "out/plan.txt", "--pdf", "out/plan.pdf"]);
            yield return One($"buildplan/{Short(lure)}/letter", Pace.Usual, "buildplan", LureOf(lure), "--units", "in", "--pdf", "out/plan.pdf", "--paper", "letter");
        }
        foreach (string[] draw in drawn)
        {
            (string name, string file) = Random(draw);
            yield return One($"buildplan/{name}/json", Pace.Usual, ["buildplan", file, "--box", Box, .. dated, "--json"]);
            string[] manner = Number(draw) % 2 == 0 ? [] : ["--units", "in", "--box", Box, .. dated];
            yield return One($"buildplan/{name}/text", Pace.Usual, ["buildplan", file, .. manner]);
        }
    }

    private static IEnumerable<Ask> Sheets(string[][] drawn)
    {
        foreach (string lure in (string[])[.. Demos, .. Finished])
        {
            yield return One($"sheets/{Short(lure)}/usual", Pace.Usual, "sheets", LureOf(lure), "--out", "out/sheets");
            yield return One($"sheets/{Short(lure)}/inches-letter", Pace.Usual, "sheets", LureOf(lure), "--out", "out/sheets", "--units", "in", "--paper", "letter", "--nose", "right") with { Keeps = [".svg", ".pdf"] };
        }
        yield return One("sheets/tidegate-185/corrected", Pace.Usual, "sheets", LureOf("tidegate-185"), "--out", "out/sheets", "--measured-100", "99.2", "--trial-loop", "4,4.6") with { Keeps = [.. Drawings, ".pdf"] };
        yield return One("sheets/mooring-post-210/first-evening", Pace.Quick, "sheets", LureOf("mooring-post-210"), "--out", "out/sheets", "--only", "first-evening") with { Keeps = [.. Drawings, ".pdf"] };
        foreach (string[] draw in drawn.Where(d => Number(d) % 10 == 0))
            yield return One($"sheets/{Random(draw).Name}/drawings", Pace.Usual, "sheets", Random(draw).File, "--out", "out/sheets") with { Keeps = Drawings };
    }

    private static IEnumerable<Ask> Swap(string[][] drawn)
    {
        foreach (string lure in (string[])[.. Demos, .. Finished])
        {
            foreach (Ask ask in TextAndJson($"swap/{Short(lure)}/usual", Pace.Slow, "swap", LureOf(lure))) yield return ask;
            yield return One($"swap/{Short(lure)}/box-text", Pace.Slow, "swap", LureOf(lure), "--box", Box, "--water", "brackish");
        }
        foreach (string[] draw in drawn.Where(d => Number(d) % 4 == 1))
        {
            (string name, string file) = Random(draw);
            yield return One($"swap/{name}/text", Pace.Slow, "swap", file);
            if (Number(draw) % 8 == 1) yield return One($"swap/{name}/box-json", Pace.Slow, "swap", file, "--box", Box, "--json");
        }
    }

    private static IEnumerable<Ask> Plan(string[][] drawn)
    {
        (string Lure, string Name, string[] Manner)[] asked =
        [
            ("tidegate-185", "slow-level", ["--want", "sinks slowly, level", "--box", Box]),
            ("tidegate-185", "five-seconds", ["--want", "falls 5 s a metre, 10 deg tail down", "--box", Box]),
            ("tidegate-185", "suspends", ["--want", "suspends level"]),
            ("tidegate-185", "keep", ["--want", "sinks, level", "--box", Box, "--keep", "front lead rod"]),
            ("tidegate-185", "log", ["--want", "sinks slowly, level", "--box", Box, "--log", "tidegate-185.log.json"]),
            ("tidegate-185", "by-file", ["--want", "wants/slow.want.json", "--box", Box]),
            ("mooring-post-210", "stands", ["--want", "stands at 70 deg, 30 mm of nose out", "--box", Box]),
            ("mooring-post-210", "trim-hole", ["--want", "stands", "--box", Box, "--trim-hole"]),
            ("mooring-post-210", "thin-wall", ["--want", "stands at 75 deg, 40 mm of nose out", "--box", Box, "--wall", "2", "--pockets", "2"]),
            ("mooring-post-210", "log", ["--want", "stands", "--box", Box, "--log", "mooring-post-210.log.json"]),
            ("mooring-post-210", "by-file", ["--want", "wants/standing.want.json", "--box", Box]),
            ("slipway-150", "floats", ["--want", "floats level, 6 g to spare", "--box", Box]),
            ("slipway-150", "tail-down", ["--want", "floats 25 deg tail down, 9 g to spare", "--box", Box]),
            ("slipway-150", "fast", ["--want", "sinks fast, 15 deg nose down", "--box", Box]),
            ("ebb", "glued", ["--want", "sinks slowly, level", "--box", Box, "--log", "finished/ebb.log.json", "--at", "glued"]),
        ];
        foreach ((string lure, string name, string[] manner) in asked)
            foreach (Ask ask in TextAndJson($"plan/{lure}/{name}", Pace.Slow, ["plan", LureOf(lure == "ebb" ? "finished/ebb" : lure), .. manner])) yield return ask;
        yield return One("plan/tidegate-185/written", Pace.Slow, "plan", LureOf("tidegate-185"), "--want", "sinks slowly, level", "--box", Box, "--take", "2", "--out", "out/planned.lure.json");
        foreach (string[] draw in drawn.Where(d => Number(d) % 3 == 2))
        {
            (string name, string file) = Random(draw);
            string want = (Number(draw) / 3 % 5) switch { 0 => "sinks slowly, level", 1 => "floats level, 6 g to spare", 2 => "stands at 70 deg, 30 mm of nose out", 3 => "suspends level", _ => "falls 4 s a metre, 15 deg tail down" };
            yield return One($"plan/{name}/json", Pace.Slow, "plan", file, "--want", want, "--box", Box, "--json");
            if (Number(draw) % 12 == 2) yield return One($"plan/{name}/text", Pace.Slow, "plan", file, "--want", want, "--box", Box);
        }
    }

    private static IEnumerable<Ask> Readings(string inputs, string[][] drawn)
    {
        foreach (string lure in (string[])["mooring-post-210", "tidegate-185"])
        {
            foreach (Ask ask in TextAndJson($"readings/{lure}/usual", Pace.Slow, "readings", LureOf(lure), "--log", lure + ".log.json")) yield return ask;
            yield return One($"readings/{lure}/hand-text", Pace.Slow, "readings", LureOf(lure), "--log", lure + ".log.json", "--hand", "finished/harbour.hand.json");
            yield return One($"readings/{lure}/sealed-standins-tap-json", Pace.Slow, "readings", LureOf(lure), "--log", lure + ".log.json", "--stage", "sealed", "--rig", "standins", "--water", "tap", "--json");
            foreach (Ask ask in TextAndJson($"next/{lure}/usual", Pace.Slow, "next", LureOf(lure), "--log", lure + ".log.json")) yield return ask;
            yield return One($"next/{lure}/box-text", Pace.Slow, "next", LureOf(lure), "--at", "sealed", "--box", Box);
        }
        yield return One("readings/slipway-150/nothing-text", Pace.Slow, "readings", LureOf("slipway-150"));
        foreach (string lure in Finished) yield return One($"readings/{Short(lure)}/json", Pace.Slow, "readings", LureOf(lure), "--log", lure + ".log.json", "--json");
        foreach (string[] draw in drawn.Where(d => File.Exists(Path.Combine(inputs, "lures", $"random-{d[0]}.log.json"))))
        {
            (string name, string file) = Random(draw);
            string log = $"lures/{name}.log.json";
            yield return One($"check/{name}/log-json", Pace.Usual, "check", log, "--json");
            yield return One($"readings/{name}/json", Pace.Slow, "readings", file, "--log", log, "--json");
            yield return One($"next/{name}/json", Pace.Slow, "next", file, "--log", log, "--json");
            if (Number(draw) % 40 == 4) yield return One($"readings/{name}/text", Pace.Slow, "readings", file, "--log", log);
            if (Number(draw) % 40 == 4) yield return One($"next/{name}/text", Pace.Slow, "next", file, "--log", log);
        }
    }

    private static IEnumerable<Ask> Copy()
    {
        string[] copy = ["copy", LureOf("old-pencil-210"), "--log", "old-pencil-210.log.json"];
        yield return One("copy/old-pencil-210/text", Pace.Long, copy);
        yield return One("copy/old-pencil-210/box-json", Pace.Long, [.. copy, "--box", Box, "--json"]);
        yield return One("copy/old-pencil-210/written", Pace.Long, [.. copy, "--box", Box, "--out", "out/copied.lure.json"]);
    }

    private static IEnumerable<Ask> Learn()
    {
        foreach (Ask ask in TextAndJson("learn/finished/told", Pace.Slow, "learn", "finished")) yield return ask;
        yield return new("learn/finished/kept", [["learn", "finished", "--hand", "out/my.hand.json"], ["learn", "--hand", "out/my.hand.json", "--before", "2026-06-01"], ["learn", "--hand", "out/my.hand.json", "--forget"]]) { Pace = Pace.Slow };
        foreach (Ask ask in TextAndJson("learn/finished/hand", Pace.Quick, "learn", "--hand", "finished/harbour.hand.json")) yield return ask;
    }

    private static IEnumerable<Ask> Kept()
    {
        string[] At(params string[] command) => ["store", .. command, "--store", KeptIn];
        Ask Of(string name, params string[][] commands) => new($"store/{name}", commands) { Pace = Pace.Quick, Before = new() { ["shop.trimwright"] = Store } };
        yield return Of("kept/list", At("list"), At("list", "--json"));
        yield return Of("kept/check", At("check"), At("check", "--json"));
        yield return Of("kept/backup", At("backup", "out/copy.trimwright"), At("backup", "out/copy.trimwright"), ["store", "list", "--store", "out/copy.trimwright"], At("backup", "out/copy.trimwright", "--force", "--json"));
        yield return Of("kept/restore", At("restore", "kept/workshop.trimwright", "--json"), At("list"), At("restore", "kept/export.json"));
        yield return Of("kept/export", At("export", "out/all.json"), At("export", "out/1.lure.json", "--lure", "1"), At("export", "out/1.log.json", "--readings", "1", "--json"), At("export", "out/9.lure.json", "--lure", "9")) with { SaysVersions = true };
        yield return Of("kept/import-again", At("import", "kept/export.json"), At("import", "kept/export.json", "--json"));
        yield return Of("kept/import-more", At("import", "tidegate-185.lure.json"), At("import", "tidegate-185.lure.json", "--json"), At("import", Box), At("import", "mooring-post-210.log.json"), At("list"), At("export", "out/4.lure.json", "--lure", "4"));
        yield return new("store/new/import", [At("list"), At("import", "kept/export.json"), At("list", "--json"), At("check"), At("export", "out/all.json")]) { Pace = Pace.Quick, SaysVersions = true };
        yield return new("store/new/lure-and-box", [At("import", "tidegate-185.lure.json"), At("import", "tidegate-185.lure.json"), At("import", Box), At("import", "mooring-post-210.log.json"), At("list"), At("export", "out/1.lure.json", "--lure", "1")]) { Pace = Pace.Quick };
        yield return new("store/none/list", [["store", "list", "--store", "wants/slow.want.json"], ["store", "backup", "out/x.trimwright", "--store", "out/nothing/here.trimwright"]]) { Pace = Pace.Quick, Keeps = [] };
    }

    private static IEnumerable<Ask> Wrong()
    {
        (string Name, string[] Command)[] asked =
        [
            ("no-command", ["swim"]), ("no-option", ["predict", LureOf("tidegate-185"), "--colour", "red"]), ("no-file", ["predict", "nothing.lure.json"]),
            ("no-argument", ["predict"]), ("no-value", ["predict", LureOf("tidegate-185"), "--stage"]), ("stage", ["predict", LureOf("tidegate-185"), "--stage", "painted"]),
            ("rig", ["predict", LureOf("tidegate-185"), "--rig", "half"]), ("water", ["predict", LureOf("tidegate-185"), "--water", "50,24"]), ("box-for-lure", ["predict", Box]),
            ("log-for-lure", ["strength", "mooring-post-210.log.json"]), ("faults", ["predict", "faults/many.lure.json"]), ("syntax", ["swap", "faults/syntax.lure.json"]),
            ("newer", ["predict", "faults/newer.lure.json"]), ("want", ["plan", LureOf("tidegate-185"), "--want", "dances"]), ("no-want", ["plan", LureOf("tidegate-185")]),
            ("comma", ["plan", LureOf("tidegate-185"), "--want", "falls 5,5 s a metre"]), ("keep", ["plan", LureOf("tidegate-185"), "--want", "sinks", "--keep", "anchor"]),
            ("pockets", ["plan", LureOf("tidegate-185"), "--want", "sinks", "--pockets", "9"]), ("wall", ["plan", LureOf("tidegate-185"), "--want", "sinks", "--wall", "0.1"]),
            ("lure-for-box", ["swap", LureOf("tidegate-185"), "--box", LureOf("tidegate-185")]), ("drag", ["strength", LureOf("tidegate-185"), "--drag", "much"]),
            ("start", ["buildplan", LureOf("tidegate-185"), "--start", "tomorrow"]), ("zone", ["buildplan", LureOf("tidegate-185"), "--start", "2025-03-14T18:00", "--zone", "Sea/Bottom"]),
            ("units", ["buildplan", LureOf("tidegate-185"), "--units", "furlong"]), ("paper", ["sheets", LureOf("tidegate-185"), "--out", "out/sheets", "--paper", "a9"]),
            ("sheet", ["sheets", LureOf("tidegate-185"), "--out", "out/sheets", "--only", "paintings"]), ("no-out", ["sheets", LureOf("tidegate-185")]),
            ("lure-for-log", ["readings", LureOf("tidegate-185"), "--log", LureOf("tidegate-185")]), ("log-of-another", ["next", LureOf("slipway-150"), "--log", "mooring-post-210.log.json"]),
            ("copy-without-log", ["copy", LureOf("old-pencil-210")]), ("learn-nowhere", ["learn", "nowhere"]), ("learn-day", ["learn", "--hand", "finished/harbour.hand.json", "--before", "May"]),
            ("notices", ["notices", "Nobody"]), ("port", ["serve", "--port", "99999"]), ("store-file", ["store", "import", "nothing.json", "--store", "out/x.trimwright"]),
        ];
        foreach ((string name, string[] command) in asked)
        {
            // Not wrong enough to be refused: it is answered with a warning.
            Pace pace = name == "log-of-another" ? Pace.Slow : Pace.Quick;
            yield return One($"wrong/{name}/text", pace, command);
            yield return One($"wrong/{name}/json", pace, [.. command, "--json"]);
        }
        yield return new("wrong/overwrite/text", [["predict", LureOf("tidegate-185"), "--picture", "out/a.svg"], ["predict", LureOf("tidegate-185"), "--picture", "out/a.svg"],
            ["predict", LureOf("tidegate-185"), "--picture", "out/a.svg", "--force"]]) { Pace = Pace.Quick, Keeps = [] };
    }
}
