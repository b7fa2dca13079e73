using System.Buffers.Binary;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// What a file says it is, read before the database may touch it: a newer store, or a file that is no store at all, is
/// left byte for byte as it is. The places are those of https://www.sqlite.org/fileformat.html, section 1.3.
/// </summary>
internal readonly record struct StoreHeader(long Application, long Version, bool HasTables)
{
    /// <summary>"Trim" in ASCII, the application id of our stores.</summary>
    public const int Ours = 0x5472696D;

    private const int Length = 100;
    private static ReadOnlySpan<byte> Magic => "SQLite format 3\0"u8;

    /// <summary>The header, or null when there is no file or an empty one; throws when the file is nothing that we may open.</summary>
    public static StoreHeader? Admit(string path, int newest)
    {
        if (Directory.Exists(path)) throw StoreRefusal.NotAStore(path, "a folder");
        if (Look(path) is not { } header) return null;
        // What was committed last may still stand in the log beside the file.
        if (new FileInfo(path + "-wal") is { Exists: true, Length: > 0 }) header = LookThroughLog(path);
        if (header.Application != Ours && (header.Application != 0 || header.Version != 0 || header.HasTables))
            throw StoreRefusal.NotAStore(path, "a database of another program");
        if (header.Version > newest) throw StoreRefusal.TooNew(path, header.Version, newest);
        return header;
    }

    private static StoreHeader? Look(string path)
    {
        if (!File.Exists(path)) return null;
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        Span<byte> head = stackalloc byte[Length];
        int got = file.ReadAtLeast(head, Length, throwOnEndOfStream: false);
        if (got == 0) return null;
        if (got < Length || !head.StartsWith(Magic)) throw StoreRefusal.NotAStore(path, "a file that is no store");
        return new StoreHeader(BinaryPrimitives.ReadUInt32BigEndian(head[68..]), BinaryPrimitives.ReadUInt32BigEndian(head[60..]),
            BinaryPrimitives.ReadUInt32BigEndian(head[40..]) != 0);
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
        bool hasLog = new FileInfo(path + "-wal") is { Exists: true, Length: > 0 };
        return page == 0 || file.Length % page != 0 || (!hasLog && file.Length / page < BinaryPrimitives.ReadUInt32BigEndian(head[28..]));
    }

    private static StoreHeader LookThroughLog(string path)
    {
        using SqliteConnection look = Connections.OpenToLook(path);
        return new StoreHeader(look.Number("PRAGMA application_id") ?? 0, look.Number("PRAGMA user_version") ?? 0,
            look.Number("SELECT count(*) FROM sqlite_schema") > 0);
    }
}
