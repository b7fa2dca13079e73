using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>Whole copies of a store, each one file without a log beside it, made while others read and write.</summary>
internal static class Copies
{
    public const string Ending = ".trimwright";

    /// <summary>A free name beside the store: <c>workshop-before-v2-20261125T131500Z.trimwright</c>.</summary>
    public static string Beside(string store, string why, TimeProvider clock)
    {
        string stem = Path.Combine(Path.GetDirectoryName(store)!, Path.GetFileNameWithoutExtension(store));
        string name = stem + "-" + why + "-" + clock.GetUtcNow().UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);
        string path = name + Ending;
        for (int i = 2; File.Exists(path); i++) path = string.Create(CultureInfo.InvariantCulture, $"{name}-{i}{Ending}");
        return path;
    }

    /// <summary>
    /// Copies by SQLite's online backup into a file under another name, checks the copy, and only then gives it the name asked
    /// for: what bears that name is whole.
    /// </summary>
    public static void Make(string store, string to)
    {
        string unfinished = to + ".unfinished";
        try
        {
            Files.MakePrivate(unfinished);
            using (SqliteConnection from = Connections.OpenForReading(store))
            using (SqliteConnection copy = Connections.OpenPlain(unfinished))
            {
                from.BackupDatabase(copy);
                // The copied header asks for a log beside the file; a backup is one file.
                copy.Do("PRAGMA synchronous = FULL");
                copy.Do("PRAGMA fullfsync = ON");
                copy.Do("PRAGMA journal_mode = DELETE");
                if (Health.Of(copy) is { } damage) throw StoreRefusal.Damaged(store, damage);
            }
            Seal.Put(unfinished);
            Files.Name(unfinished, to);
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            Files.TryDelete(unfinished, unfinished + "-journal");
            throw StoreRefusal.Of(to, e);
        }
        catch (StoreRefusal)
        {
            Files.TryDelete(unfinished, unfinished + "-journal");
            throw;
        }
    }
}

/// <summary>Whether a store is whole.</summary>
internal static class Health
{
    /// <summary>What is wrong first, or null: pages and indexes, references, that every chain runs 1, 2, 3 … to its newest, and that texts are JSON.</summary>
    public static string? Of(SqliteConnection db)
    {
        if (db.One("PRAGMA integrity_check(1)") is var pages && pages != "ok") return $"damage inside ({pages})";
        if (db.One("SELECT \"table\" FROM pragma_foreign_key_check") is { } table) return $"a row of {table} that refers to nothing";
        foreach ((string name, string owner) in (ReadOnlySpan<(string, string)>)[(Kind.Lure.Table, Kind.Lure.Owner), (Kind.Box.Table, Kind.Box.Owner)])
            if (db.One($"SELECT {owner} FROM {name} GROUP BY {owner} HAVING max(n) <> count(*) OR min(n) <> 1") is { } gap) return $"a gap in {name} of {owner} {gap}";
        foreach ((string name, string text) in (ReadOnlySpan<(string, string)>)[(Kind.Lure.Table, Kind.Lure.Text), (Kind.Box.Table, Kind.Box.Text)])
            if (db.One($"SELECT n FROM {name} WHERE NOT json_valid({text}) LIMIT 1") is { } n) return $"a text in {name} that is no JSON (revision {n})";
        return RowSeal.Broken(db) is { } broken ? "a " + broken : null;
    }
}
