using System.Globalization;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>A store's whole contents as a file of version 3 (1 had no photos, 2 no parents, and lure files of version 1), and its writer; the reader is <see cref="ImportReader"/>.</summary>
internal static class ExportFile
{
    public const int Version = 3;
    public const string VersionKey = "trimwright_store";
    public const string When = "yyyy-MM-dd'T'HH:mm:ss.fffffffzzz";

    public static void Write(Utf8JsonWriter json, SqliteConnection db, DateTimeOffset now)
    {
        json.WriteStartObject();
        json.WriteNumber(VersionKey, Version);
        json.WriteString("program", Store.Program);
        WriteWhen(json, "exported", now);
        WriteChain(json, "box", new Chain<MakersBox>(Kind.Box), db, 1);
        json.WriteStartArray("lures");
        foreach ((long id, string? away) in db.All("SELECT id, put_away_at FROM lure ORDER BY id", r => (r.GetInt64(0), r.IsDBNull(1) ? null : r.GetString(1))))
        {
            json.WriteStartObject();
            json.WriteNumber("id", id);
            if (away is not null) json.WriteString("put_away", away);
            WriteChain(json, "revisions", new Chain<LureDesign>(Kind.Lure), db, id);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        WriteBatches(json, db);
        WriteBuilds(json, db);
        WritePhotos(json, db);
        json.WriteEndObject();
        json.Flush();
    }

    // One revision's text at a time: a long history is never whole in memory.
    private static void WriteChain<T>(Utf8JsonWriter json, string key, Chain<T> chain, SqliteConnection db, long owner)
        where T : class
    {
        json.WriteStartArray(key);
        foreach (Revision<T> line in chain.History(db, owner, texts: false))
        {
            json.WriteStartObject();
            json.WriteNumber("n", line.N);
            json.WriteNumber("parent", line.Parent);
            json.WriteString("edit_id", line.EditId);
            WriteWhen(json, "at", line.At);
            json.WriteString("cause", line.Cause);
            if (line.SameAs is { } same) json.WriteNumber("same_as", same);
            json.WriteString("made_by", line.MadeBy);
            json.WritePropertyName(chain.Kind.Text);
            Revision<T> whole = chain.At(db, owner, line.N)!;
            if (!whole.IsWhole) throw StoreRefusal.Damaged(db.DataSource, $"revision {whole.N} of {whole.Name}, which is not as it was written");
            json.WriteRawValue(whole.Text.TrimEnd('\n'));
            json.WriteEndObject();
            json.Flush();
        }
        json.WriteEndArray();
    }

    private static void WriteBatches(Utf8JsonWriter json, SqliteConnection db)
    {
        json.WriteStartArray("batches");
        foreach (Batch batch in Logs.Batches(db))
        {
            json.WriteStartObject();
            json.WriteNumber("id", batch.Id);
            json.WriteString("edit_id", batch.EditId);
            json.WriteNumber("lure", batch.Lure);
            json.WriteNumber("revision", batch.N);
            json.WriteString("name", batch.Name);
            WriteWhen(json, "at", batch.At);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void WriteBuilds(Utf8JsonWriter json, SqliteConnection db)
    {
        json.WriteStartArray("builds");
        foreach (Build build in Logs.Builds(db, null))
        {
            json.WriteStartObject();
            json.WriteNumber("id", build.Id);
            json.WriteString("edit_id", build.EditId);
            json.WriteNumber("lure", build.Lure);
            json.WriteNumber("revision", build.N);
            if (build.Batch is { } batch) json.WriteNumber("batch", batch);
            json.WriteString("label", build.Label);
            WriteWhen(json, "at", build.At);
            json.WriteStartArray("log");
            foreach (LogEntry entry in Logs.Of(db, build.Id)) WriteEntry(json, entry);
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    // One photo's bytes at a time.
    private static void WritePhotos(Utf8JsonWriter json, SqliteConnection db)
    {
        json.WriteStartArray("photos");
        foreach (Photo photo in Workshop.Photos.All(db, null))
        {
            json.WriteStartObject();
            json.WriteNumber("id", photo.Id);
            json.WriteString("edit_id", photo.EditId);
            json.WriteNumber("lure", photo.Lure);
            json.WriteString("view", photo.View);
            WriteWhen(json, "at", photo.At);
            if (photo.IsAway) json.WriteBoolean("away", true);
            json.WritePropertyName("place");
            json.WriteRawValue(photo.Place);
            json.WriteBase64String("bytes", Workshop.Photos.File(db, photo.Id)!.Value.Bytes);
            json.WriteEndObject();
            json.Flush();
        }
        json.WriteEndArray();
    }

    private static void WriteEntry(Utf8JsonWriter json, LogEntry entry)
    {
        json.WriteStartObject();
        json.WriteNumber("id", entry.Id);
        json.WriteString("edit_id", entry.EditId);
        WriteWhen(json, "at", entry.At);
        json.WriteString("kind", entry.Kind);
        if (entry.Strikes is { } old) json.WriteNumber("strikes", old);
        json.WritePropertyName("entry");
        json.WriteRawValue(entry.Json);
        json.WriteEndObject();
    }

    private static void WriteWhen(Utf8JsonWriter json, string key, DateTimeOffset at) =>
        json.WriteString(key, at.ToString(When, CultureInfo.InvariantCulture));
}
