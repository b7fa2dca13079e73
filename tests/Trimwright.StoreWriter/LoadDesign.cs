using System.Text;
using Trimwright.Core.Design;

namespace Trimwright.StoreWriter;

/// <summary>A sound lure whose file is 20 kB long and follows from its edit id, so that whoever knows the id knows every byte.</summary>
public static class LoadDesign
{
    private const int Bytes = 20_000;

    /// <summary>The design, named after the edit.</summary>
    public static LureDesign Of(string edit) => LureFile.Read(Encoding.UTF8.GetBytes($$"""
        { "trimwright": 1, "name": "{{edit}}", "x-notes": "{{Notes(edit)}}",
          "body": { "length_mm": 100,
            "back": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" },
            "belly": { "points_mm": [[0, 0], [50, -10], [100, 0]], "nose": "round", "tail": "round" },
            "plan": { "points_mm": [[0, 0], [50, 10], [100, 0]], "nose": "round", "tail": "round" } },
          "wood": { "density_g_cm3": 0.4 } }
        """)).Value!;

    /// <summary>Its file's text, as the store keeps it.</summary>
    public static string Text(string edit) => Encoding.UTF8.GetString(LureFile.Write(Of(edit)));

    // Letters that follow from the id; a page of another edit in the middle would show.
    private static string Notes(string edit)
    {
        uint state = 2166136261;
        foreach (char c in edit) state = (state ^ c) * 16777619;
        var notes = new StringBuilder(Bytes);
        while (notes.Length < Bytes)
        {
            state = state * 1664525 + 1013904223;
            notes.Append((char)('a' + (state >> 24) % 26));
        }
        return notes.ToString();
    }
}
