using System.Globalization;
using System.Reflection;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// Brings a store to the program's version by plain SQL files, in order, in one transaction with the version number. Before
/// an older store is touched it is copied whole; a migration that fails leaves it as it was.
/// </summary>
internal sealed class Migrations(IReadOnlyList<string> scripts)
{
    private const string Prefix = "migrations/";

    /// <summary>Those of this program.</summary>
    public static readonly Migrations Ours = new(Embedded());

    /// <summary>The version that a store has after all of them.</summary>
    public int Newest => scripts.Count;

    /// <summary>Returns the path of the copy made before, or null when nothing had to be done or nothing was there.</summary>
    public string? Bring(SqliteConnection writer, string path, TimeProvider clock, bool keepCopy = true)
    {
        if (Version(writer) == Newest) return null;
        using SqliteTransaction all = writer.BeginTransaction(deferred: false);
        // Asked again: another process may have been quicker. From here on nobody else writes.
        int from = Version(writer);
        if (from > Newest) throw StoreRefusal.TooNew(path, from, Newest);
        if (from == Newest) return null;
        string? copy = from == 0 || !keepCopy ? null : Copies.Beside(path, string.Create(CultureInfo.InvariantCulture, $"before-v{Newest}"), clock);
        if (copy is not null) Copies.Make(path, copy);
        for (int version = from; version < Newest; version++) writer.Do(scripts[version]);
        writer.Do(string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {StoreHeader.Ours}"));
        writer.Do(string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {Newest}"));
        all.Commit();
        return copy;
    }

    /// <summary>The first table, index or trigger that is not what our scripts make for the store's version, or null.</summary>
    public string? Differs(SqliteConnection db)
    {
        using var plain = new SqliteConnection("Data Source=:memory:;Pooling=False");
        plain.Open();
        RowSeal.Teach(plain);
        foreach (string script in scripts.Take(Version(db))) plain.Do(script);
        (string Name, string Sql)[] ours = Schema(plain), theirs = Schema(db);
        return ours.Except(theirs).Concat(theirs.Except(ours)).Select(s => s.Name).FirstOrDefault();
    }

    private static (string Name, string Sql)[] Schema(SqliteConnection db) =>
        [.. db.All("SELECT type || ' ' || name, coalesce(sql, '') FROM sqlite_schema ORDER BY 1", row => (row.GetString(0), row.GetString(1)))];

    private static int Version(SqliteConnection db) => (int)db.Number("PRAGMA user_version")!.Value;

    private static string[] Embedded()
    {
        Assembly here = typeof(Migrations).Assembly;
        string[] names = [.. here.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
        return [.. names.Select(name =>
        {
            using var text = new StreamReader(here.GetManifestResourceStream(name)!);
            return text.ReadToEnd();
        })];
    }
}
