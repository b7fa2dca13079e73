using System.Collections.Immutable;
using System.Reflection;

namespace Trimwright.App.Carried;

/// <summary>Something to try: the demo lures with their logs, the demo box, and finished builds in a folder of their own, as they lie in the program.</summary>
internal static class DemoFiles
{
    private const string Prefix = "demo/";

    /// <summary>By name, in its order; what lies in a folder has it before a slash.</summary>
    public static ImmutableArray<(string Name, byte[] Bytes)> All =>
    [
        .. typeof(DemoFiles).Assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal)
            .Select(name => (name[Prefix.Length..], Bytes(name))),
    ];

    private static byte[] Bytes(string name)
    {
        using Stream stream = typeof(DemoFiles).Assembly.GetManifestResourceStream(name)!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
