using System.Collections.Immutable;
using System.Text;

namespace Trimwright.Core.Design;

/// <summary>
/// Reads one object's members by key, notes every fault, and at the end reports the keys that nobody asked for.
/// A reader over something that is not an object answers with defaults, after saying so once.
/// </summary>
internal sealed class ObjectReader
{
    /// <summary>Characters of a text.</summary>
    public const int LongestText = 200;

    // Asked for, in the order of asking; a key may be there more than once.
    private readonly List<string> known = new(16);
    private readonly JsonTree tree;
    private readonly bool[] isAskedFor;
    private readonly Findings findings;
    private readonly bool silent;
    private List<string>? inOtherUnits;

    public string Path => tree.Path;

    /// <summary>Whether keys may be written in other units; what stands inside has it from the file's top.</summary>
    public bool TakesOtherUnits { get; set; }

    /// <summary>Of the file's format; what stands inside has it from the file's top.</summary>
    public int Version { get; set; }

    /// <summary>What the file leaves to names.</summary>
    public NamedKinds Named => findings.Named;

    public ObjectReader(JsonTree tree, Findings findings, ObjectReader? outer = null)
    {
        (this.tree, this.findings, Version, TakesOtherUnits) = (tree, findings, outer?.Version ?? 1, outer?.TakesOtherUnits == true);
        isAskedFor = new bool[tree.Members.Count];
        if (tree.Kind == JsonKind.Object) return;
        findings.Add("wrong-type", tree.Path, tree.Shown, "an object in { }", "Put its keys in braces.");
        silent = true;
    }

    /// <summary>A reader over an object that is missing, which has been said already.</summary>
    public static ObjectReader Absent => new();

    private ObjectReader() => (findings, silent, tree, isAskedFor) = (new Findings(), true, JsonTree.Nothing, []);

    /// <summary>The member, or null when it is missing or null.</summary>
    public JsonTree? Find(string key) => Member(key) is { } value && value.Kind != JsonKind.Null ? value : null;

    private JsonTree? Member(string key)
    {
        known.Add(key);
        JsonTree? own = At(key);
        if (!TakesOtherUnits || OtherUnit.Of(key) is not { } unit) return own;
        string otherKey = unit.Key(key);
        known.Add(otherKey);
        if (At(otherKey) is not { } other) return own;
        if (own is not null)
        {
            findings.Add("duplicate-key", JsonTree.Inside(Path, otherKey), $"{otherKey} beside {key}", "one of the two", "Delete one of the two.");
            return own;
        }
        findings.Units.Read(unit);
        if (inOtherUnits?.Contains(key) != true) (inOtherUnits ??= []).Add(key);
        return other;
    }

    private JsonTree? At(string key)
    {
        int i = tree.Members.Find(key);
        if (i < 0) return null;
        isAskedFor[i] = true;
        return tree.MemberAt(i, key);
    }

    /// <summary>Whether the member is there, with a value.</summary>
    public bool Has(string key) => Find(key) is not null;

    /// <summary>Faults a member that is missing or null.</summary>
    public JsonTree? Need(string key, string allowed) => Find(key) ?? Missing(key, allowed);

    private JsonTree? Missing(string key, string allowed)
    {
        if (silent) return null;
        JsonTree? there = Member(key);
        OtherUnit? unit = OtherUnit.Of(key);
        string path = findings.Units.Path(JsonTree.Inside(Path, key)), said = path[(path.LastIndexOf('.') + 1)..];
        string next = there is not null ? $"Give \"{said}\" a value."
            : !TakesOtherUnits && unit is not null && tree.Members.Find(unit.Key(key)) >= 0 ? $"Only files of version {Version + 1} may say \"{unit.Key(key)}\"; write that version, or add \"{key}\"."
            : $"Add \"{said}\".";
        findings.Add("missing", path, there is not null ? "null" : "nothing", allowed, next);
        return null;
    }

    public double Number(string key, double least, double most) =>
        (Find(key) ?? Missing(key, Range(least, most, Told(key)))) is { } tree ? Number(tree, least, most) ?? least : least;

    // The unit in which a key that isn't there is told.
    private OtherUnit? Told(string key) => OtherUnit.Of(key) is { } unit && TakesOtherUnits && findings.Units.Uses(unit) ? unit : null;

    public double Number(string key, double least, double most, double otherwise) =>
        Find(key) is { } tree ? Number(tree, least, most) ?? otherwise : otherwise;

    public double? NumberOrNone(string key, double least, double most) =>
        Find(key) is { } tree ? Number(tree, least, most) : null;

    private double? Number(JsonTree tree, double least, double most)
    {
        if (tree.Kind != JsonKind.Number)
            findings.Add("wrong-type", tree.Path, tree.Shown, "a number, " + Range(least, most, tree.Unit), "Write a plain number, without quotes or unit.");
        else if (tree.Number is var number && (number < least || number > most))
            findings.Add("range", tree.Path, tree.Shown, Range(least, most, tree.Unit), "Correct the number; its key names the unit.");
        else
            return number;
        return null;
    }

