using System.Collections.Immutable;
using System.Text.Json;

namespace Trimwright.Core.Design;

/// <summary>An object of a file, for its schema.</summary>
internal interface IFileObject
{
    /// <summary>Its name among the definitions of the schema; null: it is described where it stands.</summary>
    string? Definition { get; }

    /// <summary>The record that it becomes.</summary>
    Type Record { get; }

    /// <summary>The objects that stand in it.</summary>
    IEnumerable<IFileObject> Inner { get; }

    /// <summary>Its schema, within the braces that the caller opened.</summary>
    void DescribeWhole(Utf8JsonWriter json);
}

/// <summary>An object of a file as the list of its keys, in the order in which they are written; what a file has besides is kept.</summary>
/// <param name="none">The record before anything is read into it.</param>
/// <param name="kept">What it kept.</param>
/// <param name="keep">Keeps it.</param>
/// <param name="keys">Its keys. Read by turn, then in this order.</param>
internal sealed class FileObject<T>(T none, Func<T, Kept> kept, Func<T, Kept, T> keep, ImmutableArray<FileKey<T>> keys) : IFileObject
{
    private readonly ImmutableArray<FileKey<T>> inReadingOrder = [.. keys.OrderBy(k => k.Turn)];

    private readonly ImmutableArray<FileKey<T>> later = [.. keys.Where(k => k.Since > 1)];

    // Its keys in other units: in files that know none they are the maker's notes.
    private readonly ImmutableArray<string> inOtherUnits = [.. keys.Select(k => k.Name).Where(name => OtherUnit.Of(name) is not null).Select(name => OtherUnit.Of(name)!.Key(name))];

    public string? Definition { get; init; }

    /// <summary>What a schema can say of several keys at once: entries of its <c>allOf</c>; null: nothing.</summary>
    public string? Conditions { get; init; }

    /// <summary>What follows from all that was read: what a key that is left out leaves to others.</summary>
    public Func<ObjectReader, T, T>? Then { get; init; }

    public Type Record => typeof(T);

    public IEnumerable<IFileObject> Inner => keys.Select(k => k.Inner).OfType<IFileObject>();

    public T Read(ObjectReader from) => ReadInto(from, none);

    /// <summary>The same into a record that has something already.</summary>
    public T ReadInto(ObjectReader from, T into)
    {
        foreach (FileKey<T> key in inReadingOrder)
            if (key.IsKnown(from)) into = key.Read(from, into);
        if (Then is not null) into = Then(from, into);
        return keep(into, from.Close([.. later.Where(k => !k.IsKnown(from)).Select(k => k.Name), .. from.TakesOtherUnits ? [] : inOtherUnits]));
    }

    /// <summary>Everything between the braces, and the closing one.</summary>
    public void Write(Utf8JsonWriter json, T from)
    {
        Kept had = kept(from);
        foreach (FileKey<T> key in keys) key.Write(json, from, had.UnitOf(key.Name));
        ObjectWriter.Close(json, had);
    }

    /// <summary>What its schema says of its keys, one by one and together.</summary>
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
        if (Conditions is null) return;
        json.WritePropertyName("allOf");
        using JsonDocument conditions = JsonDocument.Parse($"[{Conditions}]");
        conditions.RootElement.WriteTo(json);
    }

    public void DescribeWhole(Utf8JsonWriter json)
    {
        json.WriteString("type", "object");
        Describe(json);
    }
}

/// <summary>What keys of objects have in common: how the schema tells of the object.</summary>
internal static class FileDefinitions
{
    /// <summary>The object where it stands, or by the name of its definition.</summary>
    public static void Refer(Utf8JsonWriter json, IFileObject to)
    {
        if (to.Definition is { } name) json.WriteString("$ref", $"#/$defs/{name}");
        else to.DescribeWhole(json);
    }

    /// <summary>The same, or nothing.</summary>
    public static void ReferOrNull(Utf8JsonWriter json, IFileObject to)
    {
        json.WriteStartArray("anyOf");
        json.WriteStartObject();
        Refer(json, to);
        json.WriteEndObject();
        json.WriteStartObject();
        json.WriteString("type", "null");
        json.WriteEndObject();
        json.WriteEndArray();
    }

