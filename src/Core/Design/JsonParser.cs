using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace Trimwright.Core.Design;

/// <summary>
/// Bytes to a tree. Refuses what no later step should have to think of: files too large or nested too deep, other
/// encodings, halves of surrogate pairs, a key twice, numbers that no double holds. Where the text goes on to make
/// sense it is read to its end, so that every such fault is told.
/// </summary>
internal sealed class JsonParser
{
    /// <summary>Largest file that is read, bytes.</summary>
    public const int LargestFile = 5_000_000;

    /// <summary>Deepest nesting that is read.</summary>
    public const int Deepest = 32;

    private readonly byte[] bytes;
    private readonly Findings findings;

    private JsonParser(byte[] bytes, Findings findings) => (this.bytes, this.findings) = (bytes, findings);

    /// <summary>The whole file's value; null when findings say why not.</summary>
    public static JsonTree? Parse(ReadOnlySpan<byte> file, Findings findings)
    {
        if (file.Length > LargestFile)
        {
            findings.Add("too-large", "", $"{file.Length} bytes or more", $"at most {LargestFile} bytes", "Check that this is a lure file.");
            return null;
        }
        if (file.StartsWith<byte>([0xEF, 0xBB, 0xBF])) file = file[3..];
        if (!Utf8.IsValid(file) || IsWide(file))
        {
            findings.Add("encoding", "", IsWide(file) ? "UTF-16 or UTF-32 text" : "bytes that are not UTF-8", "UTF-8 text", "Save the file again as UTF-8.");
            return null;
        }
        JsonTree? tree = new JsonParser(file.ToArray(), findings).Whole();
        return findings.Faults.Count == 0 ? tree : null;
    }

    // The marks of wide encodings, or a first character with a zero byte beside it.
    private static bool IsWide(ReadOnlySpan<byte> file) =>
        file.StartsWith<byte>([0xFF, 0xFE]) || file.StartsWith<byte>([0xFE, 0xFF]) || file is [0, _, ..] or [_, 0, ..];

    private JsonTree? Whole()
    {
        // The reader's own limit lies above ours, which names the place.
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = Deepest + 2 });
        try
        {
            reader.Read();
            JsonTree? tree = Value(ref reader, null, null, 0, 1);
            if (tree is not null && reader.Read()) throw new JsonException();
            return tree;
        }
        catch (JsonException e)
        {
            findings.Faults.Add(SyntaxSlip.At(bytes, e));
            return null;
        }
    }

    /// <summary>The value that the reader stands at; null once it lies too deep.</summary>
    private JsonTree? Value(ref Utf8JsonReader reader, JsonTree? outer, string? key, int index, int depth)
    {
        var tree = new JsonTree(bytes, (int)reader.TokenStartIndex, outer, key, index);
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject or JsonTokenType.StartArray when depth > Deepest:
                findings.Add("too-deep", tree.Path, $"nesting deeper than {Deepest}", $"at most {Deepest} levels", "Flatten the file.");
                return null;
            case JsonTokenType.StartObject:
                tree.Kind = JsonKind.Object;
                if (!Members(ref reader, tree, depth)) return null;
                break;
            case JsonTokenType.StartArray:
                tree.Kind = JsonKind.Array;
                if (!Items(ref reader, tree, depth)) return null;
                break;
            case JsonTokenType.String:
                tree.Kind = JsonKind.Text;
                tree.Text = TextOf(ref reader, tree) ?? "";
                break;
            case JsonTokenType.Number:
                tree.Kind = JsonKind.Number;
                tree.Number = Finite(ref reader, tree);
                break;
            default:
                tree.Kind = reader.TokenType == JsonTokenType.Null ? JsonKind.Null : JsonKind.Boolean;
                tree.Truth = reader.TokenType == JsonTokenType.True;
                break;
        }
        tree.To = (int)reader.BytesConsumed;
        return tree;
    }

    private bool Members(ref Utf8JsonReader reader, JsonTree tree, int depth)
    {
        List<(string, JsonTree)>? members = null;
        HashSet<string>? seen = null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            string? key = TextOf(ref reader, tree);
            if (key is not null && !(seen ??= new(StringComparer.Ordinal)).Add(key))
                findings.Add("duplicate-key", JsonTree.Inside(tree.Path, key), "this key twice in one object", "each key once", "Delete one of the two.");
            reader.Read();
            if (Value(ref reader, tree, key ?? "", 0, depth + 1) is not { } value) return false;
            (members ??= []).Add((key ?? "", value));
        }
        if (members is not null) tree.Members = members;
        return true;
    }

    private bool Items(ref Utf8JsonReader reader, JsonTree tree, int depth)
    {
        List<JsonTree>? items = null;
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            if (Value(ref reader, tree, null, items?.Count ?? 0, depth + 1) is not { } value) return false;
            (items ??= []).Add(value);
        }
        if (items is not null) tree.Items = items;
        return true;
    }

    private string? TextOf(ref Utf8JsonReader reader, JsonTree at)
    {
        try
        {
            return reader.GetString();
        }
        catch (InvalidOperationException)
        {
            findings.Add("encoding", at.Path, "half of a surrogate pair", "whole characters", "Write the character itself, in UTF-8.");
            return null;
        }
    }

    private double Finite(ref Utf8JsonReader reader, JsonTree at)
    {
        if (reader.TryGetDouble(out double number) && double.IsFinite(number)) return number;
        string written = Encoding.UTF8.GetString(reader.ValueSpan[..Math.Min(reader.ValueSpan.Length, 61)]);
        findings.Add("not-finite", at.Path, $"{JsonTree.Shorten(written)}, too large to hold", "finite numbers", "Correct this number.");
        return 0;
    }
}
