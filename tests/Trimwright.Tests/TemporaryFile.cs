namespace Trimwright.Tests;

/// <summary>A file for a program of the operating system to read, gone afterwards.</summary>
internal sealed class TemporaryFile : IDisposable
{
    public string Path { get; }

    public TemporaryFile(byte[] bytes, string ending)
    {
        Path = System.IO.Path.Combine(System.IO.Path.GetTempPath(), $"trimwright-{Guid.NewGuid():N}{ending}");
        File.WriteAllBytes(Path, bytes);
    }

    public void Dispose() => File.Delete(Path);
}
