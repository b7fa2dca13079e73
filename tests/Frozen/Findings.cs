using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;

namespace Trimwright.Frozen;

/// <summary>Why some answers may be other than frozen.</summary>
/// <param name="Id">The issue and a number: <c>13-1</c>.</param>
/// <param name="Why">A sentence: what was wrong, and what is right.</param>
/// <param name="Changes">Which places may change, and nothing else.</param>
internal sealed record Finding(string Id, string Why, Change[] Changes);

/// <summary>
/// Places that a finding lets change. In every pattern <c>*</c> is anything within a name or a key and <c>**</c> anything at all. One
/// of <see cref="Json"/>, <see cref="Line"/> and <see cref="Whole"/> is said.
/// </summary>
internal sealed record Change
{
    /// <summary>Names of asks, as patterns.</summary>
    public required string[] Asks { get; init; }

    /// <summary>The part, as a pattern: <c>out</c>, <c>error</c>, <c>exit</c>, <c>file out/svg/*.svg</c>.</summary>
    public string In { get; init; } = "out";

    /// <summary>JSON paths, as patterns: <c>$.parts[*].mass_g</c>.</summary>
    public string[]? Json { get; init; }

    /// <summary>A regular expression that the old line and the new line match, or the one that there is.</summary>
    public string? Line { get; init; }

    /// <summary>An exit status, a whole file that comes or goes, or the order of what is written.</summary>
    public bool Whole { get; init; }

    /// <summary>A regular expression for the old value or line, which then has to be there.</summary>
    public string? Old { get; init; }

    /// <summary>A regular expression for the new value or line, which then has to be there.</summary>
    public string? New { get; init; }

    /// <summary>Nothing but numbers may change, and none by more than this.</summary>
    public double? AtMost { get; init; }

    public bool Allows(Difference d)
    {
        if (!Asks.Any(a => Fits(a, d.Ask)) || !Fits(In, d.Part)) return false;
        bool place = d.Kind switch
        {
            PlaceKind.Json => Json?.Any(j => Fits(j, d.Place[(d.Place.IndexOf('$', StringComparison.Ordinal))..])) ?? false,
            PlaceKind.Line => Line is not null && Matches(Line, d.Old, true) && Matches(Line, d.New, true),
            _ => Whole,
        };
        return place && Matches(Old, d.Old, false) && Matches(New, d.New, false) && (AtMost is not { } most || IsWithin(d, most));
    }

    /// <summary>What is wrong with it, null if nothing is.</summary>
    public string? Fault => Asks.Length == 0 ? "names no ask"
        : (Json is null ? 0 : 1) + (Line is null ? 0 : 1) + (Whole ? 1 : 0) != 1 ? "says not exactly one of json, line and whole"
        : null;

    private static bool Matches(string? pattern, string? text, bool orNothing) => pattern is null || (text is null ? orNothing : Regex.IsMatch(text, pattern));

    private static bool IsWithin(Difference d, double most) => d.Numbers is { Count: > 0 } numbers
        && numbers.All(n => Math.Abs(Value(n.Old) - Value(n.New)) <= most * (1 + 1e-9));

    private static double Value(string number) => double.Parse(number.Replace('−', '-'), CultureInfo.InvariantCulture);

    private static bool Fits(string pattern, string text) =>
        Regex.IsMatch(text, "^" + Regex.Escape(pattern).Replace(@"\*\*", ".*", StringComparison.Ordinal).Replace(@"\*", @"[^/.\[\]]*", StringComparison.Ordinal) + "$");
}

/// <summary>The list of findings, a file that a person writes.</summary>
internal sealed class Findings
{
    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        ReadCommentHandling = JsonCommentHandling.Skip,
    };

    private readonly HashSet<Change> used = [];

    private Findings(Finding[] all) => All = all;

    public IReadOnlyList<Finding> All { get; }

    public static Findings None => new([]);

    /// <summary>Reads the list; a list that isn't sound is a mistake of its writer, said by the exception.</summary>
    public static Findings Read(string json)
    {
        Finding[] all = JsonSerializer.Deserialize<Finding[]>(json, Form)!;
        foreach (Finding finding in all)
        {
            if (!Regex.IsMatch(finding.Id, @"^\d+-\d+$")) throw new FormatException($"a finding is named by its issue and a number, like 13-1, not \"{finding.Id}\"");
            if (all.Count(f => f.Id == finding.Id) > 1) throw new FormatException($"{finding.Id} stands there twice");
            if (string.IsNullOrWhiteSpace(finding.Why)) throw new FormatException($"{finding.Id} doesn't say why");
            if (finding.Changes is not { Length: > 0 }) throw new FormatException($"{finding.Id} lets nothing change");
            foreach (Change change in finding.Changes)
                if (change.Fault is { } fault) throw new FormatException($"{finding.Id}: a change {fault}");
        }
        return new(all);
    }

    /// <summary>The first finding that lets this change; null when none does. Every change that would is taken as used.</summary>
    public Finding? Of(Difference difference)
    {
        Finding? first = null;
        foreach (Finding finding in All)
            foreach (Change change in finding.Changes)
            {
                if (!change.Allows(difference)) continue;
                used.Add(change);
                first ??= finding;
            }
        return first;
    }

    /// <summary>Changes that nothing needed so far, each as a sentence.</summary>
    public IEnumerable<string> Unused => All.SelectMany(f => f.Changes.Select((c, i) => (f, c, i))).Where(x => !used.Contains(x.c))
        .Select(x => $"{x.f.Id}: nothing needs its change {(x.i + 1).ToString(CultureInfo.InvariantCulture)} ({string.Join(", ", x.c.Asks)}) any more; take it out.");
}
