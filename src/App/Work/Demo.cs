using System.Reflection;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>demo</c>: something to try.</summary>
internal static class Demo
{
    private const string Prefix = "demo/";

    /// <summary>Writes the demo lures and the demo box into a folder; returns their paths.</summary>
    public static IReadOnlyList<string> Run(string folder, bool force)
    {
        Files.Named(folder, "DIR");
        Assembly program = typeof(Demo).Assembly;
        string[] names = [.. program.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
        (string Path, byte[] Bytes)[] files = [.. names.Select(name =>
        {
            using Stream stream = program.GetManifestResourceStream(name)!;
            var bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            return (Path.Combine(folder, name[Prefix.Length..]), bytes);
        })];
        Files.Save(files, force);
        return [.. files.Select(f => f.Path)];
    }
}
