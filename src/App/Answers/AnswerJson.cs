using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Trimwright.App.Answers;

/// <summary>
/// The one place where an answer becomes JSON. What stands in it is in the records; how a number is rounded is in its type. The
/// code that writes each record is made from it while the program is built, which starts faster than finding out at run time
/// (decision 0015).
/// </summary>
internal static class AnswerJson
{
    private static readonly JsonWriterOptions Options = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes an answer as UTF-8, with a line end after it.</summary>
    public static void Write<T>(Stream to, T answer)
        where T : class
    {
        ArrayBufferWriter<byte> bytes = Bytes(answer);
        bytes.Write(Encoding.UTF8.GetBytes(Environment.NewLine));
        to.Write(bytes.WrittenSpan);
    }

    /// <summary>The same as text, without the line end.</summary>
    public static string Text<T>(T answer)
        where T : class => Encoding.UTF8.GetString(Bytes(answer).WrittenSpan);

    private static ArrayBufferWriter<byte> Bytes<T>(T answer)
        where T : class
    {
        var bytes = new ArrayBufferWriter<byte>();
        using var json = new Utf8JsonWriter(bytes, Options);
        JsonSerializer.Serialize(json, answer, (JsonTypeInfo<T>)AnswerContext.Default.GetTypeInfo(typeof(T))!);
        return bytes;
    }

    /// <summary>Answers are written, never read.</summary>
    internal abstract class Leaf<T> : JsonConverter<T>
    {
        public sealed override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => throw new NotSupportedException();
    }

    internal sealed class OfRounded : Leaf<Rounded>
    {
        public override void Write(Utf8JsonWriter writer, Rounded value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Value);
    }

    internal sealed class OfSampled : Leaf<Sampled>
    {
        public override void Write(Utf8JsonWriter writer, Sampled value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Value);
    }

    internal sealed class OfPoint : Leaf<Point>
    {
        public override void Write(Utf8JsonWriter writer, Point value, JsonSerializerOptions options)
        {
            writer.WriteStartArray();
            writer.WriteNumberValue(value.X.Value);
            writer.WriteNumberValue(value.Y.Value);
            writer.WriteNumberValue(value.Z.Value);
            writer.WriteEndArray();
        }
    }

    internal sealed class OfLowHigh : Leaf<LowHigh>
    {
        public override void Write(Utf8JsonWriter writer, LowHigh value, JsonSerializerOptions options)
        {
            writer.WriteStartArray();
            writer.WriteNumberValue(value.Low.Value);
            writer.WriteNumberValue(value.High.Value);
            writer.WriteEndArray();
        }
    }

    internal sealed class OfMoment : Leaf<Moment>
    {
        public override void Write(Utf8JsonWriter writer, Moment value, JsonSerializerOptions options) => writer.WriteStringValue(value.Text);
    }
}

/// <summary>
/// What is written, and by which rule keys are named. An answer is named here once; what it holds is found from it.
/// </summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Serialization, PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower)]
[JsonSerializable(typeof(BuildPlanJson))]
[JsonSerializable(typeof(CheckJson))]
[JsonSerializable(typeof(CopyJson))]
[JsonSerializable(typeof(LearnJson))]
[JsonSerializable(typeof(NextJson))]
[JsonSerializable(typeof(PlanJson))]
[JsonSerializable(typeof(PredictJson))]
[JsonSerializable(typeof(ReadingsJson))]
[JsonSerializable(typeof(RefusalJson))]
[JsonSerializable(typeof(StoreCheckJson))]
[JsonSerializable(typeof(StoreImportJson))]
[JsonSerializable(typeof(StoreListJson))]
[JsonSerializable(typeof(StoreRestoreJson))]
[JsonSerializable(typeof(StoreWrittenJson))]
[JsonSerializable(typeof(StrengthJson))]
[JsonSerializable(typeof(SwapJson))]
internal sealed partial class AnswerContext : JsonSerializerContext;
