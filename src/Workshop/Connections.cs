using System.Globalization;
using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;
using SQLitePCL;
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

    /// <summary>A file that nobody writes, and beside which nothing can be written: no lock, no log, no index (immutable).</summary>
    public static SqliteConnection OpenAsItIs(string path) => Open($"file:{Uri.EscapeDataString(path).Replace("%2F", "/", StringComparison.Ordinal)}?immutable=1", SqliteOpenMode.ReadOnly);

    /// <summary>In memory, and gone when it is closed.</summary>
    public static SqliteConnection OpenInMemory() => Open(":memory:", SqliteOpenMode.ReadWriteCreate);

    /// <summary>
    /// Leaves the log and its index as they are when the last connection is closed: what now stands under their names, or under
    /// the store's, may be another's.
    /// </summary>
    public static void LeaveLog(SqliteConnection connection) => raw.sqlite3_db_config(connection.Handle, raw.SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, out _);

    /// <summary>
    /// The first bytes of the file itself, past log and memory. Through what SQLite has open: whoever opens the file a second time and
    /// closes it again takes away the locks of the first (https://www.sqlite.org/howtocorrupt.html, 2.2).
    /// </summary>
    public static byte[] HeadOf(SqliteConnection connection)
    {
        byte[] head = new byte[StoreHeader.Length];
        if (Sqlite.FileControl(connection.Handle!.DangerousGetHandle(), "main", Sqlite.FilePointer, out nint file) != raw.SQLITE_OK) return head;
        // A file of SQLite begins with its methods: a version, close, read … (https://www.sqlite.org/c3ref/io_methods.html)
        nint read = Marshal.ReadIntPtr(Marshal.ReadIntPtr(file), 2 * nint.Size);
        _ = Marshal.GetDelegateForFunctionPointer<Sqlite.Read>(read)(file, head, head.Length, 0);
        GC.KeepAlive(connection);
        return head;
    }

    private static class Sqlite
    {
        /// <summary>SQLITE_FCNTL_FILE_POINTER.</summary>
        public const int FilePointer = 7;

        [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
        public delegate int Read(nint file, [Out, MarshalAs(UnmanagedType.LPArray, SizeParamIndex = 2)] byte[] into, int bytes, long from);

        [DllImport("e_sqlite3", EntryPoint = "sqlite3_file_control", CallingConvention = CallingConvention.Cdecl)]
        public static extern int FileControl(nint database, [MarshalAs(UnmanagedType.LPUTF8Str)] string name, int what, out nint answer);
    }

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