    /// <summary>Every object that can be reached from one, itself apart, each once, in the order in which they are met.</summary>
    public static IReadOnlyList<IFileObject> Under(IFileObject top)
    {
        var found = new List<IFileObject>();
        void Look(IFileObject at)
        {
            foreach (IFileObject inner in at.Inner)
            {
                if (found.Contains(inner)) continue;
                found.Add(inner);
                Look(inner);
            }
        }
        Look(top);
        return found;
    }
}

/// <summary>An object that has to be there; what it means is said when it is missing.</summary>
internal sealed class NeededObject<T, TInner>(
    string name, string title, string meaning, FileObject<TInner> form, Func<T, TInner> get, Func<T, TInner, T> with)
    : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override IFileObject Inner => form;

    public override T Read(ObjectReader from, T into) => with(into, form.Read(from.Object(Name, meaning) ?? ObjectReader.Absent));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        json.WriteStartObject(Name);
        form.Write(json, get(from));
    }

    protected override void DescribeValue(Utf8JsonWriter json) => FileDefinitions.Refer(json, form);
}

/// <summary>An object, or none.</summary>
internal sealed class ObjectOrNone<T, TInner>(
    string name, string title, FileObject<TInner> form, Func<T, TInner?> get, Func<T, TInner?, T> with)
    : FileKey<T>(name, title)
    where TInner : class
{
    public override IFileObject Inner => form;

    public override T Read(ObjectReader from, T into) => with(into, from.ObjectOrNone(Name) is { } inner ? form.Read(inner) : null);

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (get(from) is not { } inner) return;
        json.WriteStartObject(Name);
        form.Write(json, inner);
    }

    protected override void DescribeValue(Utf8JsonWriter json) => FileDefinitions.ReferOrNull(json, form);
}

/// <summary>A list of objects; left out when it is empty.</summary>
internal sealed class ObjectList<T, TItem>(
    string name, string title, int most, string meaning, FileObject<TItem> items, Func<T, ImmutableArray<TItem>> get, Func<T, ImmutableArray<TItem>, T> with)
    : FileKey<T>(name, title)
{
    public override IFileObject Inner => items;

    public override T Read(ObjectReader from, T into) => with(into, from.Each(Name, most, meaning, items.Read));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.List(json, Name, get(from), items.Write);

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "array");
        json.WriteNumber("maxItems", most);
        json.WriteStartObject("items");
        FileDefinitions.Refer(json, items);
        json.WriteEndObject();
    }
}

/// <summary>An object that may be left out, whose keys the record itself holds; written where it has any of them.</summary>
internal sealed class OwnObject<T>(string name, string title, FileObject<T> own, Func<T, bool> isThere) : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => from.ObjectOrNone(Name) is { } inner ? own.ReadInto(inner, into) : into;

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
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

/// <summary>A key of a record's part, which stands among the record's own.</summary>
internal sealed class PartKey<T, TPart>(FileKey<TPart> key, Func<T, TPart> get, Func<T, TPart, T> with) : FileKey<T>(key.Name, key.Title)
{
    public override bool IsNeeded => key.IsNeeded;

    public override T Read(ObjectReader from, T into) => with(into, key.Read(from, get(into)));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => key.Write(json, get(from), unit);

    public override void Describe(Utf8JsonWriter json) => key.Describe(json);

    protected override void DescribeValue(Utf8JsonWriter json)
    {
    }
}

