using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>
/// Reads an export. The envelope is judged here, designs and boxes by their one reader in Core; the first fault ends it, with
/// the place where it stands.
/// </summary>
internal sealed class ImportReader
{
    private const string Next = "Nothing was imported; mend the file or export it again.";

    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = 64, AllowDuplicateProperties = false };

    private sealed class Wrong(Fault fault) : Exception
    {
        public Fault Fault => fault;
    }

    public static Reading<ExportFile> Read(Stream from)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(from, Strict);
            return new(File(document.RootElement), [], []);
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

    private static ExportFile File(JsonElement root)
    {
        if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty(ExportFile.VersionKey, out JsonElement version))
            throw new Wrong(new Fault("wrong-type", "", "no " + ExportFile.VersionKey, "an export of a store", "Name a file that `trimwright store export` wrote."));
        if (Whole(version, ExportFile.VersionKey) is > ExportFile.Version and var newer)
            throw new Wrong(new Fault("newer-version", ExportFile.VersionKey, newer.ToString(CultureInfo.InvariantCulture),
                string.Create(CultureInfo.InvariantCulture, $"up to {ExportFile.Version}"), "This export was written by a newer Trimwright; use that one."));
        ImmutableArray<Revision<MakersBox>> box = Chain(root, "box", "", Kind.Box, 1);
        var lures = ImmutableArray.CreateBuilder<ExportedLure>();
        foreach ((JsonElement item, string path) in Items(root, "lures", ""))
        {
            long id = Id(item, "id", path);
            string? away = item.TryGetProperty("put_away", out JsonElement put) ? Moment.Utc(When(put, path + ".put_away")) : null;
            ImmutableArray<Revision<LureDesign>> revisions = Chain(item, "revisions", path + ".", Kind.Lure, id);
            if (revisions.IsEmpty) throw Bad(path + ".revisions", "none", "at least one");
            lures.Add(new ExportedLure(id, away, revisions));
        }
        ImmutableArray<Batch> batches = [.. Items(root, "batches", "").Select(i => Batch(i.Item, i.Path))];
        (JsonElement Item, string Path)[] items = [.. Items(root, "builds", "")];
        ImmutableArray<Build> builds = [.. items.Select(i => Build(i.Item, i.Path))];
        ImmutableArray<LogEntry> entries = [.. items.Zip(builds).SelectMany(b => Items(b.First.Item, "log", b.First.Path + ".").Select(e => Entry(e.Item, e.Path, b.Second.Id)))];
        ImmutableArray<(Photo, byte[])> photos = [.. Items(root, "photos", "").Select(i => Photo(i.Item, i.Path))];
        return Sound(new ExportFile(box, lures.ToImmutable(), batches, builds, entries, photos));
    }

    /// <summary>What refers to what must be there, and no edit or id twice.</summary>
    private static ExportFile Sound(ExportFile file)
    {
        Once(file.Lures.Select(l => l.Id), "lures", "an id");
        Once(file.Batches.Select(b => b.Id), "batches", "an id");
        Once(file.Builds.Select(b => b.Id), "builds", "an id");
        Once(file.Entries.Select(e => e.Id), "builds.log", "an id");
        Once(file.Lures.SelectMany(l => l.Revisions).Select(r => r.EditId), "lures.revisions", "an edit_id");
        Once(file.Box.Select(r => r.EditId), "box", "an edit_id");
        Once(file.Batches.Select(b => b.EditId), "batches", "an edit_id");
        Once(file.Builds.Select(b => b.EditId), "builds", "an edit_id");
        Once(file.Entries.Select(e => e.EditId), "builds.log", "an edit_id");
        Once(file.Photos.Select(p => p.Photo.Id), "photos", "an id");
        Once(file.Photos.Select(p => p.Photo.EditId), "photos", "an edit_id");
        Dictionary<long, int> newest = file.Lures.ToDictionary(l => l.Id, l => l.Revisions.Length);
        HashSet<long> batches = [.. file.Batches.Select(b => b.Id)];
        Dictionary<long, long> builds = file.Entries.ToDictionary(e => e.Id, e => e.Build);
        foreach (Batch batch in file.Batches) Refers($"batches, id {batch.Id}", newest, batch.Lure, batch.N);
        foreach (Build build in file.Builds)
        {
            Refers($"builds, id {build.Id}", newest, build.Lure, build.N);
            if (build.Batch is { } b && !batches.Contains(b)) throw Bad($"builds, id {build.Id}, batch", $"{b}", "a batch of this file");
        }
        foreach ((Photo photo, _) in file.Photos) Refers($"photos, id {photo.Id}", newest, photo.Lure, 1);
        foreach (LogEntry entry in file.Entries)
            if (entry.Strikes is { } old && !(old < entry.Id && builds.TryGetValue(old, out long build) && build == entry.Build))
                throw Bad($"log entry {entry.Id}, strikes", $"{old}", "an earlier entry of the same log");
        return file;
    }

    private static void Refers(string path, Dictionary<long, int> newest, long lure, int n)
    {
        if (!newest.TryGetValue(lure, out int last)) throw Bad(path, $"lure {lure}", "a lure of this file");
        if (n > last) throw Bad(path, $"revision {n}", $"1 to {last}");
    }

    private static void Once<T>(IEnumerable<T> values, string path, string what)
    {
        var seen = new HashSet<T>();
        foreach (T value in values)
            if (!seen.Add(value)) throw Bad(path, $"{value} twice", what + " of its own for each");
    }

    private static ImmutableArray<Revision<T>> Chain<T>(JsonElement owner, string key, string at, Kind<T> kind, long id)
        where T : class
    {
        var chain = ImmutableArray.CreateBuilder<Revision<T>>();
        foreach ((JsonElement item, string path) in Items(owner, key, at))
        {
            long n = Id(item, "n", path);
            if (n != chain.Count + 1) throw Bad(path + ".n", $"{n}", $"{chain.Count + 1}, the one after the last");
            int? same = item.TryGetProperty("same_as", out JsonElement s) ? (int)Whole(s, path + ".same_as") : null;
            if (same is { } back && (back < 1 || back >= n)) throw Bad(path + ".same_as", $"{back}", $"1 to {n - 1}");
            // Our writers end a text with a line feed, which no JSON value has.
            string text = Get(item, kind.Text, path, JsonValueKind.Object).GetRawText() + "\n";
            Reading<T> reading = kind.Read(Encoding.UTF8.GetBytes(text));
            if (reading.Value is not { } value)
                throw new Wrong(reading.Faults[0] with { Path = $"{path}.{kind.Text}.{reading.Faults[0].Path}", Next = Next });
            chain.Add(new Revision<T>(id, (int)n, (int)n - 1, Edit(item, path), When(Get(item, "at", path, JsonValueKind.String), path + ".at"),
                Text(item, "cause", path), same, kind.Name(value), Text(item, "made_by", path), text));
        }
        return chain.ToImmutable();
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

    private static IEnumerable<(JsonElement Item, string Path)> Items(JsonElement owner, string key, string at)
    {
        if (!owner.TryGetProperty(key, out JsonElement list)) yield break;
        if (list.ValueKind != JsonValueKind.Array) throw Bad(at + key, Shown(list), "a list");
        int i = 0;
        foreach (JsonElement item in list.EnumerateArray())
        {
            string path = string.Create(CultureInfo.InvariantCulture, $"{at}{key}[{i++}]");
            if (item.ValueKind != JsonValueKind.Object) throw Bad(path, Shown(item), "an object");
            yield return (item, path);
        }
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
