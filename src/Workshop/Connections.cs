using System.Globalization;
using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>
/// The one place that opens the database. What makes an acknowledged write stay written is set on every connection and
/// read back, since SQLite takes a setting that it does not know in silence.
/// </summary>
internal static class Connections
{
    public const int BusyMs = 5000;

    /// <summary>
    /// Write-ahead log; every commit waits for the disk (synchronous 2 is FULL), on a Mac through the drive's own cache
    /// (fullfsync, which other systems ignore); a store from elsewhere can call no functions of ours (trusted_schema).
    /// </summary>
    public static readonly (string Name, string Set, string ReadBack)[] Settings =
    [
        ("busy_timeout", "5000", "5000"),
        ("journal_mode", "WAL", "wal"),
        ("synchronous", "FULL", "2"),
        ("fullfsync", "ON", "1"),
        ("checkpoint_fullfsync", "ON", "1"),
        ("foreign_keys", "ON", "1"),
        ("trusted_schema", "OFF", "0"),
        ("cell_size_check", "ON", "1"),
    ];

    public static SqliteConnection OpenForWriting(string path)
    {
        SqliteConnection connection = Open(path, SqliteOpenMode.ReadWriteCreate);
        return Set(connection, path, Settings);
    }

    public static SqliteConnection OpenForReading(string path)
    {
        // Opened for writing, since a write-ahead log wants that of its readers too, and then held to reading.
        SqliteConnection connection = Open(path, SqliteOpenMode.ReadWrite);
        return Set(connection, path, [.. Settings, ("query_only", "ON", "1")]);
    }

    /// <summary>Looks without leaving a trace in the file.</summary>
    public static SqliteConnection OpenToLook(string path) => Open(path, SqliteOpenMode.ReadOnly);

    /// <summary>A file of its own, one file without a log beside it: for backups.</summary>
    public static SqliteConnection OpenPlain(string path) => Open(path, SqliteOpenMode.ReadWriteCreate);

    private static SqliteConnection Open(string path, SqliteOpenMode mode)
    {
        // No pool: a pooled handle would outlive us, hold its file and come back with somebody else's settings.
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = mode,
            Pooling = false,
            DefaultTimeout = BusyMs / 1000,
        }.ConnectionString);
        try
        {
            connection.Open();
            RowSeal.Teach(connection);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static SqliteConnection Set(SqliteConnection connection, string path, IEnumerable<(string Name, string Set, string ReadBack)> settings)
    {
        try
        {
            foreach ((string name, string set, _) in settings) connection.Do($"PRAGMA {name} = {set}");
            foreach ((string name, _, string expected) in settings)
                if (connection.One($"PRAGMA {name}") is var got && got != expected)
                    throw new StoreRefusal(RefusalCause.CannotOpen, new Fault("store", path, $"{name} = {got}", $"{name} = {expected}",
                        "This disk or this build of SQLite can't keep what it acknowledges; choose a local folder with --store FILE."));
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Runs statements that give nothing back; parameters are @1, @2 … in order.</summary>
    public static int Do(this SqliteConnection connection, string sql, params object?[] values)
    {
        using SqliteCommand command = connection.Command(sql, values);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first column of the first row as invariant text, null when there is none.</summary>
    public static string? One(this SqliteConnection connection, string sql, params object?[] values)
    {
        using SqliteCommand command = connection.Command(sql, values);
        return command.ExecuteScalar() is { } value and not DBNull ? Convert.ToString(value, CultureInfo.InvariantCulture) : null;
    }

    /// <summary>The first column of the first row as a whole number, null when there is none.</summary>
    public static long? Number(this SqliteConnection connection, string sql, params object?[] values) =>
        connection.One(sql, values) is { } text ? long.Parse(text, CultureInfo.InvariantCulture) : null;

    /// <summary>Every row through a reader of rows.</summary>
    public static List<T> All<T>(this SqliteConnection connection, string sql, Func<SqliteDataReader, T> row, params object?[] values)
    {
        using SqliteCommand command = connection.Command(sql, values);
        using SqliteDataReader reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read()) rows.Add(row(reader));
        return rows;
    }

    private static SqliteCommand Command(this SqliteConnection connection, string sql, object?[] values)
    {
        SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        for (int i = 0; i < values.Length; i++)
            command.Parameters.AddWithValue("@" + (i + 1).ToString(CultureInfo.InvariantCulture), values[i] ?? DBNull.Value);
        return command;
    }
}
