using Trimwright.Core.Box;
using Trimwright.Workshop;

namespace Trimwright.App.Work;

/// <summary>What the maker has: their own box, and until they keep one the demo box that lies in the program.</summary>
internal static class TheBox
{
    private static readonly Lazy<MakersBox> Demo = new(() =>
    {
        var program = typeof(TheBox).Assembly;
        using Stream stream = program.GetManifestResourceStream(program.GetManifestResourceNames().First(n => n.EndsWith(".box.json", StringComparison.Ordinal)))!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return BoxFile.Read(bytes).Value ?? Catalogue.Starter;
    });

    public static MakersBox Of(Store store) => store.Box()?.Read().Value ?? Demo.Value;
}
