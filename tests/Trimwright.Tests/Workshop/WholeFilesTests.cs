using System.Diagnostics;
using System.Text;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>Files come to be whole or not at all, and what was there stays until then.</summary>
public class WholeFilesTests
{
    private static readonly byte[] New = Encoding.UTF8.GetBytes("new"), Old = Encoding.UTF8.GetBytes("old");

    private static UnixFileMode ModeOf(string path) => OperatingSystem.IsWindows() ? default : File.GetUnixFileMode(path);

    private static void SetMode(string path, UnixFileMode mode)
    {
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(path, mode);
    }

    [Fact]
    public void Until_it_is_finished_nobody_sees_it_and_taken_back_nothing_is_left()
    {
        using var temp = new TempStore();
        File.WriteAllBytes(temp.In("a"), Old);
        using (var whole = new WholeFiles(replace: true))
        {
            whole.Begin(temp.In("a")).Write(New);
            whole.Begin(temp.In("deep/er/b")).Write(New);
            Assert.Equal(Old, File.ReadAllBytes(temp.In("a")));
            Assert.False(File.Exists(temp.In("deep/er/b")));
        }
        Assert.Equal([temp.In("a")], Directory.GetFileSystemEntries(temp.Folder, "*", SearchOption.AllDirectories));
        Assert.Equal(Old, File.ReadAllBytes(temp.In("a")));
        WholeFiles.Write([(temp.In("a"), New), (temp.In("deep/er/b"), New)], replace: true);
        Assert.Equal(New, File.ReadAllBytes(temp.In("a")));
        Assert.Equal([temp.In("a"), temp.In("deep/er/b")], Directory.GetFiles(temp.Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Of_a_set_whose_last_can_t_be_none_is_there()
    {
        using var temp = new TempStore();
        Directory.CreateDirectory(temp.In("c"));
        Assert.ThrowsAny<Exception>(() => WholeFiles.Write([(temp.In("a"), New), (temp.In("b/b"), New), (temp.In("c"), New)], replace: false));
        // One that comes while it is written is found when names are given; what was named before it is taken back.
        using (var whole = new WholeFiles(replace: false))
        {
            whole.Begin(temp.In("a")).Write(New);
            whole.Begin(temp.In("d")).Write(New);
            File.WriteAllBytes(temp.In("d"), Old);
            IOException there = Assert.ThrowsAny<IOException>(whole.Finish);
            Assert.Contains("there already", WholeFiles.Fault("d", there).Got);
        }
        Assert.Equal([temp.In("c"), temp.In("d")], Directory.GetFileSystemEntries(temp.Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal));
        Assert.Equal(Old, File.ReadAllBytes(temp.In("d")));
    }

    [Fact]
    public void It_keeps_the_mode_and_the_link_of_what_it_replaces_and_respects_one_that_may_only_be_read()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no such modes");
        using var temp = new TempStore();
        File.WriteAllBytes(temp.In("real"), Old);
        SetMode(temp.In("real"), UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        File.CreateSymbolicLink(temp.In("link"), temp.In("real"));
        WholeFiles.Write(temp.In("link"), New, replace: true);
        Assert.Equal(New, File.ReadAllBytes(temp.In("real")));
        Assert.Equal(temp.In("real"), File.ResolveLinkTarget(temp.In("link"), true)!.FullName);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead, ModeOf(temp.In("real")));
        WholeFiles.Write(temp.In("mine"), New, replace: false, forMe: true);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, ModeOf(temp.In("mine")));
        if (Environment.UserName == "root") return;
        SetMode(temp.In("real"), UnixFileMode.UserRead);
        Assert.Throws<UnauthorizedAccessException>(() => WholeFiles.Write(temp.In("real"), Old, replace: true));
    }

    [Fact]
    public void Devices_and_pipes_are_written_straight_and_a_full_one_is_said_to_be_full()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "devices of Linux");
        WholeFiles.Write("/dev/null", New, replace: true);
        IOException full = Assert.ThrowsAny<IOException>(() => WholeFiles.Write("/dev/full", New, replace: true));
        Assert.Equal("a full disk", WholeFiles.Fault("/dev/full", full).Got);
        using var temp = new TempStore();
        Assert.Equal(0, Outside.Run("mkfifo", [temp.In("pipe")]).Exit);
        using Process reader = Process.Start(new ProcessStartInfo("cat", [temp.In("pipe")]) { RedirectStandardOutput = true })!;
        WholeFiles.Write(temp.In("pipe"), New, replace: true);
        Assert.Equal("new", reader.StandardOutput.ReadToEnd());
        reader.WaitForExit();
    }

    [Fact]
    public void Two_who_write_one_file_don_t_write_into_each_other_and_what_a_killed_one_left_is_in_nobody_s_way()
    {
        using var temp = new TempStore();
        using (var first = new WholeFiles(replace: true))
        {
            first.Begin(temp.In("a")).Write(New);
            using var second = new WholeFiles(replace: true);
            IOException held = Assert.ThrowsAny<IOException>(() => second.Begin(temp.In("a")));
            Assert.Contains("another program is writing", WholeFiles.Fault("a", held).Got);
            first.Finish();
        }
        Assert.Equal(New, File.ReadAllBytes(temp.In("a")));
        File.WriteAllBytes(temp.In("a.unfinished"), new byte[100_000]);
        WholeFiles.Write(temp.In("a"), Old, replace: true);
        Assert.Equal(Old, File.ReadAllBytes(temp.In("a")));
        Assert.Equal([temp.In("a")], Directory.GetFiles(temp.Folder));
    }

    [Theory]
    [InlineData("n")]
    [InlineData("ä")]
    public void A_name_as_long_as_the_disk_takes_is_written_too(string letter)
    {
        using var temp = new TempStore();
        string name = string.Concat(Enumerable.Repeat(letter, 250 / Encoding.UTF8.GetByteCount(letter)));
        WholeFiles.Write(temp.In(name), New, replace: false);
        Assert.Equal([temp.In(name)], Directory.GetFiles(temp.Folder));
    }

    [Fact]
    public void What_goes_wrong_is_said_in_a_maker_s_words()
    {
        using var temp = new TempStore();
        File.WriteAllBytes(temp.In("file"), Old);
        foreach ((string path, string got) in ((string, string)[])[(temp.Folder, "a folder"), (temp.In("file/below"), "a file where a folder would have to be")])
        {
            Exception said = Assert.ThrowsAny<Exception>(() => WholeFiles.Write(path, New, replace: true));
            Assert.Equal(got, WholeFiles.Fault(path, said).Got);
        }
    }
}
