using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>Photos to trace over. One lies behind each view; a newer one covers the older, and nothing is ever removed.</summary>
public sealed partial class Store
{
    /// <summary>Takes a photo in. Its structure is looked at, its picture never decoded.</summary>
    /// <param name="lure">The lure.</param>
    /// <param name="view">"side" or "plan".</param>
    /// <param name="bytes">The file, JPEG or PNG.</param>
    /// <param name="place">Where it lies at first, JSON, from what it says it is.</param>
    /// <param name="editId">The edit; sent again it is kept once.</param>
    /// <returns>The photo, or why it can't be kept.</returns>
    public Reading<Photo> AddPhoto(long lure, string view, byte[] bytes, Func<PhotoHeader, string> place, string editId)
    {
        CheckEdit(editId, view);
        (PhotoHeader? header, Fault? fault) = PhotoHeader.Of(bytes);
        if (header is not { } found) return new(null, [fault!], []);
        return InTransaction<Reading<Photo>>(db =>
        {
            if (Photos.ByEdit(db, editId) is { } sent)
                return (sent.Lure == lure && sent.View == view && Photos.File(db, sent.Id)!.Value.Bytes.AsSpan().SequenceEqual(bytes) ? new(sent, [], []) : throw StoreRefusal.UsedId("photo", editId), false);
            if (db.Number("SELECT 1 FROM lure WHERE id = @1", lure) is null)
                return (new(null, [new Fault("photo", "lure", $"number {lure}", "a lure of this store", "Open the lure again from the home page.")], []), false);
            var photo = new Photo(0, editId, lure, view, found.Type, found.Width, found.Height, Moment.Now(clock), place(found), IsAway: false);
            return (new(Photos.Add(db, photo, bytes), [], []), true);
        });
    }

    /// <summary>Of each view the newest photo, also when it was taken away.</summary>
    public IReadOnlyList<Photo> PhotosOf(long lure) => Read(db => Photos.All(db, lure).GroupBy(p => p.View).Select(g => g.Last()).ToList());

    /// <summary>A photo's file and its type, null when there is none of that number.</summary>
    public (string Type, byte[] Bytes)? PhotoFile(long id) => Read(db => Photos.File(db, id));

    /// <summary>Lays a photo elsewhere, takes it away, or brings it back; false when there is none of that number.</summary>
    public bool LayPhoto(long id, string place, bool away) => InTransaction(db =>
    {
        if (db.Number("SELECT 1 FROM photo WHERE id = @1", id) is null) return (false, false);
        Photos.Lay(db, id, place, away);
        return (true, true);
    });
}

/// <summary>The statements over photos and their places.</summary>
internal static class Photos
{
    private const string Columns = "p.id, p.edit_id, p.lure, p.view, p.type, p.width, p.height, p.at_utc, p.offset_min, l.place, l.away";

    private static readonly string From = $"""
        SELECT {Columns}, l.seal IS seal_of(l.photo, l.away, l.place) FROM photo p
        JOIN photo_place l ON l.id = (SELECT max(id) FROM photo_place WHERE photo = p.id)
        """;

    /// <summary>Every photo of a lure, or of all, oldest first.</summary>
    public static List<Photo> All(SqliteConnection db, long? lure) => db.All($"{From} WHERE @1 IS NULL OR p.lure = @1 ORDER BY p.id", Row, lure);

    public static Photo? ByEdit(SqliteConnection db, string editId) => db.All($"{From} WHERE p.edit_id = @1", Row, editId).FirstOrDefault();

    // A photo is large, so it is held against its seal here alone, where it is read.
    public static (string Type, byte[] Bytes)? File(SqliteConnection db, long id) =>
        db.All($"SELECT type, bytes, seal IS {RowSeal.Of("photo")} FROM photo WHERE id = @1", row => row.GetBoolean(2)
            ? (row.GetString(0), row.GetFieldValue<byte[]>(1))
            : throw Damaged("photo", id), id) is [var found] ? found : null;

    public static Photo Add(SqliteConnection db, Photo p, byte[] bytes)
    {
        db.Do("""
            INSERT INTO photo (id, edit_id, lure, view, type, width, height, at_utc, offset_min, bytes, seal)
            VALUES (@1, @2, @3, @4, @5, @6, @7, @8, @9, @10, seal_of(@2, @3, @4, @5, @6, @7, @8, @9, @10))
            """,
            p.Id == 0 ? null : p.Id, p.EditId, p.Lure, p.View, p.Type, p.Width, p.Height, Moment.Utc(p.At), Moment.OffsetMinutes(p.At), bytes);
        long id = db.Number("SELECT last_insert_rowid()")!.Value;
        Lay(db, id, p.Place, p.IsAway);
        return p with { Id = id };
    }

    public static void Lay(SqliteConnection db, long photo, string place, bool away) =>
        db.Do("INSERT INTO photo_place (photo, away, place, seal) VALUES (@1, @2, @3, seal_of(@1, @2, @3))", photo, away ? 1 : 0, place);

    private static Photo Row(SqliteDataReader row) => row.GetBoolean(11)
        ? new(row.GetInt64(0), row.GetString(1), row.GetInt64(2), row.GetString(3), row.GetString(4), row.GetInt32(5), row.GetInt32(6),
            Moment.Of(row.GetString(7), row.GetInt32(8)), row.GetString(9), row.GetBoolean(10))
        : throw Damaged("photo_place of photo", row.GetInt64(0));

    private static StoreRefusal Damaged(string table, long id) =>
        StoreRefusal.Damaged(table, RowSeal.Said(table, id.ToString(System.Globalization.CultureInfo.InvariantCulture)));
}
