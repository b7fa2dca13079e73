using System.Text;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Work;

/// <summary>What is in memory when the store takes nothing any more, as files that a maker can lay elsewhere.</summary>
internal static class Elsewhere
{
    /// <summary>A lure's file as a text.</summary>
    public static string Text(LureDesign design) => Encoding.UTF8.GetString(LureFile.Write(design));

    /// <summary>A lure's file, from the text that its page holds; null when it is no sound lure.</summary>
    public static (string Name, byte[] Bytes)? Lure(string text) =>
        LureFile.Read(Encoding.UTF8.GetBytes(text)).Value is { } design ? (Sheets.Stem(design.Name) + ".lure.json", LureFile.Write(design)) : null;

    /// <summary>Everything that the open store has, as an export; it can be read long after its file's name is gone.</summary>
    public static byte[] Everything(Store store)
    {
        using var all = new MemoryStream();
        store.Export(all);
        return all.ToArray();
    }
}
