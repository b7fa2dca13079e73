using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>One server for a store, however the last one ended, and files that are nobody else's business.</summary>
public class FirstStartTests
{
    private static UnixFileMode ModeOf(string path) => OperatingSystem.IsWindows() ? default : File.GetUnixFileMode(path);

    private const UnixFileMode Owner = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    [Fact]
    public void The_second_start_is_told_the_port_of_the_first_and_a_killed_one_leaves_nothing_in_the_way()
    {
        using var temp = new TempStore();
        using (var serving = new Writer("serve", temp.Path, "50123"))
        {
            serving.AwaitLines(1);
            Assert.Null(FirstStart.Take(temp.Path));
            Assert.Equal(50123, FirstStart.PortOfFirst(temp.Path, TimeSpan.Zero));
            using (var second = new Writer("serve", temp.Path, "50124"))
            {
                Assert.Empty(second.End());
                Assert.Equal(3, second.ExitCode);
            }
            Assert.Equal(50123, FirstStart.PortOfFirst(temp.Path, TimeSpan.Zero));
            serving.Kill();
        }
        using (FirstStart first = FirstStart.Take(temp.Path)!)
        {
            Assert.NotNull(first);
            // The port of the killed one is not told as ours.
            Assert.Null(FirstStart.PortOfFirst(temp.Path, TimeSpan.FromMilliseconds(60)));
            first.Announce(50125);
            Assert.Equal(50125, FirstStart.PortOfFirst(temp.Path, TimeSpan.Zero));
            Assert.Null(FirstStart.Take(temp.Path));
        }
        Assert.Null(FirstStart.PortOfFirst(temp.Path, TimeSpan.Zero));
        using FirstStart? again = FirstStart.Take(temp.Path);
        Assert.NotNull(again);
    }

    [Fact]
    public async Task A_second_start_waits_for_a_first_that_is_still_starting()
    {
        using var temp = new TempStore();
        using FirstStart first = FirstStart.Take(temp.Path)!;
        Task<int?> asked = Task.Run(() => FirstStart.PortOfFirst(temp.Path, Patience.ForAHang), TestContext.Current.CancellationToken);
        Patience.Moment(120);
        Assert.False(asked.IsCompleted);
        first.Announce(50126);
        Assert.Equal(50126, await asked);
    }

    [Fact]
    public void Only_the_owner_may_read_the_folder_and_everything_of_the_store()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no such modes; the folder lies in the user's own there");
        using var temp = new TempStore();
        var folder = new DataFolder(temp.In("a/b"));
        folder.Make();
        foreach (string made in (string[])["a", "a/b"]) Assert.Equal(Owner | UnixFileMode.UserExecute, ModeOf(temp.In(made)));
        using (Store store = Store.Open(folder.StoreFile))
        using (FirstStart first = FirstStart.Take(folder.StoreFile)!)
        {
            first.Announce(50127);
            store.BackUp(Path.Combine(folder.Path, "backup.trimwright"));
            store.Export(Path.Combine(folder.Path, "all.json"));
            Store.Restore(folder.StoreFile, Path.Combine(folder.Path, "backup.trimwright"));
            string[] files = Directory.GetFiles(folder.Path);
            foreach (string ending in (string[])["workshop.trimwright", "-wal", "-lock", "-port", "backup.trimwright", "all.json"])
                Assert.Contains(files, f => f.EndsWith(ending, StringComparison.Ordinal));
            Assert.All(files, f => Assert.True(ModeOf(f) == Owner, $"{Path.GetFileName(f)}: {ModeOf(f)}"));
        }
    }

    [Theory]
    [InlineData("linux", "XDG_DATA_HOME", "/data/", "/data/trimwright")]
    [InlineData("linux", "XDG_DATA_HOME", "not/absolute", "/of/m/.local/share/trimwright")]
    [InlineData("linux", "XDG_DATA_HOME", null, "/of/m/.local/share/trimwright")]
    [InlineData("windows", "LOCALAPPDATA", @"C:\Local", @"C:\Local\Trimwright")]
    [InlineData("macos", "XDG_DATA_HOME", "/data", "/of/m/Library/Application Support/Trimwright")]
    public void The_data_folder_is_the_users_own_on_this_machine(string system, string variable, string? value, string expected) =>
        Assert.Equal(expected, DataFolder.Where(system, name => name == variable ? value : null, "/of/m"));

    [Theory]
    [InlineData("/of/m/Some Cloud/lures/workshop.trimwright", true)]
    [InlineData("/of/m/Synced/workshop.trimwright", true)]
    [InlineData("/of/m/lures/workshop.trimwright", false)]
    public void A_folder_that_sounds_copied_elsewhere_is_doubted(string store, bool doubted) =>
        Assert.Equal(doubted, FolderDoubt.InName(Path.GetDirectoryName(store)!) is not null);
}
