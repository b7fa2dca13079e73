using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A folder of its own for a test's store, gone afterwards.</summary>
internal sealed class TempStore : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("trimwright-store").FullName;

    public string Path => System.IO.Path.Combine(Folder, "workshop.trimwright");

    public Store Open(TimeProvider? clock = null) => Store.Open(Path, clock);

    public string In(string name) => System.IO.Path.Combine(Folder, name);

    /// <summary>Every file of the folder with its bytes, for whoever holds that nothing was touched.</summary>
    public SortedDictionary<string, string> Bytes(string pattern = "*")
    {
        var files = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (string file in Directory.GetFiles(Folder, pattern))
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            files[System.IO.Path.GetFileName(file)] = Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(stream));
        }
        return files;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
