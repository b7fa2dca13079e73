using System.Globalization;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>
/// Reads an export a record at a time, however long it is: first from end to end as JSON, then its sections in the order in
/// which they refer to each other, wherever they stand. The envelope is judged here, designs and boxes by their one reader in
/// Core; the first fault ends it, with the place where it stands.
/// </summary>
internal sealed class ImportReader
{
    private const string Next = "Nothing was imported; mend the file or export it again.";

    // Before it an export named no parents: each revision came after the one before it.
    private const int WithParents = 3;

    private readonly LongJson json;
    private readonly Dictionary<string, long> sections;
    private readonly long version;

    // What the file has said so far, for what refers to it later; all that is kept of it.
    private readonly Dictionary<long, int> newest = [];
    private readonly HashSet<long> batches = [];
    private readonly Dictionary<string, HashSet<string>> edits = [];
    private readonly Dictionary<string, HashSet<long>> ids = [];

    private sealed class Wrong(Fault fault) : Exception
    {
        public Fault Fault => fault;
    }

    private ImportReader(LongJson json)
    {
        this.json = json;
        LongJson.Piece root = json.Whole();
        sections = root.Members;
        if (root.Kind != JsonTokenType.StartObject || !sections.ContainsKey(ExportFile.VersionKey))
            throw new Wrong(new Fault("wrong-type", "", "no " + ExportFile.VersionKey, "an export of a store", "Name a file that `trimwright store export` wrote."));
        version = Whole(Only(sections, ExportFile.VersionKey).GetProperty(ExportFile.VersionKey), ExportFile.VersionKey);
        if (version < 1) throw Bad(ExportFile.VersionKey, $"{version}", $"1 to {ExportFile.Version}");
        if (version > ExportFile.Version)
            throw new Wrong(new Fault("newer-version", ExportFile.VersionKey, version.ToString(CultureInfo.InvariantCulture),
                string.Create(CultureInfo.InvariantCulture, $"up to {ExportFile.Version}"), "This export was written by a newer Trimwright; use that one."));
    }

    /// <summary>Takes a file in, or says what is wrong with it.</summary>
    /// <param name="file">The export.</param>
    /// <param name="transaction">Does it in one transaction, undone when anything is thrown in it.</param>
    public static Reading<Imported> Read(LongJson file, Func<Func<SqliteConnection, Imported>, Imported> transaction)
    {
        try
        {
            var reader = new ImportReader(file);
            return new(transaction(db => reader.Into(new Import(db))), [], []);
        }
        catch (JsonException e)
        {
            string where = string.Create(CultureInfo.InvariantCulture, $"line {e.LineNumber + 1}");
            return new(null, [new Fault("syntax", where, "text that is no JSON", "an export of a store", Next)], []);
        }
        catch (Wrong wrong)
        {
            return new(null, [wrong.Fault], []);
        }
    }

    private Imported Into(Import import)
    {
        import.AddBox(Chain(sections, "box", "", "box", Kind.Box, 1));
        foreach ((long at, string path) in Items(sections, "lures", "")) Lure(at, path, import);
        foreach ((long at, string path) in Items(sections, "batches", ""))
        {
            using JsonDocument item = Record(at);
            Batch batch = Batch(item.RootElement, path);
            Once(batch.Id, batch.EditId, "batches");
            Refers($"batches, id {batch.Id}", batch.Lure, batch.N);
            batches.Add(batch.Id);
            import.Add(batch);
        }
        foreach ((long at, string path) in Items(sections, "builds", "")) Build(at, path, import);
        foreach ((long at, string path) in Items(sections, "photos", ""))
        {
            using JsonDocument item = Record(at);
            (Photo photo, byte[] bytes) = Photo(item.RootElement, path);
            Once(photo.Id, photo.EditId, "photos");
            Refers($"photos, id {photo.Id}", photo.Lure, 1);
            import.Add(photo, bytes);
        }
        return import.Done;
    }

    private void Lure(long at, string path, Import import)
    {
        Dictionary<string, long> members = json.Look(at).Members;
        JsonElement item = Only(members, "id", "put_away");
        long id = Id(item, "id", path);
        Once(ids, "lures", id, "an id");
        string? away = item.TryGetProperty("put_away", out JsonElement put) ? Moment.Utc(When(put, path + ".put_away")) : null;
        newest[id] = 0;
        using IEnumerator<Revision<LureDesign>> revisions = Chain(members, "revisions", path + ".", "lures.revisions", Kind.Lure, id).GetEnumerator();
        if (!revisions.MoveNext()) throw Bad(path + ".revisions", "none", "at least one");
        import.AddLure(id, away, revisions);
    }

