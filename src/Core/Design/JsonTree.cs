using System.Buffers.Text;
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
/// A JSON value, with the path that leads to it and the text that it was written as. All of it is made when asked for: a file
/// of five million bytes may hold as many values, and a reader asks for few of them.
/// </summary>
internal sealed class JsonTree
{
    private readonly JsonText text;
    private readonly JsonTree? outer;
    private readonly string? key;
    private readonly int index;
    private readonly int from;
    private int to;
    private JsonMembers? members;
    private JsonTree[]? items;

    /// <summary>A value in a text, inside another by a key or an index.</summary>
    public JsonTree(JsonText text, int from, JsonTree? outer, string? key, int index) =>
        (this.text, this.from, this.outer, this.key, this.index) = (text, from, outer, key, index);

    /// <summary>Stands in where an object is missing.</summary>
    public static JsonTree Nothing => new(new JsonText([.. "{}"u8, .. new byte[JsonText.Beyond]]), 0, null, null, 0);

    public JsonKind Kind => text.Bytes[from] switch
    {
        (byte)'{' => JsonKind.Object,
        (byte)'[' => JsonKind.Array,
        (byte)'"' => JsonKind.Text,
        (byte)'t' or (byte)'f' => JsonKind.Boolean,
        (byte)'n' => JsonKind.Null,
        _ => JsonKind.Number,
    };

    /// <summary>What an object holds; nothing for another kind.</summary>
    public JsonMembers Members => members ??= Kind == JsonKind.Object ? JsonMembers.Of(text, from) : JsonMembers.None;

    /// <summary>An object's member; null when it has none, or is no object.</summary>
    public JsonTree? Member(string name) => Members.Find(name) is var i and >= 0 ? MemberAt(i, name) : null;

    /// <summary>A member by its place, with its key.</summary>
    public JsonTree MemberAt(int i, string name) => new(text, Members.ValueAt(i), this, name, 0);

    /// <summary>The unit of a number, or of those in a list, by the key; null: the program's own.</summary>
    public OtherUnit? Unit => key is not null ? OtherUnit.In(key) : outer?.Unit;

    /// <summary>How many items a list has; 0 for another kind.</summary>
    public int ItemCount => Kind == JsonKind.Array ? text.Extent(from).Count : 0;

    /// <summary>A list's items; none for another kind.</summary>
    public IReadOnlyList<JsonTree> Items => items ??= Listed();

    private JsonTree[] Listed()
    {
        var listed = new JsonTree[ItemCount];
        int at = from;
        for (int i = 0; i < listed.Length; i++)
        {
            // After the bracket, then after each comma.
            at = text.Space(at + 1);
            listed[i] = new JsonTree(text, at, this, null, i);
            at = text.Space(text.EndOf(at));
        }
        return listed;
    }

    /// <summary>A number in the program's own unit.</summary>
    public double Number => Kind != JsonKind.Number ? 0 : Unit is { } unit ? unit.Own(Raw) : NumberOf(Span);

    /// <summary>Whether any key of the whole text, wherever it stands, ends so.</summary>
    /// <param name="ending">With the quote that closes it: nothing but a key has such a quote and then a colon.</param>
    public bool HasKeyEnding(ReadOnlySpan<byte> ending)
    {
        ReadOnlySpan<byte> bytes = text.Bytes;
        for (int at = 0; bytes[at..].IndexOf(ending) is var i and >= 0;)
        {
            at += i + ending.Length;
            int next = at;
            while (next < bytes.Length && bytes[next] is (byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n') next++;
            if (next < bytes.Length && bytes[next] == ':') return true;
        }
        return false;
    }

    /// <summary>The double that is nearest to a written number; infinite when none is.</summary>
    public static double NumberOf(ReadOnlySpan<byte> written) =>
        Utf8Parser.TryParse(written, out double number, out int read) && read == written.Length ? number : double.PositiveInfinity;

    public string Text => Kind == JsonKind.Text ? JsonMembers.Decoded(Span) : "";

    /// <summary>How many characters a text has.</summary>
    public int TextLength
    {
        get
        {
            if (Kind != JsonKind.Text) return 0;
            ReadOnlySpan<byte> inside = Span[1..^1];
            int characters = JsonText.Characters(inside);
            for (int at; (at = inside.IndexOf((byte)'\\')) >= 0;)
            {
                // Twelve bytes for a pair, six or two for another; each is one character.
                int length = inside[at + 1] != 'u' ? 2 : inside[at + 2] is (byte)'d' or (byte)'D' && inside[at + 3] is not (>= (byte)'0' and <= (byte)'7') ? 12 : 6;
                characters -= length - 1;
                inside = inside[(at + length)..];
            }
            return characters;
        }
    }

    public bool Truth => text.Bytes[from] == 't';

    private ReadOnlySpan<byte> Span => text.Slice(from, to == 0 ? to = text.EndOf(from) : to);

    /// <summary>As written, for keeping what is not understood.</summary>
    public string Raw => Encoding.UTF8.GetString(Span);

    /// <summary>From the top: <c>body.back.points_mm[2]</c>; empty for the whole.</summary>
    public string Path => outer is null ? "" : key is null ? $"{outer.Path}[{index}]" : Inside(outer.Path, key);

    /// <summary>The path of a key in the object at a path.</summary>
    public static string Inside(string path, string key) => path.Length == 0 ? Shorten(key) : $"{path}.{Shorten(key)}";

    /// <summary>A short rendering for messages.</summary>
    public string Shown => Kind switch
    {
        JsonKind.Object => "an object",
        JsonKind.Array => $"a list of {ItemCount}",
        JsonKind.Text => $"the text \"{Shorten(Text)}\"",
        JsonKind.Null => "null",
        JsonKind.Number or JsonKind.Boolean => Shorten(Raw),
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
