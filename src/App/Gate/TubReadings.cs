using System.Text;
using System.Text.Json.Nodes;
using Trimwright.App.Sessions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Workshop;

namespace Trimwright.App.Gate;

/// <summary>One reading as it was typed at the tub: words and texts, not yet judged.</summary>
/// <param name="Kind">A word of <see cref="LogWords"/>.</param>
/// <param name="Stage">How far the build is.</param>
/// <param name="Rig">What hung on it.</param>
/// <param name="Numbers">The file's keys with what was typed.</param>
/// <param name="Sat">How it sat, for a tub test.</param>
internal sealed record TypedReading(string Kind, string? Stage, string? Rig, IReadOnlyDictionary<string, string>? Numbers, string? Sat);

/// <summary>What a phone offers to read at the tub, and what it brings: taken in through the log file's one reader.</summary>
internal static class TubReadings
{
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
        Reading<TubLog> reading = LogFile.Read(Encoding.UTF8.GetBytes(BuildLog.Around("a lure", [one])));
        return reading.Value is null ? (null, reading.Faults[0] with { Path = reading.Faults[0].Path.Replace("readings[0].", "", StringComparison.Ordinal) }) : (one, null);
    }
}
