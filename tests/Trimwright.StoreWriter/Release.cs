using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Trimwright.StoreWriter;

/// <summary>
/// What a released program keeps and writes, made by that program itself, so that later ones can be held to it:
/// <c>dotnet run --project tests/Trimwright.StoreWriter -- release tests/Trimwright.Tests/Released/0.1.0 PROGRAM 2</c>, the last being
/// the version of its exports.
/// <c>asked.json</c> is what was put in, an export written by hand; the program makes a store of it, a backup, an export of its own and
/// the files that it writes.
/// </summary>
internal static class Release
{
    // A photo as far as its structure goes; what it shows is looked at by nobody.
    private const string Photo = "/9j/4AAQSkZJRgABAQAAAQABAAD/xAAGAAECA//AAAsIAlgGQAEBEQD/2gAIAQEAAD8AYSBwaWN0dXJl/9k=";

    private static readonly JsonSerializerOptions Written = new() { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Make(string folder, string program, int exportVersion)
    {
        folder = Path.GetFullPath(folder);
        Directory.CreateDirectory(folder);
        string files = Path.Combine(folder, "files");
        Run(program, "demo", files, "--force");
        File.WriteAllText(Path.Combine(files, "harbour.want.json"), """{ "trimwright_want": 1, "does": "floats", "trim_deg": 12, "spare_g": 3 }""" + "\n");
        string asked = Path.Combine(folder, "asked.json"), store = Path.Combine(folder, "workshop.trimwright");
        File.WriteAllText(asked, Asked(files, exportVersion).ToJsonString(Written) + "\n");
        foreach (string old in Directory.GetFiles(folder, "workshop.trimwright*")) File.Delete(old);
        Run(program, "store", "import", asked, "--store", store);
        Run(program, "store", "backup", Path.Combine(folder, "backup.trimwright"), "--store", store, "--force");
        Run(program, "store", "export", Path.Combine(folder, "everything.json"), "--store", store, "--force");
    }

    private static JsonObject Asked(string files, int version)
    {
        JsonNode Read(string name) => JsonNode.Parse(File.ReadAllBytes(Path.Combine(files, name)))!;
        JsonNode lure = Read("tidegate-185.lure.json"), renamed = Read("tidegate-185.lure.json"), away = Read("slipway-150.lure.json"), box = Read("kitchen.box.json"), noLead = Read("kitchen.box.json");
        renamed["name"] = "Tidegate, „mit Größe“ → 3/0 [8.5 g]";
        noLead["no_lead"] = true;
        return new JsonObject
        {
            ["trimwright_store"] = version,
            ["program"] = "by hand",
            ["exported"] = "2026-11-25T13:15:00.0000000+00:00",
            ["box"] = new JsonArray(Revision(1, "asked-box-1", "2026-10-24T20:01:00.0000000+02:00", "first box", "contents", box), Revision(2, "asked-box-2", "2026-10-25T02:30:00.0000000+01:00", "no lead", "contents", noLead)),
            ["lures"] = new JsonArray(
                new JsonObject
                {
                    ["id"] = 1,
                    ["revisions"] = new JsonArray(
                        Revision(1, "asked-lure-1", "2026-10-24T20:02:00.0000000+02:00", "new", "design", lure),
                        Revision(2, "asked-lure-2", "2026-10-24T20:03:00.0000000+02:00", "renamed", "design", renamed),
                        Revision(3, "asked-lure-3", "2026-10-25T02:59:00.0000000+02:00", "undo", "design", lure.DeepClone(), same: 1)),
                },
                new JsonObject
                {
                    ["id"] = 2,
                    ["put_away"] = "2026-11-01T08:00:00.0000000Z",
                    ["revisions"] = new JsonArray(Revision(1, "asked-away-1", "2026-10-30T12:00:00.0000000+00:00", "begun", "design", away)),
                }),
            ["batches"] = new JsonArray(new JsonObject { ["id"] = 1, ["edit_id"] = "asked-batch-1", ["lure"] = 1, ["revision"] = 3, ["name"] = "a dozen for spring", ["at"] = "2026-11-02T09:00:00.0000000+01:00" }),
            ["builds"] = new JsonArray(
                new JsonObject
                {
                    ["id"] = 1,
                    ["edit_id"] = "asked-build-1",
                    ["lure"] = 1,
                    ["revision"] = 1,
                    ["label"] = "the first",
                    ["at"] = "2026-11-02T09:01:00.0000000+01:00",
                    ["log"] = new JsonArray(
                        Entry(1, "asked-entry-1", "2026-11-03T10:00:00.0000000+01:00", """{ "kind": "weight", "mass_g": 140.2 }"""),
                        Entry(2, "asked-entry-2", "2026-11-03T10:05:00.0000000+01:00", """{ "kind": "weight", "mass_g": 104.2 }""", strikes: 1)),
                },
                new JsonObject { ["id"] = 2, ["edit_id"] = "asked-build-2", ["lure"] = 1, ["revision"] = 3, ["batch"] = 1, ["label"] = "1 of 12", ["at"] = "2026-11-02T09:02:00.0000000+01:00", ["log"] = new JsonArray() }),
            ["photos"] = new JsonArray(new JsonObject
            {
                ["id"] = 1,
                ["edit_id"] = "asked-photo-1",
                ["lure"] = 1,
                ["view"] = "side",
                ["at"] = "2026-11-04T18:00:00.0000000+01:00",
                ["place"] = JsonNode.Parse("""{ "a": [100, 300], "b": [1500, 300], "length_mm": 185 }"""),
                ["bytes"] = Photo,
            }),
        };
    }

    private static JsonObject Revision(int n, string edit, string at, string cause, string key, JsonNode value, int? same = null)
    {
        var revision = new JsonObject { ["n"] = n, ["parent"] = n - 1, ["edit_id"] = edit, ["at"] = at, ["cause"] = cause };
        if (same is not null) revision["same_as"] = same;
        revision["made_by"] = "0.1.0";
        revision[key] = value;
        return revision;
    }

    private static JsonObject Entry(int id, string edit, string at, string entry, int? strikes = null)
    {
        var line = new JsonObject { ["id"] = id, ["edit_id"] = edit, ["at"] = at, ["kind"] = "reading" };
        if (strikes is not null) line["strikes"] = strikes;
        line["entry"] = JsonNode.Parse(entry);
        return line;
    }

    private static void Run(string program, params string[] words)
    {
        bool alone = !program.EndsWith(".dll", StringComparison.Ordinal);
        using Process process = Process.Start(new ProcessStartInfo(alone ? program : "dotnet", alone ? words : [program, .. words]) { RedirectStandardError = true })!;
        string said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0) throw new InvalidOperationException($"{string.Join(' ', words)} ended with {process.ExitCode}: {said}");
    }
}
