using System.Text;
using System.Text.Json.Nodes;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>Everything out as JSON and in again, and nothing in when anything is wrong.</summary>
public class ExchangeTests
{
    private static readonly MakersBox Kitchen = BoxFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo", "kitchen.box.json"))).Value!;

    private static void Fill(Store store)
    {
        store.SaveBox(0, Kitchen, "box-00001", "first box");
        store.SaveBox(1, Kitchen with { NoLead = true }, "box-00002", "no lead");
        long lure = ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("tidegate-185"), "lure-a-01", "neu, „mit Größe“ → 3/0")).Revision.Owner;
        store.Save(lure, 1, LoadDesign.Of("lure-a-02"), "lure-a-02", "more");
        store.Undo(lure, 2, "lure-a-03");
        long away = ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("slipway-150"), "lure-b-01", "new")).Revision.Owner;
        store.PutAway(away, true);
        Batch batch = store.NewBatch(lure, 3, "for the autumn", ["1 of 2", "2 of 2"], "batch-001")!;
        Build single = store.NewBuild(lure, 1, "the first", "build-001")!;
        LogEntry wrong = store.Log(single.Id, "weight", """{"g":140.2,"note":"π"}""", "entry-001")!;
        store.Log(single.Id, "weight", """{"g":104.2}""", "entry-002", strikes: wrong.Id);
        store.Log(store.Builds().First(b => b.Batch == batch.Id).Id, "coat", """[1, 2.50]""", "entry-003",
            new DateTimeOffset(2026, 10, 25, 2, 30, 0, TimeSpan.FromHours(1)));
    }

    private static string Export(Store store)
    {
        using var text = new MemoryStream();
        store.Export(text);
        JsonObject json = JsonNode.Parse(text.ToArray())!.AsObject();
        // The one thing in it that tells when it was written.
        json.Remove("exported");
        return json.ToJsonString();
    }

    private static Reading<Imported> Import(Store store, string json) => store.Import(new MemoryStream(Encoding.UTF8.GetBytes(json)));

    [Fact]
    public void An_export_taken_in_by_an_empty_store_is_the_same_store_and_a_second_time_adds_nothing()
    {
        using var temp = new TempStore();
        using var fresh = new TempStore();
        using Store from = temp.Open(), to = fresh.Open();
        Fill(from);
        string file = temp.In("all.json");
        from.Export(file);
        Assert.False(File.Exists(file + ".unfinished"));

        Imported first, second;
        using (FileStream stream = File.OpenRead(file)) first = to.Import(stream).Value!;
        using (FileStream stream = File.OpenRead(file)) second = to.Import(stream).Value!;

        Assert.Equal((2, 6, 3, 3), (first.Lures, first.Revisions, first.Builds, first.Entries));
        Assert.Equal((0, 0, 0, 0), (second.Lures, second.Revisions, second.Builds, second.Entries));
        Assert.Empty(first.Differing);
        Assert.Empty(second.Differing);
        Assert.Equal(Export(from), Export(to));
        // And by the store's own questions, so that what the writer forgot would show.
        for (long lure = 1; lure <= 2; lure++)
            Assert.Equal(from.History(lure, texts: true), to.History(lure, texts: true));
        Assert.Equal(from.BoxHistory(texts: true), to.BoxHistory(texts: true));
        Assert.Equal(from.Lures(withPutAway: true).Select(l => (l.Id, l.Name, l.IsPutAway)), to.Lures(withPutAway: true).Select(l => (l.Id, l.Name, l.IsPutAway)));
        Assert.Equal(from.Batches(), to.Batches());
        Assert.Equal(from.Builds(), to.Builds());
        foreach (Build build in from.Builds())
            Assert.Equal(from.LogOf(build.Id), to.LogOf(build.Id));
        Assert.Equal([true, false], to.LogOf(3).Select(e => e.IsStruckOut));
        Assert.Equal(TimeSpan.FromHours(1), to.LogOf(1)[0].Entry.At.Offset);
        Writer.CheckWhole(to);
        // What is there can be gone on with: undo walks over imported revisions.
        Assert.Equal("lure-a-02", ((Saved<LureDesign>.Done)to.Redo(1, 3, EditId.New())).Revision.Name);
    }

    [Fact]
    public void A_chain_that_went_on_is_continued_and_one_that_went_another_way_is_left_and_named()
    {
        using var temp = new TempStore();
        using var second = new TempStore();
        using Store here = temp.Open(), there = second.Open();
        Fill(here);
        Assert.True(Import(there, Export(here)).IsSound);
        there.Save(1, 3, LoadDesign.Of("there-004"), "there-004", "there");
        Imported went = Import(here, Export(there)).Value!;
        Assert.Equal((0, 1), (went.Lures, went.Revisions));
        Assert.Equal("there-004", here.Newest(1)!.Name);

        there.Save(1, 4, LoadDesign.Of("there-005"), "there-005", "there");
        here.Save(1, 4, LoadDesign.Of("here-0005"), "here-0005", "here");
        string before = Export(here);
        Imported other = Import(here, Export(there)).Value!;
        Assert.Equal((0, 0), (other.Lures, other.Revisions));
        Assert.Equal(["there-005"], other.Differing);
        Assert.Equal(before, Export(here));
    }

    [Fact]
    public void A_lure_of_the_same_number_in_another_store_gets_a_number_of_its_own_with_its_builds()
    {
        using var temp = new TempStore();
        using var second = new TempStore();
        using Store here = temp.Open(), there = second.Open();
        here.NewLure(LoadDesign.Of("here-0001"), "here-0001", "new");
        here.NewBuild(1, 1, "mine", "build-mine");
        long lure = ((Saved<LureDesign>.Done)there.NewLure(LoadDesign.Of("there-001"), "there-001", "new")).Revision.Owner;
        Build build = there.NewBuild(lure, 1, "theirs", "build-theirs")!;
        there.Log(build.Id, "weight", "1", "entry-theirs");
        Assert.Equal(1, lure);

        Assert.True(Import(here, Export(there)).IsSound);

        Assert.Equal(["here-0001", "there-001"], here.Lures().Select(l => l.Name));
        Build came = Assert.Single(here.Builds(2));
        Assert.Equal("theirs", came.Label);
        Assert.Equal("entry-theirs", Assert.Single(here.LogOf(came.Id)).Entry.EditId);
        Assert.Equal("mine", Assert.Single(here.Builds(1)).Label);
    }

    [Fact]
    public void A_fault_anywhere_in_an_export_is_named_and_nothing_is_taken_in()
    {
        using var temp = new TempStore();
        using var fresh = new TempStore();
        using Store from = temp.Open(), to = fresh.Open();
        Fill(from);
        string good = Export(from);
        Assert.Contains("\"lure-a-02\"", good);
        foreach ((string find, string put, string at) in ((string, string, string)[])
        [
            ("\"trimwright_store\":3", "\"trimwright_store\":4", "trimwright_store"),
            ("\"trimwright_store\":3", "\"trimwright_store\":0", "trimwright_store"),
            ("\"trimwright_store\":3,", "", ""),
            ("\"n\":2,\"parent\":1,\"edit_id\":\"lure-a-02\"", "\"n\":2,\"parent\":2,\"edit_id\":\"lure-a-02\"", "lures[0].revisions[1].parent"),
            ("\"n\":2,\"parent\":1,\"edit_id\":\"lure-a-02\"", "\"n\":2,\"parent\":7,\"edit_id\":\"lure-a-02\"", "lures[0].revisions[1].parent"),
            ("\"n\":2,\"parent\":1,\"edit_id\":\"lure-a-02\"", "\"n\":2,\"parent\":0,\"edit_id\":\"lure-a-02\"", "lures[0].revisions[1].parent"),
            ("\"n\":2,\"parent\":1,\"edit_id\":\"lure-a-02\"", "\"n\":2,\"edit_id\":\"lure-a-02\"", "lures[0].revisions[1].parent"),
            ("\"n\":1,\"parent\":0,\"edit_id\":\"lure-a-01\"", "\"n\":1,\"parent\":1,\"edit_id\":\"lure-a-01\"", "lures[0].revisions[0].parent"),
            ("\"edit_id\":\"lure-a-02\"", "\"edit_id\":\"lure-a-01\"", "lures.revisions"),
            ("\"edit_id\":\"lure-a-02\"", "\"edit_id\":\"a b\"", "lures[0].revisions[1].edit_id"),
            ("\"strikes\":1", "\"strikes\":3", "log entry 2"),
            ("\"same_as\":1", "\"same_as\":3", "same_as"),
            ("\"length_mm\":100", "\"length_mm\":-100", "lures[0].revisions[1].design.body.length_mm"),
            ("\"no_lead\":true", "\"no_lead\":7", "box[1].contents"),
            ("\"batch\":1", "\"batch\":9", "batch"),
            ("2026-10-25T02:30", "2026-10-25T32:30", "at"),
        ])
        {
            Assert.Contains(find, good);
            int place = good.IndexOf(find, StringComparison.Ordinal);
            Reading<Imported> reading = Import(to, good[..place] + put + good[(place + find.Length)..]);
            Assert.False(reading.IsSound, $"{put}: taken in");
            Assert.Contains(at, reading.Faults[0].Path);
            if (at.EndsWith("parent", StringComparison.Ordinal)) TestContext.Current.TestOutputHelper?.WriteLine($"{reading.Faults[0]}");
        }
        foreach (int length in (int[])[0, 1, good.Length / 2, good.Length - 1]) Assert.False(Import(to, good[..length]).IsSound);
        Assert.Empty(to.Lures(withPutAway: true));
        Assert.Null(to.Box());
        Assert.True(Import(to, good).IsSound);
    }

    [Fact]
    public void An_export_from_before_parents_needs_none_but_one_that_it_names_must_be_right()
    {
        using var temp = new TempStore();
        using var fresh = new TempStore();
        using Store from = temp.Open(), to = fresh.Open();
        Fill(from);
        string old = System.Text.RegularExpressions.Regex.Replace(Export(from), "\"parent\":\\d+,", "").Replace("\"trimwright_store\":3", "\"trimwright_store\":2", StringComparison.Ordinal);
        Assert.False(Import(to, old.Replace("\"n\":2,", "\"n\":2,\"parent\":2,", StringComparison.Ordinal)).IsSound);
        Assert.True(Import(to, old).IsSound);
        Assert.Equal(Export(from), Export(to));
    }

    [Fact]
    public void A_revision_brings_back_one_that_made_its_state_and_not_one_that_only_brought_it_back()
    {
        using var temp = new TempStore();
        using var fresh = new TempStore();
        using Store from = temp.Open(), to = fresh.Open();
        Fill(from);
        from.Save(1, 3, LoadDesign.Of("lure-a-04"), "lure-a-04", "more");
        from.Undo(1, 4, "lure-a-05");
        string good = Export(from);
        int last = good.LastIndexOf("\"same_as\":1", StringComparison.Ordinal);
        Assert.True(last > 0);
        Assert.Contains("same_as", Import(to, good[..last] + "\"same_as\":3" + good[(last + 11)..]).Faults[0].Path);
        Assert.True(Import(to, good).IsSound);
    }

    [Fact]
    public void What_was_kept_otherwise_under_the_same_id_is_left_and_named()
    {
        using var temp = new TempStore();
        using var second = new TempStore();
        using Store here = temp.Open(), there = second.Open();
        Fill(here);
        string good = Export(here);
        Assert.True(Import(there, good).IsSound);
        foreach ((string find, string put, string named) in ((string, string, string)[])
            [("\"g\":104.2", "\"g\":401.2", "log entry 2"), ("\"label\":\"the first\"", "\"label\":\"the last\"", "build 3, the first"), ("for the autumn", "for the spring", "batch 1, for the autumn")])
        {
            Assert.Contains(find, good);
            Imported taken = Import(there, good.Replace(find, put, StringComparison.Ordinal)).Value!;
            Assert.Equal([named], taken.Differing);
            Assert.Equal(0, taken.Lures + taken.Revisions + taken.Builds + taken.Entries);
        }
        Assert.Equal(Export(here), Export(there));
    }

    [Fact]
    public void A_used_edit_id_with_another_content_is_never_answered_as_kept()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        Fill(store);
        long build = store.Builds(1)[^1].Id;
        Assert.NotNull(store.Log(build, "weight", """{"g":104.2}""", "used-0001"));
        // The very same again is kept once, however often it comes.
        Assert.NotNull(store.Log(build, "weight", """{"g":104.2}""", "used-0001"));
        string before = Export(store);
        foreach (Action again in (Action[])
        [
            () => store.Log(build, "weight", """{"g":104.3}""", "used-0001"),
            () => store.Log(build, "tub", """{"g":104.2}""", "used-0001"),
            () => store.Log(store.Builds(1)[0].Id, "weight", """{"g":104.2}""", "used-0001"),
            () => store.Strike(build, store.LogOf(build)[0].Entry.Id, "used-0001"),
            () => store.NewBuild(1, 2, "the first", "build-001"),
            () => store.NewBatch(1, 3, "for the spring", [], "batch-001"),
        ])
            Assert.Equal(RefusalCause.UsedId, Assert.Throws<StoreRefusal>(again).Cause);
        Assert.IsType<Saved<LureDesign>.Conflict>(store.SetAside(1, LoadDesign.Of("another"), "lure-a-02", "more"));
        Assert.IsType<Saved<LureDesign>.Conflict>(store.Undo(1, 3, "lure-a-02"));
        Assert.Equal(before, Export(store));
        store.AddPhoto(1, "side", SamplePhotos.Jpeg(), _ => "{}", "photo-0001");
        Assert.NotNull(store.AddPhoto(1, "side", SamplePhotos.Jpeg(), _ => "{}", "photo-0001").Value);
        Assert.Equal(RefusalCause.UsedId, Assert.Throws<StoreRefusal>(() => store.AddPhoto(1, "side", SamplePhotos.Png(), _ => "{}", "photo-0001")).Cause);
    }
}
