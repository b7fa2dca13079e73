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

    // .NET opens no folders. Where the file system knows no flush of one, the move is as lasting as it gets.
    private static void FlushFolder(string folder)
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
