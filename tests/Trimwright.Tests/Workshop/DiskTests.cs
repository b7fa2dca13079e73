using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A full disk and a folder that may only be read: a sentence, exit 4, and nothing that was acknowledged is lost.</summary>
public class DiskTests
{
    private const int RoomKb = 1024, BallastKb = 300;

    [Fact]
    public void A_full_disk_loses_nothing_that_was_acknowledged_and_the_next_edit_goes_on_when_there_is_room()
    {
        using var disk = new TinyDisk(RoomKb);
        Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
        string ballast = Path.Combine(disk.Folder, "ballast");
        var acks = new List<string>();
        using (Store store = Store.Open(disk.Store))
        {
            File.WriteAllBytes(ballast, new byte[BallastKb * 1024]);
            string first = EditId.New();
            var newest = Assert.IsType<Saved<LureDesign>.Done>(store.NewLure(LoadDesign.Of(first), first, "new")).Revision;
            StoreRefusal? refusal = null;
            string refused = "";
            while (refusal is null)
            {
                acks.Add($"{newest.Owner} {newest.N} {newest.EditId}");
                Assert.True(acks.Count < RoomKb / 20, "the disk never filled up");
                refused = EditId.New();
                refusal = Record.Exception(() => newest = ((Saved<LureDesign>.Done)store.Save(newest.Owner, newest.N, LoadDesign.Of(refused), refused, "more")).Revision) as StoreRefusal;
            }
            TestContext.Current.TestOutputHelper?.WriteLine($"full after {acks.Count} revisions of 20 kB: {refusal.Message}");
            Assert.Equal(RefusalCause.DiskFull, refusal.Cause);
            // Reading goes on; the refused edit left no trace.
            Assert.Equal(acks.Count, store.History(newest.Owner).Count);
            // A lure smaller than the one refused might still have fitted.
            disk.Fill("rest");
            TheProgram.Ran ran = TheProgram.Run("store", "import", "demo/tidegate-185.lure.json", "--store", disk.Store);
            Assert.Equal(4, ran.Exit);
            Assert.Contains("a full disk", ran.Error);
            Assert.DoesNotContain("   at ", ran.Error);

            File.Delete(ballast);
            File.Delete(Path.Combine(disk.Folder, "rest"));
            var again = Assert.IsType<Saved<LureDesign>.Done>(store.Save(newest.Owner, newest.N, LoadDesign.Of(refused), refused, "more"));
            acks.Add($"{newest.Owner} {again.Revision.N} {refused}");
        }
        using (Store store = Store.Open(disk.Store)) Writer.CheckAll(store, acks);
    }

    [Fact]
    public void A_full_disk_refuses_backup_and_export_with_nothing_half_written_under_their_names()
    {
        using var disk = new TinyDisk(RoomKb);
        Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
        using var temp = new TempStore();
        using (Store store = temp.Open())
            for (int i = 0; i < 80; i++) store.NewLure(LoadDesign.Of($"lure-{i:000}"), $"lure-{i:000}", "new");
        foreach (string what in (string[])["backup", "export"])
        {
            TheProgram.Ran ran = TheProgram.Run("store", what, Path.Combine(disk.Folder, what), "--store", temp.Path);
            Assert.True(ran.Exit == 4, $"{what}: {ran.Exit} {ran.Error}");
            Assert.Contains("a full disk", ran.Error);
            Assert.Empty(Directory.GetFiles(disk.Folder));
        }
        using (Store store = temp.Open()) Assert.Equal(80, store.Lures().Count);
    }

    [Fact]
    public void A_folder_that_may_only_be_read_is_refused_in_a_sentence_and_left_as_it_was()
    {
        using var disk = new TinyDisk(RoomKb);
        Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
        using (Store store = Store.Open(disk.Store)) store.NewLure(LoadDesign.Of("kept-0001"), "kept-0001", "new");
        byte[] before = File.ReadAllBytes(disk.Store);
        disk.MakeReadOnly();
        foreach (string store in (string[])[disk.Store, Path.Combine(disk.Folder, "new.trimwright")])
        {
            TheProgram.Ran ran = TheProgram.Run("store", "import", "demo/tidegate-185.lure.json", "--new", "--store", store);
            TestContext.Current.TestOutputHelper?.WriteLine(ran.Error);
            Assert.Equal(4, ran.Exit);
            Assert.Equal("", ran.Out);
            Assert.Matches("this account may write to|a disk that may be written to", ran.Said);
            Assert.DoesNotContain("   at ", ran.Error);
        }
        Assert.Equal(before, File.ReadAllBytes(disk.Store));
        Assert.Equal([disk.Store], Directory.GetFiles(disk.Folder));
    }
}
