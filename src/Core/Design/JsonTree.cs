using System.Text;

namespace Trimwright.Core.Design;

internal enum JsonKind
{
    Object,
    Array,
    Number,
    Text,
    Boolean,
    Null,
}

/// <summary>
/// A JSON value, with the path that leads to it and the text that it was written as. Both are made when asked for: a
/// file of five million bytes may hold as many values.
/// </summary>
internal sealed class JsonTree
{
    private readonly byte[] source;
    private readonly JsonTree? outer;
    private readonly string? key;
    private readonly int index;
    private readonly int from;

    /// <summary>A value in a source, inside another by a key or an index.</summary>
    public JsonTree(byte[] source, int from, JsonTree? outer, string? key, int index) =>
        (this.source, this.from, this.outer, this.key, this.index) = (source, from, outer, key, index);

    /// <summary>Stands in where an object is missing.</summary>
    public static JsonTree Nothing => new("{}"u8.ToArray(), 0, null, null, 0) { To = 2 };

    public JsonKind Kind { get; set; }

    /// <summary>Where the value ends in the source.</summary>
    public int To { get; set; }

    public IReadOnlyList<(string Key, JsonTree Value)> Members { get; set; } = [];

    public IReadOnlyList<JsonTree> Items { get; set; } = [];

    public double Number { get; set; }

    public string Text { get; set; } = "";

    public bool Truth { get; set; }

    /// <summary>As written, for keeping what is not understood.</summary>
    public string Raw => Encoding.UTF8.GetString(source, from, To - from);

    /// <summary>From the top: <c>body.back.points_mm[2]</c>; empty for the whole.</summary>
    public string Path => outer is null ? "" : key is null ? $"{outer.Path}[{index}]" : Inside(outer.Path, key);

    /// <summary>The path of a key in the object at a path.</summary>
    public static string Inside(string path, string key) => path.Length == 0 ? Shorten(key) : $"{path}.{Shorten(key)}";

    /// <summary>A short rendering for messages.</summary>
    public string Shown => Kind switch
    {
        JsonKind.Object => "an object",
        JsonKind.Array => $"a list of {Items.Count}",
        JsonKind.Text => $"the text \"{Shorten(Text)}\"",
        JsonKind.Null => "null",
        _ => Shorten(Raw),
    };

    /// <summary>At most 60 characters of a text, those that would steer a terminal or turn its lines about taken out.</summary>
    public static string Shorten(string text)
    {
        var clean = new StringBuilder();
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (clean.Length >= 60) return clean.Append('…').ToString();
            clean.Append(PlainText.Steers(rune) ? "?" : rune.ToString());
        }
        return clean.ToString();
    }
}
