using System.Collections.Immutable;
using System.Text.Json;

namespace Trimwright.Core.Design;

/// <summary>
/// A key of an object in a file, declared once: its name, what it means, its bounds and what holds where it is left out. Reading, writing
/// and the schema all come from the declaration.
/// </summary>
/// <typeparam name="T">The record that the object becomes.</typeparam>
/// <param name="name">In the file; a unit stands in it.</param>
/// <param name="title">What it means, in a few words, with its unit.</param>
internal abstract class FileKey<T>(string name, string title)
{
    public string Name => name;

    public string Title => title;

    /// <summary>More about it, for the schema alone; null: the title says all.</summary>
    public string? More { get; init; }

    /// <summary>Whether a file without it is refused.</summary>
    public virtual bool IsNeeded => false;

    /// <summary>Takes its value into the record; faults go to the reader.</summary>
    public abstract T Read(ObjectReader from, T into);

    /// <summary>Writes it, unless the record holds what leaving it out means.</summary>
    public abstract void Write(Utf8JsonWriter json, T from);

    /// <summary>Its type and bounds, for the schema.</summary>
    protected abstract void DescribeValue(Utf8JsonWriter json);

    /// <summary>Its entry under <c>properties</c>.</summary>
    public void Describe(Utf8JsonWriter json)
    {
        json.WriteStartObject(Name);
        json.WriteString("title", Title);
        if (More is not null) json.WriteString("description", More);
        DescribeValue(json);
        json.WriteEndObject();
    }

    /// <summary>The type; null is as good as nothing where the key may be left out.</summary>
    protected void Type(Utf8JsonWriter json, string type)
    {
        if (IsNeeded)
        {
            json.WriteString("type", type);
            return;
        }
        json.WriteStartArray("type");
        json.WriteStringValue(type);
        json.WriteStringValue("null");
        json.WriteEndArray();
    }

    protected static void Bounds(Utf8JsonWriter json, double least, double most)
    {
        json.WriteNumber("minimum", least);
        json.WriteNumber("maximum", most);
    }
}

/// <summary>A number that has to be there.</summary>
internal sealed class NeededNumber<T>(string name, string title, double least, double most, Func<T, double> get, Func<T, double, T> with)
    : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into) => with(into, from.Number(Name, least, most));

    public override void Write(Utf8JsonWriter json, T from) => json.WriteNumber(Name, get(from));

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "number");
        Bounds(json, least, most);
    }
}

/// <summary>A number with a usual value, which is left out when it is that.</summary>
internal sealed class UsualNumber<T>(string name, string title, double least, double most, double usual, Func<T, double> get, Func<T, double, T> with)
    : FileKey<T>(name, title)
{
    /// <summary>Written even where it is the usual one.</summary>
    public bool IsAlwaysWritten { get; init; }

    public override T Read(ObjectReader from, T into) => with(into, from.Number(Name, least, most, usual));

    public override void Write(Utf8JsonWriter json, T from)
    {
        if (IsAlwaysWritten || get(from) != usual) json.WriteNumber(Name, get(from));
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "number");
        Bounds(json, least, most);
        json.WriteNumber("default", usual);
    }
}

/// <summary>A number that may not be known.</summary>
internal sealed class NumberOrNone<T>(string name, string title, double least, double most, Func<T, double?> get, Func<T, double?, T> with)
    : FileKey<T>(name, title)
{
    /// <summary>Its value in a record.</summary>
    public double? Of(T record) => get(record);

    public override T Read(ObjectReader from, T into) => with(into, from.NumberOrNone(Name, least, most));

    public override void Write(Utf8JsonWriter json, T from) => ObjectWriter.Number(json, Name, get(from));

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "number");
        Bounds(json, least, most);
    }
}

/// <summary>So many numbers in a list, or none.</summary>
internal sealed class NumbersOrNone<T>(
    string name, string title, int count, double least, double most, Func<T, ImmutableArray<double>?> get, Func<T, ImmutableArray<double>?, T> with)
    : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => with(into, from.Numbers(Name, count, least, most));

    public override void Write(Utf8JsonWriter json, T from)
    {
        if (get(from) is { } numbers) ObjectWriter.Numbers(json, Name, numbers);
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "array");
        json.WriteNumber("minItems", count);
        json.WriteNumber("maxItems", count);
        json.WriteStartObject("items");
        json.WriteString("type", "number");
        Bounds(json, least, most);
        json.WriteEndObject();
    }
}

