using System.Buffers.Binary;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// What a file says it is, read before the database may touch it: a newer store, or a file that is no store at all, is
/// left byte for byte as it is. The places are those of https://www.sqlite.org/fileformat.html, section 1.3. A live store's file
/// says that a log belongs to it (HasLog), a finished copy's says that none does.
/// </summary>
internal readonly record struct StoreHeader(long Application, long Version, bool HasTables, bool HasLog = true)
{
    /// <summary>"Trim" in ASCII, the application id of our stores.</summary>
    public const int Ours = 0x5472696D;

    public const int Length = 100;

    // Of a store with a log, and of one without (write and read version 2 and 1).
    private const int LogAt = 18, WithLog = 2;

    private static ReadOnlySpan<byte> Magic => "SQLite format 3\0"u8;

    /// <summary>The header, or null when there is no file or an empty one; throws when the file is nothing that we may open.</summary>
    public static StoreHeader? Admit(string path, int newest)
    {
        if (Look(path) is not { } header)
        {
            // SQLite would take the file for a new one, and delete the log with what was saved in it.
            if (File.Exists(path) && LogWaits(path)) throw StoreRefusal.Damaged(path, "an empty file with a log beside it");
            return null;
        }
        // What was committed last may still stand in the log beside the file.
        if (header.HasLog && LogWaits(path))
        {
            using SqliteConnection look = Connections.OpenToLook(path);
            header = Of(look);
        }
        header.Judge(path, newest);
        return header;
    }

    /// <summary>Throws when the header is that of another program, or of a newer one.</summary>
    public void Judge(string path, int newest)
    {
        if (Application != Ours && (Application != 0 || Version != 0 || HasTables)) throw StoreRefusal.NotAStore(path, "a database of another program");
        if (Version > newest) throw StoreRefusal.TooNew(path, Version, newest);
    }

    /// <summary>Whether a file's first bytes say that a log belongs to it.</summary>
    public static bool SaysLog(ReadOnlySpan<byte> head) => head[LogAt] == WithLog;

    /// <summary>Whether a log with something in it lies beside a store.</summary>
    public static bool LogWaits(string path) => new FileInfo(path + "-wal") is { Exists: true, Length: > 0 };

    /// <summary>What an open database says of itself, its log included.</summary>
    public static StoreHeader Of(SqliteConnection db) => new(db.Number("PRAGMA application_id") ?? 0, db.Number("PRAGMA user_version") ?? 0,
        db.Number("SELECT count(*) FROM sqlite_schema") > 0);

    /// <summary>What the file alone says; null when there is none, or an empty one.</summary>
    public static StoreHeader? Look(string path)
    {
        if (Directory.Exists(path)) throw StoreRefusal.NotAStore(path, "a folder");
        if (!File.Exists(path)) return null;
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        Span<byte> head = stackalloc byte[Length];
        int got = file.ReadAtLeast(head, Length, throwOnEndOfStream: false);
        if (got == 0) return null;
        if (got < Length || !head.StartsWith(Magic)) throw StoreRefusal.NotAStore(path, "a file that is no store");
        return new StoreHeader(BinaryPrimitives.ReadUInt32BigEndian(head[68..]), BinaryPrimitives.ReadUInt32BigEndian(head[60..]),
            BinaryPrimitives.ReadUInt32BigEndian(head[40..]) != 0, SaysLog(head));
    }

    /// <summary>
    /// Whether a store ends in the midst of a page, or before the last one that its header counts: SQLite reads what is
    /// missing of a last page as zeros. With a log beside it the last pages may stand there.
    /// </summary>
    public static bool IsCutShort(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        Span<byte> head = stackalloc byte[Length];
        file.ReadExactly(head);
        // A page of 65536 bytes is written as 1.
        long page = BinaryPrimitives.ReadUInt16BigEndian(head[16..]) is var size and not 1 ? size : 65536;
        return page == 0 || file.Length % page != 0 || (!(SaysLog(head) && LogWaits(path)) && file.Length / page < BinaryPrimitives.ReadUInt32BigEndian(head[28..]));
    }
}
