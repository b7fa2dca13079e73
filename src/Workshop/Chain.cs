using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// The statements over one table of revisions. Table and column names are constants of <see cref="Kind{T}"/>; everything
/// that comes from outside goes in as a parameter.
/// </summary>
internal sealed class Chain<T>(Kind<T> kind)
    where T : class
{
    private readonly string columns =
        $"r.{kind.Owner}, r.n, r.parent, r.edit_id, r.at_utc, r.offset_min, r.cause, r.same_as, r.name, r.made_by";

    public Kind<T> Kind => kind;

    // A text is read together with whether its row is as it was written.
    private string Text => $"r.{kind.Text}, seal IS {RowSeal.Of(kind.Table)}";

    public Revision<T>? Newest(SqliteConnection db, long owner) =>
        Some(db, $"WHERE r.{kind.Owner} = @1 ORDER BY r.n DESC LIMIT 1", owner).FirstOrDefault();

    public Revision<T>? At(SqliteConnection db, long owner, int n) =>
        Some(db, $"WHERE r.{kind.Owner} = @1 AND r.n = @2", owner, n).FirstOrDefault();

    public Revision<T>? ByEdit(SqliteConnection db, string editId) =>
        Some(db, "WHERE r.edit_id = @1", editId).FirstOrDefault();

    /// <summary>The newest of every owner, in the owners' order.</summary>
    public List<Revision<T>> AllNewest(SqliteConnection db) =>
        Some(db, $"WHERE r.n = (SELECT max(n) FROM {kind.Table} WHERE {kind.Owner} = r.{kind.Owner}) ORDER BY r.{kind.Owner}");

    /// <summary>The whole chain, oldest first; without texts it is quick however long.</summary>
    public List<Revision<T>> History(SqliteConnection db, long owner, bool texts) =>
        db.All($"SELECT {columns}, {(texts ? Text : "'', 1")} FROM {kind.Table} r WHERE r.{kind.Owner} = @1 ORDER BY r.n", Row, owner);

    public void Add(SqliteConnection db, Revision<T> revision) =>
        db.Do($"""
            INSERT INTO {kind.Table} ({kind.Owner}, n, parent, edit_id, at_utc, offset_min, cause, same_as, name, made_by, {kind.Text}, seal)
            VALUES (@1, @2, @3, @4, @5, @6, @7, @8, @9, @10, @11, seal_of(@1, @2, @4, @5, @6, @7, @8, @9, @10, @11))
            """,
            revision.Owner, revision.N, revision.Parent, revision.EditId, Moment.Utc(revision.At), Moment.OffsetMinutes(revision.At),
            revision.Cause, revision.SameAs, revision.Name, revision.MadeBy, revision.Text);

    /// <summary>
    /// The revision whose state an undo of the newest would bring back. A state is named by the revision that made it
    /// first: s(n) = same_as(n), or n where that is null. Before state p came s(parent(p)).
    /// </summary>
    public int? UndoTarget(SqliteConnection db, long owner, int newest) =>
        (int?)db.Number($"""
            SELECT coalesce(b.same_as, b.n)
            FROM {kind.Table} r
            JOIN {kind.Table} p ON p.{kind.Owner} = r.{kind.Owner} AND p.n = coalesce(r.same_as, r.n)
            JOIN {kind.Table} b ON b.{kind.Owner} = r.{kind.Owner} AND b.n = p.parent
            WHERE r.{kind.Owner} = @1 AND r.n = @2
            """, owner, newest);

    /// <summary>
    /// The revision that a redo would bring back: of the states that were made from the present one, the latest. A fresh
    /// edit has none, so it ends what could be redone.
    /// </summary>
    public int? RedoTarget(SqliteConnection db, long owner, int newest) =>
        (int?)db.Number($"""
            SELECT max(c.n)
            FROM {kind.Table} r
            JOIN {kind.Table} c ON c.{kind.Owner} = r.{kind.Owner} AND c.n > coalesce(r.same_as, r.n) AND c.same_as IS NULL
            JOIN {kind.Table} b ON b.{kind.Owner} = r.{kind.Owner} AND b.n = c.parent
            WHERE r.{kind.Owner} = @1 AND r.n = @2 AND coalesce(b.same_as, b.n) = coalesce(r.same_as, r.n)
            """, owner, newest);

    private List<Revision<T>> Some(SqliteConnection db, string where, params object?[] values) =>
        db.All($"SELECT {columns}, {Text} FROM {kind.Table} r {where}", Row, values);

    private static Revision<T> Row(SqliteDataReader row) => new(
        row.GetInt64(0), row.GetInt32(1), row.GetInt32(2), row.GetString(3), Moment.Of(row.GetString(4), row.GetInt32(5)),
        row.GetString(6), row.IsDBNull(7) ? null : row.GetInt32(7), row.GetString(8), row.GetString(9), row.GetString(10), row.GetBoolean(11));
}

/// <summary>Moments as the store writes them: UTC as text that sorts, and the minutes that the maker's clock was off it.</summary>
internal static class Moment
{
    private const string Form = "yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'";

    /// <summary>Now, on the maker's clock, with its offset; whole minutes, as offsets are.</summary>
    public static DateTimeOffset Now(TimeProvider clock)
    {
        DateTimeOffset utc = clock.GetUtcNow();
        TimeSpan offset = clock.LocalTimeZone.GetUtcOffset(utc);
        return utc.ToOffset(TimeSpan.FromMinutes(Math.Round(offset.TotalMinutes)));
    }

    public static string Utc(DateTimeOffset at) => at.UtcDateTime.ToString(Form, CultureInfo.InvariantCulture);

    public static int OffsetMinutes(DateTimeOffset at) => (int)at.Offset.TotalMinutes;

    public static DateTimeOffset Of(string utc, int offsetMinutes) =>
        DateTimeOffset.ParseExact(utc, Form, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal).ToOffset(TimeSpan.FromMinutes(offsetMinutes));
}
