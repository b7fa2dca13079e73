using System.Security.AccessControl;
using System.Security.Principal;
using System.Text;

namespace Trimwright.App.Gate;

/// <summary>
/// Small files that no other account may read: mode 0600 on Linux and a Mac, on Windows a list of rights with this account alone on
/// it, since a folder there may hand down rights to everybody. A file system that keeps no such thing gets no such file.
/// </summary>
internal static class PrivateFile
{
    private const UnixFileMode Owner = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a folder, and those above it, for this account alone; one that is there stays as it is.</summary>
    public static void MakeFolder(string folder)
    {
        if (Directory.Exists(folder)) return;
        // One at a time: .NET gives the mode to the last one only.
        if (Path.GetDirectoryName(folder) is { Length: > 0 } above) MakeFolder(above);
        if (OperatingSystem.IsWindows()) Directory.CreateDirectory(folder);
        else Directory.CreateDirectory(folder, Owner | UnixFileMode.UserExecute);
    }

    /// <summary>Writes it aside and gives it its name; false, and nothing left, where it can't be kept from others.</summary>
    public static bool Write(string path, string text)
    {
        string unfinished = $"{path}.{Guid.NewGuid():N}";
        try
        {
            using (FileStream file = Create(unfinished))
            {
                // Asked before anything is in it: some file systems, those of cameras and sticks among them, know no owners.
                if (!IsOwn(unfinished)) return false;
                file.Write(Encoding.UTF8.GetBytes(text));
            }
            File.Move(unfinished, path, overwrite: true);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
        finally
        {
            Remove(unfinished);
        }
    }

    /// <summary>What is in it; null when there is none, or when others could have read it or put it there.</summary>
    public static string? Read(string path)
    {
        try
        {
            return File.Exists(path) && IsOwn(path) ? File.ReadAllText(path) : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    public static void Remove(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // It stays where only this account reads it, and what is in it is worth nothing soon.
        }
    }

    private static FileStream Create(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            var rights = new FileSecurity();
            rights.SetAccessRuleProtection(isProtected: true, preserveInheritance: false);
            using WindowsIdentity account = WindowsIdentity.GetCurrent();
            rights.AddAccessRule(new FileSystemAccessRule(account.User!, FileSystemRights.FullControl, AccessControlType.Allow));
            const FileSystemRights All = FileSystemRights.FullControl;
            return new FileInfo(path).Create(FileMode.CreateNew, All, FileShare.None, bufferSize: 4096, FileOptions.None, rights);
        }
        return new FileStream(path, new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.ReadWrite,
            Share = FileShare.None,
            UnixCreateMode = Owner,
        });
    }

    // What only its owner may read, and we can read, is ours; unless we are root, who reads everything: then where everybody may write
    // nothing is believed.
    private static bool IsOwn(string path)
    {
        if (OperatingSystem.IsWindows()) return true;
        if ((File.GetUnixFileMode(path) & ~Owner) != 0) return false;
        string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        return !Environment.IsPrivilegedProcess || (File.GetUnixFileMode(folder) & UnixFileMode.OtherWrite) == 0;
    }
}
