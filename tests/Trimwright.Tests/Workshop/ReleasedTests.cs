using System.Text.Json.Nodes;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.StoreWriter;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>
/// What each released version kept and wrote, made by that very program (<c>StoreWriter release</c>): it opens, is edited, and a way
/// back to the older program is refused in one sentence. What was put in stands in <c>asked.json</c>.
/// </summary>
public class ReleasedTests
{
    internal static string Folder => Path.Combine(Here.Root, "tests", "Trimwright.Tests", "Released");

    public static TheoryData<string> Versions => [.. Directory.GetDirectories(Folder).Select(folder => Path.GetFileName(folder)!)];

    private static string Of(string version, string file) => Path.Combine(Folder, version, file);

    private static string Put(TempStore temp, string version)
    {
        // A fixture may be read-only in a clone; a maker's store isn't.
        File.WriteAllBytes(temp.Path, File.ReadAllBytes(Of(version, "workshop.trimwright")));
        return temp.Path;
    }

    private static long VersionOf(string store)
    {
        using var look = Connections.OpenAsItIs(store);
        return look.Number("PRAGMA user_version")!.Value;
    }

    // All that a store says, but when it was asked.
    private static string Everything(Store store)
    {
        using var text = new MemoryStream();
        store.Export(text);
        JsonObject json = JsonNode.Parse(text.ToArray())!.AsObject();
        json.Remove("exported");
        return json.ToJsonString();
    }

