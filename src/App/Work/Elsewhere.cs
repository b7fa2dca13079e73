using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Work;

/// <summary>What is in memory when the store takes nothing any more, as files that a maker can lay elsewhere.</summary>
internal static class Elsewhere
{
    /// <summary>
    /// A lure's file as a link that holds it whole: it is saved by the browser alone, also when the program has ended meanwhile. A
    /// form would be refused by the gate, since a page without referrers sends forms without an origin.
    /// </summary>
    public static string Link(LureDesign design) => "data:application/json;base64," + Convert.ToBase64String(LureFile.Write(design));

    /// <summary>What that file is to be called.</summary>
    public static string Name(LureDesign design) => Sheets.Stem(design.Name) + ".lure.json";

    /// <summary>Everything that the open store has, as an export; it can be read long after its file's name is gone.</summary>
    public static byte[] Everything(Store store)
    {
        using var all = new MemoryStream();
        store.Export(all);
        return all.ToArray();
    }
}
