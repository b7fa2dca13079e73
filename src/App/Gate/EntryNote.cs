using System.ComponentModel;
using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;
using Trimwright.Workshop;

namespace Trimwright.App.Gate;

/// <summary>
/// A small page in a file that only this account may read; the browser is told its path and gets the key from inside. So the key is
/// in no command line, which every account of a machine may read, and in no address: the page hands it over in a form's body, and
/// browsers remember the path alone. It is deleted when its key is used, and swept away when the key has ended.
/// </summary>
/// <remarks>
/// It lies in the account's own folder wherever the store lies, since a store may be on a stick or a shared disk. Browsers that come
/// as a snap read no hidden folder of the account; each reads one of its own.
/// </remarks>
internal static class EntryNote
{
    private const string Named = "trimwright-enter-", Ending = ".html", SnapPages = "/var/lib/snapd/desktop/applications";

    /// <summary>Writes one for a key; its path, or null where nothing can be kept from others.</summary>
    public static string? Write(string key, int port)
    {
        Sweep(EntryKeys.GoodFor);
        return Write(key, port, Folders(DefaultBrowser(), Home));
    }

    internal static string? Write(string key, int port, IEnumerable<string> folders)
    {
        foreach (string folder in folders)
            try
            {
                PrivateFile.MakeFolder(folder);
                string path = Path.Combine(folder, NameOf(key));
                if (PrivateFile.Write(path, Page(key, port))) return path;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // The next folder, or none: then the maker opens the printed link.
            }
        return null;
    }

    /// <summary>Deletes the one of a key.</summary>
    public static void Remove(string key)
    {
        foreach (string folder in Everywhere()) PrivateFile.Remove(Path.Combine(folder, NameOf(key)));
    }

    /// <summary>Deletes all that are older.</summary>
    public static void Sweep(TimeSpan than)
    {
        foreach (string note in Everywhere().SelectMany(f => Tried(() => Directory.GetFiles(f, Named + "*" + Ending))))
            if (DateTime.UtcNow - File.GetLastWriteTimeUtc(note) >= than) PrivateFile.Remove(note);
    }

    /// <summary>Where it may lie, the best place first.</summary>
    /// <param name="browser">The name under which the system knows the browser; null: not known.</param>
    /// <param name="home">The account's own folder.</param>
    /// <param name="pages">Where the system keeps what it knows of programs that came as a snap.</param>
    internal static IEnumerable<string> Folders(string? browser, string home, string pages = SnapPages)
    {
        // SNAP_PROGRAM.desktop.
        if (browser?.IndexOf('_', StringComparison.Ordinal) is > 0 and { } end && File.Exists(Path.Combine(pages, browser))
            && OfSnap(home, browser[..end]) is var own && Directory.Exists(own)) yield return own;
        yield return Usual;
    }

    private static string Usual => Path.Combine(DataFolder.Usual.Path, "enter");

    private static string Home => Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);

    private static string OfSnap(string home, string snap) => Path.Combine(home, "snap", snap, "common");

    private static IEnumerable<string> Everywhere()
    {
        string snaps = Path.Combine(Home, "snap");
        string[] those = Home.Length > 0 && Directory.Exists(snaps) ? Tried(() => Directory.GetDirectories(snaps)) : [];
        return those.Select(s => OfSnap(Home, Path.GetFileName(s))).Prepend(Usual).Where(Directory.Exists);
    }

    // What can't be looked into holds no note of ours that could be deleted.
    private static string[] Tried(Func<string[]> look)
    {
        try
        {
            return look();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    // The key's own letters would tell it to whoever sees the path.
    private static string NameOf(string key) =>
        Named + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key)))[..16] + Ending;

    private static string Page(string key, int port) => $"""
        <!doctype html>
        <html lang="en">
        <head><meta charset="utf-8"><meta name="referrer" content="no-referrer"><meta name="color-scheme" content="light dark">
        <title>Trimwright</title></head>
        <body><form method="post" action="http://127.0.0.1:{port}{Gatekeeper.Enter}">
        <input type="hidden" name="key" value="{key}"><button>Open Trimwright</button></form>
        <script>document.forms[0].submit()</script></body>
        </html>
        """;

    // Asked only where there are snaps at all.
    private static string? DefaultBrowser()
    {
        if (!OperatingSystem.IsLinux() || !Directory.Exists(SnapPages)) return null;
        try
        {
            var how = new ProcessStartInfo("xdg-settings", ["get", "default-web-browser"])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            using Process? asked = Process.Start(how);
            return asked is not null && asked.WaitForExit(TimeSpan.FromSeconds(3)) ? asked.StandardOutput.ReadToEnd().Trim() : null;
        }
        catch (Exception e) when (e is Win32Exception or InvalidOperationException or FileNotFoundException)
        {
            return null;
        }
    }
}
