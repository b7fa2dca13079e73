using System.Buffers.Binary;
using System.Security.Cryptography;

namespace Trimwright.Workshop;

/// <summary>
/// A checksum at the end of a finished copy, since SQLite keeps none: a bit that flips in a text would come back as another
/// text. It stands in one page beyond those that the header counts, which SQLite does not look at. With it stands the header's
/// counter of changes, so that a copy that somebody went on writing in is not taken for a broken one.
/// </summary>
internal static class Seal
{
    private static ReadOnlySpan<byte> Magic => "Trimwright seal\n"u8;
    private const int CounterAt = 24, Counter = 4, PageAt = 16;

    public static void Put(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        byte[] head = Head(file);
        byte[] seal = new byte[PageOf(head)];
        Magic.CopyTo(seal);
        head.AsSpan(CounterAt, Counter).CopyTo(seal.AsSpan(Magic.Length));
        Digest(file, file.Length).CopyTo(seal.AsSpan(Magic.Length + Counter));
        file.Seek(0, SeekOrigin.End);
        file.Write(seal);
        file.Flush(flushToDisk: true);
    }

    /// <summary>Takes the seal off a copy, where there is one; false when it is broken.</summary>
    public static bool TakeOff(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        byte[] head = Head(file);
        int page = PageOf(head);
        if (page < 512 || file.Length < 2L * page) return true;
        byte[] seal = new byte[page];
        file.Seek(-page, SeekOrigin.End);
        file.ReadExactly(seal);
        if (!seal.AsSpan().StartsWith(Magic)) return true;
        bool untouched = seal.AsSpan(Magic.Length, Counter).SequenceEqual(head.AsSpan(CounterAt, Counter));
        bool whole = !untouched || seal.AsSpan(Magic.Length + Counter, SHA256.HashSizeInBytes).SequenceEqual(Digest(file, file.Length - page));
        file.SetLength(file.Length - page);
        return whole;
    }

    private static byte[] Head(FileStream file)
    {
        byte[] head = new byte[100];
        file.Seek(0, SeekOrigin.Begin);
        file.ReadExactly(head);
        return head;
    }

    // A page of 65536 bytes is written as 1.
    private static int PageOf(byte[] head) => BinaryPrimitives.ReadUInt16BigEndian(head.AsSpan(PageAt)) is var size and not 1 ? size : 65536;

    private static byte[] Digest(FileStream file, long length)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] part = new byte[81920];
        file.Seek(0, SeekOrigin.Begin);
        for (long left = length; left > 0;)
        {
            int got = file.Read(part, 0, (int)Math.Min(left, part.Length));
            if (got == 0) break;
            hash.AppendData(part, 0, got);
            left -= got;
        }
        return hash.GetHashAndReset();
    }
}
