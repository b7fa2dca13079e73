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

    /// <summary>The first version of the file that has it; what an older file has under that name is kept as a note.</summary>
    public int Since { get; init; } = 1;

    /// <summary>Keys are read, and their faults told, by turn, then as they are written; what others hang on comes before 0.</summary>
    public int Turn { get; init; }

    /// <summary>Whether a file without it is refused.</summary>
    public virtual bool IsNeeded => false;

    /// <summary>Whether it is a single number.</summary>
    public virtual bool IsNumber => false;

    /// <summary>That number in a record; null: none.</summary>
    public virtual double? Of(T record) => null;

    /// <summary>Whether it is a list of numbers.</summary>
    public virtual bool IsNumbers => false;

    /// <summary>What stands under it, where that is described by itself.</summary>
    public virtual IFileObject? Inner => null;

    /// <summary>Whether a file of this version can have it.</summary>
    public bool IsKnown(ObjectReader from) => Since <= from.Version;

    /// <summary>Whether the file gives it.</summary>
    public bool IsGiven(ObjectReader from) => IsKnown(from) && from.Has(Name);

    /// <summary>Takes its value into the record; faults go to the reader.</summary>
    public abstract T Read(ObjectReader from, T into);

    /// <summary>Writes it, unless the record holds what leaving it out means.</summary>
    /// <param name="json">Within the object's braces.</param>
    /// <param name="from">The record.</param>
    /// <param name="unit">In which its numbers were written instead of in their own; null: in their own.</param>
    public abstract void Write(Utf8JsonWriter json, T from, OtherUnit? unit);

    /// <summary>Its type and bounds, for the schema.</summary>
    protected abstract void DescribeValue(Utf8JsonWriter json);

    /// <summary>Its entry under <c>properties</c>.</summary>
    public virtual void Describe(Utf8JsonWriter json)
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

    /// <summary>A list of numbers, each within bounds.</summary>
    protected void Numbers(Utf8JsonWriter json, int? fewest, int most, double least, double greatest)
    {
        Type(json, "array");
        if (fewest is { } count) json.WriteNumber("minItems", count);
        json.WriteNumber("maxItems", most);
        json.WriteStartObject("items");
        json.WriteString("type", "number");
        Bounds(json, least, greatest);
        json.WriteEndObject();
    }

    /// <summary>A list of pairs, each number within its own bounds.</summary>
    protected void Pairs(Utf8JsonWriter json, int? fewest, int most, params ReadOnlySpan<(double Least, double Most)> bounds)
    {
        Type(json, "array");
        if (fewest is { } count) json.WriteNumber("minItems", count);
        json.WriteNumber("maxItems", most);
        json.WriteStartObject("items");
        json.WriteString("type", "array");
        json.WriteNumber("minItems", 2);
        json.WriteNumber("maxItems", 2);
        json.WriteStartArray("prefixItems");
        foreach ((double from, double to) in bounds)
        {
            json.WriteStartObject();
            json.WriteString("type", "number");
            Bounds(json, from, to);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }
}

/// <summary>A number that has to be there.</summary>
internal sealed class NeededNumber<T>(string name, string title, double least, double most, Func<T, double> get, Func<T, double, T> with)
    : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override bool IsNumber => true;

    public override double? Of(T record) => get(record);

    public override T Read(ObjectReader from, T into) => with(into, from.Number(Name, least, most));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.Number(json, Name, get(from), unit);

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

    public override bool IsNumber => true;

    public override double? Of(T record) => get(record);

    public override T Read(ObjectReader from, T into) => with(into, from.Number(Name, least, most, usual));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (IsAlwaysWritten || get(from) != usual) ObjectWriter.Number(json, Name, get(from), unit);
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
    /// <summary>Where it has to be there all the same, by what has been read before it; null: nowhere.</summary>
    public Func<ObjectReader, T, bool>? NeededWhere { get; init; }

    public override bool IsNumber => true;

    public override double? Of(T record) => get(record);

    public override T Read(ObjectReader from, T into) =>
        with(into, NeededWhere?.Invoke(from, into) == true ? from.Number(Name, least, most) : from.NumberOrNone(Name, least, most));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.Number(json, Name, get(from), unit);

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "number");
        Bounds(json, least, most);
    }
}

