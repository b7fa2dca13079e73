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

    /// <summary>What was added so far.</summary>
    public Imported Done => new(newLures, revisions, newBuilds, newEntries, newPhotos, differing);

    public void AddBox(IEnumerable<Revision<MakersBox>> theirs)
    {
        using IEnumerator<Revision<MakersBox>> each = theirs.GetEnumerator();
        if (!each.MoveNext()) return;
        db.Do("SAVEPOINT before");
        if (!Continue(new Chain<MakersBox>(Kind.Box), 1, each).Same)
        {
            db.Do("ROLLBACK TO before");
            differing.Add("the box");
        }
        db.Do("RELEASE before");
    }

    /// <summary>A lure with its revisions, of which there is one at least and the first is at hand.</summary>
    public void AddLure(long id, string? putAwayAt, IEnumerator<Revision<LureDesign>> theirs)
    {
        var chain = new Chain<LureDesign>(Kind.Lure);
        long? known = chain.ByEdit(db, theirs.Current.EditId) is { N: 1 } first ? first.Owner : null;
        db.Do("SAVEPOINT before");
        if (known is null) db.Do("INSERT INTO lure (id, put_away_at) VALUES (@1, @2)", Free("lure", id), putAwayAt);
        long owner = known ?? db.Number("SELECT last_insert_rowid()")!.Value;
        (bool same, string name) = Continue(chain, owner, theirs);
        if (same)
        {
            lures[id] = owner;
            if (known is null) newLures++;
        }
        else
        {
            db.Do("ROLLBACK TO before");
            differing.Add(name);
        }
        db.Do("RELEASE before");
    }

    /// <summary>
    /// Appends what comes after what is there. Not the same when the two went different ways: then what was done here is to be
    /// undone, but the rest of theirs is read all the same, since a fault in it means that nothing of the file is taken in.
    /// </summary>
    private (bool Same, string Name) Continue<T>(Chain<T> chain, long owner, IEnumerator<Revision<T>> theirs)
        where T : class
    {
        List<Revision<T>> ours = chain.History(db, owner, texts: false);
        int before = revisions;
        bool same = true;
        Revision<T> next;
        do
        {
            next = theirs.Current;
            if (!same) continue;
            if (next.N <= ours.Count) same = ours[next.N - 1].EditId == next.EditId && IsSame(chain.At(db, owner, next.N)!.Text, next.Text);
            else if (chain.ByEdit(db, next.EditId) is not null) same = false;
            else
            {
                chain.Add(db, next with { Owner = owner });
                revisions++;
            }
        }
        while (theirs.MoveNext());
        if (!same) revisions = before;
        return (same, next.Name);
    }

    // An export that another program laid out anew says the same.
    private static bool IsSame(string ours, string theirs) => ours == theirs || JsonNode.DeepEquals(JsonNode.Parse(ours), JsonNode.Parse(theirs));

    public void Add(Batch batch)
    {
        if (!lures.TryGetValue(batch.Lure, out long lure)) return;
        Batch mine = batch with { Lure = lure };
        if (Logs.BatchByEdit(db, batch.EditId) is { } known)
        {
            batches[batch.Id] = known.Id;
            if (known != mine with { Id = known.Id }) differing.Add($"batch {known.Id}, {known.Name}");
            return;
        }
        batches[batch.Id] = Logs.Add(db, mine with { Id = Free("batch", batch.Id) ?? 0 }).Id;
    }

    public void Add(Build build)
    {
        if (!lures.TryGetValue(build.Lure, out long lure)) return;
        Build mine = build with { Lure = lure, Batch = build.Batch is { } b ? batches[b] : null };
        if (Logs.BuildByEdit(db, build.EditId) is { } known)
        {
            builds[build.Id] = known.Id;
            if (known != mine with { Id = known.Id }) differing.Add($"build {known.Id}, {known.Label}");
            return;
        }
        builds[build.Id] = Logs.Add(db, mine with { Id = Free("build", build.Id) ?? 0 }).Id;
        newBuilds++;
    }

    public void Add(LogEntry entry)
    {
        if (!builds.TryGetValue(entry.Build, out long build)) return;
        LogEntry mine = entry with { Build = build, Strikes = entry.Strikes is { } old ? entries[old] : null };
        if (Logs.EntryByEdit(db, entry.EditId) is { } known)
        {
            entries[entry.Id] = known.Id;
            if (known != mine with { Id = known.Id, Json = known.Json } || !IsSame(known.Json, mine.Json)) differing.Add($"log entry {known.Id}");
            return;
        }
        entries[entry.Id] = Logs.Add(db, mine with { Id = Free("log_entry", entry.Id) ?? 0 }).Id;
        newEntries++;
    }

    public void Add(Photo photo, byte[] bytes)
    {
        if (!lures.TryGetValue(photo.Lure, out long lure)) return;
        if (Photos.ByEdit(db, photo.EditId) is { } known)
        {
            // Where it lies may have changed since; the photo itself can't have.
            if (known.Lure != lure || known.View != photo.View || !Photos.File(db, known.Id)!.Value.Bytes.AsSpan().SequenceEqual(bytes)) differing.Add($"photo {known.Id}");
            return;
        }
        Photos.Add(db, photo with { Id = Free("photo", photo.Id) ?? 0, Lure = lure }, bytes);
        newPhotos++;
    }

    // The number itself while nobody here has it, else none: then the store chooses.
    private long? Free(string table, long id) => db.Number($"SELECT 1 FROM {table} WHERE id = @1", id) is null ? id : null;
}
