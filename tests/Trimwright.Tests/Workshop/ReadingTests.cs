using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>list, check, backup and export where nothing can be written beside the store: when a backup matters most.</summary>
public class ReadingTests
{
    private const int RoomKb = 2048;

    private static readonly string[] Mine = [.. Enumerable.Range(1, 12).Select(i => $"lure-{i:000}")];

    private static void Fill(string path)
    {
        using Store store = Store.Open(path);
        foreach (string edit in Mine) store.NewLure(LoadDesign.Of(edit), edit, "new");
    }

    // As a killed program leaves it: the last commits in the log.
    private static string[] FillAndKill(string path)
    {
        using var writer = new Writer("load", path, "5");
        writer.AwaitLines(12);
        string[] acks = writer.Kill();
        Assert.True(StoreHeader.LogWaits(path));
        return acks;
    }

    private static SortedDictionary<string, string> Bytes(string folder)
    {
        var files = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (string file in Directory.GetFiles(folder))
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            files[Path.GetFileName(file)] = Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(stream));
        }
        return files;
    }

    /// <summary>All four, on the command line; the copies are taken in elsewhere and hold what they should.</summary>
    private static void AllFour(string store, Action<Store> holds, string? noted)
    {
        using var elsewhere = new TempStore();
        using var fresh = new TempStore();
        string backup = elsewhere.In("backup.trimwright"), export = elsewhere.In("all.json");
        foreach (string[] words in (string[][])[["list"], ["check"], ["backup", backup], ["export", export]])
        {
            TheProgram.Ran ran = TheProgram.Run(["store", .. words, "--store", store]);
            Assert.True(ran.Exit == 0, $"{words[0]}: {ran.Exit} {ran.Error}");
            if (noted is null) Assert.Equal("", ran.Error);
            else Assert.Contains(noted, ran.Said);
        }
        using (Store copy = Store.OpenToRead(backup)) holds(copy);
        Assert.Null(Store.Restore(elsewhere.Path, backup));
        using (Store copy = elsewhere.Open()) holds(copy);
        using (Store copy = fresh.Open())
        {
            using (FileStream from = File.OpenRead(export)) Assert.True(copy.Import(from).IsSound);
            holds(copy);
        }
    }

    private static void HoldsMine(Store store) => Assert.Equal(Mine, store.Lures(withPutAway: true).Select(l => l.Name));

    private static Action<Store> Holds(string[] acks) => store => Writer.CheckAcks(store, acks);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void On_a_disk_that_may_only_be_read_all_four_work_and_change_nothing(bool killed)
    {
        using var disk = new TinyDisk(RoomKb);
        Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
        string[] acks = killed ? FillAndKill(disk.Store) : [];
        if (!killed) Fill(disk.Store);
        // A killed one's index lies there too; without it nobody can make one.
        if (killed) File.Delete(disk.Store + "-shm");
        SortedDictionary<string, string> before = Bytes(disk.Folder);
        disk.MakeReadOnly();
        AllFour(disk.Store, killed ? Holds(acks) : HoldsMine, "it was read through a copy in memory");
        Assert.Equal(before, Bytes(disk.Folder));
    }

    [Theory]
    [InlineData(false, false)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void With_a_full_disk_beside_it_all_four_work(bool killed, bool open)
    {
        using var disk = new TinyDisk(RoomKb);
        Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
        string[] acks = killed ? FillAndKill(disk.Store) : [];
        if (!killed) Fill(disk.Store);
        if (killed) File.Delete(disk.Store + "-shm");
        // By another program: whoever opens and closes a file, as this test does below, lets go of the locks that its own process has on it.
        using Writer? kept = open ? new Writer("contend", disk.Store, "1", "1") : null;
        kept?.AwaitLines(1);
        disk.Fill("ballast");
        SortedDictionary<string, string> before = Bytes(disk.Folder);
        AllFour(disk.Store, killed ? Holds(acks) : HoldsMine, open ? null : "a full disk");
        SortedDictionary<string, string> after = Bytes(disk.Folder);
        // The index of a store that is open holds who reads it at the moment.
        foreach (SortedDictionary<string, string> files in (SortedDictionary<string, string>[])[before, after])
            if (open) files.Remove("workshop.trimwright-shm");
        Assert.Equal(before, after);
    }

    [Fact]
    public void With_no_room_anywhere_for_a_waiting_log_it_says_what_to_do()
    {
        using var disk = new TinyDisk(RoomKb);
        Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
        string[] acks = FillAndKill(disk.Store);
        File.Delete(disk.Store + "-shm");
        disk.Fill("ballast");
        // The folder of the backup has room, the usual one for such things has none.
        using var elsewhere = new TempStore();
        TheProgram.Ran ran = TheProgram.RunWith([("TMPDIR", disk.Folder)], "store", "backup", elsewhere.In("b.trimwright"), "--store", disk.Store);
        Assert.True(ran.Exit == 0, ran.Error);
        using (Store copy = Store.OpenToRead(elsewhere.In("b.trimwright"))) Holds(acks)(copy);
        Assert.Equal([elsewhere.In("b.trimwright")], Directory.GetFileSystemEntries(elsewhere.Folder));
    }

    [Fact]
    public void An_older_store_is_read_without_being_brought_up_to_date()
    {
        using var temp = new TempStore();
        OldStore.Put(temp.Path);
        SortedDictionary<string, string> before = temp.Bytes();
        using (Store store = Store.OpenToRead(temp.Path))
        {
            OldStore.Check(store);
            Assert.Null(store.Check());
            Assert.Null(store.ReadThroughCopy);
            store.BackUp(temp.In("copy.trimwright"));
        }
        Assert.True(OldStore.IsWhole(temp.In("copy.trimwright")));
        File.Delete(temp.In("copy.trimwright"));
        Assert.Equal(before, temp.Bytes());
        using var disk = new TinyDisk(RoomKb);
        if (disk.Why is not null) return;
        OldStore.Put(disk.Store);
        disk.MakeReadOnly();
        TheProgram.Ran ran = TheProgram.Run("store", "list", "--store", disk.Store);
        Assert.Equal(0, ran.Exit);
        Assert.Contains("Tidegate 185", ran.Out);
    }

    [Fact]
    public void A_backup_that_is_looked_at_stays_byte_for_byte()
    {
        using var temp = new TempStore();
        Fill(temp.Path);
        using (Store store = temp.Open()) store.BackUp(temp.In("backup.trimwright"));
        SortedDictionary<string, string> before = temp.Bytes("backup*");
        foreach (string what in (string[])["list", "check"])
            Assert.Equal(0, TheProgram.Run("store", what, "--store", temp.In("backup.trimwright")).Exit);
        Assert.Equal(before, temp.Bytes("backup*"));
    }

    [Fact]
    public void A_newer_store_and_what_is_none_are_refused_and_stay()
    {
        using var temp = new TempStore();
        Fill(temp.Path);
        using (Microsoft.Data.Sqlite.SqliteConnection db = Connections.OpenForWriting(temp.Path)) db.Do($"PRAGMA user_version = {Store.Version + 1}");
        File.WriteAllText(temp.In("letter"), "Dear store");
        File.WriteAllBytes(temp.In("empty"), []);
        SortedDictionary<string, string> before = temp.Bytes();
        Assert.Equal(RefusalCause.TooNew, Assert.Throws<StoreRefusal>(() => Store.OpenToRead(temp.Path)).Cause);
        foreach (string name in (string[])["letter", "empty"]) Assert.Equal(RefusalCause.NotAStore, Assert.Throws<StoreRefusal>(() => Store.OpenToRead(temp.In(name))).Cause);
        Assert.Equal(RefusalCause.NotAStore, Assert.Throws<StoreRefusal>(() => Store.OpenToRead(temp.Folder)).Cause);
        Assert.Equal(RefusalCause.NotThere, Assert.Throws<StoreRefusal>(() => Store.OpenToRead(temp.In("nowhere"))).Cause);
        Assert.Equal(before, temp.Bytes());
    }

    [Fact]
    public void A_store_that_another_writes_while_it_is_copied_is_copied_whole()
    {
        using var disk = new TinyDisk(32 * 1024);
        Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
        // The copy is made as for a disk that may only be read, from under a program that writes, as a maker does, now and then.
        using var writer = new Writer("begin", disk.Store, "120");
        writer.AwaitLines(20);
        int whole = 0, torn = 0;
        for (int i = 0; i < Tier.Count(8, 80); i++)
            try
            {
                using Microsoft.Data.Sqlite.SqliteConnection copy = ToRead.Through(disk.Store, null);
                Assert.Null(Health.Of(copy));
                whole++;
            }
            catch (StoreRefusal e)
            {
                // Never quiet enough in five tries: said so, and nothing half is handed on.
                Assert.Equal(RefusalCause.Busy, e.Cause);
                torn++;
            }
        writer.Kill();
        using (Microsoft.Data.Sqlite.SqliteConnection copy = ToRead.Through(disk.Store, null)) Assert.Null(Health.Of(copy));
        TestContext.Current.TestOutputHelper?.WriteLine($"{whole} copies whole, {torn} given up");
        Assert.True(whole > 0, "no copy was made under the writer");
    }
}
