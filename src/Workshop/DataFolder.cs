namespace Trimwright.Workshop;

/// <summary>The user's own folder on this machine, never a synced one.</summary>
/// <param name="Path">The folder.</param>
public sealed record DataFolder(string Path)
{
    /// <summary>Where the store lies in it.</summary>
    public string StoreFile => System.IO.Path.Combine(Path, "workshop" + Copies.Ending);

    /// <summary>This user's folder on this machine.</summary>
    public static DataFolder Usual => new(Where(
        OperatingSystem.IsWindows() ? "windows" : OperatingSystem.IsMacOS() ? "macos" : "linux", Environment.GetEnvironmentVariable,
        Environment.GetFolderPath(Environment.SpecialFolder.UserProfile)));

    /// <summary>
    /// The rule: on Linux $XDG_DATA_HOME (https://specifications.freedesktop.org/basedir-spec, which wants it absolute) or
    /// ~/.local/share, on Windows the local, not the roaming, application data, on a Mac Application Support.
    /// </summary>
    internal static string Where(string system, Func<string, string?> variable, string home) => system switch
    {
        "windows" => (variable("LOCALAPPDATA") is { Length: > 0 } local ? local : home + @"\AppData\Local") + @"\Trimwright",
        "macos" => home + "/Library/Application Support/Trimwright",
        _ => (variable("XDG_DATA_HOME") is { } data && data.StartsWith('/') ? data.TrimEnd('/') : home + "/.local/share") + "/trimwright",
    };

    /// <summary>The folder of a store that lies elsewhere: what belongs to it lies beside it, at the end of whatever links lead there.</summary>
    public static DataFolder Of(string store) => new(System.IO.Path.GetDirectoryName(Files.Real(store))!);

    /// <summary>Makes the folder with mode 0700 where there is none.</summary>
    public DataFolder Make()
    {
        try
        {
            Files.MakeFolder(Path);
            return this;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(Path, e);
        }
    }
}
