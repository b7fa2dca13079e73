using System.Collections.Concurrent;
using System.Reflection;
using System.Text.Json;

namespace Trimwright.App.Answers;

/// <summary>Marks a record that stands on standard output as a whole, and names the commands that print it.</summary>
/// <param name="commands">As typed, <c>predict</c>; the first also names the published schema.</param>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class AnswerAttribute(params string[] commands) : Attribute
{
    public IReadOnlyList<string> Commands => commands;
}

/// <summary>The property's keys stand among those of the record that holds it; when it is null, none of them does.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class InlineAttribute : Attribute;

/// <summary>When the property is null its key is left out, instead of standing there with null.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class LeftOutAttribute : Attribute;

/// <summary>The property's key, where the rule gives another: <c>low_95</c> for <c>Low95</c>.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class KeyAttribute(string name) : Attribute
{
    public string Name => name;
}

/// <summary>A key of an answer.</summary>
/// <param name="Name">The property's name in lower case, words parted by _.</param>
/// <param name="Property">Where its value stands.</param>
/// <param name="IsInline">Its own keys stand in its place.</param>
/// <param name="IsLeftOut">It does not stand there when it is null.</param>
internal sealed record AnswerKey(string Name, PropertyInfo Property, bool IsInline, bool IsLeftOut)
{
    private static readonly ConcurrentDictionary<Type, AnswerKey[]> Known = [];

    /// <summary>The keys of a record, in the order in which it declares them.</summary>
    public static IReadOnlyList<AnswerKey> Of(Type record) => Known.GetOrAdd(record, static type => [.. type.GetProperties().Select(Of)]);

    private static AnswerKey Of(PropertyInfo property)
    {
        bool inline = property.IsDefined(typeof(InlineAttribute), false);
        string name = property.GetCustomAttribute<KeyAttribute>(false)?.Name ?? JsonNamingPolicy.SnakeCaseLower.ConvertName(property.Name);
        return new(name, property, inline, inline || property.IsDefined(typeof(LeftOutAttribute), false));
    }
}
