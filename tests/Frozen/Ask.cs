using System.Text.Json.Serialization;

namespace Trimwright.Frozen;

/// <summary>
/// One thing that is asked of the program: commands one after the other in one folder, and what each says. It runs in a folder with
/// the frozen inputs; what it writes goes below <c>out/</c>, which is empty at first.
/// </summary>
/// <param name="Name">Command, what it is asked of, and how: <c>predict/random-017/blank</c>.</param>
/// <param name="Commands">The arguments of each command.</param>
internal sealed record Ask(string Name, string[][] Commands)
{
    /// <summary>Which command is asked. Asks of one command follow each other.</summary>
    [JsonIgnore]
    public string Command => Name.Split('/')[0];

    /// <summary>Of what, and how: <c>random-017</c> and <c>blank</c>.</summary>
    [JsonIgnore]
    public (string Of, string How) Rest => (Name.Split('/')[1], Name.Split('/')[2]);

    /// <summary>Inputs that are copied below <c>out/</c> before the first command, as <c>out/NAME</c> from a path; null for none.</summary>
    public SortedDictionary<string, string>? Before { get; init; }

    /// <summary>Endings of written files that are kept; null for all.</summary>
    public string[]? Keeps { get; init; }

    /// <summary>Whether it says versions, of the program or of what ships with it, which no commit fixes.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public bool SaysVersions { get; init; }

    /// <summary>How soon it is asked again: by every run of the tests, or only by longer ones.</summary>
    public Pace Pace { get; init; }
}

/// <summary>How long an answer takes, and so how often it is asked for.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Pace>))]
internal enum Pace
{
    /// <summary>Some of these in the quick tier, a sixth of the rest in CI.</summary>
    Quick,

    /// <summary>A sixth of these in CI.</summary>
    Usual,

    /// <summary>Seconds each: an eighteenth of these in CI.</summary>
    Slow,

    /// <summary>Minutes: in the long tier only.</summary>
    Long,
}
