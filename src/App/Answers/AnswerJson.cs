using System.Buffers;
using System.Collections;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Answers;

/// <summary>
/// The one place where an answer becomes JSON: a record is an object with a key for each property, in their order, and the type of a
/// value says how it is written. System.Text.Json writes the text, but its serialiser is not used: made ready at run time it makes
/// <c>predict --json</c> start a seventh slower, made ready while the program is built still 5 % (decision 0015).
/// </summary>
internal static class AnswerJson
{
    private static readonly JsonWriterOptions Options = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    // Far below any scale or ruler; rounding keeps the text the same on every machine.
    private const int Decimals = 6;

    /// <summary>Writes an answer as UTF-8, with a line end after it.</summary>
    public static void Write(Stream to, object answer)
    {
        ArrayBufferWriter<byte> bytes = Bytes(answer);
        bytes.Write(Encoding.UTF8.GetBytes(Environment.NewLine));
        to.Write(bytes.WrittenSpan);
    }

    /// <summary>The same as text, without the line end.</summary>
    public static string Text(object answer) => Encoding.UTF8.GetString(Bytes(answer).WrittenSpan);

    private static ArrayBufferWriter<byte> Bytes(object answer)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using var json = new Utf8JsonWriter(bytes, Options);
        Value(json, answer);
        return bytes;
    }

    private static void Value(Utf8JsonWriter json, object? value)
    {
        switch (value)
        {
            case null:
                json.WriteNullValue();
                break;
            case string text:
                json.WriteStringValue(text);
                break;
            case bool yes:
                json.WriteBooleanValue(yes);
                break;
            case int count:
                json.WriteNumberValue(count);
                break;
            case long count:
                json.WriteNumberValue(count);
                break;
            case double number:
                // Never −0.
                json.WriteNumberValue(Math.Round(number, Decimals) + 0.0);
                break;
            case Sampled sampled:
                json.WriteNumberValue(sampled.Value);
                break;
            case AsGiven given:
                json.WriteNumberValue(given.Value);
                break;
            case LowHigh range:
                List(json, (Sampled[])[range.Low, range.High]);
                break;
            case Enum word:
                json.WriteStringValue(AnswerWords.Of(word));
                break;
            case IKind kind:
                json.WriteStringValue(kind.Word);
                break;
            case DateTimeOffset moment:
                json.WriteStringValue(moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
                break;
            case DateOnly day:
                json.WriteStringValue(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
                break;
            case Vec3 point:
                List(json, (double[])[point.X, point.Y, point.Z]);
                break;
            case IDictionary words:
                json.WriteStartObject();
                foreach (DictionaryEntry entry in words)
                {
                    json.WritePropertyName(AnswerWords.Of((Enum)entry.Key));
                    Value(json, entry.Value);
                }
                json.WriteEndObject();
                break;
            case IEnumerable list:
                List(json, list);
                break;
            default:
                json.WriteStartObject();
                Members(json, value);
                json.WriteEndObject();
                break;
        }
    }

    private static void List(Utf8JsonWriter json, IEnumerable list)
    {
        json.WriteStartArray();
        foreach (object? item in list) Value(json, item);
        json.WriteEndArray();
    }

    private static void Members(Utf8JsonWriter json, object record)
    {
        foreach (AnswerKey key in AnswerKey.Of(record.GetType()))
        {
            object? value = key.Property.GetValue(record);
            if (value is null && key.IsLeftOut) continue;
            if (key.IsInline)
            {
                Members(json, value!);
                continue;
            }
            json.WritePropertyName(key.Name);
            Value(json, value);
        }
    }
}
