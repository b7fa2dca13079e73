using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A store whose file is taken away under an open program acknowledges nothing more, and loses nothing that it acknowledged.</summary>
public class InPlaceTests
{
    private static Revision<LureDesign> Begin(Store store, string edit = "begun-001") => ((Saved<LureDesign>.Done)store.NewLure(LoadDesign.Of(edit), edit, "new")).Revision;

    private static Saved<LureDesign> Edit(Store store, int onto, string edit) => store.Save(1, onto, LoadDesign.Of(edit), edit, "more");

    private static void Move(string from, string to)
    {
        foreach (string part in (string[])["", "-wal", "-shm"])
            if (File.Exists(from + part)) File.Move(from + part, to + part, overwrite: true);
    }

    private static string Backup(TempStore temp, string edit)
    {
        using (Store store = temp.Open())
        {
            Begin(store, edit);
            store.BackUp(temp.In("backup.trimwright"));
        }
        return temp.In("backup.trimwright");
    }

    private static readonly (string What, Action<TempStore, TempStore> Do)[] Ways =
    [
        ("deleted", (temp, _) => File.Delete(temp.Path)),
        ("deleted with its log", (temp, _) => Array.ForEach(Directory.GetFiles(temp.Folder), File.Delete)),
        ("renamed", (temp, _) => File.Move(temp.Path, temp.In("elsewhere"))),
        ("renamed with its log", (temp, _) => Move(temp.Path, temp.In("elsewhere"))),
        ("replaced by another store", (temp, other) => File.Move(Backup(other, "other-001"), temp.Path, overwrite: true)),
        ("replaced by a copy of itself", (temp, _) =>
        {
            File.Copy(temp.Path, temp.In("copy"));
            File.Move(temp.In("copy"), temp.Path, overwrite: true);
        }),
        ("its folder renamed", (temp, _) => Directory.Move(temp.In("inside"), temp.In("outside"))),
        ("written over by a backup", (temp, other) => File.WriteAllBytes(temp.Path, File.ReadAllBytes(Backup(other, "other-001")))),
        ("cut off", (temp, _) =>
        {
            using FileStream file = new(temp.Path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
            file.SetLength(8192);
        }),
        ("its log deleted", (temp, _) => File.Delete(temp.Path + "-wal")),
        ("its log replaced", (temp, _) =>
        {
            File.Delete(temp.Path + "-wal");
            File.WriteAllBytes(temp.Path + "-wal", []);
        }),
        ("its index deleted", (temp, _) => File.Delete(temp.Path + "-shm")),
    ];

    public static TheoryData<string> Names => [.. Ways.Select(way => way.What)];

    [Theory]
    [MemberData(nameof(Names))]
    public void What_is_taken_away_under_an_open_store_is_noticed_before_the_next_acknowledgement(string what)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using var temp = new TempStore();
        using var other = new TempStore();
        string path = what == "its folder renamed" ? temp.In("inside/workshop.trimwright") : temp.Path;
        string elsewhere = other.In("everything.json");
        using (Store store = Store.Open(path))
        {
            Begin(store);
            Assert.IsType<Saved<LureDesign>.Done>(Edit(store, 1, "edit-0002"));
            // A file that is cut loses something only when something is in it, and not in the log alone.
            if (what == "cut off")
                using (Microsoft.Data.Sqlite.SqliteConnection mover = Connections.OpenForWriting(path)) Assert.Equal(0, mover.Number("PRAGMA wal_checkpoint(RESTART)"));
            store.Choose("units", "in");
            Patience.Moment(20);

            Ways.First(way => way.What == what).Do(temp, other);

            StoreRefusal refusal = Assert.Throws<StoreRefusal>(() => Edit(store, 2, "edit-0003"));
            TestContext.Current.TestOutputHelper?.WriteLine(refusal.Message);
            Assert.Equal(RefusalCause.Moved, refusal.Cause);
            Assert.Contains("while Trimwright had it open", refusal.Fault.Got);
            // Nor is what was there before answered for: the same edit sent again is an acknowledgement too.
            Assert.Equal(RefusalCause.Moved, Assert.Throws<StoreRefusal>(() => Edit(store, 1, "edit-0002")).Cause);
            Assert.Equal(RefusalCause.Moved, Assert.Throws<StoreRefusal>(() => store.Choose("units", "mm")).Cause);
            if (what is "written over by a backup" or "cut off") return;
            // What was acknowledged is still in sight and can be laid elsewhere, as an export and as a backup.
            Assert.Equal(["begun-001", "edit-0002"], store.History(1).Select(r => r.EditId));
            store.Export(elsewhere);
            store.BackUp(other.In("saved.trimwright"));
        }
        using (var fresh = new TempStore())
        using (Store store = fresh.Open())
        {
            using (FileStream from = File.OpenRead(elsewhere)) Assert.Equal(2, store.Import(from).Value!.Revisions);
            Assert.Equal(LoadDesign.Text("edit-0002"), store.Newest(1)!.Text);
        }
        using (Store saved = Store.OpenToRead(other.In("saved.trimwright"))) Assert.Equal("edit-0002", saved.Newest(1)!.EditId);
    }

