using System.Reflection;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>demo</c>: something to try.</summary>
internal static class Demo
{
    private const string Prefix = "demo/";

    /// <summary>Writes the demo lures and the demo box into a folder; returns their paths.</summary>
    public static IReadOnlyList<string> Run(string folder, bool force)
    {
        var written = new List<string>();
        Assembly program = typeof(Demo).Assembly;
        string[] names = [.. program.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal)];
        // All or nothing: a name that is taken is found before the first file is written.
        foreach (string name in names)
            if (!force && File.Exists(Path.Combine(folder, name[Prefix.Length..])))
                throw new Refusal(Exit.InputWrong, "file", Path.Combine(folder, name[Prefix.Length..]), "a file that is there already",
                    "a folder without it", "Choose another folder, or add --force to overwrite.");
        foreach (string name in names)
        {
            using Stream stream = program.GetManifestResourceStream(name)!;
            var bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            string path = Path.Combine(folder, name[Prefix.Length..]);
            Files.Save(path, bytes, force);
            written.Add(path);
        }
        return written;
    }
}