    private void Build(long at, string path, Import import)
    {
        Dictionary<string, long> members = json.Look(at).Members;
        Build build = Build(Only(members, "id", "edit_id", "lure", "revision", "batch", "label", "at"), path);
        Once(build.Id, build.EditId, "builds");
        Refers($"builds, id {build.Id}", build.Lure, build.N);
        if (build.Batch is { } b && !batches.Contains(b)) throw Bad($"builds, id {build.Id}, batch", $"{b}", "a batch of this file");
        import.Add(build);
        var own = new HashSet<long>();
        foreach ((long entryAt, string entryPath) in Items(members, "log", path + "."))
        {
            using JsonDocument item = Record(entryAt);
            LogEntry entry = Entry(item.RootElement, entryPath, build.Id);
            Once(entry.Id, entry.EditId, "builds.log");
            if (entry.Strikes is { } old && !(old < entry.Id && own.Contains(old))) throw Bad($"log entry {entry.Id}, strikes", $"{old}", "an earlier entry of the same log");
            own.Add(entry.Id);
            import.Add(entry);
        }
    }

    private void Refers(string path, long lure, int n)
    {
        if (!newest.TryGetValue(lure, out int last)) throw Bad(path, $"lure {lure}", "a lure of this file");
        if (n > last) throw Bad(path, $"revision {n}", $"1 to {last}");
    }

    private void Once(long id, string editId, string path)
    {
        Once(ids, path, id, "an id");
        Once(edits, path, editId, "an edit_id");
    }

    private static void Once<T>(Dictionary<string, HashSet<T>> seen, string path, T value, string what)
    {
        if (!seen.TryGetValue(path, out HashSet<T>? those)) seen[path] = those = [];
        if (!those.Add(value)) throw Bad(path, $"{value} twice", what + " of its own for each");
    }

    private IEnumerable<Revision<T>> Chain<T>(Dictionary<string, long> owner, string key, string at, string all, Kind<T> kind, long id)
        where T : class
    {
        int last = 0;
        var broughtBack = new HashSet<int>();
        foreach ((long place, string path) in Items(owner, key, at))
        {
            Revision<T> revision = Revision(place, path, kind, id, ++last);
            if (revision.SameAs is { } back)
            {
                // A state is named by the revision that made it; one that only brought it back names no state of its own.
                if (broughtBack.Contains(back)) throw Bad(path + ".same_as", $"{back}, which brought an earlier one back itself", "the revision that made that state");
                broughtBack.Add(last);
            }
            Once(edits, all, revision.EditId, "an edit_id");
            if (newest.ContainsKey(id) && key == "revisions") newest[id] = last;
            yield return revision;
        }
    }

    private Revision<T> Revision<T>(long at, string path, Kind<T> kind, long owner, int next)
        where T : class
    {
        using JsonDocument document = Record(at);
        JsonElement item = document.RootElement;
        long n = Id(item, "n", path);
        if (n != next) throw Bad(path + ".n", $"{n}", $"{next}, the one after the last");
        Parent(item, path, n);
        int? same = item.TryGetProperty("same_as", out JsonElement s) ? (int)Whole(s, path + ".same_as") : null;
        if (same is { } back && (back < 1 || back >= n)) throw Bad(path + ".same_as", $"{back}", $"1 to {n - 1}");
        // Our writers end a text with a line feed, which no JSON value has.
        string text = Get(item, kind.Text, path, JsonValueKind.Object).GetRawText() + "\n";
        Reading<T> reading = kind.Read(Encoding.UTF8.GetBytes(text));
        if (reading.Value is not { } value)
            throw new Wrong(reading.Faults[0] with { Path = $"{path}.{kind.Text}.{reading.Faults[0].Path}", Next = Next });
        return new Revision<T>(owner, (int)n, (int)n - 1, Edit(item, path), When(Get(item, "at", path, JsonValueKind.String), path + ".at"),
            Text(item, "cause", path), same, kind.Name(value), Text(item, "made_by", path), text);
    }

    // A chain is a chain: each revision was made on the one before it, the first on nothing.
    private void Parent(JsonElement item, string path, long n)
    {
        if (!item.TryGetProperty("parent", out JsonElement given))
        {
            if (version >= WithParents) throw Bad(path + ".parent", "nothing", Allowed());
            return;
        }
        long parent = Whole(given, path + ".parent");
        if (parent == n) throw Bad(path + ".parent", $"{parent}, the revision itself", Allowed());
        if (parent != n - 1) throw Bad(path + ".parent", $"{parent}{(parent < 0 || parent > n ? ", which is not there before it" : "")}", Allowed());

        string Allowed() => n == 1 ? "0: the first one has none" : $"{n - 1}, the one before it";
    }

    private static Batch Batch(JsonElement item, string path) => new(
        Id(item, "id", path), Edit(item, path), Id(item, "lure", path), (int)Id(item, "revision", path), Text(item, "name", path),
        When(Get(item, "at", path, JsonValueKind.String), path + ".at"));

    private static Build Build(JsonElement item, string path) => new(
        Id(item, "id", path), Edit(item, path), Id(item, "lure", path), (int)Id(item, "revision", path),
        item.TryGetProperty("batch", out _) ? Id(item, "batch", path) : null, Text(item, "label", path),
        When(Get(item, "at", path, JsonValueKind.String), path + ".at"));

