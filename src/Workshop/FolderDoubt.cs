namespace Trimwright.Workshop;

/// <summary>
/// Whether a folder is likely to be on another machine, or copied to one behind our back. Either tears a database and the
/// log beside it apart, so the maker is told; nothing is refused, since this is a guess from names and kinds of drives.
/// </summary>
public static class FolderDoubt
{
    private static readonly string[] Telling = ["cloud", "sync", "drive"];
    private static readonly string[] Far = ["nfs", "cifs", "smb", "9p", "afs", "ncpfs", "fuse.sshfs", "fuse.rclone"];

    /// <summary>A sentence about the folder of a store, or null when nothing speaks against it.</summary>
    public static string? Of(string store)
    {
        string folder = Path.GetDirectoryName(Files.Real(store))!;
        return InName(folder) is { } part
            ? Sentence(folder, $"\"{part}\" sounds like a folder that is copied to other machines")
            : IsFar(folder) ? Sentence(folder, "it lies on another machine's disk")
            : IsOnDemand(folder) ? Sentence(folder, "its files are fetched when they are wanted")
            : null;
    }

    /// <summary>The part of a path whose name tells; also the two that macOS uses for such folders.</summary>
    internal static string? InName(string folder) =>
        folder.Contains("/Library/Mobile Documents", StringComparison.Ordinal) ? "Mobile Documents"
            : folder.Split('/', '\\').FirstOrDefault(part => Telling.Any(word => part.Contains(word, StringComparison.OrdinalIgnoreCase)));

    private static string Sentence(string folder, string why) =>
        $"{folder}: {why}; keep the store in a folder of this machine's own disk, and send backups there instead (trimwright store backup FILE)";

    private static bool IsFar(string folder)
    {
        if (folder.StartsWith(@"\\", StringComparison.Ordinal)) return true;
        try
        {
            var drive = new DriveInfo(folder);
            return drive.DriveType == DriveType.Network || Far.Any(f => drive.DriveFormat.StartsWith(f, StringComparison.OrdinalIgnoreCase));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return false;
        }
    }

    // FILE_ATTRIBUTE_RECALL_ON_OPEN and _ON_DATA_ACCESS, which Windows sets on such folders; .NET has no names for them.
    private static bool IsOnDemand(string folder)
    {
        const FileAttributes Recalled = (FileAttributes)(0x40000 | 0x400000);
        for (DirectoryInfo? at = new(folder); OperatingSystem.IsWindows() && at is { Exists: true }; at = at.Parent)
            if ((at.Attributes & Recalled) != 0) return true;
        return false;
    }
}
