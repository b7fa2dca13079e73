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

    private static void Copy(string from, string to)
    {
        using var source = new FileStream(from, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        using FileStream copy = File.Create(to);
        source.CopyTo(copy);
    }
}
