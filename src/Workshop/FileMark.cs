using System.Runtime.InteropServices;
using System.Text;

namespace Trimwright.Workshop;

/// <summary>
/// Which file stands under a name, and how it was written last. .NET tells no file's number, so Linux is asked by statx, whose
/// answer is laid out alike on every processor (https://man7.org/linux/man-pages/man2/statx.2.html). Elsewhere the moment at which
/// a file was made stands for its number; Windows lets nobody rename or delete what SQLite has open.
/// </summary>
/// <param name="Disk">The file system that it lies on.</param>
/// <param name="Number">Its number there.</param>
/// <param name="Size">Bytes.</param>
/// <param name="Written">When it was written last; only ever compared.</param>
/// <param name="Names">How many names it has (hard links); 1 where that can't be told.</param>
/// <param name="IsPlain">A file on a disk: no folder, pipe or device.</param>
internal readonly record struct FileMark(ulong Disk, ulong Number, long Size, long Written, uint Names, bool IsPlain)
{
    private static readonly bool Asks = OperatingSystem.IsLinux() && NativeLibrary.TryLoad("libc", typeof(FileMark).Assembly, null, out nint library)
        && NativeLibrary.TryGetExport(library, "statx", out _);

    /// <summary>What stands there, links followed; null when there is nothing, or nothing that we may look at.</summary>
    public static FileMark? Of(string path) => Asks ? Asked(path) : Seen(path);

    /// <summary>Whether it is the same file under whatever name, written to since or not.</summary>
    public bool IsSame(FileMark? other) => other is { } o && o.Disk == Disk && o.Number == Number;

    /// <summary>Whether nobody has written to it since.</summary>
    public bool IsUntouched(FileMark? now) => IsSame(now) && now is { } n && n.Size == Size && n.Written == Written;

    private static FileMark? Asked(string path)
    {
        Span<byte> name = stackalloc byte[512], told = stackalloc byte[256];
        int length = Encoding.UTF8.GetByteCount(path);
        if (length >= name.Length) name = new byte[length + 1];
        Encoding.UTF8.GetBytes(path, name);
        name[length] = 0;
        return Libc.Statx(Libc.Here, ref name[0], 0, Libc.BasicStats, ref told[0]) == 0 ? Read(told) : null;
    }

    private static FileMark Read(ReadOnlySpan<byte> told)
    {
        static ulong Whole(ReadOnlySpan<byte> from) => BitConverter.ToUInt64(from);
        static uint Half(ReadOnlySpan<byte> from) => BitConverter.ToUInt32(from);
        const int Regular = 0x8000, Kind = 0xF000;
        long seconds = (long)Whole(told[112..]), nanoseconds = Half(told[120..]);
        return new FileMark(((ulong)Half(told[136..]) << 32) | Half(told[140..]), Whole(told[32..]), (long)Whole(told[40..]),
            seconds * 1_000_000_000 + nanoseconds, Half(told[16..]), (BitConverter.ToUInt16(told[28..]) & Kind) == Regular);
    }

    private static FileMark? Seen(string path)
    {
        try
        {
            var file = new FileInfo(Files.Real(path));
            const FileAttributes NoFile = FileAttributes.Directory | FileAttributes.Device;
            return !file.Exists ? Directory.Exists(path) ? new FileMark(0, 0, 0, 0, 1, IsPlain: false) : null
                // A Linux too old to be asked knows no such moment; there only what is deleted shows.
                : new FileMark(0, OperatingSystem.IsLinux() ? 0 : (ulong)file.CreationTimeUtc.Ticks, file.Length, file.LastWriteTimeUtc.Ticks, 1, (file.Attributes & NoFile) == 0);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static class Libc
    {
        /// <summary>AT_FDCWD: a relative path starts where the program stands.</summary>
        public const int Here = -100;

        public const uint BasicStats = 0x7FF;

        [DllImport("libc", EntryPoint = "statx")]
        public static extern int Statx(int folder, ref byte path, int flags, uint mask, ref byte told);
    }
}
