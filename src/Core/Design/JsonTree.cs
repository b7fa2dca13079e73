using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;

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

/// <summary>A JSON value with the path that led to it and the text that it was written as.</summary>
internal sealed class JsonTree
{
    /// <summary>Largest file that is read, bytes.</summary>
    public const int LargestFile = 5_000_000;

    /// <summary>Deepest nesting that is read.</summary>
    public const int Deepest = 32;

    public required JsonKind Kind { get; init; }

    public required string Path { get; init; }

    /// <summary>As written, for keeping what is not understood.</summary>
    public required string Raw { get; init; }

    public ImmutableArray<(string Key, JsonTree Value)> Members { get; init; } = [];

    public ImmutableArray<JsonTree> Items { get; init; } = [];

    public double Number { get; init; }

    public string Text { get; init; } = "";

    public bool Truth { get; init; }

    /// <summary>A short rendering for messages.</summary>
    public string Shown => Kind switch
    {
        JsonKind.Object => "an object",
        JsonKind.Array => $"a list of {Items.Length}",
        JsonKind.Text => $"the text \"{Shorten(Text)}\"",
        JsonKind.Null => "null",
        _ => Shorten(Raw),
    };

    public static string Shorten(string text)
    {
        var clean = new StringBuilder();
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (clean.Length >= 60) return clean.Append('…').ToString();
            clean.Append(Rune.IsControl(rune) ? "?" : rune.ToString());
        }
        return clean.ToString();
    }

    /// <summary>Parses a whole file; on failure the fault says where.</summary>
    public static JsonTree? Parse(ReadOnlySpan<byte> bytes, out Fault? fault)
    {
        fault = null;
        if (bytes.Length > LargestFile)
            fault = new Fault("too-large", "", $"{bytes.Length} bytes", $"at most {LargestFile} bytes", "Check that this is a lure file.");
        else if (bytes.StartsWith<byte>([0xFF, 0xFE]) || bytes.StartsWith<byte>([0xFE, 0xFF]))
            fault = new Fault("encoding", "", "UTF-16 text", "UTF-8 text", "Save the file again as UTF-8.");
        if (fault is not null) return null;
        if (bytes.StartsWith<byte>([0xEF, 0xBB, 0xBF])) bytes = bytes[3..];
        if (!Utf8.IsValid(bytes))
        {
            fault = new Fault("encoding", "", "bytes that are not UTF-8", "UTF-8 text", "Save the file again as UTF-8.");
            return null;
        }
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = Deepest + 2 });
        try
        {
            reader.Read();
            var parser = new Parser(bytes);
            JsonTree tree = parser.Value(ref reader, "", 1);
            if (reader.Read()) throw new JsonException();
            return tree;
        }
        catch (Refused refused)
        {
            fault = refused.Fault;
        }
        catch (JsonException e)
        {
            long line = (e.LineNumber ?? 0) + 1, column = (e.BytePositionInLine ?? 0) + 1;
            fault = reader.CurrentDepth > Deepest
                ? TooDeep("")
                : new Fault("syntax", $"line {line}, column {column}", bytes.IsEmpty ? "an empty file" : "text that is not JSON here",
                    "JSON: objects, lists, texts in double quotes, numbers with a dot",
                    "Look at this place for a missing comma, bracket or quote.");
        }
        return null;
    }

    private static Fault TooDeep(string path) =>
        new("too-deep", path, $"nesting deeper than {Deepest}", $"at most {Deepest} levels", "Flatten the file.");

    private sealed class Refused(Fault fault) : Exception
    {
        public Fault Fault => fault;
    }

    private readonly ref struct Parser(ReadOnlySpan<byte> bytes)
    {
        private readonly ReadOnlySpan<byte> bytes = bytes;

        public JsonTree Value(ref Utf8JsonReader reader, string path, int depth)
        {
            if (depth > Deepest + 1) throw new Refused(TooDeep(path));
            long from = reader.TokenStartIndex;
            switch (reader.TokenType)
            {
                case JsonTokenType.StartObject:
                    ImmutableArray<(string, JsonTree)> members = Members(ref reader, path, depth);
                    return new JsonTree { Kind = JsonKind.Object, Path = path, Members = members, Raw = Since(from, reader.BytesConsumed) };
                case JsonTokenType.StartArray:
                    ImmutableArray<JsonTree> items = Items(ref reader, path, depth);
                    return new JsonTree { Kind = JsonKind.Array, Path = path, Items = items, Raw = Since(from, reader.BytesConsumed) };
                case JsonTokenType.String:
                    return new JsonTree { Kind = JsonKind.Text, Path = path, Text = TextOf(ref reader, path), Raw = Since(from, reader.BytesConsumed) };
                case JsonTokenType.Number:
                    return new JsonTree { Kind = JsonKind.Number, Path = path, Number = Finite(ref reader, path), Raw = Since(from, reader.BytesConsumed) };
                case JsonTokenType.True or JsonTokenType.False:
                    return new JsonTree { Kind = JsonKind.Boolean, Path = path, Truth = reader.TokenType == JsonTokenType.True, Raw = Since(from, reader.BytesConsumed) };
                default:
                    return new JsonTree { Kind = JsonKind.Null, Path = path, Raw = "null" };
            }
        }

        private ImmutableArray<(string, JsonTree)> Members(ref Utf8JsonReader reader, string path, int depth)
        {
            var members = ImmutableArray.CreateBuilder<(string, JsonTree)>();
            var seen = new HashSet<string>(StringComparer.Ordinal);
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                string key = TextOf(ref reader, path);
                string inner = path.Length == 0 ? Shorten(key) : $"{path}.{Shorten(key)}";
                if (!seen.Add(key))
                    throw new Refused(new Fault("duplicate-key", inner, "this key twice in one object", "each key once", "Delete one of the two."));
                reader.Read();
                members.Add((key, Value(ref reader, inner, depth + 1)));
            }
            return members.ToImmutable();
        }

        private ImmutableArray<JsonTree> Items(ref Utf8JsonReader reader, string path, int depth)
        {
            var items = ImmutableArray.CreateBuilder<JsonTree>();
            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                items.Add(Value(ref reader, $"{path}[{items.Count}]", depth + 1));
            return items.ToImmutable();
        }

        private static string TextOf(ref Utf8JsonReader reader, string path)
        {
            try
            {
                return reader.GetString()!;
            }
            catch (InvalidOperationException)
            {
                throw new Refused(new Fault("encoding", path, "half of a surrogate pair", "whole characters", "Write the character itself, in UTF-8."));
            }
        }

        private static double Finite(ref Utf8JsonReader reader, string path) =>
            reader.TryGetDouble(out double number) && double.IsFinite(number)
                ? number
                : throw new Refused(new Fault("not-finite", path, "a number too large to hold", "finite numbers", "Correct this number."));

        private string Since(long from, long to) => Encoding.UTF8.GetString(bytes[(int)from..(int)to]);
    }
}
