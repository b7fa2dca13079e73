using System.Collections.Concurrent;
using System.Diagnostics;
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
        foreach (Writer writer in (Writer[])[one, two]) writer.AwaitLines(1, Writer.Patience);
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
        writer.AwaitLines(1, Writer.Patience);
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
    public void What_another_process_writes_is_noticed_within_a_second_and_in_order()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        long lure = Begin(store);
        var seen = new BlockingCollection<(StoreChange Change, DateTimeOffset At)>();
        using var writer = new Writer("contend", temp.Path, $"{lure}", "5");
        writer.AwaitLines(1, Writer.Patience);
        using (store.Watch(change => seen.Add((change, DateTimeOffset.UtcNow))))
        {
            writer.Go();
            writer.End();
            var delays = new List<double>();
            for (int n = 2; n <= 6; n++)
            {
                Assert.True(seen.TryTake(out var next, TimeSpan.FromSeconds(10)), $"revision {n} was not noticed");
                // What was written before watching began may still be told.
                if (next.Change.N < n && n == 2 && seen.TryTake(out var after, TimeSpan.FromSeconds(10))) next = after;
                Assert.Equal(new StoreChange(ChangeOf.Lure, lure, n), next.Change);
                delays.Add((next.At - store.Revision(lure, n)!.At).TotalMilliseconds);
            }
            TestContext.Current.TestOutputHelper?.WriteLine($"noticed after {string.Join(", ", delays.Select(d => $"{d:0}"))} ms");
            Assert.All(delays, d => Assert.InRange(d, 0, 1000));
        }
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
            Assert.True(seen.TryTake(out StoreChange change, TimeSpan.FromSeconds(10)));
            Assert.Equal(new StoreChange(ChangeOf.Lure, lure, 1), change);
            Assert.True(failures.TryTake(out Exception? failure, TimeSpan.FromSeconds(10)));
            Assert.Equal("mine", failure.Message);
        }
    }

    [Fact]
    public void A_20_kB_revision_is_committed_in_a_few_milliseconds()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        long lure = Begin(store);
        int edits = Tier.Count(60, 400);
        LureDesign[] designs = [.. Enumerable.Range(0, edits).Select(i => LoadDesign.Of($"commit-{i:0000}"))];
        var took = new List<double>();
        for (int i = 0; i < edits; i++)
        {
            long from = Stopwatch.GetTimestamp();
            Saved<LureDesign> saved = store.Save(lure, i + 1, designs[i], $"commit-{i:0000}", "timed");
            took.Add(Stopwatch.GetElapsedTime(from).TotalMilliseconds);
            Assert.IsType<Saved<LureDesign>.Done>(saved);
        }
        took.Sort();
        double median = took[edits / 2];
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{edits} revisions of {LoadDesign.Text("commit-0000").Length} bytes: median {median:0.00} ms, ninth of ten {took[edits * 9 / 10]:0.00} ms, slowest {took[^1]:0.00} ms");
        // Far above what any disk needs, so that only a fault of ours fails here: a history read whole for each edit, say.
        Assert.True(median < 100, $"median {median} ms");
    }
}
