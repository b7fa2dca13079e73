using System.Text;
using Trimwright.Core.Design;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>A bit that flips in a text on the disk is seen, wherever that text is.</summary>
public class SealTests
{
    [Theory]
    [InlineData("Tidegate 185", "revision")]
    [InlineData("begun by hand", "revision")]
    [InlineData("first box", "box_revision")]
    [InlineData("blank number nine", "build")]
    [InlineData("a dozen for spring", "batch")]
    [InlineData("its own remark", "log_entry")]
    public void A_flipped_bit_in_a_live_store_is_found_by_check_and_kept_out_of_backups(string text, string table)
    {
        using var temp = new TempStore();
        Fill(temp);
        using (Store store = temp.Open()) Assert.Null(store.Check());

        Assert.True(FlipABit(temp.Path, text) > 0, "the text is not in the file");

        using (Store store = temp.Open())
        {
            Fault fault = store.Check()!;
            Assert.Contains($"of {table} that is not as it was written", fault.Got);
            Assert.Contains("restore a backup", fault.Next);
            Assert.Throws<StoreRefusal>(() => store.BackUp(temp.In("copy.trimwright")));
            Assert.Throws<StoreRefusal>(() => store.Export(temp.In("all.json")));
        }
        Assert.False(File.Exists(temp.In("copy.trimwright")));
    }

    [Fact]
    public void The_command_says_whether_the_store_is_whole_in_a_sentence()
    {
        using var temp = new TempStore();
        Fill(temp);
        TheProgram.Ran whole = TheProgram.Run("store", "check", "--store", temp.Path);
        Assert.Equal((0, "The store is whole: 2 lures in 2 revisions, every row as it was written.\n"), (whole.Exit, whole.Out));
        FlipABit(temp.Path, "begun by hand");
        TheProgram.Ran broken = TheProgram.Run("store", "check", "--store", temp.Path);
        Assert.Equal(4, broken.Exit);
        Assert.Contains("not as it was written", broken.Error.ReplaceLineEndings(" "));
    }

    [Fact]
    public void A_broken_lure_is_refused_by_name_while_the_others_stay_open()
    {
        using var temp = new TempStore();
        Fill(temp);
        FlipABit(temp.Path, "Tidegate 185");
        using Store store = temp.Open();
        Assert.Equal([false, true], store.Lures().Select(l => l.Newest.Read().IsSound));
        Fault fault = store.Lures()[0].Newest.Read().Faults[0];
        Assert.Equal(("damaged", "a text that is not as it was written"), (fault.Kind, fault.Got));
    }

    [Fact]
    public void Rows_from_before_seals_are_sealed_when_the_store_is_brought_up_to_date()
    {
        using var temp = new TempStore();
        OldStore.Put(temp.Path);
        using (Store store = temp.Open())
        {
            OldStore.Check(store);
            Assert.Null(store.Check());
        }
        Assert.True(FlipABit(temp.Path, "Tidegate, with 3/0") > 0);
        using (Store store = temp.Open()) Assert.NotNull(store.Check());
    }

    [Fact]
    public void A_choice_is_kept_and_told()
    {
        using var temp = new TempStore();
        using (Store store = temp.Open())
        {
            using var heard = new ManualResetEventSlim();
            using IDisposable watch = store.Watch(change => { if (change.Of == ChangeOf.Setting) heard.Set(); });
            Assert.Null(store.Setting("units"));
            store.Choose("units", "in");
            // How soon it is told is asked elsewhere; beside loops over all cores a thread of the pool may be long in coming.
            Assert.True(heard.Wait(Patience.ForAHang));
        }
        using (Store store = temp.Open()) Assert.Equal("in", store.Setting("units"));
    }

    private static void Fill(TempStore temp)
    {
        using Store store = temp.Open();
        long id = ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("tidegate-185"), "seal-test-01", "begun by hand")).Revision.Owner;
        store.NewLure(Lures.Demo("slipway-150"), "seal-test-02", "another");
        store.SaveBox(0, Trimwright.Core.Box.Catalogue.Starter, "seal-test-03", "first box");
        Batch batch = store.NewBatch(id, 1, "a dozen for spring", [], "seal-test-04")!;
        Build build = store.NewBuild(id, 1, "blank number nine", "seal-test-05", batch.Id)!;
        store.Log(build.Id, "remark", "{ \"text\": \"its own remark\" }", "seal-test-06");
    }

    /// <summary>Flips the lowest bit of a letter in every place of the file that holds the text; returns how many there were.</summary>
    private static int FlipABit(string path, string text)
    {
        byte[] file = File.ReadAllBytes(path), word = Encoding.UTF8.GetBytes(text);
        int found = 0;
        for (int at = 0; (at = file.AsSpan(at).IndexOf(word) is >= 0 and var next ? at + next : -1) >= 0; at += word.Length)
        {
            file[at + word.Length - 1] ^= 1;
            found++;
        }
        File.WriteAllBytes(path, file);
        return found;
    }
}
