using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;
using Trimwright.Workshop;

namespace Trimwright.App.Work;

/// <summary>One reading as it was typed at the tub: words and texts, not yet judged.</summary>
/// <param name="Kind">A word of <see cref="LogWords"/>.</param>
/// <param name="Stage">How far the build is.</param>
/// <param name="Rig">What hung on it.</param>
/// <param name="Numbers">The file's keys with what was typed.</param>
/// <param name="Sat">How it sat, for a tub test.</param>
internal sealed record TypedReading(string Kind, string? Stage, string? Rig, IReadOnlyDictionary<string, string>? Numbers, string? Sat);

/// <summary>What do all the readings of a build say?</summary>
/// <param name="Design">The lure that it was begun on.</param>
/// <param name="Log">Its readings, as the log file.</param>
/// <param name="Notation">The maker's units.</param>
internal sealed record WhatReadingsSay(LureDesign Design, string Log, Notation Notation) : IQuestion<string>
{
    public bool IsWide => true;

    public string Answer(Pace pace) => TubReadings.Said(Design, Log, Notation, pace);
}

/// <summary>Readings of a build that the store keeps: taken in through the log file's one reader, and put together as a log again.</summary>
internal static class TubReadings
{
    /// <summary>The kind of an entry in the store's log that holds a reading of the log file.</summary>
    public const string Entry = "reading";

    /// <summary>What can be read with wet hands, and which numbers each kind asks for.</summary>
    public static readonly IReadOnlyList<(string Kind, string Word, (string Key, string Word, string Unit)[] Numbers)> Kinds =
    [
        ("weight", "weighs", [("mass_g", "on the scale", "g")]),
        ("under_water", "under water", [("sinker_g", "the sinker alone", "g"), ("with_lure_g", "sinker with the lure tied to it", "g")]),
        ("tub", "sits", [("trim_deg", "nose up by", "°"), ("nose_out_mm", "nose out of the water", "mm")]),
        ("drop", "falls", [("depth_mm", "over a depth of", "mm"), ("seconds", "in", "s")]),
        ("balance", "balances", [("x_mm", "on a thread, from the nose", "mm")]),
    ];

    /// <summary>Judges a reading and writes it as the log file has it, or says what is wrong with it.</summary>
    public static (string? Json, Fault? Fault) Judge(TypedReading typed)
    {
        if (Kinds.FirstOrDefault(k => k.Kind == typed.Kind) is not { Kind: not null } kind)
            return (null, new Fault("reading", "kind", typed.Kind, string.Join(", ", Kinds.Select(k => k.Kind)), "Choose what you read."));
        var json = new JsonObject { ["kind"] = typed.Kind };
        if (typed.Stage is { Length: > 0 } stage) json["stage"] = stage;
        if (typed.Rig is { Length: > 0 } rig) json["rig"] = rig;
        if (typed.Sat is { Length: > 0 } sat) json["sat"] = sat;
        foreach ((string key, string word, _) in kind.Numbers)
        {
            if (typed.Numbers?.GetValueOrDefault(key) is not { } told || told.Trim().Length == 0) continue;
            if (Typed.Plain(told) is not { } number)
                return (null, new Fault("reading", word, $"“{told.Trim()}”", "a number such as 12.5 or 12,5", "Type it again."));
            json[key] = number;
        }
        string one = json.ToJsonString();
        Reading<TubLog> reading = LogFile.Read(Encoding.UTF8.GetBytes(Around("a lure", [one])));
        return reading.Value is null ? (null, reading.Faults[0] with { Path = reading.Faults[0].Path.Replace("readings[0].", "", StringComparison.Ordinal) }) : (one, null);
    }

    /// <summary>A build's log as the log file, without what was struck out.</summary>
    public static string LogOf(Store store, Build build, string name) => Around(name,
        [.. store.LogOf(build.Id).Where(e => !e.IsStruckOut && e.Entry.Kind == Entry).Select(e => e.Entry.Json)]);

    /// <summary>The build of a lure that readings go to: the newest, begun on the lure as it is now where there is none.</summary>
    public static Build? BuildOf(Store store, long lure, int n, string editId) => store.Builds(lure) is [.., var last] ? last : store.NewBuild(lure, n, "the first", editId);

    /// <summary>What all the readings of a build say of the lure in the sea, and by how much surer they made it.</summary>
    public static string Said(LureDesign design, string log, Notation notation, Pace pace)
    {
        Reading<TubLog> reading = LogFile.Read(Encoding.UTF8.GetBytes(log));
        if (reading.Value is not { } readings) return reading.Faults[0].ToString();
        Knowing knowing = Knowing.Of(new BuildModel(design), readings, Circumstances.InTheSea, pace: pace);
        string said = $"In the sea, finished and rigged: {DoubtWords.GiveOrTake(knowing.After.Spare, notation)}. Before any reading: {DoubtWords.GiveOrTake(knowing.Before.Spare, notation)}.";
        return string.Join(' ', (string[])[said, .. knowing.Flags.Where(f => f.Reading == readings.Readings.Length - 1).Select(f => DoubtWords.Of(f, readings.Readings[f.Reading], notation) + ".")]);
    }

    // Entries are put together as they are kept, so that an export is what came in.
    private static string Around(string name, string[] readings) => string.Create(CultureInfo.InvariantCulture,
        $"{{\"{LogFile.VersionKey}\":{LogFile.Version},\"name\":{JsonSerializer.Serialize(name)},\"readings\":[{string.Join(',', readings)}]}}");
}
