using System.Globalization;

namespace Trimwright.App.Gate;

/// <summary>
/// The one thing of the gate that outlives the program: a file beside the store, for this account alone (<see cref="PrivateFile"/>).
/// It holds a secret for this run of the program, made anew at each start, those of the seven runs before it, and which tab keys
/// were used up.
/// </summary>
/// <remarks>
/// A secret never leaves this file and the memory of the programs that read it: it is in no link, page, cookie, request or command
/// line. This run's makes entry keys (<see cref="EntryKeys"/>), so that a second start, which can read the file, can make one too.
/// This run's and the earlier ones know the tabs again that were open when the program ended (<see cref="TabKeys"/>).
/// Whoever can read the file is this account, or root. Without a place that keeps secrets, all of it is in memory: then tabs don't
/// come back after a restart and a second start can't open the page.
/// </remarks>
internal sealed class KeptSecrets
{
    /// <summary>How many runs are remembered, this one included: a program that fails some times in a row still knows its tabs.</summary>
    public const int Runs = 8;

    private const string Ending = ".server-secret", RunWord = "run", UsedWord = "used";

    // More than a few tabs a day don't come back; a file that grows without end would be somebody's doing.
    private const int MostUsed = 4096;

    private readonly Lock turn = new();
    private readonly string file;
    private readonly List<(string Run, string Secret)> runs;
    private readonly Dictionary<string, long> used;

    private KeptSecrets(string file, List<(string, string)> runs, Dictionary<string, long> used) =>
        (this.file, this.runs, this.used) = (file, runs, used);

    /// <summary>The name of this run; no secret.</summary>
    public string Run => runs[0].Run;

    /// <summary>The secret of this run.</summary>
    public string Secret => runs[0].Secret;

    /// <summary>Whether the file could be written: a second start, and the next run, need it.</summary>
    public bool AreKept { get; private init; }

    /// <summary>A new run of the one program that serves a store.</summary>
    public static KeptSecrets Begin(string store, TimeProvider clock)
    {
        string file = FileOf(store);
        (List<(string, string)> runs, Dictionary<string, long> used) = Parse(PrivateFile.Read(file));
        long now = clock.GetUtcNow().ToUnixTimeSeconds();
        foreach (string gone in used.Where(u => u.Value <= now).Select(u => u.Key).ToArray()) used.Remove(gone);
        runs.Insert(0, (PageSecret.Random(), PageSecret.Random()));
        if (runs.Count > Runs) runs.RemoveRange(Runs, runs.Count - Runs);
        return new KeptSecrets(file, runs, used) { AreKept = PrivateFile.Write(file, Text(runs, used)) };
    }

    /// <summary>The secret of the run that serves a store now, for a second start; null when this account can't know it.</summary>
    public static string? OfTheFirst(string store) => Parse(PrivateFile.Read(FileOf(store))).Runs is [var (_, secret), ..] ? secret : null;

    /// <summary>Beside the real file: a store may be reached by several links, but is served once.</summary>
    public static string FileOf(string store)
    {
        string path = Path.GetFullPath(store);
        try
        {
            return (File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path) + Ending;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return path + Ending;
        }
    }

    /// <summary>The secret of one of the runs that are remembered.</summary>
    public string? SecretOf(string run)
    {
        foreach ((string name, string secret) in runs)
            if (name == run) return secret;
        return null;
    }

    /// <summary>Uses a tab key up, for this run and all that come; false when it was used before.</summary>
    public bool UseUp(string id, long until)
    {
        lock (turn)
        {
            if (used.Count >= MostUsed || !used.TryAdd(id, until)) return false;
            // Not on the disk, it is used up for this run at least.
            if (AreKept) PrivateFile.Write(file, Text(runs, used));
            return true;
        }
    }

    private static string Text(List<(string Run, string Secret)> runs, Dictionary<string, long> used) => string.Concat(
        [
            .. runs.Select(r => $"{RunWord} {r.Run} {r.Secret}\n"),
            .. used.Select(u => string.Create(CultureInfo.InvariantCulture, $"{UsedWord} {u.Key} {u.Value}\n")),
        ]);

    // A line that isn't whole is as if it weren't there.
    private static (List<(string Run, string Secret)> Runs, Dictionary<string, long> Used) Parse(string? text)
    {
        List<(string, string)> runs = [];
        Dictionary<string, long> used = [];
        foreach (string line in (text ?? "").Split('\n'))
            if (line.Split(' ') is [RunWord, { Length: 43 } run, { Length: 43 } secret]) runs.Add((run, secret));
            else if (line.Split(' ') is [UsedWord, { Length: > 0 } id, var until]
                && long.TryParse(until, NumberStyles.None, CultureInfo.InvariantCulture, out long at)) used[id] = at;
        return (runs, used);
    }
}
