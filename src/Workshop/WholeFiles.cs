using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>
/// Files that come to be whole or not at all; whatever the program writes for its maker goes through here. Each is written under
/// another name in the folder where it is to lie, brought to the disk, and only then given its name. When anything fails
/// before the first name is given, nothing is left of any of them; of a program that is killed there may be a file that ends in
/// <c>.unfinished</c>, which the next try writes over. What it throws is the file system's own: <see cref="Fault"/> puts it
/// into words.
/// </summary>
/// <param name="replace">Whether a file of the same name may be replaced. It keeps its mode.</param>
/// <param name="forMe">Whether new files are for their owner's eyes only.</param>
public sealed class WholeFiles(bool replace, bool forMe = false) : IDisposable
{
    private const string Ending = ".unfinished";

    // Longer names than this would have no room for the ending (255 bytes on most disks).
    private const int Longest = 160;

    private readonly List<Begun> begun = [];
    private readonly List<string> madeFolders = [];

    // Where it is written, what it is to be called, who writes it, and whether there was none of that name.
    private sealed record Begun(string Aside, string Path, FileStream? Held, bool IsNew)
    {
        public bool IsNamed { get; set; }
    }

    /// <summary>Writes one file.</summary>
    public static void Write(string path, byte[] bytes, bool replace, bool forMe = false) => Write([(path, bytes)], replace, forMe);

    /// <summary>Writes several, all or none.</summary>
    public static void Write(IReadOnlyList<(string Path, byte[] Bytes)> files, bool replace, bool forMe = false)
    {
        using var whole = new WholeFiles(replace, forMe);
        foreach ((string path, byte[] bytes) in files) whole.Begin(path).Write(bytes);
        whole.Finish();
    }