    private static LogEntry Entry(JsonElement item, string path, long build) => new(
        Id(item, "id", path), build, Edit(item, path), When(Get(item, "at", path, JsonValueKind.String), path + ".at"), Text(item, "kind", path),
        item.TryGetProperty("strikes", out _) ? Id(item, "strikes", path) : null,
        item.TryGetProperty("entry", out JsonElement entry) ? entry.GetRawText() : throw Bad(path + ".entry", "nothing", "the entry"));

    // Held to the same rules as one that comes by the page.
    private static (Photo, byte[]) Photo(JsonElement item, string path)
    {
        string view = Text(item, "view", path);
        if (view is not ("side" or "plan")) throw Bad(path + ".view", view, "side or plan");
        if (!Get(item, "bytes", path, JsonValueKind.String).TryGetBytesFromBase64(out byte[]? bytes)) throw Bad(path + ".bytes", "something else", "a photo in base64");
        (PhotoHeader? header, Fault? fault) = PhotoHeader.Of(bytes);
        if (header is not { } found) throw new Wrong(fault! with { Path = path + ".bytes", Next = Next });
        bool away = item.TryGetProperty("away", out JsonElement gone) && gone.ValueKind == JsonValueKind.True;
        return (new Photo(Id(item, "id", path), Edit(item, path), Id(item, "lure", path), view, found.Type, found.Width, found.Height,
            When(Get(item, "at", path, JsonValueKind.String), path + ".at"), Get(item, "place", path, JsonValueKind.Object).GetRawText(), away), bytes);
    }

    private IEnumerable<(long At, string Path)> Items(Dictionary<string, long> owner, string key, string at)
    {
        if (!owner.TryGetValue(key, out long list)) yield break;
        if (json.Look(list).Kind != JsonTokenType.StartArray) throw Bad(at + key, json.Shown(list, 40), "a list");
        int i = 0;
        foreach (long item in json.Items(list))
        {
            string path = string.Create(CultureInfo.InvariantCulture, $"{at}{key}[{i++}]");
            if (json.Look(item).Kind != JsonTokenType.StartObject) throw Bad(path, json.Shown(item, 40), "an object");
            yield return (item, path);
        }
    }

    // Its own copy: the window has slid on when somebody looks at it.
    private JsonDocument Record(long at) => JsonDocument.Parse(json.Raw(at));

    // The few members that are short: the long list beside them is read an item at a time.
    private JsonElement Only(Dictionary<string, long> members, params ReadOnlySpan<string> names)
    {
        using var text = new MemoryStream();
        using (var writer = new Utf8JsonWriter(text))
        {
            writer.WriteStartObject();
            foreach (string name in names)
            {
                if (!members.TryGetValue(name, out long at)) continue;
                writer.WritePropertyName(name);
                writer.WriteRawValue(json.Raw(at), skipInputValidation: true);
            }
            writer.WriteEndObject();
        }
        using JsonDocument document = JsonDocument.Parse(text.ToArray());
        return document.RootElement.Clone();
    }

    private static JsonElement Get(JsonElement owner, string key, string path, JsonValueKind kind)
    {
        if (!owner.TryGetProperty(key, out JsonElement value)) throw Bad($"{path}.{key}", "nothing", kind == JsonValueKind.Object ? "an object" : "a text");
        return value.ValueKind == kind ? value : throw Bad($"{path}.{key}", Shown(value), kind == JsonValueKind.Object ? "an object" : "a text");
    }

    private static string Text(JsonElement owner, string key, string path) =>
        Decoded(Get(owner, key, path, JsonValueKind.String), $"{path}.{key}");

    private static string Decoded(JsonElement value, string path)
    {
        try
        {
            return value.GetString()!;
        }
        catch (InvalidOperationException)
        {
            throw Bad(path, "half of a character", "a text");
        }
    }

    private static string Edit(JsonElement owner, string path) =>
        Text(owner, "edit_id", path) is var id && EditId.IsOne(id) ? id : throw Bad(path + ".edit_id", id, "8 to 64 of A-Z, a-z, 0-9 and -");

    private static long Id(JsonElement owner, string key, string path)
    {
        if (!owner.TryGetProperty(key, out JsonElement value)) throw Bad($"{path}.{key}", "nothing", "a whole number from 1");
        return Whole(value, $"{path}.{key}") is >= 1 and <= int.MaxValue and var id ? id : throw Bad($"{path}.{key}", Shown(value), "a whole number from 1");
    }

    private static long Whole(JsonElement value, string path) =>
        value.ValueKind == JsonValueKind.Number && value.TryGetInt64(out long whole) ? whole : throw Bad(path, Shown(value), "a whole number");

    private static DateTimeOffset When(JsonElement value, string path)
    {
        string[] forms = [ExportFile.When, "yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'"];
        return value.ValueKind == JsonValueKind.String
            && DateTimeOffset.TryParseExact(Decoded(value, path), forms, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset at)
            ? at : throw Bad(path, Shown(value), "a moment such as 2026-03-29T03:00:00.0000000+02:00");
    }

    private static string Shown(JsonElement value) => value.GetRawText() is { Length: > 40 } raw ? raw[..40] + "…" : value.GetRawText();

    private static Wrong Bad(string path, string got, string allowed) => new(new Fault("range", path, got, allowed, Next));
}
