using System.Collections;
using System.Collections.Immutable;
using System.Reflection;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Trimwright.App.Answers;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Answers;

/// <summary>
/// The schema that is published for an answer, made from its records: keys and their order, what may be null or left out, the words
/// of an enum as the program writes them, and as descriptions the records' own docstrings.
/// </summary>
internal sealed partial class AnswerSchema
{
    private const string Lead = " Units stand in the names of keys. Keys stay from version to version, and new ones may come.";

    private static readonly JsonSerializerOptions Shown = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static readonly Lazy<IReadOnlyDictionary<string, string>> Docs = new(ReadDocs);

    private readonly SortedDictionary<string, JsonObject> defs = new(StringComparer.Ordinal);

    /// <summary>Every record that stands on standard output as a whole.</summary>
    public static IReadOnlyList<Type> Answers { get; } =
        [.. typeof(AnswerJson).Assembly.GetTypes().Where(t => t.IsDefined(typeof(AnswerAttribute))).OrderBy(t => t.Name, StringComparer.Ordinal)];

    public static IReadOnlyList<string> Commands(Type answer) => answer.GetCustomAttribute<AnswerAttribute>()!.Commands;

    /// <summary>"store-list" for what <c>store list</c> prints.</summary>
    public static string NameOf(Type answer) => Commands(answer)[0].Replace(' ', '-');

    /// <summary>From the repository's root.</summary>
    public static string FileOf(Type answer) => $"docs/schemas/{NameOf(answer)}.schema.json";

