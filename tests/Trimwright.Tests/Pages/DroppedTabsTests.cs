using System.Reflection;
using Trimwright.App.Gate;
using Trimwright.App.Scheduling;
using Trimwright.App.Sessions;
using Trimwright.Core.Design;
using Trimwright.Tests.Gate;
using Trimwright.Tests.Scheduling;
using Trimwright.Workshop;

namespace Trimwright.Tests.Pages;

/// <summary>Tabs are given back: those that are closed at once, those that are dropped after a while, and never many of them are kept.</summary>
[Collection(nameof(Alone))]
public sealed class DroppedTabsTests(ITestOutputHelper output) : IAsyncLifetime
{
    // Whatever lures they show, and what the program works out for them.
    private const double MostMegabytes = 60;

    private readonly OpenPage page = new();

    public ValueTask InitializeAsync() => page.InitializeAsync();

    public ValueTask DisposeAsync() => page.DisposeAsync();

    private Task<PlainTab> Open(long lure) => PlainTab.Open(page, $"/lure/{lure}/shape");

    private long Kept(int n) =>
        ((Saved<LureDesign>.Done)page.Store.NewLure(Lures.Demo("tidegate-185") with { Name = $"Lure {n}" }, EditId.New(), "begun")).Revision.Owner;

    private static double Live() => GC.GetTotalMemory(forceFullCollection: true) / 1e6;

    // Tabs that listen to a lure's session.
    private int Listening(long lure) =>
        typeof(LureSession).GetField(nameof(LureSession.Changed), BindingFlags.Instance | BindingFlags.NonPublic)!
            .GetValue(page.Service<LureSessions>().Of(lure)) is Action listeners ? listeners.GetInvocationList().Length : 0;

    [Fact]
    public async Task Many_tabs_opened_and_dropped_leave_little_behind()
    {
        // Dropped at once, on lures of their own: nothing is shared but what the program shares.
        int tabs = Tier.Count(30, 200), lures = tabs / 5;
        long[] lure = [.. Enumerable.Range(0, lures).Select(Kept)];
        await using (PlainTab first = await Open(lure[0])) await first.Call("Move", "belly-4", 50.0, 50.0);
        double before = Live();
        for (int i = 0; i < tabs; i++) await (await Open(lure[i % lures])).DisposeAsync();
        double after = Live();
        output.WriteLine($"{tabs} tabs on {lures} lures opened and dropped: {before:0.0} MB before, {after - before:+0.0;-0.0} MB after a collection");
        Assert.True(after - before < MostMegabytes * Math.Min(1, 2.0 * tabs / 200), $"{tabs} dropped tabs left {after - before:0.0} MB");
        // The one that has to go when one more comes is let go beside what else is done.
        Patience.Until(() => lure.Sum(Listening) <= DroppedTabs.Most, $"more than {DroppedTabs.Most} dropped tabs are kept");
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(10, 2)]
    public async Task A_tab_holds_no_more_than_is_said_of_it(int lures, double most)
    {
        long[] lure = [.. Enumerable.Range(0, lures).Select(Kept)];
        await (await Open(lure[0])).Close();
        double before = Live();
        for (int i = 0; i < 10; i++) await (await Open(lure[i % lures])).DisposeAsync();
        Assert.Equal(10, lure.Sum(Listening));
        double each = (Live() - before) / 10;
        output.WriteLine($"a tab, ten of them on {lures} lures, dropped and still kept: {each:0.00} MB");
        Assert.True(each < most, $"a tab holds {each:0.00} MB; decision 0017 says less");
    }

    [Fact]
    public async Task A_closed_tab_is_given_back_at_once()
    {
        long lure = Kept(0);
        for (int i = 0; i < 3; i++)
        {
            PlainTab tab = await Open(lure);
            Assert.Equal(1, Listening(lure));
            await tab.Close();
            Patience.Until(() => Listening(lure) == 0, "it is not given back");
        }
    }

    [Fact]
    public async Task Nothing_is_worked_out_for_a_tab_whose_line_went()
    {
        var scheduler = page.Service<Scheduler>();
        // Something that goes first, so that how sure the lure is waits as long as the test wants.
        var first = new LongWork(wide: true);
        Task<int> holds = scheduler.Ask(first, Priority.Plan, new Owner());
        await first.Begun.Task.WaitAsync(Patience.ForAHang);
        long lure = Kept(0);
        PlainTab tab = await Open(lure);
        Patience.Until(() => scheduler.Roster.Claims.Any(c => c.Priority == Priority.Sampling), "no sampling was begun");
        await tab.DisposeAsync();
        Patience.Until(() => scheduler.Roster.Claims.All(c => c.Priority != Priority.Sampling), "sampling goes on for a tab that was dropped");
        // Kept all the same, in case it comes back.
        Assert.Equal(1, Listening(lure));
        first.LetGo();
        await holds.WaitAsync(Patience.ForAHang);
    }
}
