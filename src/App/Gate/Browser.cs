using System.ComponentModel;
using System.Diagnostics;

namespace Trimwright.App.Gate;

/// <summary>Opens a link in the maker's own browser.</summary>
internal static class Browser
{
    /// <summary>Whether something was found that opens links.</summary>
    public static bool Open(string link)
    {
        try
        {
            ProcessStartInfo how = OperatingSystem.IsWindows() ? new(link) { UseShellExecute = true }
                : new(OperatingSystem.IsMacOS() ? "open" : "xdg-open", [link]) { RedirectStandardError = true, RedirectStandardOutput = true };
            using Process? started = Process.Start(how);
            return true;
        }
        catch (Exception e) when (e is Win32Exception or InvalidOperationException or FileNotFoundException)
        {
            return false;
        }
    }
}