/// <summary>A number that some of them can't do without, in no less than its least; the others may have it from 0. Which they are, what was read before it tells.</summary>
internal sealed class NumberOfSome<T>(
    string name, string title, double least, double most, Func<T, bool> isNeeded, Func<T, double?> get, Func<T, double?, T> with)
    : FileKey<T>(name, title)
{
    public override bool IsNumber => true;

    public override double? Of(T record) => get(record);

    public override T Read(ObjectReader from, T into) =>
        with(into, isNeeded(into) ? from.Number(Name, least, most) : from.NumberOrNone(Name, 0, most));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.Number(json, Name, get(from), unit);

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "number");
        Bounds(json, 0, most);
    }
}

/// <summary>A whole number with a usual value.</summary>
internal sealed class UsualCount<T>(string name, string title, int least, int most, int usual, Func<T, int> get, Func<T, int, T> with)
    : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => with(into, from.Count(Name, least, most, usual));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => json.WriteNumber(Name, get(from));

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "integer");
        Bounds(json, least, most);
        json.WriteNumber("default", usual);
    }
}

/// <summary>A whole number, or none.</summary>
internal sealed class CountOrNone<T>(string name, string title, int least, int most, Func<T, int?> get, Func<T, int?, T> with)
    : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => with(into, from.Has(Name) ? from.Count(Name, least, most, least) : null);

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.Number(json, Name, get(from));

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "integer");
        Bounds(json, least, most);
    }
}

/// <summary>So many numbers in a list, which have to be there.</summary>
internal sealed class NeededNumbers<T>(
    string name, string title, int count, double least, double most, Func<T, ImmutableArray<double>> get, Func<T, ImmutableArray<double>, T> with)
    : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override bool IsNumbers => true;

    public override T Read(ObjectReader from, T into) => with(into, from.NumbersNeeded(Name, count, least, most));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.Numbers(json, Name, get(from), unit);

    protected override void DescribeValue(Utf8JsonWriter json) => Numbers(json, count, count, least, most);
}

/// <summary>A list of as many numbers as there are; what it means is said when there is something else.</summary>
internal sealed class NumberList<T>(
    string name, string title, int most, string meaning, (double Least, double Most) each,
    Func<T, ImmutableArray<double>> get, Func<T, ImmutableArray<double>, T> with)
    : FileKey<T>(name, title)
{
    /// <summary>A file without it is refused, though it may be empty.</summary>
    public bool HasToBeThere { get; init; }

    public override bool IsNeeded => HasToBeThere;

    public override bool IsNumbers => true;

    public override T Read(ObjectReader from, T into)
    {
        if (HasToBeThere) from.Need(Name, meaning);
        return with(into, from.NumberList(Name, most, meaning, each.Least, each.Most));
    }

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (HasToBeThere || !get(from).IsEmpty) ObjectWriter.Numbers(json, Name, get(from), unit);
    }

    protected override void DescribeValue(Utf8JsonWriter json) => Numbers(json, null, most, each.Least, each.Most);
}

/// <summary>So many numbers in a list, or none.</summary>
internal sealed class NumbersOrNone<T>(
    string name, string title, int count, double least, double most, Func<T, ImmutableArray<double>?> get, Func<T, ImmutableArray<double>?, T> with)
    : FileKey<T>(name, title)
{
    public override bool IsNumbers => true;

    public override T Read(ObjectReader from, T into) => with(into, from.Numbers(Name, count, least, most));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (get(from) is { } numbers) ObjectWriter.Numbers(json, Name, numbers, unit);
    }

    protected override void DescribeValue(Utf8JsonWriter json) => Numbers(json, count, count, least, most);
}

/// <summary>A list of pairs, each number within its own bounds; left out when it is empty.</summary>
internal sealed class PairList<T>(
    string name, string title, int most, (double Least, double Most) first, (double Least, double Most) second,
    Func<T, ImmutableArray<(double, double)>> get, Func<T, ImmutableArray<(double, double)>, T> with)
    : FileKey<T>(name, title)
{
    public override T Read(ObjectReader from, T into) => with(into, from.Pairs(Name, most, first, second));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (!get(from).IsEmpty) ObjectWriter.Pairs(json, Name, get(from), unit);
    }

    protected override void DescribeValue(Utf8JsonWriter json) => Pairs(json, null, most, first, second);
}