/// <summary>A short text that has to be there; what it means is said when it is missing.</summary>
internal sealed class NeededText<T>(string name, string title, string meaning, Func<T, string> get, Func<T, string, T> with) : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into) => with(into, from.Text(Name, meaning));

    public override void Write(Utf8JsonWriter json, T from) => json.WriteString(Name, get(from));

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "string");
        json.WriteNumber("maxLength", ObjectReader.LongestText);
    }
}

/// <summary>A short text, or none; what it means is said when there is something else.</summary>
internal sealed class TextOrNone<T>(string name, string title, string meaning, Func<T, string?> get, Func<T, string?, T> with) : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => with(into, from.TextOrNone(Name, meaning));

    public override void Write(Utf8JsonWriter json, T from) => ObjectWriter.Text(json, Name, get(from));

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "string");
        json.WriteNumber("maxLength", ObjectReader.LongestText);
    }
}

/// <summary>True or false; left out when it is false.</summary>
internal sealed class YesOrNo<T>(string name, string title, Func<T, bool> get, Func<T, bool, T> with) : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => with(into, from.Truth(Name, false));

    public override void Write(Utf8JsonWriter json, T from)
    {
        if (get(from)) json.WriteBoolean(Name, true);
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "boolean");
        json.WriteBoolean("default", false);
    }
}

/// <summary>One of a few words; left out when it is the usual one.</summary>
internal sealed class Choice<T, TValue>(
    string name, string title, TValue usual, ImmutableArray<(string Word, TValue Value)> words, Func<T, TValue> get, Func<T, TValue, T> with)
    : FileKey<T>(name, title)
    where TValue : notnull
{
    /// <summary>What leaving it out means is not the same everywhere; the schema leaves that to words.</summary>
    public bool IsUsualSaid { get; init; }

    private string WordOf(TValue value) => words.First(w => w.Value.Equals(value)).Word;

    public override T Read(ObjectReader from, T into) => with(into, from.Choice(Name, usual, words.AsSpan()));

    public override void Write(Utf8JsonWriter json, T from)
    {
        if (!get(from).Equals(usual)) json.WriteString(Name, WordOf(get(from)));
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        FileWords.Describe(json, words.Select(w => w.Word), mayBeNull: true);
        if (!IsUsualSaid) json.WriteString("default", WordOf(usual));
    }
}

/// <summary>One of a few words that has to be there.</summary>
internal sealed class NeededChoice<T, TValue>(
    string name, string title, TValue otherwise, ImmutableArray<(string Word, TValue Value)> words, Func<T, TValue> get, Func<T, TValue, T> with)
    : FileKey<T>(name, title)
    where TValue : notnull
{
    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into)
    {
        from.Text(Name, string.Join(", ", words.Select(w => w.Word)));
        return with(into, from.Choice(Name, otherwise, words.AsSpan()));
    }

    public override void Write(Utf8JsonWriter json, T from) => json.WriteString(Name, words.First(w => w.Value.Equals(get(from))).Word);

    protected override void DescribeValue(Utf8JsonWriter json) => FileWords.Describe(json, words.Select(w => w.Word), mayBeNull: false);
}

/// <summary>One of a few words, or none.</summary>
internal sealed class ChoiceOrNone<T, TValue>(
    string name, string title, ImmutableArray<(string Word, TValue Value)> words, Func<T, TValue?> get, Func<T, TValue?, T> with)
    : FileKey<T>(name, title)
    where TValue : struct
{
    public override T Read(ObjectReader from, T into) =>
        with(into, from.Find(Name) is null ? null : from.Choice(Name, words[0].Value, words.AsSpan()));

    public override void Write(Utf8JsonWriter json, T from)
    {
        if (get(from) is { } value) json.WriteString(Name, words.First(w => w.Value.Equals(value)).Word);
    }

    protected override void DescribeValue(Utf8JsonWriter json) => FileWords.Describe(json, words.Select(w => w.Word), mayBeNull: true);
}

/// <summary>Lists of words in a schema.</summary>
internal static class FileWords
{
    public static void Describe(Utf8JsonWriter json, IEnumerable<string> words, bool mayBeNull)
    {
        json.WriteStartArray("enum");
        foreach (string word in words) json.WriteStringValue(word);
        if (mayBeNull) json.WriteNullValue();
        json.WriteEndArray();
    }

    /// <summary>Each member of an enum with its own word.</summary>
    public static ImmutableArray<(string Word, TValue Value)> Of<TValue>()
        where TValue : struct, Enum =>
        [.. Enum.GetValues<TValue>().Select(v => (ObjectWriter.Word(v), v))];
}
