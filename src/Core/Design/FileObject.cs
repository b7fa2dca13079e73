using System.Collections.Immutable;
using System.Text.Json;

namespace Trimwright.Core.Design;

/// <summary>An object of a file as the list of its keys, in the order in which they are written; what a file has besides is kept.</summary>
/// <param name="none">The record before anything is read into it.</param>
/// <param name="kept">What it kept.</param>
/// <param name="keep">Keeps it.</param>
/// <param name="keys">Its keys. Faults are told in this order.</param>
internal sealed class FileObject<T>(T none, Func<T, Kept> kept, Func<T, Kept, T> keep, ImmutableArray<FileKey<T>> keys)
{
    public T Read(ObjectReader from) => ReadInto(from, none);

    /// <summary>The same into a record that has something already.</summary>
    public T ReadInto(ObjectReader from, T into)
    {
        foreach (FileKey<T> key in keys) into = key.Read(from, into);
        return keep(into, from.Close());
    }

    /// <summary>Everything between the braces, and the closing one.</summary>
    public void Write(Utf8JsonWriter json, T from)
    {
        foreach (FileKey<T> key in keys) key.Write(json, from);
        ObjectWriter.Close(json, kept(from));
    }

    /// <summary><c>required</c> and <c>properties</c> of its schema.</summary>
    /// <param name="json">Within the object's own braces.</param>
    /// <param name="first">Describes what comes before its keys; null: nothing.</param>
    /// <param name="needed">What of that has to be there.</param>
    public void Describe(Utf8JsonWriter json, Action<Utf8JsonWriter>? first = null, params ReadOnlySpan<string> needed)
    {
        string[] required = [.. needed, .. keys.Where(k => k.IsNeeded).Select(k => k.Name)];
        if (required.Length > 0)
        {
            json.WriteStartArray("required");
            foreach (string key in required) json.WriteStringValue(key);
            json.WriteEndArray();
        }
        json.WriteStartObject("properties");
        first?.Invoke(json);
        foreach (FileKey<T> key in keys) key.Describe(json);
        json.WriteEndObject();
    }
}

/// <summary>A list of objects; left out when it is empty.</summary>
internal sealed class ObjectList<T, TItem>(
    string name, string title, int most, string meaning, FileObject<TItem> items, Func<T, ImmutableArray<TItem>> get, Func<T, ImmutableArray<TItem>, T> with)
    : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => with(into, from.Each(Name, most, meaning, items.Read));

    public override void Write(Utf8JsonWriter json, T from) => ObjectWriter.List(json, Name, get(from), items.Write);

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "array");
        json.WriteNumber("maxItems", most);
        json.WriteStartObject("items");
        json.WriteString("type", "object");
        items.Describe(json);
        json.WriteEndObject();
    }
}

/// <summary>An object that may be left out, whose keys the record itself holds; written where it has any of them.</summary>
internal sealed class OwnObject<T>(string name, string title, FileObject<T> own, Func<T, bool> isThere) : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => from.ObjectOrNone(Name) is { } inner ? own.ReadInto(inner, into) : into;

    public override void Write(Utf8JsonWriter json, T from)
    {
        if (!isThere(from)) return;
        json.WriteStartObject(Name);
        own.Write(json, from);
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "object");
        own.Describe(json);
    }
}

/// <summary>A whole file: its version, then the keys of its object.</summary>
/// <param name="id">Of its schema: <c>log</c>.</param>
/// <param name="versionKey">By which it is told from other files.</param>
/// <param name="version">That is written and read.</param>
/// <param name="title">What it is.</param>
/// <param name="says">More about it, for the schema.</param>
/// <param name="top">Its keys.</param>
internal sealed class FileForm<T>(string id, string versionKey, int version, string title, string says, FileObject<T> top)
{
    /// <summary>The schema as it ships beside the reader, which a test holds to this.</summary>
    public byte[] Schema() => ObjectWriter.File(json =>
    {
        json.WriteString("$schema", "https://json-schema.org/draft/2020-12/schema");
        json.WriteString("$id", $"urn:trimwright:{id}:{version}");
        json.WriteString("title", title);
        json.WriteString("description", says);
        json.WriteString("type", "object");
        top.Describe(json, own =>
        {
            own.WriteStartObject(versionKey);
            own.WriteString("title", "Version of the format");
            own.WriteNumber("const", version);
            own.WriteEndObject();
        }, versionKey);
        json.WriteEndObject();
    });

    public T Read(ObjectReader file)
    {
        file.Number(versionKey, version, version);
        return top.Read(file);
    }

    public byte[] Write(T from) => ObjectWriter.File(json =>
    {
        json.WriteNumber(versionKey, version);
        top.Write(json, from);
    });
}
