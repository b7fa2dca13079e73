using Microsoft.Data.Sqlite;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>What makes an acknowledged write durable is set and read back on every connection.</summary>
public class SettingsTests
{
    // https://www.sqlite.org/pragma.html: synchronous 2 is FULL. Written out here and not taken from the code under test.
    private static readonly Dictionary<string, string> Wanted = new()
    {
        ["journal_mode"] = "wal",
        ["synchronous"] = "2",
        ["foreign_keys"] = "1",
        ["busy_timeout"] = "5000",
        ["fullfsync"] = "1",
        ["checkpoint_fullfsync"] = "1",
        ["trusted_schema"] = "0",
    };

    [Fact]
    public void Every_connection_of_a_store_reads_back_its_settings()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        IReadOnlyList<(string Connection, string Name, string Value)> back = store.ReadBackSettings();
        foreach (string which in (string[])["writer", "reader"])
            foreach ((string name, string value) in Wanted)
                Assert.Contains((which, name, value), back);
        using SqliteConnection writer = Connections.OpenForWriting(temp.Path), reader = Connections.OpenForReading(temp.Path);
        foreach (SqliteConnection connection in (SqliteConnection[])[writer, reader])
            foreach ((string name, string value) in Wanted)
                Assert.Equal(value, connection.One("PRAGMA " + name));
        Assert.Throws<SqliteException>(() => reader.Do("DELETE FROM lure"));
    }

    [Fact]
    public void A_setting_that_does_not_read_back_is_refused()
    {
        // A database in memory takes no write-ahead log and says so only when it is asked.
        StoreRefusal refusal = Assert.Throws<StoreRefusal>(() => Connections.OpenForWriting(":memory:"));
        Assert.Equal(RefusalCause.CannotOpen, refusal.Cause);
        Assert.Equal(("journal_mode = memory", "journal_mode = wal"), (refusal.Fault.Got, refusal.Fault.Allowed));
    }

    [Fact]
    public void Nobody_else_in_the_program_opens_a_database_on_disk()
    {
        string[] opening = [.. Directory.GetFiles(Path.Combine(Here.Root, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(file => File.ReadAllText(file).Replace("new SqliteConnection(\"Data Source=:memory:", "", StringComparison.Ordinal).Contains("new SqliteConnection(", StringComparison.Ordinal))
            .Select(Path.GetFileName).OfType<string>()];
        Assert.Equal(["Connections.cs"], opening);
    }
}