    private static string Range(double least, double most, OtherUnit? unit = null) =>
        unit is not null ? $"{unit.Limit(least, isLeast: true)} to {unit.Limit(most, isLeast: false)}"
        : least == most ? Findings.Show(least) : $"{Findings.Show(least)} to {Findings.Show(most)}";

    public string Text(string key, string meaning) =>
        Need(key, meaning) is { } tree ? Text(tree, meaning) ?? "" : "";

    public string? TextOrNone(string key, string meaning) => Find(key) is { } tree ? Text(tree, meaning) : null;

    private string? Text(JsonTree tree, string meaning)
    {
        if (tree.Kind != JsonKind.Text)
            findings.Add("wrong-type", tree.Path, tree.Shown, meaning, "Write a text in double quotes.");
        else if (tree.TextLength is var length && length > LongestText)
            findings.Add("range", tree.Path, $"a text of {length} characters", $"at most {LongestText} characters", "Shorten it.");
        else
            return tree.Text;
        return null;
    }

    public bool Truth(string key, bool otherwise)
    {
        if (Find(key) is not { } tree) return otherwise;
        if (tree.Kind == JsonKind.Boolean) return tree.Truth;
        findings.Add("wrong-type", tree.Path, tree.Shown, "true or false", "Write true or false, without quotes.");
        return otherwise;
    }

    public bool TruthNeeded(string key) => Need(key, "true or false") is not null && Truth(key, false);

    /// <summary>One of a few words, given as (word, value).</summary>
    public T Choice<T>(string key, T otherwise, params ReadOnlySpan<(string Word, T Value)> words)
    {
        if (Find(key) is not { } tree) return otherwise;
        string? text = tree.Kind == JsonKind.Text ? tree.Text : null;
        var allowed = new List<string>();
        foreach ((string word, T value) in words)
            if (text == word) return value;
        foreach ((string word, T _) in words) allowed.Add(word);
        findings.Add(text is not null ? "range" : "wrong-type", tree.Path, tree.Shown,
            string.Join(", ", allowed), "Choose one of these words.");
        return otherwise;
    }

    public ObjectReader? ObjectOrNone(string key) => Find(key) is { } tree ? new ObjectReader(tree, findings, this) : null;

    public ObjectReader? Object(string key, string meaning) =>
        Need(key, meaning) is { } tree ? new ObjectReader(tree, findings, this) : null;

    /// <summary>The items of a list; empty when missing or not a list.</summary>
    public IReadOnlyList<JsonTree> Items(string key, int most, string meaning)
    {
        if (Find(key) is not { } tree) return [];
        if (tree.Kind != JsonKind.Array)
            findings.Add("wrong-type", tree.Path, tree.Shown, meaning, "Write a list in [ ].");
        else if (tree.ItemCount > most)
            findings.Add("range", tree.Path, tree.Shown, $"at most {most}", "Use fewer.");
        else
            return tree.Items;
        return [];
    }

    /// <summary>Numbers, as many as there are; one that is wrong is the least.</summary>
    public ImmutableArray<double> NumberList(string key, int most, string meaning, double least, double greatest) =>
        [.. Items(key, most, meaning).Select(item => Number(item, least, greatest) ?? least)];

    /// <summary>What texts in a list mean; one that means nothing is left out, with a fault.</summary>
    public ImmutableArray<T> Texts<T>(string key, int most, string meaning, string allowed, string next, Func<string, (bool IsFit, T Value)> of)
    {
        var found = ImmutableArray.CreateBuilder<T>();
        foreach (JsonTree item in Items(key, most, meaning))
            if (item.Kind == JsonKind.Text && of(item.Text) is (true, var value)) found.Add(value);
            else findings.Add(item.Kind == JsonKind.Text ? "range" : "wrong-type", item.Path, item.Shown, allowed, next);
        return found.ToImmutable();
    }

    /// <summary>A fault of one of its keys.</summary>
    public void Add(string kind, string key, Remark got, Remark allowed, Remark next) =>
        findings.Add(kind, JsonTree.Inside(Path, key), got, allowed, next);

    public ImmutableArray<T> Each<T>(string key, int most, string meaning, Func<ObjectReader, T> read) =>
        [.. Items(key, most, meaning).Select(item => read(new ObjectReader(item, findings, this)))];

    /// <summary>A fixed count of numbers, or null when missing or wrong.</summary>
    public ImmutableArray<double>? Numbers(string key, int count, double least, double most) =>
        Find(key) is { } tree ? Numbers(tree, count, least, most) : null;

    public ImmutableArray<double> NumbersNeeded(string key, int count, double least, double most) =>
        Need(key, $"a list of {count} numbers") is { } tree && Numbers(tree, count, least, most) is { } found
            ? found : [.. new double[count]];

