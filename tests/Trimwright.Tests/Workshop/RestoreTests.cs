using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A restore changes the store into the backup or leaves it as it is, whatever file it is given.</summary>
public class RestoreTests
{
    private static void Fill(Store store, string prefix, int revisions)
    {
        long lure = ((Saved<LureDesign>.Done)store.NewLure(LoadDesign.Of($"{prefix}-0001"), $"{prefix}-0001", "new")).Revision.Owner;
        for (int n = 1; n < revisions; n++) store.Save(lure, n, LoadDesign.Of($"{prefix}-{n + 1:0000}"), $"{prefix}-{n + 1:0000}", "more");
        Build build = store.NewBuild(lure, 1, "the first", $"{prefix}-build")!;
        store.Log(build.Id, "weight", """{ "g": 104.2 }""", $"{prefix}-log-1");
    }

    private static string Backup(TempStore temp, string prefix, int revisions)
    {
        using Store store = temp.Open();
        Fill(store, prefix, revisions);
        store.BackUp(temp.In("backup.trimwright"));
        return temp.In("backup.trimwright");
    }

    private static string[] Rows(string store)
    {
        using SqliteConnection db = Connections.OpenForReading(store);
        return [.. db.All("""
            SELECT 'r' || lure || ' ' || n || ' ' || edit_id || at_utc || cause || design FROM revision
            UNION ALL SELECT 'l' || id || ' ' || edit_id || entry FROM log_entry UNION ALL SELECT 'c' || id || what || hex(mark) FROM change
            """, row => row.GetString(0))];
    }

    [Fact]
    public void Files_that_are_no_sound_store_are_refused_and_the_store_stays_as_it_is()
    {
        using var live = new TempStore();
        using var other = new TempStore();
        using (Store store = live.Open()) Fill(store, "live", 3);
        byte[] good = File.ReadAllBytes(Backup(other, "other", 8));
        string[] before = Rows(live.Path);
        using Store open = live.Open();
        foreach ((string what, byte[] bytes, RefusalCause[] causes) in Bad(good, other))
        {
            string file = other.In("bad");
            File.WriteAllBytes(file, bytes);
            StoreRefusal? refusal = Record.Exception(() => Store.Restore(live.Path, file)) as StoreRefusal;
            Assert.True(refusal is not null, $"{what}: restored");
            Assert.True(causes.Contains(refusal.Cause), $"{what}: {refusal.Cause}, {refusal.Message}");
            Assert.Equal(bytes, File.ReadAllBytes(file));
            Assert.Equal(before, Rows(live.Path));
        }
        Assert.Throws<StoreRefusal>(() => Store.Restore(live.Path, other.In("not there")));
        Assert.Throws<StoreRefusal>(() => Store.Restore(live.Path, other.Folder));
        // Nothing but the store and what SQLite keeps beside it lies in the folder: no half of anything.
        Assert.Equal(["workshop.trimwright", "workshop.trimwright-shm", "workshop.trimwright-wal"], live.Bytes().Keys);
        TheProgram.Ran ran = TheProgram.Run("store", "restore", other.In("bad"), "--store", live.Path);
        Assert.True(ran.Exit is 1 or 4, $"{ran.Exit} {ran.Error}");
        Assert.Equal(before, Rows(live.Path));
    }

    private static IEnumerable<(string, byte[], RefusalCause[])> Bad(byte[] good, TempStore folder)
    {
        RefusalCause[] broken = [RefusalCause.Damaged, RefusalCause.NotAStore], notOne = [RefusalCause.NotAStore];
        yield return ("empty", [], notOne);
        yield return ("a sentence", "Dear store, this is no store at all."u8.ToArray(), notOne);
        yield return ("a lure file", File.ReadAllBytes(Path.Combine(Here.Root, "demo", "tidegate-185.lure.json")), notOne);
        foreach (int length in (int[])[50, 100, 1000, 4096, 8192, good.Length / 2, good.Length - 2 * 4096, good.Length - 1])
            yield return ($"cut to {length}", good[..length], broken);
        // The head of each page says what kind of page it is and where its rows begin.
        foreach (int page in (int[])[1, 2, 3, 5])
            yield return ($"page {page + 1} with a bit flipped", Flipped(good, page * 4096L * 8 + 3), broken);
        yield return ("header with a bit flipped", Flipped(good, 8 * 2), notOne);
        yield return ("newer", Changed(good, folder, $"PRAGMA user_version = {Store.Version + 1}"), [RefusalCause.TooNew]);
        yield return ("another program's", Changed(good, folder, "PRAGMA application_id = 77"), notOne);
        yield return ("with a table too many", Changed(good, folder, "CREATE TABLE more (x)"), notOne);
        yield return ("with a trigger of its own", Changed(good, folder, "CREATE TRIGGER t AFTER INSERT ON lure BEGIN DELETE FROM lure; END"), notOne);
        yield return ("without its guard", Changed(good, folder, "DROP TRIGGER revision_is_not_removed"), notOne);
        yield return ("with a gap", Changed(good, folder, Lifting("revision_is_not_removed", "DELETE FROM revision WHERE n = 4")), broken);
        yield return ("with a log of no build", Changed(good, folder, "PRAGMA foreign_keys = OFF; DELETE FROM build"), broken);
        yield return ("with a design that is no JSON", Changed(good, folder, Lifting("revision_is_not_changed", "UPDATE revision SET design = '{' WHERE n = 2")), broken);
    }

