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
    /// A finished copy has no log. One that lies beside it is that of a store which lay there before, and SQLite would play it into
    /// the copy: so it is what somebody gets who copies a backup over a store. It is kept under another name.
    /// </summary>
    public static void PutStrayLogAside(string path, TimeProvider clock)
    {
        if (!StoreHeader.LogWaits(path)) return;
        File.Move(path + "-wal", Beside(path, "log-of-another", clock) + "-wal");
        Files.TryDelete(path + "-shm");
    }

    /// <summary>Copies a store that is not open here; see <see cref="Make(SqliteConnection, string, string)"/>.</summary>
    public static void Make(string store, string to)
    {
        SqliteConnection from;
        try
        {
            from = Connections.OpenForReading(store);
        }
        catch (SqliteException e)
        {
            throw StoreRefusal.Of(store, e);
        }
        using (from) Make(from, store, to);
    }

    /// <summary>
    /// Copies by SQLite's online backup into a file under another name, checks the copy, and only then gives it the name asked
    /// for: what bears that name is whole.
    /// </summary>
    /// <param name="from">Any connection to the store.</param>
    /// <param name="store">The store's name, for what is said of it.</param>
    /// <param name="to">The copy's.</param>
    public static void Make(SqliteConnection from, string store, string to)
    {
        try
        {
            using var whole = new WholeFiles(replace: true, forMe: true);
            string unfinished = whole.BeginAside(to);
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
            whole.Finish();
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(to, e);
        }
    }
}

/// <summary>Whether a store is whole.</summary>
internal static class Health
{
    /// <summary>What is wrong first, or null: pages and indexes, references, that every chain runs 1, 2, 3 … to its newest, and that texts are JSON.</summary>
    public static string? Of(SqliteConnection db)
    {
        if (OfItsFrame(db) is { } wrong) return wrong;
        foreach ((string name, string text) in (ReadOnlySpan<(string, string)>)[(Kind.Lure.Table, Kind.Lure.Text), (Kind.Box.Table, Kind.Box.Text)])
            if (db.One($"SELECT n FROM {name} WHERE NOT json_valid({text}) LIMIT 1") is { } n) return $"a text in {name} that is no JSON (revision {n})";
        return RowSeal.Broken(db) is { } broken ? "a " + broken : null;
    }

    /// <summary>Pages and indexes, references and chains; no row's own text.</summary>
    public static string? OfItsFrame(SqliteConnection db)
    {
        if (db.One("PRAGMA integrity_check(1)") != "ok") return "damage inside the store";
        if (db.One("SELECT \"table\" FROM pragma_foreign_key_check") is { } table) return $"a row of {table} that refers to nothing";
        foreach ((string name, string owner) in (ReadOnlySpan<(string, string)>)[(Kind.Lure.Table, Kind.Lure.Owner), (Kind.Box.Table, Kind.Box.Owner)])
            if (db.One($"SELECT {owner} FROM {name} GROUP BY {owner} HAVING max(n) <> count(*) OR min(n) <> 1") is { } gap) return $"a gap in {name} of {owner} {gap}";
        return null;
    }
}
