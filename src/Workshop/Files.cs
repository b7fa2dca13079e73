using System.Runtime.InteropServices;

namespace Trimwright.Workshop;

/// <summary>Folders and files that are nobody else's business on this machine.</summary>
internal static class Files
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a folder, and those above it, readable by its owner only; one that is there stays as it is.</summary>
    public static void MakeFolder(string folder)
    {
        if (Directory.Exists(folder)) return;
        // One at a time: .NET gives the mode to the last one only.
        if (Path.GetDirectoryName(folder) is { Length: > 0 } above) MakeFolder(above);
        if (OperatingSystem.IsWindows()) Directory.CreateDirectory(folder);
        else Directory.CreateDirectory(folder, OwnerOnly | UnixFileMode.UserExecute);
    }

    /// <summary>Makes an empty file that only its owner may read; one that is there is emptied. SQLite gives its log the same mode.</summary>
    public static void MakePrivate(string path)
    {
        TryDelete(path);
        Create(path).Dispose();
    }

    /// <summary>Opens a new file that only its owner may read.</summary>
    public static FileStream Create(string path, FileMode mode = FileMode.CreateNew, FileShare share = FileShare.Read)
    {
        var options = new FileStreamOptions { Mode = mode, Access = FileAccess.ReadWrite, Share = share };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = OwnerOnly;
        return new FileStream(path, options);
    }

    /// <summary>Gives a finished file its name, and waits until the disk has it: without that a pulled plug could take the name back.</summary>
    public static void Name(string unfinished, string to)
    {
        File.Move(unfinished, to, overwrite: true);
        FlushFolder(Path.GetDirectoryName(Path.GetFullPath(to))!);
    }

    /// <summary>A path as it really is: whole, and through links to the file that they lead to, there or not.</summary>
    public static string Real(string path)
    {
        path = Path.GetFullPath(path);
        try
        {
            return File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Nothing there, or links that lead round in a ring: whoever opens it will say so.
            return path;
        }
    }

    // Numbers of errors are those of Linux and macOS (errno), then of Windows, where .NET hands them on.
    public const int AlreadyThere = 17;

    public static bool IsThere(IOException e) => e.HResult is AlreadyThere or unchecked((int)0x80070050) or unchecked((int)0x800700B7);

    /// <summary>No room, for the disk or for this account (ENOSPC, EDQUOT).</summary>
    public static bool IsNoRoom(IOException e) => e.HResult is 28 or 122 or 69 or unchecked((int)0x80070070) or unchecked((int)0x80070027);

    /// <summary>EFBIG, ERROR_FILE_TOO_LARGE.</summary>
    public static bool IsTooLarge(IOException e) => e.HResult is 27 or unchecked((int)0x800700DF);

    public static bool IsReadOnlyDisk(IOException e) => e.HResult is 30 or unchecked((int)0x80070013);

    public const int NoFolder = 20;

    public static bool IsNoFolder(IOException e) => e.HResult is NoFolder;

    /// <summary>Locked by another (EWOULDBLOCK).</summary>
    public static bool IsHeld(IOException e) => e.HResult is 11 or 35 or unchecked((int)0x80070020);

    // .NET opens no folders. Where the file system knows no flush of one, the move is as lasting as it gets.
    public static void FlushFolder(string folder)
    {
        if (OperatingSystem.IsWindows()) return;
        int handle = Libc.Open(folder, 0);
        if (handle < 0) return;
        _ = Libc.Flush(handle);
        _ = Libc.Close(handle);
    }

    private static class Libc
    {
        [DllImport("libc", EntryPoint = "open")]
        public static extern int Open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

        [DllImport("libc", EntryPoint = "fsync")]
        public static extern int Flush(int handle);

        [DllImport("libc", EntryPoint = "close")]
        public static extern int Close(int handle);
    }

    /// <summary>Takes a folder away if it is empty.</summary>
    public static void TryDeleteFolder(string folder)
    {
        try
        {
            Directory.Delete(folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Somebody else put something into it.
        }
    }

    public static void TryDelete(params ReadOnlySpan<string> paths)
    {
        foreach (string path in paths)
            try
            {
                File.Delete(path);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // A leftover under a name that says so; the reason why it came to that is already on its way to the maker.
            }
    }
}
