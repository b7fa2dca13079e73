using Trimwright.StoreWriter;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.App;

/// <summary>What the store's commands say of names that are wrong, and that they make nothing by accident.</summary>
public class StoreCommandTests
{
    [Fact]
    public void A_misspelt_store_is_refused_and_none_is_made()
    {
        using var temp = new TempStore();
        using (Store store = temp.Open())
        {
            store.NewLure(LoadDesign.Of("kept-0001"), "kept-0001", "new");
            store.BackUp(temp.In("backup.trimwright"));
        }
        SortedDictionary<string, string> before = temp.Bytes();
        string lure = Path.Combine(Here.Root, "demo", "slipway-150.lure.json");
        foreach (string[] words in (string[][])[["list"], ["check"], ["backup", temp.In("b")], ["export", temp.In("e")], ["import", lure], ["restore", temp.In("backup.trimwright")]])
        {
            TheProgram.Ran ran = TheProgram.Run(["store", .. words, "--store", temp.In("workshp.trimwright")]);
            Assert.True(ran.Exit == 1, $"{words[0]}: {ran.Exit} {ran.Said}");
            Assert.Contains("no such file", ran.Said);
            Assert.Contains("Check the name", ran.Said);
            ran = TheProgram.Run(["store", .. words, "--store", temp.In("misspelt/workshop.trimwright")]);
            Assert.True(ran.Exit == 2, $"{words[0]}: {ran.Exit} {ran.Said}");
            Assert.Contains("a folder that is not there", ran.Said);
        }
        Assert.Equal(2, TheProgram.Run("store", "list", "nowhere").Exit);
        TheProgram.Ran serve = TheProgram.Run("serve", "--no-browser", "--store", temp.In("misspelt/workshop.trimwright"));
        Assert.Equal(2, serve.Exit);
        Assert.Contains("make the folder first", serve.Said);
        Assert.Equal(before, temp.Bytes());
        Assert.False(Directory.Exists(temp.In("misspelt")));
        // Said so, one is made.
        Assert.Equal(0, TheProgram.Run("store", "import", lure, "--new", "--store", temp.In("second.trimwright")).Exit);
        Assert.Equal(0, TheProgram.Run("store", "restore", temp.In("backup.trimwright"), "--new", "--store", temp.In("third.trimwright")).Exit);
        Assert.Contains("kept-0001", TheProgram.Run("store", "list", "--store", temp.In("third.trimwright")).Out);
    }

    [Fact]
    public void The_account_s_own_store_is_begun_by_keeping_something_and_not_by_looking()
    {
        using var temp = new TempStore();
        (string, string)[] home = [("XDG_DATA_HOME", temp.Folder), ("LOCALAPPDATA", temp.Folder), ("HOME", temp.Folder)];
        foreach (string[] words in (string[][])[["list"], ["check"], ["backup", temp.In("b")], ["export", temp.In("e")]])
        {
            TheProgram.Ran ran = TheProgram.RunWith(home, ["store", .. words]);
            Assert.Equal(1, ran.Exit);
            Assert.Contains("nothing kept yet", ran.Said);
        }
        Assert.Empty(Directory.GetFileSystemEntries(temp.Folder));
        Assert.Equal(0, TheProgram.RunWith(home, "store", "import", Path.Combine(Here.Root, "demo", "slipway-150.lure.json")).Exit);
        Assert.Contains("Slipway 150", TheProgram.RunWith(home, "store", "list").Out);
    }

    [Theory]
    [InlineData("store", "list", "--store", "")]
    [InlineData("store", "list", "--store", " ")]
    [InlineData("store", "import", "")]
    [InlineData("store", "export", "", "--store", "STORE")]
    [InlineData("store", "backup", "", "--store", "STORE")]
    [InlineData("store", "restore", "", "--store", "STORE")]
    [InlineData("store", "export", "", "--lure", "1", "--store", "STORE")]
    [InlineData("serve", "--no-browser", "--store", "")]
    [InlineData("--store", "")]
    [InlineData("sheets", "LURE", "--out", "")]
    [InlineData("predict", "LURE", "--picture", "")]
    [InlineData("predict", "")]
    [InlineData("demo", "")]
    [InlineData("buildplan", "LURE", "--pdf", "")]
    public void An_empty_name_gets_one_clear_sentence(params string[] words)
    {
        using var temp = new TempStore();
        using (Store store = temp.Open()) store.NewLure(LoadDesign.Of("kept-0001"), "kept-0001", "new");
        string lure = Path.Combine(Here.Root, "demo", "slipway-150.lure.json");
        string work = Directory.CreateDirectory(temp.In("work")).FullName;
        TheProgram.Ran ran = TheProgram.RunIn(work, 80, words.Select(w => w == "STORE" ? temp.Path : w == "LURE" ? lure : w));
        TestContext.Current.TestOutputHelper?.WriteLine(ran.Said);
        Assert.True(ran.Exit == 2, $"{ran.Exit} {ran.Said}");
        Assert.DoesNotContain("Parameter", ran.Said);
        Assert.DoesNotContain("   at ", ran.Error);
        Assert.Contains("empty", ran.Said);
        Assert.Empty(Directory.GetFileSystemEntries(work));
    }

    [Theory]
    [InlineData("mooring-post-210.log.json", "a tub log", "readings")]
    [InlineData("finished/harbour.hand.json", "a hand", "--hand")]
    public void Import_says_what_a_file_is_that_it_does_not_take(string file, string what, string next)
    {
        using var temp = new TempStore();
        using (Store store = temp.Open()) store.NewLure(LoadDesign.Of("kept-0001"), "kept-0001", "new");
        TheProgram.Ran ran = TheProgram.Run("store", "import", Path.Combine(Here.Root, "demo", file), "--store", temp.Path);
        Assert.Equal(1, ran.Exit);
        Assert.Contains($"got {what}; allowed: an export of a store, a lure or a box", ran.Said);
        Assert.Contains(next, ran.Said);
        File.WriteAllText(temp.In("it.want.json"), """{ "trimwright_want": 1, "does": "floats" }""");
        Assert.Contains("got a want;", TheProgram.Run("store", "import", temp.In("it.want.json"), "--store", temp.Path).Said);
        using (Store store = temp.Open()) store.BackUp(temp.In("backup.trimwright"));
        Assert.Contains("store restore FILE", TheProgram.Run("store", "import", temp.In("backup.trimwright"), "--store", temp.Path).Said);
    }
}