    private static string Taken(TempStore fresh, string file)
    {
        using Store store = fresh.Open();
        using FileStream from = File.OpenRead(file);
        Reading<Imported> reading = store.Import(from);
        Assert.True(reading.IsSound, string.Join("; ", reading.Faults));
        return Everything(store);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void Its_store_opens_with_everything_that_was_put_in_and_is_edited(string version)
    {
        using var temp = new TempStore();
        using var fresh = new TempStore();
        string asked = Taken(fresh, Of(version, "asked.json"));
        long old = VersionOf(Put(temp, version));
        SortedDictionary<string, string> before = temp.Bytes();
        using (Store store = Store.OpenToRead(temp.Path)) Assert.Equal(asked, Everything(store));
        Assert.Equal(before, temp.Bytes());
        using (Store store = temp.Open())
        {
            Assert.Equal(old < Store.Version, store.CopyBeforeMigration is not null);
            if (store.CopyBeforeMigration is { } copy) Assert.Equal(old, VersionOf(copy));
            Assert.Equal(asked, Everything(store));
            Assert.Null(store.Check());
            // Its lures are read, drawn on, undone and written to.
            Revision<LureDesign> newest = store.Newest(1)!;
            LureDesign design = newest.Read().Value!;
            var saved = Assert.IsType<Saved<LureDesign>.Done>(store.Save(1, newest.N, design with { Name = "Later" }, "edit-0001", "renamed later"));
            Assert.Equal("Later", saved.Revision.Read().Value!.Name);
            Assert.IsType<Saved<LureDesign>.Done>(store.Undo(1, saved.Revision.N, "undo-0001"));
            Assert.Equal(design.Name, store.Newest(1)!.Name);
            Assert.True(store.Box()!.Read().IsSound);
            Build build = store.Builds(1)[0];
            Assert.Equal([true, false], store.LogOf(build.Id).Select(e => e.IsStruckOut));
            Assert.NotNull(store.Log(build.Id, "reading", """{ "kind": "weight", "mass_g": 104.3 }""", "entry-0001"));
            Assert.Equal("jpeg", store.PhotoFile(Assert.Single(store.PhotosOf(1)).Id)!.Value.Type);
        }
        using (Store store = temp.Open()) Writer.CheckWhole(store);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void Its_backup_is_restored_and_its_export_taken_in(string version)
    {
        using var asked = new TempStore();
        using var exported = new TempStore();
        using var restored = new TempStore();
        string all = Taken(asked, Of(version, "asked.json"));
        Assert.Equal(all, Taken(exported, Of(version, "everything.json")));
        Assert.Null(Store.Restore(restored.Path, Of(version, "backup.trimwright")));
        using Store store = restored.Open();
        Assert.Equal(all, Everything(store));
        Assert.Null(store.Check());
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void Its_files_are_read(string version)
    {
        int files = 0;
        foreach (string file in Directory.GetFiles(Of(version, "files")))
        {
            byte[] bytes = File.ReadAllBytes(file);
            string[] faults = file[file.IndexOf('.', file.LastIndexOf('/') + 1)..] switch
            {
                ".lure.json" => Faults(LureFile.Read(bytes)),
                ".box.json" => Faults(BoxFile.Read(bytes)),
                ".log.json" => Faults(LogFile.Read(bytes)),
                ".want.json" => Faults(WantFile.Read(bytes)),
                ".hand.json" => Faults(HandFile.Read(bytes)),
                string ending => [$"no reader for {ending}"],
            };
            Assert.True(faults.Length == 0, $"{file}: {string.Join("; ", faults)}");
            files++;
        }
        Assert.True(files > 5);

        static string[] Faults<T>(Reading<T> reading)
            where T : class => [.. reading.Faults.Select(f => f.ToString())];
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void The_older_program_refuses_the_store_once_it_was_opened_and_leaves_it_byte_for_byte(string version)
    {
        using var temp = new TempStore();
        int old = (int)VersionOf(Put(temp, version));
        Assert.SkipWhen(old == Store.Version, "kept alike");
        using (Store store = temp.Open()) store.NewLure(LoadDesign.Of("later-001"), "later-001", "new");
        SortedDictionary<string, string> before = temp.Bytes();
        StoreRefusal refusal = Assert.Throws<StoreRefusal>(() => Store.Open(temp.Path, TimeProvider.System, Migrations.Ours.UpTo(old)));
        Assert.Equal(RefusalCause.TooNew, refusal.Cause);
        Assert.Equal(before, temp.Bytes());
    }

    /// <summary>The program itself, where a machine has it: TRIMWRIGHT_0_1_0 names it.</summary>
    [Theory]
    [MemberData(nameof(Versions))]
    public void The_released_program_itself_refuses_a_newer_store_and_a_newer_export_in_one_sentence(string version)
    {
        string variable = "TRIMWRIGHT_" + version.Replace('.', '_');
        string? program = Environment.GetEnvironmentVariable(variable);
        Assert.SkipUnless(File.Exists(program), $"{variable} names no program of that version");
        using var temp = new TempStore();
        using (Store store = temp.Open())
        {
            store.NewLure(LoadDesign.Of("later-001"), "later-001", "new");
            store.Export(temp.In("all.json"));
        }
        SortedDictionary<string, string> before = temp.Bytes();
        foreach (string[] words in (string[][])[["list"], ["check"], ["backup", temp.In("b")], ["import", Of(version, "asked.json")], ["restore", Of(version, "backup.trimwright")]])
        {
            (int exit, string said, string complaint) = Outside.Run(program!, ["store", .. words, "--store", temp.Path]);
            TestContext.Current.TestOutputHelper?.WriteLine($"{words[0]}: {exit} {complaint}");
            Assert.True(exit == 4, $"{words[0]}: {exit} {said}");
            Assert.Contains($"a store of version {Store.Version}", complaint);
            Assert.Equal(before, temp.Bytes());
        }
        using var theirs = new TempStore();
        (int taken, _, string why) = Outside.Run(program!, ["store", "import", temp.In("all.json"), "--store", theirs.Path]);
        TestContext.Current.TestOutputHelper?.WriteLine($"export: {taken} {why}");
        Assert.Equal(1, taken);
        Assert.Contains("newer Trimwright", why.ReplaceLineEndings(" "));
    }
}
