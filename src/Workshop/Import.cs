using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>
/// Adds what a store lacks. A lure is known again by its first edit, a build, batch or entry by its own; a chain that only
/// went on is continued, one that went another way is left as it is here and named. Numbers stay where they are free.
/// </summary>
internal sealed class Import(SqliteConnection db)
{
    private readonly Dictionary<long, long> lures = [], batches = [], builds = [], entries = [];
    private readonly List<string> differing = [];
    private int newLures, revisions, newBuilds, newEntries, newPhotos;

    public Imported Add(ExportFile file)
    {
        var box = new Chain<MakersBox>(Kind.Box);
        if (!Continue(box, 1, file.Box)) differing.Add("the box");
        foreach (ExportedLure lure in file.Lures) Add(lure);
        foreach (Batch batch in file.Batches) Add(batch);
        foreach (Build build in file.Builds) Add(build);
        foreach (LogEntry entry in file.Entries) Add(entry);
        foreach ((Photo photo, byte[] bytes) in file.Photos) Add(photo, bytes);
        return new Imported(newLures, revisions, newBuilds, newEntries, newPhotos, differing);
    }

    private void Add(ExportedLure lure)
    {
        var chain = new Chain<LureDesign>(Kind.Lure);
        if (chain.ByEdit(db, lure.Revisions[0].EditId) is { } known && known.N == 1)
        {
            if (Continue(chain, known.Owner, lure.Revisions)) lures[lure.Id] = known.Owner;
            else differing.Add(lure.Revisions[^1].Name);
            return;
        }
        if (lure.Revisions.Any(r => chain.ByEdit(db, r.EditId) is not null))
        {
            differing.Add(lure.Revisions[^1].Name);
            return;
        }
        db.Do("INSERT INTO lure (id, put_away_at) VALUES (@1, @2)", Free("lure", lure.Id), lure.PutAwayAt);
        lures[lure.Id] = db.Number("SELECT last_insert_rowid()")!.Value;
        newLures++;
        Continue(chain, lures[lure.Id], lure.Revisions);
    }

    /// <summary>Appends what comes after what is there; false, and nothing done, when the two went different ways.</summary>
    private bool Continue<T>(Chain<T> chain, long owner, IReadOnlyList<Revision<T>> theirs)
        where T : class
    {
        List<Revision<T>> ours = chain.History(db, owner, texts: false);
        for (int i = 0; i < Math.Min(ours.Count, theirs.Count); i++)
            if (ours[i].EditId != theirs[i].EditId || !IsSame(chain.At(db, owner, i + 1)!.Text, theirs[i].Text)) return false;
        if (theirs.Skip(ours.Count).Any(r => chain.ByEdit(db, r.EditId) is not null)) return false;
        foreach (Revision<T> next in theirs.Skip(ours.Count))
        {
            chain.Add(db, next with { Owner = owner });
            revisions++;
        }
        return true;
    }

    // An export that another program laid out anew says the same.
    private static bool IsSame(string ours, string theirs) => ours == theirs || JsonNode.DeepEquals(JsonNode.Parse(ours), JsonNode.Parse(theirs));

    private void Add(Batch batch)
    {
        if (!lures.TryGetValue(batch.Lure, out long lure)) return;
        batches[batch.Id] = Logs.BatchByEdit(db, batch.EditId) is { } known
            ? known.Id
            : Logs.Add(db, batch with { Id = Free("batch", batch.Id) ?? 0, Lure = lure }).Id;
    }

    private void Add(Build build)
    {
        if (!lures.TryGetValue(build.Lure, out long lure)) return;
        if (Logs.BuildByEdit(db, build.EditId) is { } known)
        {
            builds[build.Id] = known.Id;
            return;
        }
        long? batch = build.Batch is { } b ? batches[b] : null;
        builds[build.Id] = Logs.Add(db, build with { Id = Free("build", build.Id) ?? 0, Lure = lure, Batch = batch }).Id;
        newBuilds++;
    }

    private void Add(LogEntry entry)
    {
        if (!builds.TryGetValue(entry.Build, out long build)) return;
        if (Logs.EntryByEdit(db, entry.EditId) is { } known)
        {
            entries[entry.Id] = known.Id;
            return;
        }
        long? strikes = entry.Strikes is { } old ? entries[old] : null;
        entries[entry.Id] = Logs.Add(db, entry with { Id = Free("log_entry", entry.Id) ?? 0, Build = build, Strikes = strikes }).Id;
        newEntries++;
    }

    private void Add(Photo photo, byte[] bytes)
    {
        if (!lures.TryGetValue(photo.Lure, out long lure) || Photos.ByEdit(db, photo.EditId) is not null) return;
        Photos.Add(db, photo with { Id = Free("photo", photo.Id) ?? 0, Lure = lure }, bytes);
        newPhotos++;
    }

    // The number itself while nobody here has it, else none: then the store chooses.
    private long? Free(string table, long id) => db.Number($"SELECT 1 FROM {table} WHERE id = @1", id) is null ? id : null;
}
