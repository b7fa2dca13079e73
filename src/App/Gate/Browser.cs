using System.ComponentModel;
using System.Diagnostics;

namespace Trimwright.App.Gate;

/// <summary>Opens a page that lies in a file in the maker's own browser.</summary>
internal static class Browser
{
    /// <param name="file">Its path: all that stands in the command line.</param>
    /// <summary>Whether something was found that opens it.</summary>
    public static bool Open(string file)
    {
        try
        {
            string opener = OperatingSystem.IsMacOS() ? "open" : "xdg-open";
            ProcessStartInfo how = OperatingSystem.IsWindows() ? new(file) { UseShellExecute = true }
                : new(opener, [file]) { RedirectStandardError = true, RedirectStandardOutput = true };
            using Process? started = Process.Start(how);
            return true;
        }
        catch (Exception e) when (e is Win32Exception or InvalidOperationException or FileNotFoundException)
        {
            return false;
        }
    }
}
