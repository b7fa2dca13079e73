using Microsoft.Data.Sqlite;
using Trimwright.StoreWriter;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>Older stores come up to date after a whole copy; newer ones are left to the byte.</summary>
public class MigrationTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_newer_store_is_refused_and_left_byte_for_byte_also_when_only_its_log_says_so(bool inLog)
    {
        using var temp = new TempStore();
        using var aside = new TempStore();
        using (Store store = temp.Open()) store.NewLure(LoadDesign.Of("newer-01"), "newer-01", "new");
        using (SqliteConnection later = Connections.OpenForWriting(temp.Path))
        {
            later.Do($"PRAGMA user_version = {Store.Version + 1}");
            // As a killed program leaves it: the file still says the old version.
            if (inLog)
                foreach (string part in (string[])["", "-wal"]) Copy(temp.Path + part, aside.Path + part);
        }
        if (!inLog) Copy(temp.Path, aside.Path);
        Assert.Equal(inLog, new FileInfo(aside.Path + "-wal") is { Exists: true, Length: > 0 });
        SortedDictionary<string, string> before = aside.Bytes();

        StoreRefusal refusal = Assert.Throws<StoreRefusal>(() => aside.Open());
        TheProgram.Ran ran = TheProgram.Run("store", "list", "--store", aside.Path);
        StoreRefusal restore = Assert.Throws<StoreRefusal>(() => Store.Restore(aside.Path, OldStore.Kept));

        Assert.Equal((RefusalCause.TooNew, RefusalCause.TooNew), (refusal.Cause, restore.Cause));
        Assert.Equal(4, ran.Exit);
        Assert.Contains($"a store of version {Store.Version + 1}", ran.Error);
        // Looking through a log makes SQLite's index of it, which holds nothing of its own.
        SortedDictionary<string, string> after = aside.Bytes();
        after.Remove("workshop.trimwright-shm");
        Assert.Equal(before, after);
    }

    [Fact]
    public void An_older_store_is_copied_whole_before_it_is_brought_up_to_date()
    {
        using var temp = new TempStore();
        OldStore.Put(temp.Path);
        string copy;
        using (Store store = temp.Open())
        {
            OldStore.Check(store);
            copy = store.CopyBeforeMigration!;
            Assert.Empty(store.Builds());
        }
        Assert.Equal(temp.Folder, Path.GetDirectoryName(copy));
        Assert.True(OldStore.IsWhole(copy));
        Assert.False(File.Exists(copy + "-wal"));
        using (SqliteConnection look = Connections.OpenToLook(temp.Path)) Assert.Equal(Store.Version, look.Number("PRAGMA user_version"));
        // Opened once more there is nothing to do, and the copy is a store that opens and restores.
        using (Store store = temp.Open()) Assert.Null(store.CopyBeforeMigration);
        using var elsewhere = new TempStore();
        Assert.Null(Store.Restore(elsewhere.Path, copy));
        using (Store store = elsewhere.Open()) OldStore.Check(store);
        Assert.True(OldStore.IsWhole(copy));
    }

    [Fact]
    public void A_migration_that_fails_leaves_the_store_as_it_was()
    {
        using var temp = new TempStore();
        OldStore.Put(temp.Path);
        string[] scripts = [.. Directory.GetFiles(Path.Combine(Here.Root, "src", "Workshop", "Migrations"), "*.sql").Order(StringComparer.Ordinal).Select(File.ReadAllText)];
        Assert.Equal(Store.Version, scripts.Length);
        var failing = new Migrations([.. scripts, "CREATE TABLE half (done INTEGER); INSERT INTO no_such_table VALUES (1);"]);

        Assert.Throws<StoreRefusal>(() => Store.Open(temp.Path, TimeProvider.System, failing));

        using (SqliteConnection look = Connections.OpenToLook(temp.Path))
            Assert.Null(look.One("SELECT name FROM sqlite_schema WHERE name IN ('half', 'build')"));
        Assert.True(OldStore.IsWhole(temp.Path));
        using Store store = temp.Open();
        OldStore.Check(store);
    }

    /// <summary>Every store that was ever kept, with what it must hold whichever way it went.</summary>
    public static TheoryData<string> Older => [OldStore.Kept, .. Directory.GetDirectories(ReleasedTests.Folder).Select(f => Path.Combine(f, "workshop.trimwright"))];

    private static string[] Texts(string store)
    {
        using SqliteConnection db = Connections.OpenForReading(store);
        return [.. db.All("SELECT lure || ' ' || n || edit_id || at_utc || offset_min || cause || design FROM revision UNION ALL SELECT n || edit_id || contents FROM box_revision", row => row.GetString(0))];
    }

    private static long VersionOf(string store)
    {
        using SqliteConnection look = Connections.OpenForReading(store);
        return look.Number("PRAGMA user_version")!.Value;
    }

    private static string[] Steps(string kept)
    {
        using var temp = new TempStore();
        File.WriteAllBytes(temp.Path, File.ReadAllBytes(kept));
        var steps = new List<string>();
        Store.Open(temp.Path, TimeProvider.System, Migrations.Ours.Told(steps.Add)).Dispose();
        return [.. steps];
    }

    [Theory]
    [MemberData(nameof(Older))]
    public void A_disk_that_fails_at_any_statement_of_a_migration_leaves_the_store_wholly_old_or_wholly_new(string kept)
    {
        string[] steps = Steps(kept);
        Assert.True(steps.Length >= 6, string.Join('|', steps));
        int last = steps.Length - 1, stride = Tier.Count(3, 1);
        for (int fails = 0; fails <= last; fails = fails == last ? last + 1 : Math.Min(fails + stride, last))
        {
            using var temp = new TempStore();
            File.WriteAllBytes(temp.Path, File.ReadAllBytes(kept));
            long old = VersionOf(temp.Path);
            string[] texts = Texts(temp.Path);
            int step = 0;
            StoreRefusal refusal = Assert.Throws<StoreRefusal>(() => Store.Open(temp.Path, TimeProvider.System, Migrations.Ours.Told(_ =>
            {
                if (step++ == fails) throw new IOException("Input/output error", 5);
            })));
            Assert.DoesNotContain("   at ", refusal.Message);
            Assert.Equal(steps[fails] == "end" ? Store.Version : old, VersionOf(temp.Path));
            Assert.Equal(texts, Texts(temp.Path));
            using (Store store = temp.Open())
            {
                Assert.Null(store.Check());
                Writer.CheckWhole(store);
            }
            Assert.Equal(texts, Texts(temp.Path));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{steps.Length} statements of {Path.GetFileName(kept)}");
    }

    [Theory]
    [MemberData(nameof(Older))]
    public void A_program_killed_at_any_statement_of_a_migration_leaves_the_store_wholly_old_or_wholly_new(string kept)
    {
        int steps = Steps(kept).Length, kills = 0, old = 0, brought = 0;
        // In the quick tier a few of many, first and last among them.
        int stride = Math.Max(1, (steps - 1) / Tier.Count(4, steps));
        for (int at = 1; at <= steps; at = at == steps ? at + 1 : Math.Min(at + stride, steps))
        {
            using var temp = new TempStore();
            using var aside = new TempStore();
            File.WriteAllBytes(temp.Path, File.ReadAllBytes(kept));
            long was = VersionOf(temp.Path);
            string[] texts = Texts(temp.Path);
            using (var dying = new Writer("migrate", temp.Path, $"{at}"))
            {
                Assert.Empty(dying.End());
                Assert.NotEqual(0, dying.ExitCode);
                Assert.Equal("", dying.Complaint());
            }
            kills++;
            // Looked at in a copy, and to be read: neither writes here.
            using (Store read = Store.OpenToRead(temp.Path)) Assert.Null(read.Check());
            foreach (string file in Directory.GetFiles(temp.Folder, Path.GetFileName(temp.Path) + "*")) Copy(file, aside.In(Path.GetFileName(file)));
            long now = VersionOf(aside.Path);
            Assert.True(now == was || now == Store.Version, $"killed at {at}: version {now}");
            if (now == was) old++;
            else brought++;
            Assert.Equal(texts, Texts(aside.Path));
            Assert.All(Directory.GetFiles(temp.Folder, "*before-v*.trimwright"), copy => Assert.Equal(was, VersionOf(copy)));
            using (Store store = temp.Open())
            {
                Assert.Null(store.Check());
                Writer.CheckWhole(store);
            }
            Assert.Equal(texts, Texts(temp.Path));
            // What the killed one had begun of the copy is not in the way of the next.
            Assert.DoesNotContain(Directory.GetFiles(temp.Folder), f => f.EndsWith("-journal", StringComparison.Ordinal));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{Path.GetFileName(kept)}: killed at {kills} of {steps} statements; {old} as they were, {brought} brought up to date");
        Assert.True(old > 0 && brought > 0);
    }

    [Fact]
    public void A_disk_that_fills_up_anywhere_in_a_migration_leaves_the_store_as_it_was_or_brought_up_to_date()
    {
        int old = 0, brought = 0;
        for (int room = 0; room <= 1200; room += Tier.IsCi ? 20 : 120)
        {
            using var disk = new TinyDisk(2048);
            Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
            OldStore.Put(disk.Store);
            disk.FillBut("ballast", room);
            StoreRefusal? refusal = Record.Exception(() => Store.Open(disk.Store).Dispose()) as StoreRefusal;
            if (refusal is not null) Assert.Equal(RefusalCause.DiskFull, refusal.Cause);
            // Full as it is, it can be read and carried elsewhere.
            using (var elsewhere = new TempStore())
            {
                using (Store read = Store.OpenToRead(disk.Store)) read.BackUp(elsewhere.In("backup"));
                Store.Restore(elsewhere.Path, elsewhere.In("backup"));
                using Store restored = elsewhere.Open();
                OldStore.Check(restored);
            }
            File.Delete(Path.Combine(disk.Folder, "ballast"));
            if (VersionOf(disk.Store) == Store.Version) brought++;
            else old++;
            Assert.Equal(refusal is null, VersionOf(disk.Store) == Store.Version);
            Assert.DoesNotContain(Directory.GetFiles(disk.Folder), f => f.EndsWith(".unfinished", StringComparison.Ordinal));
            using Store store = Store.Open(disk.Store);
            OldStore.Check(store);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{old} left as they were, {brought} brought up to date");
        Assert.True(old > 0 && brought > 0);
    }

    private static void Copy(string from, string to)
    {
        using var source = new FileStream(from, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        using FileStream copy = File.Create(to);
        source.CopyTo(copy);
    }
}