    /// <summary>A statement that a trigger forbids, with the trigger back in its place afterwards.</summary>
    private static string Lifting(string trigger, string statement)
    {
        string script = File.ReadAllText(Path.Combine(Here.Root, "src", "Workshop", "Migrations", "0001-lures-and-box.sql"));
        int from = script.IndexOf("CREATE TRIGGER " + trigger, StringComparison.Ordinal), to = script.IndexOf("END;", from, StringComparison.Ordinal) + 4;
        return $"DROP TRIGGER {trigger}; {statement}; {script[from..to]}";
    }

    private static byte[] Flipped(byte[] good, long bit)
    {
        byte[] bad = [.. good];
        bad[bit / 8] ^= (byte)(1 << (int)(bit % 8));
        return bad;
    }

    private static byte[] Changed(byte[] good, TempStore folder, string sql)
    {
        string file = folder.In("changed");
        File.WriteAllBytes(file, good);
        using (SqliteConnection db = Connections.OpenPlain(file)) db.Do(sql);
        return File.ReadAllBytes(file);
    }

    [Fact]
    public void A_bit_flipped_anywhere_in_a_backup_is_refused_or_changes_nothing_that_was_kept()
    {
        using var other = new TempStore();
        string backup = Backup(other, "other", 3);
        byte[] good = File.ReadAllBytes(backup);
        string[] rows = Rows(backup);
        var random = new Random(21);
        int refused = 0, harmless = 0, flips = Tier.Count(25, 300, 3000);
        for (int i = 0; i < flips; i++)
        {
            using var live = new TempStore();
            File.WriteAllBytes(other.In("bad"), Flipped(good, random.NextInt64(good.Length * 8L)));
            Exception? said = Record.Exception(() => Store.Restore(live.Path, other.In("bad")));
            if (said is not null)
            {
                Assert.IsType<StoreRefusal>(said);
                Assert.Empty(live.Bytes());
                refused++;
                continue;
            }
            // In the seal's unused rest, say.
            using (Store store = live.Open()) Writer.CheckWhole(store);
            Assert.Equal(rows, Rows(live.Path));
            harmless++;
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{flips} flips: {refused} refused, {harmless} restored with every row as it was");
        Assert.True(refused > flips / 2, $"only {refused} of {flips} refused");
    }

    [Fact]
    public async Task A_restore_under_open_readers_shows_them_the_old_store_or_the_new_one_and_keeps_the_old()
    {
        using var live = new TempStore();
        using var other = new TempStore();
        using (Store store = live.Open()) Fill(store, "live", 3);
        string backup = Backup(other, "other", 8);
        string[] before = Rows(live.Path);
        using Store open = live.Open();
        using var told = new System.Collections.Concurrent.BlockingCollection<StoreChange>();
        using IDisposable watching = open.Watch(told.Add);
        using var stop = new CancellationTokenSource();
        int old = 0, fresh = 0;
        Task reading = Task.Run(() =>
        {
            while (!stop.IsCancellationRequested || fresh == 0)
            {
                IReadOnlyList<Revision<LureDesign>> chain = open.History(1, texts: true);
                Assert.True(chain.Count is 3 or 8, $"{chain.Count} revisions");
                string prefix = chain.Count == 3 ? "live" : "other";
                Assert.All(chain, r => Assert.Equal($"{prefix}-{r.N:0000}", r.EditId));
                if (chain.Count == 3) old++;
                else fresh++;
            }
        }, TestContext.Current.CancellationToken);
        Patience.Until(() => Volatile.Read(ref old) > 0 || reading.IsCompleted, "nothing was read");

        string kept = Store.Restore(live.Path, backup)!;

        await stop.CancelAsync();
        await reading.WaitAsync(Patience.ForAHang, TestContext.Current.CancellationToken);
        Assert.True(old > 0 && fresh > 0);
        Assert.Equal(before, Rows(kept));
        Assert.Equal(Rows(backup), Rows(live.Path));
        Assert.True(told.TryTake(out StoreChange change, Patience.ForAHang), "nobody was told");
        Assert.Equal(ChangeOf.Everything, change.Of);
        // An edit that was made on the store before is a conflict, and the next one goes on.
        Assert.IsType<Saved<LureDesign>.Conflict>(open.Save(1, 3, LoadDesign.Of("late-0001"), "late-0001", "late"));
        Assert.IsType<Saved<LureDesign>.Done>(open.Save(1, 8, LoadDesign.Of("late-0002"), "late-0002", "late"));
        // What was replaced can be brought back in the same way.
        Store.Restore(live.Path, kept);
        Assert.Equal(before, Rows(live.Path));
    }

    [Fact]
    public void A_damaged_store_is_put_aside_by_a_restore_and_not_lost()
    {
        using var live = new TempStore();
        using var other = new TempStore();
        using (Store store = live.Open()) Fill(store, "live", 3);
        string backup = Backup(other, "other", 4);
        byte[] damaged = File.ReadAllBytes(live.Path)[..20_000];
        File.WriteAllBytes(live.Path, damaged);

        string aside = Store.Restore(live.Path, backup)!;

        Assert.Contains("damaged", Path.GetFileName(aside));
        Assert.Equal(damaged, File.ReadAllBytes(aside));
        Assert.Equal(Rows(backup), Rows(live.Path));
    }
}