    private ImmutableArray<double>? Numbers(JsonTree tree, int count, double least, double most)
    {
        if (!IsListOf(tree, count)) return null;
        var numbers = tree.Items.Select(item => Number(item, least, most)).ToArray();
        return numbers.All(n => n is not null) ? [.. numbers.Select(n => n!.Value)] : null;
    }

    private bool IsListOf(JsonTree tree, int count)
    {
        if (tree.ItemCount == count && tree.Kind == JsonKind.Array) return true;
        findings.Add("wrong-type", tree.Path, tree.Shown, $"a list of {count} numbers",
            $"Write them as {(count == 2 ? "[a, b]" : "[x, y, z]")}, with a dot as decimal mark.");
        return false;
    }

    /// <summary>A whole number.</summary>
    public int Count(string key, int least, int most, int otherwise)
    {
        if (Find(key) is not { } tree || Number(tree, least, most) is not { } number) return otherwise;
        if (number == Math.Floor(number)) return (int)number;
        findings.Add("range", tree.Path, tree.Shown, $"a whole number, {Range(least, most)}", "Write how many there are.");
        return otherwise;
    }

    /// <summary>A list of [x, value] pairs, each with its own range; empty when missing or wrong.</summary>
    public ImmutableArray<(double X, double Value)> Pairs(string key, int most, (double Least, double Most) x, (double Least, double Most) value) =>
        Find(key) is null ? [] : Pairs(Items(key, most, "a list of [x, value] pairs"), x, value);

    public ImmutableArray<(double X, double Value)> PairsNeeded(string key, int most, (double Least, double Most) x, (double Least, double Most) value) =>
        Need(key, "a list of [x, value] pairs, nose to tail") is null ? [] : Pairs(key, most, x, value);

    private ImmutableArray<(double X, double Value)> Pairs(
        IReadOnlyList<JsonTree> items, (double Least, double Most) x, (double Least, double Most) value)
    {
        var pairs = ImmutableArray.CreateBuilder<(double, double)>();
        foreach (JsonTree item in items)
        {
            if (!IsListOf(item, 2)) continue;
            double? a = Number(item.Items[0], x.Least, x.Most), b = Number(item.Items[1], value.Least, value.Most);
            if (a is { } first && b is { } second) pairs.Add((first, second));
        }
        return pairs.ToImmutable();
    }

    /// <summary>What nobody asked for, kept; each is a warning with the nearest known key, unless it starts with x-.</summary>
    /// <param name="newer">
    /// Keys that the file's version doesn't know but a later one does: kept as notes, so that they can't be taken for the later ones.
    /// </param>
    public Kept Close(params ReadOnlySpan<string> newer)
    {
        JsonMembers members = tree.Members;
        int count = 0, length = 0;
        for (int i = 0; i < isAskedFor.Length; i++)
            if (!isAskedFor[i]) (count, length) = (count + 1, length + members.Length(i));
        if (count == 0) return new Kept(null, null, inOtherUnits?.ToArray());
        foreach (string key in newer)
            if (members.Find(key) >= 0) length += Note(key).Length - key.Length;
        var text = new byte[length];
        var ends = new int[2 * count];
        int to = 0, end = 0;
        for (int i = 0; i < isAskedFor.Length; i++)
        {
            if (isAskedFor[i]) continue;
            ReadOnlySpan<byte> key = members.Key(i), value = members.Value(i);
            bool isNote = IsAmong(newer, key);
            if (isNote)
            {
                string name = Encoding.UTF8.GetString(key), note = Note(name);
                findings.Warn(JsonTree.Inside(Path, name), $"this key had no meaning when the file was written; kept as \"{note}\"");
                key = Encoding.UTF8.GetBytes(note);
            }
            key.CopyTo(text.AsSpan(to));
            value.CopyTo(text.AsSpan(ends[end++] = to += key.Length));
            ends[end++] = to += value.Length;
            if (!isNote && !key.StartsWith("x-"u8) && findings.TakesWarning()) findings.Warnings.Add(Unknown(Encoding.UTF8.GetString(key)));
        }
        // Keys that were spelled out are shorter than they were written.
        return new Kept(to == length ? text : text[..to], ends, inOtherUnits?.ToArray());
    }

    private static bool IsAmong(ReadOnlySpan<string> names, ReadOnlySpan<byte> key)
    {
        foreach (string name in names)
            if (Ascii.Equals(key, name)) return true;
        return false;
    }

    // The name of a note in the maker's own keys that no key of the object has.
    private string Note(string key)
    {
        string note = "x-" + key;
        while (tree.Members.Find(note) >= 0) note += "-";
        return note;
    }

    private Warning Unknown(string key) => new(JsonTree.Inside(Path, key), $"this key is not known and has no effect; {Hint(key)}");

    private string Hint(string key) =>
        NearWord.Of(known, key) is { } nearest ? $"did you mean \"{nearest}\"?" : "a note of your own should start with x-";
}
