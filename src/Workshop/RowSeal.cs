using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// A checksum in every row, since SQLite keeps none: half a SHA-256 over the row's values, each with its length before it, so
/// that nothing can move from one value into the next. It stands against a disk that forgets, not against a forger.
/// </summary>
internal static class RowSeal
{
    /// <summary>Tables with what is sealed in each, in order; ids are given anew by an import and are not.</summary>
    public static readonly (string Table, string Columns)[] All =
    [
        .. new[] { (Kind.Lure.Table, Kind.Lure.Owner, Kind.Lure.Text), (Kind.Box.Table, Kind.Box.Owner, Kind.Box.Text) }
            .Select(k => (k.Table, $"{k.Owner}, n, edit_id, at_utc, offset_min, cause, same_as, name, made_by, {k.Text}")),
        ("batch", "edit_id, lure, n, name, at_utc, offset_min"),
        ("build", "edit_id, lure, n, batch, label, at_utc, offset_min"),
        ("log_entry", "build, edit_id, at_utc, offset_min, kind, strikes, entry"),
        ("photo", "edit_id, lure, view, type, width, height, at_utc, offset_min, bytes"),
        ("photo_place", "photo, away, place"),
    ];

    /// <summary>What a row's seal should be, as SQL; column by column of the row read or written.</summary>
    public static string Of(string table) => $"seal_of({All.First(t => t.Table == table).Columns})";

    /// <summary>Teaches a connection to seal.</summary>
    public static void Teach(SqliteConnection db) => db.CreateFunction("seal_of", (object?[] values) => Seal(values), isDeterministic: true);

    /// <summary>The first row that is not as it was written, in words, or null; a store from before seals has none to break.</summary>
    public static string? Broken(SqliteConnection db)
    {
        if (db.One("SELECT 1 FROM pragma_table_info('revision') WHERE name = 'seal'") is null) return null;
        foreach ((string table, _) in All)
            // A store from before it was brought up to date lacks the younger tables.
            if (db.One("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = @1", table) is not null
                && db.One($"SELECT id FROM {table} WHERE seal IS NOT {Of(table)} LIMIT 1") is { } id) return Said(table, id);
        return null;
    }

    public static string Said(string table, string id) => $"row {id} of {table} that is not as it was written";

    private static byte[] Seal(object?[] values)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> length = stackalloc byte[4];
        foreach (object? value in values)
        {
            byte[] bytes = value as byte[] ?? (value is null or DBNull ? [] : Encoding.UTF8.GetBytes(Convert.ToString(value, CultureInfo.InvariantCulture)!));
            BinaryPrimitives.WriteInt32LittleEndian(length, value is null or DBNull ? -1 : bytes.Length);
            hash.AppendData(length);
            hash.AppendData(bytes);
        }
        return hash.GetHashAndReset()[..16];
    }
}
