using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>Builds, their logs, and batches. Adding never conflicts; the same edit sent again is kept once, another under its id is refused.</summary>
public sealed partial class Store
{
    /// <summary>The kind of an entry that only takes an earlier one back.</summary>
    public const string StruckOut = "struck-out";

    /// <summary>Begins a build of a revision; null when there is no such revision or batch.</summary>
    public Build? NewBuild(long lure, int n, string label, string editId, long? batch = null)
    {
        CheckEdit(editId, label);
        return InTransaction(db =>
        {
            if (Logs.BuildByEdit(db, editId) is { } sent) return (sent.Lure == lure && sent.N == n && sent.Label == label && sent.Batch == batch ? sent : throw StoreRefusal.UsedId("build", editId), false);
            if (LureChain.At(db, lure, n) is null || (batch is { } b && Logs.Batches(db).All(x => x.Id != b))) return ((Build?)null, false);
            return (Logs.Add(db, new Build(0, editId, lure, n, batch, label, Moment.Now(clock))), true);
        });
    }

    /// <summary>Begins a batch with its builds, one for each label; null when there is no such revision.</summary>
    public Batch? NewBatch(long lure, int n, string name, IReadOnlyList<string> labels, string editId)
    {
        CheckEdit(editId, name);
        return InTransaction(db =>
        {
            if (Logs.BatchByEdit(db, editId) is { } sent) return (sent.Lure == lure && sent.N == n && sent.Name == name ? sent : throw StoreRefusal.UsedId("batch", editId), false);
            if (LureChain.At(db, lure, n) is null) return ((Batch?)null, false);
            Batch batch = Logs.Add(db, new Batch(0, editId, lure, n, name, Moment.Now(clock)));
            foreach (string label in labels) Logs.Add(db, new Build(0, EditId.New(), lure, n, batch.Id, label, batch.At));
            return (batch, true);
        });
    }

    /// <summary>Every build, or those of a lure, oldest first.</summary>
    public IReadOnlyList<Build> Builds(long? lure = null) => Read(db => Logs.Builds(db, lure));

    /// <summary>Every batch, oldest first.</summary>
    public IReadOnlyList<Batch> Batches() => Read(Logs.Batches);

    /// <summary>Writes an entry into a build's log; null when there is no such build, or no such entry of it to take back.</summary>
    /// <param name="build">The build.</param>
    /// <param name="kind">What sort of entry.</param>
    /// <param name="json">The entry, a JSON value.</param>
    /// <param name="editId">The edit.</param>
    /// <param name="at">When it was measured; now when left out. A phone sends readings later than it takes them.</param>
    /// <param name="strikes">An earlier entry of the same build that this one takes the place of.</param>
    public LogEntry? Log(long build, string kind, string json, string editId, DateTimeOffset? at = null, long? strikes = null)
    {
        CheckEdit(editId, kind);
        using (JsonDocument.Parse(json))
        {
            // Only that it is JSON; what it says is judged by whoever knows its kind.
        }
        return InTransaction(db =>
        {
            if (Logs.EntryByEdit(db, editId) is { } sent)
                return (sent.Build == build && sent.Kind == kind && sent.Json == json && sent.Strikes == strikes ? sent : throw StoreRefusal.UsedId("entry", editId), false);
            if (Logs.Builds(db, null).All(b => b.Id != build)) return ((LogEntry?)null, false);
            if (strikes is { } old && Logs.Of(db, build).All(e => e.Id != old)) return (null, false);
            return (Logs.Add(db, new LogEntry(0, build, editId, at ?? Moment.Now(clock), kind, strikes, json)), true);
        });
    }

    /// <summary>Takes an entry back; it stays in the log, struck out.</summary>
    public LogEntry? Strike(long build, long entry, string editId) => Log(build, StruckOut, "{}", editId, null, entry);

    /// <summary>A build's log in the order in which it was written, with whether a later entry took each one back.</summary>
    public IReadOnlyList<(LogEntry Entry, bool IsStruckOut)> LogOf(long build) => Read(db =>
    {
        List<LogEntry> entries = Logs.Of(db, build);
        HashSet<long> struck = [.. entries.Select(e => e.Strikes).OfType<long>()];
        return entries.Select(e => (e, struck.Contains(e.Id))).ToList();
    });
}

/// <summary>The statements over builds, batches and log entries.</summary>
internal static class Logs
{
    private const string BatchColumns = "id, edit_id, lure, n, name, at_utc, offset_min";
    private const string BuildColumns = "id, edit_id, lure, n, batch, label, at_utc, offset_min";
    private const string EntryColumns = "id, build, edit_id, at_utc, offset_min, kind, strikes, entry";