/// <summary>A list of pairs that has to be there, of so many at least: that, geometry says.</summary>
internal sealed class NeededPairs<T>(
    string name, string title, int fewest, int most, (double Least, double Most) first, (double Least, double Most) second,
    Func<T, ImmutableArray<(double, double)>> get, Func<T, ImmutableArray<(double, double)>, T> with)
    : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into) => with(into, from.PairsNeeded(Name, most, first, second));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.Pairs(json, Name, get(from), unit);

    protected override void DescribeValue(Utf8JsonWriter json) => Pairs(json, fewest, most, first, second);
}

/// <summary>A short text that has to be there; what it means is said when it is missing.</summary>
internal sealed class NeededText<T>(string name, string title, string meaning, Func<T, string> get, Func<T, string, T> with) : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into) => with(into, from.Text(Name, meaning));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => json.WriteString(Name, get(from));

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

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => ObjectWriter.Text(json, Name, get(from));

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

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (get(from)) json.WriteBoolean(Name, true);
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "boolean");
        json.WriteBoolean("default", false);
    }
}

/// <summary>True or false, which has to be said.</summary>
internal sealed class NeededYesOrNo<T>(string name, string title, Func<T, bool> get, Func<T, bool, T> with) : FileKey<T>(name, title)
{
    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into) => with(into, from.TruthNeeded(Name));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => json.WriteBoolean(Name, get(from));

    protected override void DescribeValue(Utf8JsonWriter json) => Type(json, "boolean");
}

/// <summary>One of a few words; left out when it is the usual one.</summary>
internal sealed class Choice<T, TValue>(
    string name, string title, TValue usual, ImmutableArray<(string Word, TValue Value)> words, Func<T, TValue> get, Func<T, TValue, T> with)
    : FileKey<T>(name, title)
    where TValue : notnull
{
    /// <summary>What leaving it out means is not the same everywhere; the schema leaves that to words.</summary>
    public bool IsUsualSaid { get; init; }

    /// <summary>Written even where it is the usual one.</summary>
    public bool IsAlwaysWritten { get; init; }

    private string WordOf(TValue value) => words.First(w => w.Value.Equals(value)).Word;

    public override T Read(ObjectReader from, T into) => with(into, from.Choice(Name, usual, words.AsSpan()));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (IsAlwaysWritten || !get(from).Equals(usual)) json.WriteString(Name, WordOf(get(from)));
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
    /// <summary>The words as a sentence has them; null: one after the other.</summary>
    public string? Meaning { get; init; }

    public override bool IsNeeded => true;

    public override T Read(ObjectReader from, T into)
    {
        from.Text(Name, Meaning ?? string.Join(", ", words.Select(w => w.Word)));
        return with(into, from.Choice(Name, otherwise, words.AsSpan()));
    }

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit) => json.WriteString(Name, words.First(w => w.Value.Equals(get(from))).Word);

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

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (get(from) is { } value) json.WriteString(Name, words.First(w => w.Value.Equals(value)).Word);
    }

    protected override void DescribeValue(Utf8JsonWriter json) => FileWords.Describe(json, words.Select(w => w.Word), mayBeNull: true);
}

/// <summary>Some of a few words, or no list at all.</summary>
internal sealed class ChoicesOrNone<T, TValue>(
    string name, string title, string meaning, ImmutableArray<(string Word, TValue Value)> words,
    Func<T, ImmutableArray<TValue>?> get, Func<T, ImmutableArray<TValue>?, T> with)
    : FileKey<T>(name, title)
    where TValue : notnull
{
    public override T Read(ObjectReader from, T into) => with(into, !from.Has(Name) ? null : from.Texts(Name, words.Length, meaning,
        string.Join(", ", words.Select(w => w.Word)), "Choose from these words.", text => words.FirstOrDefault(w => w.Word == text) is (not null, var value) ? (true, value) : default));

    public override void Write(Utf8JsonWriter json, T from, OtherUnit? unit)
    {
        if (get(from) is { } values) ObjectWriter.Texts(json, Name, values.Select(v => words.First(w => w.Value.Equals(v)).Word));
    }

    protected override void DescribeValue(Utf8JsonWriter json)
    {
        Type(json, "array");
        json.WriteNumber("maxItems", words.Length);
        json.WriteStartObject("items");
        FileWords.Describe(json, words.Select(w => w.Word), mayBeNull: false);
        json.WriteEndObject();
    }
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