/// <summary>A whole file: its version, then the keys of its object.</summary>
/// <param name="id">Of its schema: <c>log:1</c>.</param>
/// <param name="versionKey">By which it is told from other files.</param>
/// <param name="version">That is written, and the newest that is read.</param>
/// <param name="title">What it is.</param>
/// <param name="says">More about it, for the schema.</param>
/// <param name="newer">What to do about one of a newer version.</param>
/// <param name="top">Its keys.</param>
internal sealed class FileForm<T>(string id, string versionKey, int version, string title, string says, string newer, FileObject<T> top)
    where T : class
{
    /// <summary>The oldest version that is read; null: there is but one.</summary>
    public int? OldestRead { get; init; }

    private int Oldest => OldestRead ?? version;

    /// <summary>The first version whose keys may be written in other units.</summary>
    public int OtherUnitsSince { get; init; } = 1;

    /// <summary>What older versions hadn't, for the schema.</summary>
    public string? OlderHad { get; init; }

    /// <summary>The keys of its object.</summary>
    public FileObject<T> Top => top;

    /// <summary>The schema as it ships beside the reader, which a test holds to this.</summary>
    public byte[] Schema() => ObjectWriter.File(json => SchemaUnits.WriteBoth(json, InOwnUnits()));

    private byte[] InOwnUnits() => ObjectWriter.File(json =>
    {
        json.WriteString("$schema", "https://json-schema.org/draft/2020-12/schema");
        json.WriteString("$id", $"urn:trimwright:{id}");
        json.WriteString("title", title);
        json.WriteString("description", says);
        json.WriteString("type", "object");
        top.Describe(json, DescribeVersion, versionKey);
        IFileObject[] definitions = [.. FileDefinitions.Under(top).Where(o => o.Definition is not null)];
        if (definitions.Length > 0)
        {
            json.WriteStartObject("$defs");
            foreach (IFileObject definition in definitions)
            {
                json.WriteStartObject(definition.Definition!);
                definition.DescribeWhole(json);
                json.WriteEndObject();
            }
            json.WriteEndObject();
        }
        json.WriteEndObject();
    });

    private void DescribeVersion(Utf8JsonWriter json)
    {
        json.WriteStartObject(versionKey);
        json.WriteString("title", "Version of the format");
        if (OlderHad is not null) json.WriteString("description", OlderHad);
        if (Oldest == version)
        {
            json.WriteNumber("const", version);
        }
        else
        {
            json.WriteStartArray("enum");
            for (int i = Oldest; i <= version; i++) json.WriteNumberValue(i);
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    /// <summary>Reads it from UTF-8 JSON and lists every fault.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <param name="check">What no single object can say; asked only where all of them are well.</param>
    public Reading<T> Read(ReadOnlySpan<byte> utf8, Action<T, Findings> check)
    {
        var parsing = new Findings();
        if (JsonParser.Parse(utf8, parsing) is not { } tree) return new(null, [.. parsing.Faults], []);
        if (tree.Member(versionKey) is { Kind: JsonKind.Number } value && value.Number > version)
            return new(null, [new Fault("newer-version", versionKey, value.Shown, $"up to {version}", newer)], []);
        var findings = new Findings { Units = new(tree) };
        T read = Read(tree, findings);
        if (findings.Faults.Count == 0) check(read, findings);
        return new(findings.Faults.Count == 0 ? read : null, [.. findings.Faults], [.. findings.Told]);
    }

    /// <summary>Its objects, each by itself.</summary>
    public T Read(JsonTree tree, Findings findings)
    {
        var file = new ObjectReader(tree, findings);
        // A newer version has been refused before; what says no version is read as the newest.
        file.Number(versionKey, Oldest, version);
        file.Version = file.Count(versionKey, Oldest, version, version);
        file.TakesOtherUnits = file.Version >= OtherUnitsSince;
        if (!file.TakesOtherUnits) findings.Units.ReadAll();
        T read = top.Read(file);
        findings.Units.ReadAll();
        findings.Named.Tell(findings);
        return read;
    }

    /// <summary>Whether a file means to be one of these: its top object has the version's key.</summary>
    public bool IsMeant(ReadOnlySpan<byte> utf8) => JsonParser.Parse(utf8, new Findings())?.Member(versionKey) is not null;

    /// <summary>In which units a file of it is.</summary>
    public FileUnits UnitsOf(T record)
    {
        JsonTree tree = JsonParser.Parse(Write(record), new Findings())!;
        var findings = new Findings { Units = new(tree) };
        Read(tree, findings);
        return findings.Units;
    }

    public byte[] Write(T from) => ObjectWriter.File(json =>
    {
        json.WriteNumber(versionKey, version);
        top.Write(json, from);
    });
}
