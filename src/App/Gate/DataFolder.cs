namespace Trimwright.App.Gate;

/// <summary>Where the program keeps what is the maker's own: the store, the page's secret, the keys, the lock.</summary>
internal sealed class DataFolder
{
    public string Path { get; }

    /// <summary>The store's file.</summary>
    public string Store { get; }

    /// <param name="store">The store's file as asked for; null: in the account's own data folder.</param>
    public DataFolder(string? store)
    {
        Store = System.IO.Path.GetFullPath(store ?? System.IO.Path.Combine(Usual, "trimwright.db"));
        Path = System.IO.Path.GetDirectoryName(Store)!;
    }

    /// <summary>A file of it.</summary>
    public string File(string name) => System.IO.Path.Combine(Path, name);

    /// <summary>Makes it, readable by this account only.</summary>
    public void Make()
    {
        if (OperatingSystem.IsWindows()) Directory.CreateDirectory(Path);
        else Directory.CreateDirectory(Path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    private static string Usual
    {
        get
        {
            string data = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create);
            return System.IO.Path.Combine(data.Length > 0 ? data : System.IO.Path.GetTempPath(), "trimwright");
        }
    }
}
