using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.App.Work;

/// <summary>Lures to start from: the demo lures that lie in the program.</summary>
internal static class Starters
{
    private const string Prefix = "demo/";

    /// <summary>By the name of the file, in its order.</summary>
    public static ImmutableArray<(string File, LureDesign Design)> All { get; } = [.. Read()];

    private static IEnumerable<(string, LureDesign)> Read()
    {
        var program = typeof(Starters).Assembly;
        foreach (string name in program.GetManifestResourceNames().Where(n => n.EndsWith(".lure.json", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using Stream stream = program.GetManifestResourceStream(name)!;
            var bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            // One whose weights nobody has seen is a lure to be copied, not to start from.
            if (LureFile.Read(bytes).Value is { Ballast.IsEmpty: false } design) yield return (name[Prefix.Length..^".lure.json".Length], design);
        }
    }
}
