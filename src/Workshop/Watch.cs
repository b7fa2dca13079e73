using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// Notices what is committed, by whom ever. SQLite's data_version moves when another connection has committed; asking for
/// it reads a few bytes. What changed stands in the table of changes, which the database fills by itself.
/// </summary>
internal sealed class Watch : IDisposable
{
    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(250);

    private readonly Lock turn = new();
    private readonly Func<Func<SqliteConnection, IReadOnlyList<StoreChange>>, IReadOnlyList<StoreChange>> read;
    private readonly ITimer timer;
    private readonly Action<Exception> failed;
    private readonly List<Action<StoreChange>> watchers = [];
    private long version = -1;
    private long last;
    private string? mark;

    public Watch(Func<Func<SqliteConnection, IReadOnlyList<StoreChange>>, IReadOnlyList<StoreChange>> read, TimeProvider clock, Action<Exception> failed)
    {
        (this.read, this.failed) = (read, failed);
        Look();
        timer = clock.CreateTimer(_ => LookAgain(wait: false), null, Period, Period);
    }

    /// <summary>Calls back for each change from now on, one at a time and in order, on a thread of the pool.</summary>
    public IDisposable Add(Action<StoreChange> seen)
    {
        lock (watchers) watchers.Add(seen);
        return new Ended(() =>
        {
            lock (watchers) watchers.Remove(seen);
        });
    }

    /// <summary>Looks at once: after a commit of our own.</summary>
    public void Nudge() => ThreadPool.QueueUserWorkItem(_ => LookAgain(wait: true));

    // The timer does not wait behind a slow watcher: looks would pile up, each on a thread of its own.
    private void LookAgain(bool wait)
    {
        if (wait) turn.Enter();
        else if (!turn.TryEnter()) return;
        try
        {
            Look();
        }
        catch (Exception e) when (e is SqliteException or StoreRefusal or ObjectDisposedException)
        {
            // A disk away for a moment, or the store closing: the next look sees the same changes.
        }
        finally
        {
            turn.Exit();
        }
    }

    private void Look()
    {
        lock (turn)
        {
            IReadOnlyList<StoreChange> changes = read(Since);
            if (changes.Count == 0) return;
            Action<StoreChange>[] now;
            lock (watchers) now = [.. watchers];
            foreach (StoreChange change in changes)
                foreach (Action<StoreChange> watcher in now) Tell(watcher, change);
        }
    }

    // On a thread of the pool a watcher's own failure would end the whole process; the others are still told.
    private void Tell(Action<StoreChange> watcher, StoreChange change)
    {
        try
        {
            watcher(change);
        }
        catch (Exception e)
        {
            failed(e);
        }
    }

    private IReadOnlyList<StoreChange> Since(SqliteConnection db)
    {
        long seen = db.Number("PRAGMA data_version")!.Value;
        if (seen == version) return [];
        bool first = version < 0;
        bool other = !first && last > 0 && db.One("SELECT hex(mark) FROM change WHERE id = @1", last) != mark;
        List<(long Id, string Mark, StoreChange Change)> rows = first || other
            ? db.All("SELECT id, hex(mark), what, owner, n FROM change ORDER BY id DESC LIMIT 1", Row)
            : db.All("SELECT id, hex(mark), what, owner, n FROM change WHERE id > @1 ORDER BY id", Row, last);
        version = seen;
        if (other) (last, mark) = (0, null);
        if (rows.Count > 0) (last, mark) = (rows[^1].Id, rows[^1].Mark);
        return first ? [] : other ? [new StoreChange(ChangeOf.Everything, 0, 0)] : [.. rows.Select(r => r.Change)];
    }

    private static (long, string, StoreChange) Row(SqliteDataReader row) =>
        (row.GetInt64(0), row.GetString(1), new StoreChange(Enum.TryParse(row.GetString(2), ignoreCase: true, out ChangeOf of) ? of : ChangeOf.Everything, row.GetInt64(3), row.GetInt32(4)));

    public void Dispose()
    {
        timer.Dispose();
        lock (turn)
        {
            // A look under way ends before the connection does.
        }
    }

    private sealed class Ended(Action end) : IDisposable
    {
        public void Dispose() => end();
    }
}