    /// <summary>The schema as its file has it.</summary>
    public static string Of(Type answer)
    {
        var schema = new AnswerSchema();
        var root = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$id"] = $"urn:trimwright:answer:{NameOf(answer)}:1",
            ["title"] = NameOf(answer) == "fault" ? "A fault" : string.Join(", ", Commands(answer).Select(c => $"trimwright {c} --json")),
            ["description"] = Doc($"T:{answer.FullName}") + Lead,
        };
        foreach ((string key, JsonNode? value) in schema.Object(answer)) root[key] = value?.DeepClone();
        if (schema.defs.Count > 0) root["$defs"] = new JsonObject(schema.defs.Select(d => KeyValuePair.Create(d.Key, (JsonNode?)d.Value)));
        return root.ToJsonString(Shown) + "\n";
    }

    private JsonObject Object(Type record)
    {
        var properties = new JsonObject();
        var required = new JsonArray();
        var together = new JsonObject();
        Add(record, null);
        var schema = new JsonObject { ["type"] = "object", ["properties"] = properties };
        if (required.Count > 0) schema["required"] = required;
        if (together.Count > 0) schema["dependentRequired"] = together;
        return schema;

        // group: why keys may be missing, all of them together; null when they can't.
        void Add(Type from, string? group)
        {
            var always = new List<string>();
            foreach (AnswerKey key in AnswerKey.Of(from))
            {
                string said = Doc($"P:{from.FullName}.{key.Property.Name}");
                if (key.IsInline)
                {
                    Assert.True(group is null, $"{from.Name}.{key.Property.Name}: a group of keys within a group that may be missing");
                    Add(key.Property.PropertyType, MayBeNull(key.Property) ? said : null);
                    continue;
                }
                JsonObject value = Value(key.Property.PropertyType, MayBeNull(key.Property) && !key.IsLeftOut, $"{from.Name}.{key.Property.Name}");
                value["description"] = group is null ? said : $"{said} {group}";
                properties.Add(key.Name, value);
                if (key.IsLeftOut) continue;
                if (group is null) required.Add(key.Name);
                else always.Add(key.Name);
            }
            if (always.Count > 1)
                foreach (string one in always) together[one] = new JsonArray([.. always.Where(o => o != one).Select(o => (JsonNode)o)]);
        }
    }

    private JsonObject Value(Type type, bool mayBeNull, string where)
    {
        type = Nullable.GetUnderlyingType(type) ?? type;
        if (Plain(type) is { } plain)
        {
            if (mayBeNull) plain["type"] = new JsonArray(plain["type"]!.DeepClone(), "null");
            return plain;
        }
        if (type.IsEnum || typeof(IKind).IsAssignableFrom(type))
        {
            JsonArray words = WordsOf(type);
            if (mayBeNull) words.Add((JsonNode?)null);
            return new JsonObject { ["enum"] = words };
        }
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(ImmutableArray<>))
        {
            Assert.False(mayBeNull, $"{where}: a list that may be null; let it be empty");
            return new JsonObject { ["type"] = "array", ["items"] = Value(type.GenericTypeArguments[0], false, where) };
        }
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IReadOnlyDictionary<,>))
            return new JsonObject
            {
                ["type"] = "object",
                ["propertyNames"] = new JsonObject { ["enum"] = WordsOf(type.GenericTypeArguments[0]) },
                ["additionalProperties"] = Value(type.GenericTypeArguments[1], false, where),
            };
        Assert.True(type.Namespace == typeof(AnswerJson).Namespace && type.IsSealed && type.GetMethod("<Clone>$") is not null, $"{where}: a {type.Name} is no record of an answer");
        string name = JsonNamingPolicy.SnakeCaseLower.ConvertName(type.Name[..^"Json".Length]);
        if (!defs.ContainsKey(name))
        {
            // Noted before its members are looked at, so that a record may hold its like.
            JsonObject def = defs[name] = new JsonObject { ["description"] = Doc($"T:{type.FullName}") };
            foreach ((string key, JsonNode? value) in Object(type)) def[key] = value?.DeepClone();
        }
        var there = new JsonObject { ["$ref"] = $"#/$defs/{name}" };
        return mayBeNull ? new JsonObject { ["anyOf"] = new JsonArray(there, new JsonObject { ["type"] = "null" }) } : there;
    }

    private static JsonObject? Plain(Type type) => type switch
    {
        _ when type == typeof(string) => new JsonObject { ["type"] = "string" },
        _ when type == typeof(bool) => new JsonObject { ["type"] = "boolean" },
        _ when type == typeof(int) || type == typeof(long) => new JsonObject { ["type"] = "integer" },
        _ when type == typeof(double) || type == typeof(Sampled) || type == typeof(AsGiven) => new JsonObject { ["type"] = "number" },
        _ when type == typeof(Vec3) => Numbers(3),
        _ when type == typeof(LowHigh) => Numbers(2),
        _ when type == typeof(DateTimeOffset) => new JsonObject { ["type"] = "string", ["format"] = "date-time" },
        _ when type == typeof(DateOnly) => new JsonObject { ["type"] = "string", ["format"] = "date" },
        _ => null,
    };

    private static JsonObject Numbers(int count) =>
        new() { ["type"] = "array", ["items"] = new JsonObject { ["type"] = "number" }, ["minItems"] = count, ["maxItems"] = count };

    private static JsonArray WordsOf(Type type) => type.IsEnum
        ? [.. Enum.GetValues(type).Cast<Enum>().Select(value => (JsonNode)AnswerWords.Of(value))]
        : [.. ((IEnumerable)type.GetProperty("All")!.GetValue(null)!).Cast<IKind>().Select(kind => (JsonNode)kind.Word)];

    private static bool MayBeNull(PropertyInfo property) =>
        property.PropertyType.IsValueType ? Nullable.GetUnderlyingType(property.PropertyType) is not null
            : new NullabilityInfoContext().Create(property).ReadState == NullabilityState.Nullable;

    private static string Doc(string member)
    {
        Assert.True(Docs.Value.TryGetValue(member, out string? text) && text.Length > 3, $"{member} has no docstring; the published schema needs one");
        return text!;
    }

    private static Dictionary<string, string> ReadDocs()
    {
        string file = Path.ChangeExtension(typeof(AnswerJson).Assembly.Location, ".xml");
        return XDocument.Load(file).Descendants("member").Where(m => m.Element("summary") is not null)
            .ToDictionary(m => m.Attribute("name")!.Value, m => Space().Replace(m.Element("summary")!.Value, " ").Trim());
    }

    [GeneratedRegex(@"\s+")]
    private static partial Regex Space();
}
