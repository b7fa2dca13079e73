using System.Diagnostics;

namespace Trimwright.Tests.Workshop;

/// <summary>A file system of a few hundred kilobytes in memory, mounted for one test. Only Linux as root can.</summary>
internal sealed class TinyDisk : IDisposable
{
    private readonly string? why;

    public TinyDisk(int kilobytes)
    {
        Folder = Directory.CreateTempSubdirectory("trimwright-tiny").FullName;
        why = OperatingSystem.IsLinux() ? Run("mount", "-t", "tmpfs", "-o", $"size={kilobytes}k,mode=0700", "tmpfs", Folder) : "no tmpfs on this system";
    }

    public string Folder { get; }

    public string Store => Path.Combine(Folder, "workshop.trimwright");

    /// <summary>Why there is none, or null.</summary>
    public string? Why => why;

    public void MakeReadOnly() => Assert.Null(Run("mount", "-o", "remount,ro", Folder));

    /// <summary>Writes a file until not another byte fits.</summary>
    public void Fill(string name)
    {
        try
        {
            using var file = new FileStream(Path.Combine(Folder, name), FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 0);
            while (true) file.Write(new byte[1024]);
        }
        catch (IOException)
        {
            // Full: that is what was wanted.
        }
    }

    /// <summary>Writes a file that leaves so much room, to the page of 4 kB that a disk in memory counts in.</summary>
    public void FillBut(string name, int kilobytes)
    {
        Fill(name);
        using var file = new FileStream(Path.Combine(Folder, name), FileMode.Open, FileAccess.Write, FileShare.None);
        const int Page = 4096;
        long pages = (file.Length + Page - 1) / Page - (kilobytes + 3) / 4;
        file.SetLength(Math.Max(0, pages) * Page);
    }

    /// <summary>Null when it went well, else what it said.</summary>
    private static string? Run(string command, params string[] arguments)
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(command, arguments) { RedirectStandardError = true })!;
            string said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? null : said.Trim();
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            return e.Message;
        }
    }

    public void Dispose()
    {
        // A process that another test is starting holds all that is open here for the moment between fork and exec.
        if (why is null) Patience.Until(() => Run("umount", Folder) is null, $"{Folder} is still held by somebody");
        Directory.Delete(Folder);
    }
}
