using System.Collections.Immutable;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Trimwright.Core.Design;

/// <summary>What the writers of all files share: how objects close, what is left out, how numbers and words look.</summary>
internal static class ObjectWriter
{
    /// <summary>A whole file: one object, which the writing closes, indented, with a line's end.</summary>
    public static byte[] File(Action<Utf8JsonWriter> write)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        var options = new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
        using (var json = new Utf8JsonWriter(buffer, options))
        {
            json.WriteStartObject();
            write(json);
        }
        return [.. buffer.WrittenSpan, (byte)'\n'];
    }

    public static void Close(Utf8JsonWriter json, Kept kept)
    {
        for (int i = 0; i < kept.Count; i++)
        {
            json.WritePropertyName(kept.Key(i));
            json.WriteRawValue(kept.Value(i));
        }
        json.WriteEndObject();
    }

    public static void List<T>(Utf8JsonWriter json, string key, ImmutableArray<T> items, Action<Utf8JsonWriter, T> write)
    {
        if (items.IsEmpty) return;
        json.WriteStartArray(key);
        foreach (T item in items)
        {
            json.WriteStartObject();
            write(json, item);
        }
        json.WriteEndArray();
    }

    public static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static string In(OtherUnit? unit, string key) => unit is null ? key : unit.Key(key);

    private static string Written(OtherUnit? unit, double value) => unit is null ? Number(value) : unit.Written(value);

    /// <summary>A list of numbers, in another unit under the key of that.</summary>
    public static void Numbers(Utf8JsonWriter json, string key, IEnumerable<double> numbers, OtherUnit? unit = null)
    {
        json.WritePropertyName(In(unit, key));
        json.WriteRawValue($"[{string.Join(", ", numbers.Select(n => Written(unit, n)))}]");
    }

    public static void Texts(Utf8JsonWriter json, string key, IEnumerable<string> texts)
    {
        json.WriteStartArray(key);
        foreach (string text in texts) json.WriteStringValue(text);
        json.WriteEndArray();
    }

    public static void Pairs(Utf8JsonWriter json, string key, IEnumerable<(double A, double B)> pairs, OtherUnit? unit = null)
    {
        json.WritePropertyName(In(unit, key));
        json.WriteRawValue($"[{string.Join(", ", pairs.Select(p => $"[{Written(unit, p.A)}, {Written(unit, p.B)}]"))}]");
    }

    public static void Number(Utf8JsonWriter json, string key, double? value, OtherUnit? unit = null)
    {
        if (value is not { } number) return;
        if (unit is null)
        {
            json.WriteNumber(key, number);
            return;
        }
        json.WritePropertyName(unit.Key(key));
        json.WriteRawValue(unit.Written(number));
    }

    public static void Text(Utf8JsonWriter json, string key, string? value)
    {
        if (value is not null) json.WriteString(key, value);
    }

    /// <summary>The file's word for an enum's name: FlatBit is flat_bit.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum =>
        string.Concat(value.ToString().Select((c, i) => char.IsAsciiLetterUpper(c) ? (i == 0 ? "" : "_") + char.ToLowerInvariant(c) : c.ToString()));
}
