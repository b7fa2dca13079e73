using System.Reflection;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// What a maker keeps between sessions. A write that returned <see cref="Saved{T}.Done"/> is on the disk and survives a
/// killed program or a pulled plug. Safe from any thread: one writer at a time, readers beside it. A call that the machine
/// refuses throws <see cref="StoreRefusal"/>, with nothing half done.
/// </summary>
public sealed partial class Store : IDisposable
{
    private readonly Lock writing = new(), reading = new();
    private readonly SqliteConnection? writer;
    private readonly SqliteConnection reader;
    private readonly InPlace? place;
    private readonly TimeProvider clock;
    private readonly Watch? watch;
    private readonly int version;
    private bool closed;

    private Store(string path, SqliteConnection writer, SqliteConnection reader, InPlace? place, TimeProvider clock, int version, string? copy)
    {
        (Path, this.writer, this.reader, this.place, this.clock, this.version, CopyBeforeMigration) = (path, writer, reader, place, clock, version, copy);
        asItLies = reader;
        watch = new Watch(Read, clock, e => WatcherFailed?.Invoke(e));
    }

    /// <summary>The store's version of the database that this program keeps.</summary>
    public static int Version => Migrations.Ours.Newest;

    /// <summary>The version of Trimwright, written beside every revision.</summary>
    public static string Program { get; } = typeof(Store).Assembly.GetName().Version!.ToString(3);

    /// <summary>The database's file, with its whole path, at the end of whatever links lead to it.</summary>
    public string Path { get; }

    /// <summary>Where the store lies as it was, when opening it brought an older one up to date.</summary>
    public string? CopyBeforeMigration { get; }

    /// <summary>Opens a store, makes one where there is none, and brings an older one up to date after copying it whole.</summary>
    /// <param name="path">Its file; <see cref="DataFolder.StoreFile"/> is the usual one.</param>
    /// <param name="clock">The maker's clock; the system's when left out.</param>
    public static Store Open(string path, TimeProvider? clock = null) => Open(path, clock ?? TimeProvider.System, Migrations.Ours);

    /// <param name="path">Its file.</param>
    /// <param name="clock">The maker's clock.</param>
    /// <param name="migrations">Up to the version of the program that opens it.</param>
    /// <param name="watchful">Whether it is held against what stands at its path; without that, what this costs can be measured.</param>
    internal static Store Open(string path, TimeProvider clock, Migrations migrations, bool watchful = true)
    {
        SqliteConnection? writer = null, reader = null;
        try
        {
            string asked = System.IO.Path.GetFullPath(path);
            path = Files.Real(asked);
            if (StoreHeader.Admit(path, migrations.Newest) is not { } header)
            {
                Files.MakeFolder(System.IO.Path.GetDirectoryName(path)!);
                Copies.PutStrayLogAside(path, clock);
                Files.Create(path, FileMode.OpenOrCreate, FileShare.ReadWrite).Dispose();
            }
            else if (!header.HasLog) Copies.PutStrayLogAside(path, clock);
            FileMark? before = FileMark.Of(path);
            if (before is { Names: > 1 and var names }) throw StoreRefusal.TwoNames(path, names);
            writer = Connections.OpenForWriting(path);
            string? copy = migrations.Bring(writer, path, clock);
            reader = Connections.OpenForReading(path);
            InPlace? place = watchful ? new InPlace(asked, path, before, writer) : null;
            return new Store(path, writer, reader, place, clock, migrations.Newest, copy);
        }
        catch (Exception e)
        {
            reader?.Dispose();
            writer?.Dispose();
            if (e is SqliteException or IOException or UnauthorizedAccessException) throw StoreRefusal.Of(path, e);
            throw;
        }
    }

    /// <summary>
    /// Calls back for each change committed from now on, by this process or another, in order: at once for our own, within a
    /// second for others'. Dispose what is returned to end it.
    /// </summary>
    public IDisposable Watch(Action<StoreChange> seen) => (watch ?? throw OnlyRead()).Add(seen);

    /// <summary>A watcher threw. It is called again at the next change, as the others are; what it threw ends here.</summary>
    public event Action<Exception>? WatcherFailed;

    /// <summary>Settings of both connections as SQLite reads them back, for whoever wants to see them.</summary>
    public IReadOnlyList<(string Connection, string Name, string Value)> ReadBackSettings() =>
    [
        .. Write(db => Back("writer", db)),
        .. Read(db => Back("reader", db)),
    ];

    private static List<(string, string, string)> Back(string which, SqliteConnection db) =>
        [.. Connections.Settings.Select(s => (which, s.Name, db.One($"PRAGMA {s.Name}") ?? ""))];

    private T Read<T>(Func<SqliteConnection, T> work)
    {
        lock (reading) return Guard(() => work(reader));
    }

    // Several questions about one moment: between two of them another program may have written.
    private T ReadAtOnce<T>(Func<SqliteConnection, T> work) => Read(db =>
    {
        using SqliteTransaction oneMoment = db.BeginTransaction(deferred: true);
        return work(db);
    });

    private T Write<T>(Func<SqliteConnection, T> work)
    {
        lock (writing) return Guard(() => work(writer ?? throw OnlyRead()));
    }

    private static InvalidOperationException OnlyRead() => new("this store was opened to be read");

    /// <summary>One transaction that holds the right to write from its start; kept when the work says so, else undone.</summary>
    private T InTransaction<T>(Func<SqliteConnection, (T Answer, bool Keep)> work)
    {
        try
        {
            (T answer, bool keep) = Write(db =>
            {
                using SqliteTransaction transaction = db.BeginTransaction(deferred: false);
                place?.BeforeWriting(db);
                // A newer program may have brought the store up to date under our hands.
                if (db.Number("PRAGMA user_version") is { } now && now != version) throw StoreRefusal.TooNew(Path, now, version);
                (T Answer, bool Keep) done = work(db);
                if (done.Keep)
                {
                    place?.Remember(db);
                    transaction.Commit();
                }
                place?.BeforeAcknowledging();
                return done;
            });
            if (keep) watch?.Nudge();
            return answer;
        }
        catch (StoreRefusal e) when (e.Cause == RefusalCause.Moved)
        {
            BringLogHome();
            throw;
        }
    }

    // Only the log's name is gone: what was acknowledged stands in it alone and would end with this process.
    private void BringLogHome()
    {
        if (place is not { LacksItsLogOnly: true }) return;
        try
        {
            Write(db => db.One("PRAGMA wal_checkpoint(FULL)"));
        }
        catch (StoreRefusal)
        {
            // What led here is on its way to the maker; closing the store tries once more.
        }
    }

    private T Guard<T>(Func<T> work)
    {
        ObjectDisposedException.ThrowIf(closed, this);
        try
        {
            return work();
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(Path, e);
        }
    }

    public void Dispose()
    {
        watch?.Dispose();
        lock (writing)
            lock (reading)
            {
                if (closed) return;
                closed = true;
                if (place is { LacksItsLogOnly: false } && !place.Stands(writer!))
                {
                    Connections.LeaveLog(reader);
                    Connections.LeaveLog(writer!);
                }
                if (asItLies != reader) asItLies.Dispose();
                reader.Dispose();
                writer?.Dispose();
            }
    }
}
