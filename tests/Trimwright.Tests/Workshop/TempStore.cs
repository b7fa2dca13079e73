using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A folder of its own for a test's store, gone afterwards.</summary>
internal sealed class TempStore : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("trimwright-store").FullName;

    public string Path => System.IO.Path.Combine(Folder, "workshop.trimwright");

    public Store Open(TimeProvider? clock = null) => Store.Open(Path, clock);

    public string In(string name) => System.IO.Path.Combine(Folder, name);

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
