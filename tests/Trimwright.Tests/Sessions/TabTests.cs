using Trimwright.App.Sessions;
using Trimwright.App.Edits;
using Trimwright.App.Gate;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Tests.Sessions;

/// <summary>Two tabs on one lure: each sees the other's edits, and a conflict shows both.</summary>
[Collection(nameof(Alone))]
public sealed class TabTests : IDisposable
{
    private readonly TempStore temp = new();
    private readonly Store store;
    private readonly LureSessions sessions;
    private readonly long id;

    public TabTests()
    {
        store = temp.Open();
        sessions = new LureSessions(store);
        id = ((Saved<LureDesign>.Done)store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "begun")).Revision.Owner;
    }

    public void Dispose()
    {
        sessions.Dispose();
        store.Dispose();
        temp.Dispose();
    }

    private Tab Open() => new(sessions.Of(id)!, Switches.InTheSea, Notation.Metric);

    private static LureDesign Heavier(LureDesign design) => Rehang.Weigh(design, 6, design.Hardware[6].MassG + 2.5);

    [Fact]
    public async Task An_edit_in_one_tab_is_seen_in_the_other()
    {
        using Tab mine = Open(), other = Open();
        var seen = new TaskCompletionSource();
        other.Redraw += () => seen.TrySetResult();
        Assert.True(await mine.Commit(Heavier, "tail hook 2.5 g heavier"));
        await seen.Task.WaitAsync(Patience.ForAHang);
        Assert.Equal(9.5, other.Look.Design.Hardware[6].MassG);
        Assert.StartsWith("in another tab: +2.5\u00A0g", other.Changed);
        Assert.StartsWith("+2.5\u00A0g", mine.Changed);
        Assert.Equal(mine.Look.Sentence, other.Look.Sentence);
    }

    [Fact]
    public async Task An_edit_by_another_program_is_seen()
    {
        using Tab tab = Open();
        var seen = new TaskCompletionSource();
        tab.Redraw += () => seen.TrySetResult();
        using (Store elsewhere = temp.Open()) elsewhere.Save(id, 1, Heavier(Lures.Demo("tidegate-185")), EditId.New(), "by the command line");
        await seen.Task.WaitAsync(Patience.ForAHang);
        Assert.Equal(9.5, tab.Look.Design.Hardware[6].MassG);
    }

    [Fact]
    public async Task Two_edits_on_one_revision_show_both_and_lose_neither()
    {
        using Tab mine = Open(), other = Open();
        mine.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 20));
        await other.Commit(Heavier, "tail hook heavier");
        Assert.NotEqual(9.5, mine.Look.Design.Hardware[6].MassG);
        Assert.True(await mine.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 20), "a point of the back moved"));
        Assert.NotNull(mine.Versions);
        Assert.Equal("tail hook heavier", mine.Versions.TheirCause);
        Assert.Equal(20, mine.Versions.Mine.Design.Body.Back.Points[4].Value);
        Assert.Equal(9.5, mine.Versions.Theirs.Design.Hardware[6].MassG);
        // Both are on the disk before the question stands there, and what is saved is still theirs.
        Assert.Equal(["begun", "tail hook heavier", "a point of the back moved", "tail hook heavier"], store.History(id).Select(r => r.Cause));
        Assert.Equal(20, store.Revision(id, 3)!.Read().Value!.Body.Back.Points[4].Value);
        Assert.Equal(9.5, store.Newest(id)!.Read().Value!.Hardware[6].MassG);
        await mine.Choose(mine: true);
        Assert.Null(mine.Versions);
        Assert.Equal(20, store.Newest(id)!.Read().Value!.Body.Back.Points[4].Value);
        // Theirs is one undo away.
        await mine.Undo();
        Assert.Equal(9.5, mine.Look.Design.Hardware[6].MassG);
    }

    [Fact]
    public async Task Keeping_what_is_saved_lets_mine_go()
    {
        using Tab mine = Open(), other = Open();
        mine.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 20));
        await other.Commit(Heavier, "tail hook heavier");
        await mine.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 20), "a point of the back moved");
        await mine.Choose(mine: false);
        Assert.Equal((4, 9.5, 16.0), (mine.N, mine.Look.Design.Hardware[6].MassG, mine.Look.Design.Body.Back.Points[4].Value));
        // Mine is one redo away; whoever undoes theirs doesn't meet it.
        await mine.Redo();
        Assert.Equal((7.0, 20.0), (mine.Look.Design.Hardware[6].MassG, mine.Look.Design.Body.Back.Points[4].Value));
        await mine.Undo();
        await other.Undo();
        Assert.Equal((7.0, 16.0), (other.Look.Design.Hardware[6].MassG, other.Look.Design.Body.Back.Points[4].Value));
    }

    [Fact]
    public async Task Another_tab_isn_t_told_of_what_was_set_aside()
    {
        using Tab mine = Open(), other = Open();
        mine.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 20));
        await other.Commit(Heavier, "tail hook heavier");
        string? told = other.Changed;
        await mine.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 20), "a point of the back moved");
        Patience.Until(() => other.N == 4, "the other tab never saw it");
        Assert.Equal((told, 16.0), (other.Changed, other.Look.Design.Body.Back.Points[4].Value));
    }

    [Fact]
    public async Task While_two_versions_wait_a_third_edit_is_shown_as_theirs_and_one_of_mine_goes_into_mine()
    {
        using Tab mine = Open(), other = Open();
        mine.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 20));
        await other.Commit(Heavier, "tail hook heavier");
        await mine.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 20), "a point of the back moved");
        Patience.Until(() => other.N == 4, "the other tab never saw it");
        await other.Commit(design => Rehang.Weigh(design, 6, 11), "heavier still");
        Patience.Until(() => mine.Versions?.Theirs.Design.Hardware[6].MassG == 11, "mine never saw it");
        Assert.Equal("heavier still", mine.Versions!.TheirCause);
        mine.Preview(design => Reshape.Move(design, Line.Belly, 4, 80, -21));
        mine.Drop();
        Assert.True(await mine.Commit(design => Reshape.Move(design, Line.Belly, 4, 80, -21), "a point of the belly moved"));
        Assert.Equal((20.0, -21.0), (mine.Versions!.Mine.Design.Body.Back.Points[4].Value, mine.Versions.Mine.Design.Body.Belly.Points[4].Value));
        Assert.Contains(store.History(id, texts: true), r => r.Read().Value is { } kept && kept.Body.Back.Points[4].Value == 20 && kept.Body.Belly.Points[4].Value == -21);
        await mine.Choose(mine: true);
        Assert.Equal((20.0, -21.0, 7.0), (mine.Look.Design.Body.Back.Points[4].Value, mine.Look.Design.Body.Belly.Points[4].Value, mine.Look.Design.Hardware[6].MassG));
        await mine.Undo();
        Assert.Equal(11, mine.Look.Design.Hardware[6].MassG);
    }

    [Fact]
    public async Task Two_fields_answered_at_once_are_two_edits_and_no_conflict_of_a_tab_with_itself()
    {
        using Tab tab = Open();
        bool[] kept = await Task.WhenAll(
            tab.Commit(design => Rehang.Weigh(design, 6, 9.5), "tail hook weighed"),
            tab.Commit(design => Rehang.Weigh(design, 5, 1.25), "ring weighed"),
            tab.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 17), "a point of the back moved"));
        Assert.Equal([true, true, true], kept);
        Assert.Null(tab.Versions);
        Assert.False(tab.InHand);
        LureDesign saved = store.Newest(id)!.Read().Value!;
        Assert.Equal((4, 9.5, 1.25, 17.0), (tab.N, saved.Hardware[6].MassG, saved.Hardware[5].MassG, saved.Body.Back.Points[4].Value));
    }

    [Fact]
    public async Task The_same_edit_in_two_tabs_is_no_conflict()
    {
        using Tab mine = Open(), other = Open();
        mine.Preview(Heavier);
        await other.Commit(Heavier, "tail hook heavier");
        Assert.True(await mine.Commit(Heavier, "tail hook heavier"));
        Assert.Equal((null, false, 2, 9.5), (mine.Versions, mine.InHand, mine.N, mine.Look.Design.Hardware[6].MassG));
    }

    [Fact]
    public async Task A_landing_where_it_began_leaves_no_words_of_the_way_and_hears_what_came_meanwhile()
    {
        using Tab mine = Open(), other = Open();
        mine.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 20));
        Assert.NotNull(mine.Changed);
        Assert.True(await mine.Commit(design => design, "nothing"));
        Assert.Equal((null, false, 1), (mine.Changed, mine.InHand, mine.N));
        mine.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 20));
        await other.Commit(Heavier, "tail hook heavier");
        Assert.True(await mine.Commit(design => design, "nothing"));
        Assert.Equal((2, 9.5), (mine.N, mine.Look.Design.Hardware[6].MassG));
        Assert.StartsWith("in another tab", mine.Changed);
    }

    [Fact]
    public async Task A_gesture_is_one_commit_and_moves_on_the_way_are_none()
    {
        using Tab tab = Open();
        for (int i = 1; i <= 20; i++) tab.Preview(design => Reshape.Move(design, Line.Belly, 4, 80, -19 - 0.1 * i));
        Assert.True(tab.InHand);
        Assert.Equal(1, store.Newest(id)!.N);
        await tab.Commit(design => Reshape.Move(design, Line.Belly, 4, 80, -21), "a point of the belly moved");
        Assert.False(tab.InHand);
        Assert.Equal(2, store.Newest(id)!.N);
        await tab.Commit(design => design, "nothing");
        Assert.Equal(2, store.Newest(id)!.N);
    }

    [Fact]
    public async Task What_a_change_did_is_told_of_my_own_edit_every_time()
    {
        using Tab tab = Open();
        for (int i = 0; i < Tier.Count(40, 200, 1000); i++)
        {
            int step = i;
            await tab.Commit(design => Rehang.Weigh(design, 6, 7 + (step % 2 == 0 ? 1 : 0)), "tail hook weighed");
            Assert.StartsWith(i % 2 == 0 ? "+1.0" : "−1.0", tab.Changed);
        }
    }

    [Fact]
    public async Task An_unsound_shape_is_refused_with_a_reason_and_the_sound_one_stays()
    {
        using Tab tab = Open();
        tab.Preview(design => Reshape.Move(design, Line.Back, 4, 80, -40));
        Assert.NotNull(tab.Fault);
        Assert.Equal(16, tab.Look.Design.Body.Back.Points[4].Value);
        Assert.False(await tab.Commit(design => Reshape.Move(design, Line.Back, 4, 80, -40), "a point of the back moved"));
        Assert.NotNull(tab.Fault);
        Assert.Equal(1, store.Newest(id)!.N);
        tab.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 17));
        Assert.Null(tab.Fault);
        tab.Drop();
        Assert.Equal(16, tab.Look.Design.Body.Back.Points[4].Value);
    }

    [Fact]
    public async Task Undo_goes_all_the_way_back_and_redo_all_the_way_forth_also_in_a_new_tab()
    {
        using (Tab tab = Open())
            for (int i = 1; i <= 12; i++) await tab.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 16 + 0.2 * tab.N), "a point of the back moved");
        using Tab later = Open();
        for (int i = 0; i < 12; i++) await later.Undo();
        Assert.Equal(16, later.Look.Design.Body.Back.Points[4].Value);
        Assert.False(later.CanUndoRedo.Undo);
        for (int i = 0; i < 12; i++) await later.Redo();
        Assert.Equal(18.4, later.Look.Design.Body.Back.Points[4].Value, 9);
        Assert.False(later.CanUndoRedo.Redo);
    }

    [Fact]
    public void Another_water_is_the_same_lure_and_says_what_that_changes()
    {
        using Tab tab = Open();
        tab.Switch(Switches.From("finished", "bare", "ocean"));
        Assert.Contains("now floats", tab.Changed);
        Assert.Same(tab.Session.Design, tab.Look.Design);
    }

    [Fact]
    public async Task A_long_day_of_edits_leaves_the_heap_as_it_was()
    {
        using Tab mine = Open(), second = Open(), third = Open();
        async Task Edits(int count)
        {
            for (int i = 0; i < count; i++)
            {
                double depth = -19 - 0.1 * (i % 20 + 1);
                for (int move = 0; move < 3; move++) mine.Preview(design => Reshape.Move(design, Line.Belly, 4, 80, depth + 0.3 * move));
                await mine.Commit(design => Reshape.Move(design, Line.Belly, 4, 80, depth), "a point of the belly moved");
            }
        }
        await Edits(20);
        long before = GC.GetTotalMemory(forceFullCollection: true);
        int edits = Tier.Count(40, 300, 4000);
        await Edits(edits);
        double grown = (GC.GetTotalMemory(forceFullCollection: true) - before) / 1e6;
        TestContext.Current.TestOutputHelper?.WriteLine($"{edits} edits, each with three moves, in three tabs: live heap {grown:+0.00;-0.00} MB, {before / 1e6:0.0} MB before");
        // 4 000 edits in five minutes may leave 5 MB: 1 MB a minute.
        Assert.True(grown < 1 + 5.0 * edits / 4000, $"the live heap grew by {grown:0.00} MB in {edits} edits");
    }

    [Fact]
    public async Task How_sure_it_is_comes_beside_the_hand_with_strokes_and_the_ladder_and_ends_with_the_next_edit()
    {
        using var tab = new Tab(sessions.Of(id)!, Switches.InTheSea, Notation.Metric, wonders: true);
        var drawn = new TaskCompletionSource();
        tab.Redraw += () => { if (tab.Unsure is not null) drawn.TrySetResult(); };
        int before = Strokes(tab);
        Assert.True(tab.Wonders);
        await drawn.Task.WaitAsync(Patience.ForAHang);
        Assert.Equal(before + 5, Strokes(tab));
        // The numbers of the command, to the digit: one model, one seed.
        Unsure unsure = tab.Unsure!;
        Assert.StartsWith("4.3\u00A0g heavy as drawn, give or take 4.6\u00A0g in the sea: ", unsure.Said(tab.Look.Prediction, Notation.Metric), StringComparison.Ordinal);
        Assert.Equal("Give or take 4.6\u00A0g from the drawing alone; with the boards weighed, 2.2\u00A0g.", unsure.Next(Notation.Metric));
        Assert.True(unsure.Ladder.Zip(unsure.Ladder.Skip(1)).All(step => step.Second.Grams <= step.First.Grams));

        // A hand on a point: what was worked out is of another lure, and at work on it there is nobody.
        tab.Preview(Heavier);
        Assert.Null(tab.Unsure);
        Assert.False(tab.Wonders);
        // Let go, it is the saved lure again, of which all that is known still.
        tab.Drop();
        Assert.Same(unsure, tab.Unsure);
        Assert.Equal(before + 5, Strokes(tab));
        tab.Switch(Switches.From("finished", "bare", "ocean"));
        Assert.True(tab.Wonders);
        tab.Forget();
        Assert.False(tab.Wonders);
    }

    [Fact]
    public void Cancelled_work_ends_before_its_next_step()
    {
        using var cancel = new CancellationTokenSource();
        int steps = 0, after = 0;
        var pace = new Pace(cancel.Token, turn: () =>
        {
            if (cancel.IsCancellationRequested) Interlocked.Increment(ref after);
            else if (Interlocked.Increment(ref steps) == 500) cancel.Cancel();
        });
        Assert.ThrowsAny<OperationCanceledException>(() => Unsure.Of(Lures.Demo("tidegate-185"), Switches.InTheSea.Circumstances, pace));
        // On each core a step may have been under way.
        Assert.InRange(after, 0, Environment.ProcessorCount);
    }

    private static int Strokes(Tab tab) => tab.Look.Picture.Split("class=\"pencil\"").Length - 1;

    private void TakeAway() => File.Move(temp.Path, temp.In("away"));

    private void PutBack() => File.Move(temp.In("away"), temp.Path);

    [Fact]
    public async Task What_the_store_would_not_take_stays_in_sight_grows_and_is_taken_when_the_store_is_back()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using Tab tab = Open();
        TakeAway();
        Assert.False(await tab.Commit(Heavier, "tail hook heavier"));
        Assert.Equal((9.5, "tail hook heavier", true), (tab.Unsaved!.Mine.Design.Hardware[6].MassG, tab.Unsaved.Cause, tab.InHand));
        Assert.Contains("deleted, renamed or replaced", tab.Unsaved.Why.Got);
        Assert.Same(tab.Unsaved.Mine, tab.Look);
        // A hand goes on from there, and so does the next edit; a gesture that is dropped falls back to it.
        tab.Preview(design => Reshape.Move(design, Line.Back, 4, 80, 21));
        Assert.Equal((9.5, 21.0), (tab.Look.Design.Hardware[6].MassG, tab.Look.Design.Body.Back.Points[4].Value));
        tab.Drop();
        Assert.Equal((9.5, 16.0), (tab.Look.Design.Hardware[6].MassG, tab.Look.Design.Body.Back.Points[4].Value));
        Assert.False(await tab.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 20), "a point of the back moved"));
        Assert.Equal((9.5, 20.0), (tab.Unsaved!.Mine.Design.Hardware[6].MassG, tab.Unsaved.Mine.Design.Body.Back.Points[4].Value));
        tab.Switch(Switches.From("glued", "bare", "fresh"));
        Assert.Equal(9.5, tab.Look.Design.Hardware[6].MassG);
        Assert.False(await tab.TryAgain());
        Assert.Equal(1, sessions.Of(id)!.N);
        PutBack();
        Assert.True(await tab.TryAgain());
        Assert.Null(tab.Unsaved);
        Assert.Equal((2, false), (tab.N, tab.InHand));
        Revision<LureDesign> kept = store.Newest(id)!;
        Assert.Equal("tail hook heavier, a point of the back moved", kept.Cause);
        Assert.Equal((9.5, 20.0), (kept.Read().Value!.Hardware[6].MassG, kept.Read().Value!.Body.Back.Points[4].Value));
    }

    [Fact]
    public async Task The_next_edit_takes_what_was_refused_along_and_an_undo_takes_it_back()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using Tab tab = Open();
        TakeAway();
        Assert.False(await tab.Commit(Heavier, "tail hook heavier"));
        await tab.Undo();
        Assert.NotNull(tab.Unsaved);
        PutBack();
        Assert.True(await tab.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 20), "a point of the back moved"));
        Assert.Null(tab.Unsaved);
        Assert.Equal((9.5, 20.0), (store.Newest(id)!.Read().Value!.Hardware[6].MassG, store.Newest(id)!.Read().Value!.Body.Back.Points[4].Value));
        TakeAway();
        Assert.False(await tab.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 22), "a point of the back moved again"));
        PutBack();
        await tab.Undo();
        Assert.Null(tab.Unsaved);
        Assert.Equal((4, 20.0), (tab.N, store.Newest(id)!.Read().Value!.Body.Back.Points[4].Value));
    }

    [Fact]
    public async Task What_was_refused_and_meets_anothers_edit_then_is_a_question_as_ever()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets nobody take away what is open");
        using Tab tab = Open();
        TakeAway();
        Assert.False(await tab.Commit(design => Reshape.Move(design, Line.Back, 4, 80, 20), "a point of the back moved"));
        PutBack();
        using (Store elsewhere = temp.Open()) elsewhere.Save(id, 1, Heavier(Lures.Demo("tidegate-185")), EditId.New(), "by the command line");
        Assert.True(await tab.TryAgain());
        Assert.Null(tab.Unsaved);
        Assert.Equal((20.0, 9.5), (tab.Versions!.Mine.Design.Body.Back.Points[4].Value, tab.Versions.Theirs.Design.Hardware[6].MassG));
    }

    [Fact]
    public async Task A_lure_that_another_store_took_away_under_the_hand_is_not_lost_either()
    {
        using var other = new TempStore();
        using (Store fresh = other.Open()) fresh.BackUp(other.In("empty.trimwright"));
        using Tab tab = Open();
        Store.Restore(temp.Path, other.In("empty.trimwright"));
        Assert.False(await tab.Commit(Heavier, "tail hook heavier"));
        Assert.Contains("no longer has", tab.Unsaved!.Why.Got);
        Assert.Equal(9.5, tab.Look.Design.Hardware[6].MassG);
        // As a file elsewhere, as the page offers it.
        Assert.Equal("tidegate-185.lure.json", ElsewhereDoor.Name(tab.Unsaved.Mine.Design));
        string link = ElsewhereDoor.Link(tab.Unsaved.Mine.Design);
        Assert.StartsWith("data:application/json;base64,", link);
        Assert.Equal(9.5, LureFile.Read(Convert.FromBase64String(link[(link.IndexOf(',') + 1)..])).Value!.Hardware[6].MassG);
    }
}
