using System.Collections.Concurrent;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>Two processes at one store: conflicts are values, nothing is lost, and each sees what the other wrote.</summary>
public class WatchTests
{
    private static long Begin(Store store)
    {
        string edit = EditId.New();
        return ((Saved<LureDesign>.Done)store.NewLure(LoadDesign.Of(edit), edit, "new")).Revision.Owner;
    }

    [Fact]
    public void Two_processes_editing_one_lure_meet_conflicts_as_values_and_lose_nothing()
    {
        using var temp = new TempStore();
        long lure;
        using (Store store = temp.Open()) lure = Begin(store);
        int edits = Tier.Count(60, 500, 3000);
        using var one = new Writer("contend", temp.Path, $"{lure}", $"{edits}");
        using var two = new Writer("contend", temp.Path, $"{lure}", $"{edits}");
        // Both have read the same newest revision before either may write, so one of them is bound to come second.
        foreach (Writer writer in (Writer[])[one, two]) writer.AwaitLines(1);
        foreach (Writer writer in (Writer[])[one, two]) writer.Go();
        string[] acks = [.. one.End(), .. two.End()];
        Assert.Equal(("", 0, "", 0), (one.Complaint(), one.ExitCode, two.Complaint(), two.ExitCode));
        int conflicts = acks.Count(line => line == "conflict");
        TestContext.Current.TestOutputHelper?.WriteLine($"2 × {edits} edits of one lure, {conflicts} conflicts");
        Assert.True(conflicts > 0, "no conflict: the two never met");
        string[] kept = [.. acks.Where(line => line.Contains(' '))];
        Assert.Equal(2 * edits, kept.Length);
        using (Store store = temp.Open())
        {
            Writer.CheckAll(store, acks);
            Assert.Equal(1 + 2 * edits, store.Newest(lure)!.N);
        }
    }

    [Fact]
    public void A_list_is_of_one_moment_while_another_program_begins_lures()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        using var writer = new Writer("begin", temp.Path, "0");
        writer.AwaitLines(1);
        int least = Tier.Count(60, 600), looks = 0;
        // Until it has begun so many between our looks: with each look, a lure may come between two of its questions.
        while (writer.Lines < least)
        {
            int before = writer.Lines;
            Assert.False(writer.HasExited);
            Assert.True(store.Lures(withPutAway: true).Count >= before);
            Assert.Null(store.Check());
            looks++;
        }
        writer.Kill();
        TestContext.Current.TestOutputHelper?.WriteLine($"{looks} looks while {least} lures were begun");
    }

    [Fact]
    public void What_another_process_writes_is_told_in_order_at_the_next_look_and_looks_come_four_times_a_second()
    {
        Assert.InRange(Watch.Period, TimeSpan.FromMilliseconds(1), TimeSpan.FromMilliseconds(250));
        using var temp = new TempStore();
        var clock = new TurnedClock();
        using Store store = temp.Open(clock);
        var seen = new BlockingCollection<StoreChange>();
        using IDisposable watching = store.Watch(seen.Add);
        long lure = Begin(store);
        Assert.True(seen.TryTake(out StoreChange first, Patience.ForAHang), "nobody was told of what this program wrote itself");
        Assert.Equal(new StoreChange(ChangeOf.Lure, lure, 1), first);
        using var writer = new Writer("contend", temp.Path, $"{lure}", "5");
        writer.AwaitLines(1);
        writer.Go();
        writer.End();
        Assert.Empty(seen);
        clock.Turn();
        Assert.Equal(Enumerable.Range(2, 5).Select(n => new StoreChange(ChangeOf.Lure, lure, n)), seen);
    }

    [Fact]
    public void A_watcher_that_throws_harms_neither_the_process_nor_the_others()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        var failures = new BlockingCollection<Exception>();
        var seen = new BlockingCollection<StoreChange>();
        store.WatcherFailed += failures.Add;
        using IDisposable bad = store.Watch(_ => throw new InvalidOperationException("mine"));
        using IDisposable good = store.Watch(seen.Add);
        for (int i = 0; i < 2; i++)
        {
            long lure = Begin(store);
            Assert.True(seen.TryTake(out StoreChange change, Patience.ForAHang));
            Assert.Equal(new StoreChange(ChangeOf.Lure, lure, 1), change);
            Assert.True(failures.TryTake(out Exception? failure, Patience.ForAHang));
            Assert.Equal("mine", failure.Message);
        }
    }

    [Fact]
    public void What_a_commit_costs_does_not_grow_with_the_history()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        long lure = Begin(store);
        int edits = Tier.Count(60, 400), some = edits / 4;
        LureDesign[] designs = [.. Enumerable.Range(0, edits).Select(i => LoadDesign.Of($"commit-{i:0000}"))];
        long[] bytes = new long[edits];
        for (int i = 0; i < edits; i++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            Saved<LureDesign> saved = store.Save(lure, i + 1, designs[i], $"commit-{i:0000}", "counted");
            bytes[i] = GC.GetAllocatedBytesForCurrentThread() - before;
            Assert.IsType<Saved<LureDesign>.Done>(saved);
        }
        // The first commits make what all later ones use.
        double early = bytes[5..(5 + some)].Order().ElementAt(some / 2), late = bytes[^some..].Order().ElementAt(some / 2);
        TestContext.Current.TestOutputHelper?.WriteLine($"{edits} revisions of {LoadDesign.Text("commit-0000").Length} bytes: {early / 1000:0} kB allocated for one at first, {late / 1000:0} kB at last");
        // A history read whole for each edit would take as many times its length.
        Assert.True(late < 1.2 * early, $"{late} bytes for {early}");
    }
}