    public static List<Build> Builds(SqliteConnection db, long? lure) =>
        db.All($"SELECT {BuildColumns}, {Whole("build")} FROM build WHERE @1 IS NULL OR lure = @1 ORDER BY id", BuildRow, lure);

    public static Build? BuildByEdit(SqliteConnection db, string editId) =>
        db.All($"SELECT {BuildColumns}, {Whole("build")} FROM build WHERE edit_id = @1", BuildRow, editId).FirstOrDefault();

    public static List<Batch> Batches(SqliteConnection db) => Batches(db, "");

    private static List<Batch> Batches(SqliteConnection db, string where, params object?[] values) =>
        db.All($"SELECT {BatchColumns}, {Whole("batch")} FROM batch {where} ORDER BY id", row =>
            new Batch(Sound(row, "batch"), row.GetString(1), row.GetInt64(2), row.GetInt32(3), row.GetString(4), Moment.Of(row.GetString(5), row.GetInt32(6))), values);

    public static Batch? BatchByEdit(SqliteConnection db, string editId) => Batches(db, "WHERE edit_id = @1", editId).FirstOrDefault();

    public static List<LogEntry> Of(SqliteConnection db, long build) =>
        db.All($"SELECT {EntryColumns}, {Whole("log_entry")} FROM log_entry WHERE build = @1 ORDER BY id", EntryRow, build);

    public static LogEntry? EntryByEdit(SqliteConnection db, string editId) =>
        db.All($"SELECT {EntryColumns}, {Whole("log_entry")} FROM log_entry WHERE edit_id = @1", EntryRow, editId).FirstOrDefault();

    // An id of 0 asks for the next free one.
    public static Batch Add(SqliteConnection db, Batch b)
    {
        db.Do("INSERT INTO batch (id, edit_id, lure, n, name, at_utc, offset_min, seal) VALUES (@1, @2, @3, @4, @5, @6, @7, seal_of(@2, @3, @4, @5, @6, @7))",
            Free(b.Id), b.EditId, b.Lure, b.N, b.Name, Moment.Utc(b.At), Moment.OffsetMinutes(b.At));
        return b with { Id = Added(db) };
    }

    public static Build Add(SqliteConnection db, Build b)
    {
        db.Do($"INSERT INTO build ({BuildColumns}, seal) VALUES (@1, @2, @3, @4, @5, @6, @7, @8, seal_of(@2, @3, @4, @5, @6, @7, @8))",
            Free(b.Id), b.EditId, b.Lure, b.N, b.Batch, b.Label, Moment.Utc(b.At), Moment.OffsetMinutes(b.At));
        return b with { Id = Added(db) };
    }

    public static LogEntry Add(SqliteConnection db, LogEntry e)
    {
        db.Do($"INSERT INTO log_entry ({EntryColumns}, seal) VALUES (@1, @2, @3, @4, @5, @6, @7, @8, seal_of(@2, @3, @4, @5, @6, @7, @8))",
            Free(e.Id), e.Build, e.EditId, Moment.Utc(e.At), Moment.OffsetMinutes(e.At), e.Kind, e.Strikes, e.Json);
        return e with { Id = Added(db) };
    }

    private static object? Free(long id) => id == 0 ? null : id;

    private static long Added(SqliteConnection db) => db.Number("SELECT last_insert_rowid()")!.Value;

    private static string Whole(string table) => $"seal IS {RowSeal.Of(table)}";

    // The last column says whether the row is as it was written; the first is its id.
    private static long Sound(SqliteDataReader row, string table) => row.GetBoolean(row.FieldCount - 1)
        ? row.GetInt64(0)
        : throw StoreRefusal.Damaged(table, RowSeal.Said(table, row.GetInt64(0).ToString(System.Globalization.CultureInfo.InvariantCulture)));

    private static Build BuildRow(SqliteDataReader row) => new(
        Sound(row, "build"), row.GetString(1), row.GetInt64(2), row.GetInt32(3), row.IsDBNull(4) ? null : row.GetInt64(4), row.GetString(5),
        Moment.Of(row.GetString(6), row.GetInt32(7)));

    private static LogEntry EntryRow(SqliteDataReader row) => new(
        Sound(row, "log_entry"), row.GetInt64(1), row.GetString(2), Moment.Of(row.GetString(3), row.GetInt32(4)), row.GetString(5),
        row.IsDBNull(6) ? null : row.GetInt64(6), row.GetString(7));
}
