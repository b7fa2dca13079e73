using System.Globalization;
using System.Reflection;
using Microsoft.Data.Sqlite;
using SQLitePCL;

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

    /// <summary>Called before each thing that is done to a store, with what it is: for tests that let it end there.</summary>
    public Action<string>? Before { get; init; }

    /// <summary>The same, with somebody who is told before each statement.</summary>
    public Migrations Told(Action<string> before) => new(scripts) { Before = before };

    /// <summary>Those up to a version, as a program of that version has them.</summary>
    public Migrations UpTo(int version) => new([.. scripts.Take(version)]);

    /// <summary>Returns the path of the copy made before, or null when nothing had to be done or nothing was there.</summary>
    public string? Bring(SqliteConnection writer, string path, TimeProvider clock, bool keepCopy = true)
    {
        if (Version(writer) == Newest) return null;
        Before?.Invoke("BEGIN");
        using SqliteTransaction all = writer.BeginTransaction(deferred: false);
        // Asked again: another process may have been quicker. From here on nobody else writes.
        int from = Version(writer);
        if (from > Newest) throw StoreRefusal.TooNew(path, from, Newest);
        if (from == Newest) return null;
        string? copy = from == 0 || !keepCopy ? null : Copies.Beside(path, string.Create(CultureInfo.InvariantCulture, $"before-v{Newest}"), clock);
        if (copy is not null)
        {
            Before?.Invoke("copy");
            Copies.Make(path, copy);
        }
        for (int version = from; version < Newest; version++)
            foreach (string statement in Statements(scripts[version])) Run(writer, statement);
        Run(writer, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {StoreHeader.Ours}"));
        Run(writer, string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {Newest}"));
        Before?.Invoke("COMMIT");
        all.Commit();
        Before?.Invoke("end");
        return copy;
    }

    private void Run(SqliteConnection writer, string statement)
    {
        Before?.Invoke(statement);
        writer.Do(statement);
    }

    // One after the other; a trigger has semicolons inside, and SQLite knows where a statement ends.
    private static IEnumerable<string> Statements(string script)
    {
        int from = 0;
        for (int i = 0; i < script.Length; i++)
            if (script[i] == ';' && script[from..(i + 1)] is var statement && raw.sqlite3_complete(statement) != 0)
            {
                yield return statement;
                from = i + 1;
            }
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
