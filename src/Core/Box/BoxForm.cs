using System.Collections.Immutable;
using System.Text.Json;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>The keys of a kind of item that are its own: what carries a source.</summary>
internal abstract class BoxForm
{
    /// <summary>The item's numbers by their keys, null where it has none.</summary>
    public abstract IEnumerable<(string Key, double? Value)> Numbers(BoxItem item);

    /// <summary>Keys of its lists of numbers.</summary>
    public abstract IEnumerable<string> Lists { get; }
}

/// <summary>A kind of item in the file: first what every item is known by, then its own keys, then where its numbers come from.</summary>
/// <param name="definition">Its name in the schema.</param>
/// <param name="none">The item before anything is read into it.</param>
/// <param name="own">Its own keys.</param>
/// <param name="conditions">What the schema says of several keys at once.</param>
/// <param name="then">What follows from all that was read.</param>
internal sealed class BoxForm<T>(
    string definition, T none, ImmutableArray<FileKey<T>> own, string? conditions = null, Func<ObjectReader, T, T>? then = null) : BoxForm
    where T : BoxItem
{
    private const int MostKeys = 20;

    /// <summary>An item in the file. Faults of its own keys are told first.</summary>
    public FileObject<T> Item { get; } = new(none, i => i.Kept, (i, kept) => i with { Kept = kept },
    [
        new BoxId<T> { Turn = 1 },
        new NeededText<T>("name", "What you call it", "what you call it", i => i.Name, (i, v) => i with { Name = v }) { Turn = 1 },
        .. own,
        new Choice<T, Source>("source", "Where its numbers come from", Source.Typical, FileWords.Of<Source>(), i => i.Source, (i, v) => i with { Source = v })
            { More = "For those that measured and published do not name.", IsAlwaysWritten = true, Turn = 1 },
        new OwnKeys<T>("measured", "Keys whose numbers you measured", MostKeys, i => i.Measured, (i, v) => i with { Measured = v })
            { More = "Each a key of this item.", Turn = 1 },
        new OwnKeys<T>("published", "Keys whose numbers stand in a printed source", MostKeys, i => i.Published, (i, v) => i with { Published = v })
            { More = "Each a key of this item.", Turn = 1 },
        new NumberOrNone<T>("price", "Price", 0, 1_000_000, i => i.Price, (i, v) => i with { Price = v })
            { More = "In the box's currency: of one piece; of a metre of wire, stock or leader; of a board; of 100 g of finish.", Turn = 1 },
    ]) { Definition = definition, Conditions = conditions, Then = then };

    public override IEnumerable<(string Key, double? Value)> Numbers(BoxItem item) => own.Where(k => k.IsNumber).Select(k => (k.Name, k.Of((T)item)));

    public override IEnumerable<string> Lists => own.Where(k => k.IsNumbers).Select(k => k.Name);
}

/// <summary>The id of an item.</summary>
internal sealed class BoxId<T>() : FileKey<T>("id", "Its id, unique in the box")
    where T : BoxItem
{
    private const int Longest = 60;
    private const string Allowed = "1 to 60 of a-z, 0-9 and -, the first a letter or digit";

    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into)
    {
        string id = from.Text(Name, Allowed);
        if (from.Find(Name) is { Kind: JsonKind.Text } tree && !IsId(tree.Text))
            from.Add("range", Name, tree.Shown, Allowed, "Write a short name of small letters, such as lead-rod-8.");
        return into with { Id = id };
    }

    private static bool IsId(string id) =>
        id.Length is > 0 and <= Longest && id[0] != '-' && id.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => json.WriteString(Name, from.Id);

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "string");
        json.WriteString("pattern", "^[a-z0-9][a-z0-9-]{0,59}$");
    }
}

/// <summary>A list of an item's own keys; left out when it is empty.</summary>
internal sealed class OwnKeys<T>(string name, string title, int most, Func<T, ImmutableArray<string>> get, Func<T, ImmutableArray<string>, T> with)
    : FileKey<T>(name, title)
    where T : BoxItem
{
    public override T Read(ObjectReader from, T into) => with(into,
        from.Texts(Name, most, "a list of this item's own keys", "a key of this item, in double quotes", "Name the key, such as \"mass_g\".", key => (true, OtherUnit.In(key)?.OwnKey(key) ?? key)));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (!get(from).IsEmpty) ObjectWriter.Texts(json, Name, get(from).Select(key => from.Kept.AsWritten(key)));
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "array");
        json.WriteNumber("maxItems", most);
        json.WriteStartObject("items");
        json.WriteString("type", "string");
        json.WriteEndObject();
    }
}
