using System.Text.RegularExpressions;
using Trimwright.App.Gate;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>The file that hands a key to the browser.</summary>
public class EntryNoteTests
{
    [Fact]
    public void It_lies_where_only_this_account_reads_and_says_the_key_in_its_body_alone()
    {
        using var temp = new TempStore();
        string key = new EntryKeys(PageSecret.Random(), TimeProvider.System).New(40213);
        string note = EntryNote.Write(key, 40213, [temp.In("own/enter")])!;
        Assert.StartsWith(temp.In("own/enter"), note);
        Assert.DoesNotContain(key, note);
        string page = File.ReadAllText(note);
        Assert.Contains("action=\"http://127.0.0.1:40213/enter\"", page);
        Assert.Single(Regex.Matches(page, Regex.Escape(key)));
        Assert.Contains($"<input type=\"hidden\" name=\"key\" value=\"{key}\">", page);
        Assert.DoesNotContain($"#{key}", page);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(note));
            UnixFileMode own = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
            Assert.Equal(own, File.GetUnixFileMode(temp.In("own/enter")));
        }
        // Where it can't be kept: the next place, or none.
        File.WriteAllText(temp.In("file"), "");
        Assert.StartsWith(temp.In("second"), EntryNote.Write(key, 40213, [temp.In("file"), temp.In("second")]));
        Assert.Null(EntryNote.Write(key, 40213, [temp.In("file/below")]));
        Assert.Null(EntryNote.Write(key, 40213, []));
    }

    [Fact]
    public void A_browser_that_came_as_a_snap_gets_it_in_a_folder_of_its_own()
    {
        using var temp = new TempStore();
        Directory.CreateDirectory(temp.In("pages"));
        File.WriteAllText(temp.In("pages/wave_wave.desktop"), "");
        Directory.CreateDirectory(temp.In("home/snap/wave/common"));
        Assert.Equal(temp.In("home/snap/wave/common"), EntryNote.Folders("wave_wave.desktop", temp.In("home"), temp.In("pages")).First());
        // Known to the system in another way, not started yet, or nothing known: the account's own folder.
        string[] usual = [.. EntryNote.Folders(null, temp.In("home"), temp.In("pages"))];
        Assert.EndsWith("enter", Assert.Single(usual));
        foreach (string other in new[] { "wave.desktop", "reef_reef.desktop", "_wave.desktop", "", "../pages/wave_wave.desktop" })
            Assert.Equal(usual, EntryNote.Folders(other, temp.In("home"), temp.In("pages")));
        Directory.Delete(temp.In("home/snap"), recursive: true);
        Assert.Equal(usual, EntryNote.Folders("wave_wave.desktop", temp.In("home"), temp.In("pages")));
    }
}
