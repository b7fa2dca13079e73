using System.Text;
using System.Text.Json;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>A JSON value with all that is in it, each made at once.</summary>
internal sealed record PlainTree(JsonKind Kind, string Path, string Raw, string Text, double Number, bool Truth, IReadOnlyList<(string Key, PlainTree Value)> Members, IReadOnlyList<PlainTree> Items);

/// <summary>
/// What <see cref="JsonParser"/> does, as plainly as can be: value after value through the library's reader, in the way of a textbook. It
/// is slow, and the other is held to it, fault for fault and letter for letter.
/// </summary>
internal sealed class PlainParser
{
    private readonly byte[] bytes;

    private PlainParser(byte[] bytes) => this.bytes = bytes;

    public Findings Findings { get; } = new();

    public PlainTree? Tree { get; private set; }

    public static PlainParser Of(byte[] utf8)
    {
        var parser = new PlainParser(utf8);
        parser.Whole();
        if (parser.Findings.Faults.Count > 0) parser.Tree = null;
        return parser;
    }

    private void Whole()
    {
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = JsonParser.Deepest + 2 });
        try
        {
            reader.Read();
            Tree = Value(ref reader, "", 1);
            if (Tree is not null && reader.Read()) throw new JsonException();
        }
        catch (JsonException e)
        {
            Findings.Faults.Add(Slip(e));
        }
    }

    private PlainTree? Value(ref Utf8JsonReader reader, string path, int depth)
    {
        int from = (int)reader.TokenStartIndex;
        var members = new List<(string, PlainTree)>();
        var items = new List<PlainTree>();
        JsonKind kind = reader.TokenType switch
        {
            JsonTokenType.StartObject => JsonKind.Object, JsonTokenType.StartArray => JsonKind.Array, JsonTokenType.String => JsonKind.Text,
            JsonTokenType.Number => JsonKind.Number, JsonTokenType.Null => JsonKind.Null, _ => JsonKind.Boolean,
        };
        if (kind is JsonKind.Object or JsonKind.Array && depth > JsonParser.Deepest)
        {
            Findings.Add("too-deep", path, $"nesting deeper than {JsonParser.Deepest}", $"at most {JsonParser.Deepest} levels", "Flatten the file.");
            return null;
        }
        string text = "";
        double number = 0;
        bool truth = reader.TokenType == JsonTokenType.True;
        switch (kind)
        {
            case JsonKind.Object:
                var seen = new HashSet<string>(StringComparer.Ordinal);
                while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
                {
                    string? key = TextOf(ref reader, path);
                    string inside = JsonTree.Inside(path, key ?? "");
                    if (key is not null && !seen.Add(key)) Findings.Add("duplicate-key", inside, "this key twice in one object", "each key once", "Delete one of the two.");
                    reader.Read();
                    if (Value(ref reader, inside, depth + 1) is not { } value) return null;
                    members.Add((key ?? "", value));
                }
                break;
            case JsonKind.Array:
                while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                {
                    if (Value(ref reader, $"{path}[{items.Count}]", depth + 1) is not { } value) return null;
                    items.Add(value);
                }
                break;
            case JsonKind.Text:
                text = TextOf(ref reader, path) ?? "";
                break;
            case JsonKind.Number:
                if (reader.TryGetDouble(out number) && double.IsFinite(number)) break;
                string written = Encoding.UTF8.GetString(reader.ValueSpan[..Math.Min(reader.ValueSpan.Length, 61)]);
                Findings.Add("not-finite", path, $"{JsonTree.Shorten(written)}, too large to hold", "finite numbers", "Correct this number.");
                break;
        }
        return new PlainTree(kind, path, Encoding.UTF8.GetString(bytes, from, (int)reader.BytesConsumed - from), text, number, truth, members, items);
    }

    private string? TextOf(ref Utf8JsonReader reader, string path)
    {
        try
        {
            return reader.GetString();
        }
        catch (InvalidOperationException)
        {
            Findings.Add("encoding", path, "half of a surrogate pair", "whole characters", "Write the character itself, in UTF-8.");
            return null;
        }
    }

    private Fault Slip(JsonException e)
    {
        int start = 0, line = 1;
        for (; line <= (e.LineNumber ?? 0) && Array.IndexOf(bytes, (byte)'\n', start) is var end and >= 0; line++) start = end + 1;
        int at = Math.Clamp(start + (int)(e.BytePositionInLine ?? 0), 0, bytes.Length);
        string path = $"line {line}, column {1 + Encoding.UTF8.GetString(bytes, start, at - start).EnumerateRunes().Count()}";
        return SyntaxSlip.Of(path, bytes.AsSpan(0, at), bytes.AsSpan(at));
    }
}