    [Fact]
    public void Put_back_it_goes_on_where_it_was()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using var temp = new TempStore();
        using (Store store = temp.Open())
        {
            Begin(store);
            for (int round = 0; round < 3; round++)
            {
                File.Move(temp.Path, temp.In("elsewhere"));
                Assert.Throws<StoreRefusal>(() => Edit(store, round + 1, $"edit-{round}-no"));
                File.Move(temp.In("elsewhere"), temp.Path);
                Assert.IsType<Saved<LureDesign>.Done>(Edit(store, round + 1, $"edit-{round}-yes"));
            }
        }
        using (Store store = temp.Open())
        {
            Assert.Equal(["begun-001", "edit-0-yes", "edit-1-yes", "edit-2-yes"], store.History(1).Select(r => r.EditId));
            Writer.CheckWhole(store);
        }
    }

    [Theory]
    [InlineData("replaced by another store")]
    [InlineData("written over by a backup")]
    public void What_was_put_in_its_place_stays_as_it_was_put_there_also_when_the_program_ends(string what)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using var temp = new TempStore();
        using var other = new TempStore();
        string before;
        using (Store store = temp.Open())
        {
            Begin(store);
            for (int n = 1; n < 60; n++) Edit(store, n, $"edit-{n:0000}");
            Ways.First(way => way.What == what).Do(temp, other);
            before = temp.Bytes()["workshop.trimwright"];
            Assert.Throws<StoreRefusal>(() => Edit(store, 60, "edit-late"));
        }
        Assert.Equal(before, temp.Bytes()["workshop.trimwright"]);
        // The old log still lies beside it; it is not played into the new file, and not lost.
        using (Store store = temp.Open())
        {
            Assert.Equal("other-001", Assert.Single(store.Lures()).Name);
            Writer.CheckWhole(store);
        }
        Assert.Contains(temp.Bytes().Keys, name => name.Contains("log-of-another", StringComparison.Ordinal));
    }

    [Fact]
    public void A_backup_copied_over_a_store_that_was_killed_is_not_mixed_with_what_waits_in_its_log()
    {
        using var temp = new TempStore();
        using var other = new TempStore();
        string backup = Backup(other, "other-001");
        using (var writer = new Writer("load", temp.Path, "1"))
        {
            writer.AwaitLines(5);
            writer.Kill();
        }
        Assert.True(new FileInfo(temp.Path + "-wal").Length > 0);
        File.WriteAllBytes(temp.Path, File.ReadAllBytes(backup));
        // Looking changes nothing; opening puts the stray log aside.
        SortedDictionary<string, string> before = temp.Bytes();
        using (Store store = Store.OpenToRead(temp.Path)) Assert.Equal("other-001", Assert.Single(store.Lures()).Name);
        Assert.Equal(before, temp.Bytes());
        using (Store store = temp.Open())
        {
            Assert.Equal("other-001", Assert.Single(store.Lures()).Name);
            Writer.CheckWhole(store);
        }
        Assert.Contains(temp.Bytes().Keys, name => name.Contains("log-of-another", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("-wal")]
    [InlineData("-shm")]
    public void When_only_its_log_or_index_is_deleted_everything_acknowledged_is_brought_into_the_file_at_once(string part)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using var temp = new TempStore();
        using var aside = new TempStore();
        using Store store = temp.Open();
        Begin(store);
        Edit(store, 1, "edit-0002");
        File.Delete(temp.Path + part);
        Assert.Throws<StoreRefusal>(() => Edit(store, 2, "edit-0003"));
        // As a plug pulled at this moment would leave it: the file, and no log.
        if (part == "-wal") File.Copy(temp.Path, aside.Path);
        else foreach (string there in (string[])["", "-wal"]) File.Copy(temp.Path + there, aside.Path + there);
        using Store after = aside.Open();
        Assert.Equal(["begun-001", "edit-0002"], after.History(1).Select(r => r.EditId));
        Writer.CheckWhole(after);
    }

    [Fact]
    public void A_link_that_is_turned_elsewhere_is_noticed()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links want rights of their own on Windows");
        using var temp = new TempStore();
        string link = temp.In("link");
        File.CreateSymbolicLink(link, temp.Path);
        using Store store = Store.Open(link);
        Begin(store);
        Assert.Equal(temp.Path, store.Path);
        File.Delete(link);
        Assert.Contains("leads to no more", Assert.Throws<StoreRefusal>(() => Edit(store, 1, "edit-0002")).Message);
        using (Store other = Store.Open(temp.In("other"))) Begin(other, "other-001");
        File.CreateSymbolicLink(link, temp.In("other"));
        Assert.Throws<StoreRefusal>(() => Edit(store, 1, "edit-0002"));
        File.Delete(link);
        File.CreateSymbolicLink(link, temp.Path);
        Assert.IsType<Saved<LureDesign>.Done>(Edit(store, 1, "edit-0002"));
    }

    [Fact]
    public void Whatever_name_leads_to_a_store_it_has_one_lock()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links want rights of their own on Windows");
        using var temp = new TempStore();
        Directory.CreateDirectory(temp.In("links"));
        string link = temp.In("links/one"), again = temp.In("links/two"), dangling = temp.In("links/three"), folder = temp.In("by-folder");
        File.CreateSymbolicLink(link, temp.Path);
        File.CreateSymbolicLink(again, link);
        Directory.CreateSymbolicLink(folder, temp.Folder);
        using (Store store = temp.Open()) Begin(store);
        using (FirstStart first = FirstStart.Take(temp.Path)!)
        {
            first.Announce(50200);
            foreach (string name in (string[])[link, again, Path.Combine(folder, "workshop.trimwright")])
            {
                Assert.Null(FirstStart.Take(name));
                Assert.Equal(50200, FirstStart.PortOfFirst(name, TimeSpan.Zero));
                Assert.Equal(new FileInfo(temp.Path).Directory!.Name, new DirectoryInfo(DataFolder.Of(name).Path).Name is "by-folder" ? temp.Folder.Split('/')[^1] : new DirectoryInfo(DataFolder.Of(name).Path).Name);
            }
        }
        // A link to a store that is still to come.
        File.CreateSymbolicLink(dangling, temp.In("to-come.trimwright"));
        using (FirstStart first = FirstStart.Take(dangling)!)
        {
            Assert.Null(FirstStart.Take(temp.In("to-come.trimwright")));
            using Store store = Store.Open(dangling);
            Assert.True(File.Exists(temp.In("to-come.trimwright")));
        }
    }

    [Fact]
    public void A_file_with_two_names_is_read_and_not_written_and_whoever_has_it_open_goes_on()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "only Linux is asked how many names a file has");
        using var temp = new TempStore();
        using Store store = temp.Open();
        Begin(store);
        string second = temp.In("second.trimwright");
        Assert.Equal(0, Outside.Run("ln", [temp.Path, second]).Exit);
        StoreRefusal refusal = Assert.Throws<StoreRefusal>(() => Store.Open(second));
        Assert.Contains("a file with 2 names (hard links)", refusal.Message);
        using (Store read = Store.OpenToRead(second)) Assert.Contains("2 names", read.ReadThroughCopy);
        Assert.IsType<Saved<LureDesign>.Done>(Edit(store, 1, "edit-0002"));
        TheProgram.Ran ran = TheProgram.Run("store", "backup", second, "--force", "--store", temp.Path);
        Assert.Equal(1, ran.Exit);
        Assert.Contains("the store itself", ran.Error);
    }

    [Fact]
    public void Another_program_that_moves_pages_into_the_file_is_nobody_to_refuse()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        Begin(store);
        for (int n = 1; n < 40; n++)
        {
            Assert.IsType<Saved<LureDesign>.Done>(Edit(store, n, $"edit-{n:0000}"));
            if (n % 3 == 0)
                using (Microsoft.Data.Sqlite.SqliteConnection other = Connections.OpenForWriting(temp.Path))
                    other.Do($"PRAGMA wal_checkpoint({(n % 2 == 0 ? "PASSIVE" : "TRUNCATE")})");
            if (n % 7 == 0)
                using (Store other = temp.Open())
                    other.Choose("nose", $"{n}");
        }
        Writer.CheckWhole(store, texts: true);
    }

    [Fact]
    public void A_store_taken_away_at_any_moment_under_load_has_everything_that_was_acknowledged()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        var random = new Random(17);
        int rounds = Tier.Count(4, 40, 400), acknowledged = 0;
        for (int round = 0; round < rounds; round++)
        {
            using var temp = new TempStore();
            string[] acks;
            using (var writer = new Writer("load", temp.Path, $"{round}"))
            {
                writer.AwaitLines(1);
                Patience.Moment(random.Next(150));
                File.Move(temp.Path, temp.In("away"));
                // It ends by itself, at the refusal.
                acks = writer.End();
                Assert.Contains("was deleted, renamed or replaced while Trimwright had it open", writer.Complaint());
            }
            Assert.False(File.Exists(temp.Path));
            Move(temp.In("away"), temp.Path);
            using Store store = temp.Open();
            Writer.CheckAll(store, acks);
            acknowledged += acks.Length;
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{rounds} stores taken away, {acknowledged} acknowledged writes, all there");
    }
}
