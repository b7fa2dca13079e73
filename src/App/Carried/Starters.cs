using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.App.Carried;

/// <summary>What to start from until a maker has their own: the demo lures and the demo box.</summary>
internal static class Starters
{
    private const string Lure = ".lure.json";

    private static readonly Lazy<MakersBox> box = new(() =>
        BoxFile.Read(DemoFiles.All.First(f => f.Name.EndsWith(".box.json", StringComparison.Ordinal)).Bytes).Value ?? Catalogue.Starter);

    /// <summary>By the name of the file, in its order. One whose weights nobody has seen is a lure to be copied, not to start from, and a finished build is one to learn from.</summary>
    public static ImmutableArray<(string File, LureDesign Design)> All { get; } =
    [
        .. DemoFiles.All.Where(f => f.Name.EndsWith(Lure, StringComparison.Ordinal) && !f.Name.Contains('/'))
            .Select(f => (File: f.Name[..^Lure.Length], Design: LureFile.Read(f.Bytes).Value))
            .Where(f => f.Design is { Ballast.IsEmpty: false }).Select(f => (f.File, f.Design!)),
    ];

    /// <summary>The demo box.</summary>
    public static MakersBox Box => box.Value;
}