    /// <summary>Begins a file: what is written into the stream that comes back is the file once <see cref="Finish"/> was called.</summary>
    public FileStream Begin(string path)
    {
        path = Path.GetFullPath(path);
        FileMark? there = FileMark.Of(path);
        if (there is { IsPlain: false })
        {
            // A pipe or a device has no other name to be written under.
            var straight = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
            begun.Add(new Begun("", path, straight, IsNew: false));
            return straight;
        }
        path = Files.Real(path);
        MakeFolder(Path.GetDirectoryName(path)!);
        if (there is not null)
        {
            if (!replace) throw new IOException($"{path} is there already", Files.AlreadyThere);
            // A new file takes an old one's place whatever its mode says; one that its owner made read-only is to stay.
            using var allowed = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete);
        }
        string aside = Aside(path);
        FileStream held = Locked(aside);
        begun.Add(new Begun(aside, path, held, there is null));
        if (there is not null && !OperatingSystem.IsWindows()) File.SetUnixFileMode(held.SafeFileHandle, File.GetUnixFileMode(path));
        return held;
    }

    // Locked while it is written and until it has its name: two programs that write the same file don't write into each other. What a
    // killed one left is nobody's.
    private FileStream Locked(string aside)
    {
        FileShare share = OperatingSystem.IsWindows() ? FileShare.Delete : FileShare.None;
        if (File.Exists(aside))
        {
            using FileStream left = new(aside, FileMode.Open, FileAccess.ReadWrite, share);
            File.Delete(aside);
        }
        return forMe ? Files.Create(aside, share: share) : new FileStream(aside, FileMode.CreateNew, FileAccess.ReadWrite, share);
    }

    /// <summary>Begins a file that somebody else writes, by name; what comes back is that name, and nothing is there.</summary>
    internal string BeginAside(string path)
    {
        path = Files.Real(path);
        MakeFolder(Path.GetDirectoryName(path)!);
        string aside = Aside(path);
        Files.MakePrivate(aside);
        begun.Add(new Begun(aside, path, null, !File.Exists(path)));
        return aside;
    }

    /// <summary>Brings all of them to the disk and gives them their names.</summary>
    public void Finish()
    {
        ToDisk([.. begun.Select(f => f.Held).OfType<FileStream>()]);
        foreach (Begun file in begun.Where(f => f.Aside.Length > 0))
        {
            File.Move(file.Aside, file.Path, replace);
            file.IsNamed = true;
        }
        foreach (string folder in begun.Where(f => f.IsNamed).Select(f => f.Path).Concat(madeFolders).Select(path => Path.GetDirectoryName(path)!).Distinct())
            Files.FlushFolder(folder);
        foreach (Begun file in begun) file.Held?.Dispose();
        begun.Clear();
        madeFolders.Clear();
    }

    // All at once, each by a thread that waits: a disk that writes its journal for one writes it for all. One after the other, thirty
    // sheets took as long as working them out.
    private static void ToDisk(FileStream[] files)
    {
        Task[] all = [.. files.Skip(1).Select(file => Task.Factory.StartNew(() => file.Flush(flushToDisk: true), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default))];
        try
        {
            if (files.Length > 0) files[0].Flush(flushToDisk: true);
        }
        finally
        {
            Task.WhenAll(all).GetAwaiter().GetResult();
        }
    }

    /// <summary>Takes back what was not finished.</summary>
    public void Dispose()
    {
        foreach (Begun file in begun)
        {
            // Away before it is let go of: nobody is to write into a file that is then taken away.
            if (file.Aside.Length > 0) Files.TryDelete(file.Aside, file.Aside + "-journal");
            // Named before one of its companions could not be. One that took another's place stays: what it replaced is gone.
            if (file is { IsNamed: true, IsNew: true }) Files.TryDelete(file.Path);
            try
            {
                file.Held?.Dispose();
            }
            catch (IOException)
            {
                // What a full disk didn't take; it is on its way to the maker already.
            }
        }
        begun.Clear();
        foreach (string folder in Enumerable.Reverse(madeFolders)) Files.TryDeleteFolder(folder);
        madeFolders.Clear();
    }

    /// <summary>What the file system said, in a maker's words.</summary>
    /// <param name="path">The file that was to be written.</param>
    /// <param name="said">What was thrown.</param>
    public static Fault Fault(string path, Exception said)
    {
        (string got, string allowed, string next) = said switch
        {
            UnauthorizedAccessException when Directory.Exists(path) => ("a folder", "a file's name", "Name a file in it."),
            UnauthorizedAccessException => ("a place that this account may not write to", "a folder that this account may write to", "Choose another folder, or check its permissions."),
            DirectoryNotFoundException => ("a folder that is not there and can't be made", "a folder that this account may write to", "Check the name, or choose another folder."),
            PathTooLongException => ("a name that is too long", "a shorter one", "Choose a shorter name."),
            IOException e when Files.IsNoRoom(e) => ("a full disk", "some free room", "Nothing was written under that name; free some room, or choose another disk, and try again."),
            IOException e when Files.IsTooLarge(e) => ("a file larger than this disk or this account allows", "a disk that takes files of that size", "Nothing was written under that name; choose a folder on another disk."),
            IOException e when Files.IsReadOnlyDisk(e) => ("a disk that may only be read", "a disk that may be written to", "Choose a folder on another disk."),
            IOException e when Files.IsNoFolder(e) => ("a file where a folder would have to be", "a folder", "Check the name, or choose another folder."),
            IOException e when Files.IsThere(e) => ("a file that is there already", "a new name", "Add --force to overwrite it."),
            IOException e when Files.IsHeld(e) => ("a file that another program is writing at this moment", "one that nobody else writes", "Wait for the other one, or choose another name."),
            IOException when Directory.Exists(path) => ("a folder", "a file's name", "Name a file in it."),
            ArgumentException or NotSupportedException => ("a name that no file can have", "a file's name", "Choose another name."),
            _ => ($"a disk that would not take it ({said.Message.TrimEnd('.')})", "a disk that reads and writes", "Nothing was written under that name; check the disk, or choose another folder."),
        };
        return new Fault("file", path, got, allowed, next);
    }

    private static string Aside(string path)
    {
        string name = Path.GetFileName(path);
        if (name.Length > Longest || System.Text.Encoding.UTF8.GetByteCount(name) > Longest)
            name = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(name)))[..16];
        return Path.Combine(Path.GetDirectoryName(path)!, name + Ending);
    }

    private void MakeFolder(string folder)
    {
        if (Directory.Exists(folder)) return;
        if (File.Exists(folder)) throw new IOException($"{folder} is a file", Files.NoFolder);
        if (Path.GetDirectoryName(folder) is { Length: > 0 } above) MakeFolder(above);
        if (forMe) Files.MakeFolder(folder);
        else Directory.CreateDirectory(folder);
        madeFolders.Add(folder);
    }
}
