using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>What is kept, what a second writer meets, and how undo walks.</summary>
public class RevisionTests
{
    private static readonly LureDesign Lure = Lures.Demo("tidegate-185");

    private static LureDesign Named(string name) => Lure with { Name = name };

    private static Revision<LureDesign> Done(Saved<LureDesign> saved)
    {
        var done = Assert.IsType<Saved<LureDesign>.Done>(saved);
        Assert.False(done.WasThere);
        return done.Revision;
    }

    [Fact]
    public void What_was_saved_is_there_after_closing_digit_for_digit()
    {
        using var temp = new TempStore();
        long id;
        using (Store store = temp.Open())
        {
            id = Done(store.NewLure(Lure, EditId.New(), "new")).Owner;
            Done(store.Save(id, 1, Named("second"), EditId.New(), "renamed"));
        }
        using (Store store = temp.Open())
        {
            Revision<LureDesign> newest = store.Newest(id)!;
            Assert.Equal((2, 1, "renamed", "second", Store.Program), (newest.N, newest.Parent, newest.Cause, newest.Name, newest.MadeBy));
            Assert.Equal(LureFile.Write(Named("second")), System.Text.Encoding.UTF8.GetBytes(newest.Text));
            Assert.Equal("second", newest.Read().Value!.Name);
            Assert.Equal(["new", "renamed"], store.History(id).Select(r => r.Cause));
            Assert.Equal("second", Assert.Single(store.Lures()).Name);
            Assert.Equal(Lure.Name, store.Revision(id, 1)!.Name);
            Assert.Null(store.Revision(id, 3));
            Assert.Null(store.Newest(id + 1));
        }
    }

    [Fact]
    public void An_edit_on_an_old_revision_is_a_conflict_with_both_versions_and_writes_nothing()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        long id = Done(store.NewLure(Lure, EditId.New(), "new")).Owner;
        Done(store.Save(id, 1, Named("theirs"), EditId.New(), "theirs"));

        var conflict = Assert.IsType<Saved<LureDesign>.Conflict>(store.Save(id, 1, Named("mine"), EditId.New(), "mine"));

        Assert.Equal(("theirs", Lure.Name, "mine"), (conflict.Theirs.Name, conflict.Base!.Name, conflict.ReadMine().Value!.Name));
        Assert.Equal(2, store.History(id).Count);
        Assert.IsType<Saved<LureDesign>.Conflict>(store.Save(id, 7, Named("mine"), EditId.New(), "mine"));
        Assert.IsType<Saved<LureDesign>.Gone>(store.Save(id + 1, 1, Named("mine"), EditId.New(), "mine"));
        Assert.Equal(3, Done(store.Save(id, conflict.Theirs.N, Named("mine"), EditId.New(), "mine")).N);
    }

    [Fact]
    public void The_same_edit_sent_again_is_kept_once()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        string first = EditId.New(), second = EditId.New(), undo = EditId.New();
        long id = Done(store.NewLure(Lure, first, "new")).Owner;
        Done(store.Save(id, 1, Named("b"), second, "b"));
        Done(store.Undo(id, 2, undo));

        Assert.Equal((id, 1), Again(store.NewLure(Lure, first, "new")));
        Assert.Equal((id, 2), Again(store.Save(id, 1, Named("b"), second, "b")));
        Assert.Equal((id, 3), Again(store.Undo(id, 2, undo)));
        Assert.Equal(3, store.History(id).Count);
        Assert.Single(store.Lures());
        // Another edit under a used id is not swallowed.
        Assert.IsType<Saved<LureDesign>.Conflict>(store.Save(id, 3, Named("c"), second, "c"));

        static (long, int) Again(Saved<LureDesign> saved)
        {
            var done = Assert.IsType<Saved<LureDesign>.Done>(saved);
            Assert.True(done.WasThere);
            return (done.Revision.Owner, done.Revision.N);
        }
    }

    [Fact]
    public void Undo_and_redo_walk_as_a_list_of_states_would_and_only_append()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        var random = new Random(11);
        Revision<LureDesign> now = Done(store.NewLure(Named("0"), EditId.New(), "new"));
        // The oracle: states done and undone, as two stacks.
        var past = new Stack<string>();
        var future = new Stack<string>();
        int undone = 0, redone = 0;
        for (int step = 1; step <= Tier.Count(150, 600); step++)
        {
            Assert.Equal((past.Count > 0, future.Count > 0), store.CanUndoRedo(now.Owner));
            switch (random.Next(5))
            {
                case 0 or 1:
                    past.Push(now.Name);
                    future.Clear();
                    now = Done(store.Save(now.Owner, now.N, Named($"{step}"), EditId.New(), "edit"));
                    break;
                case 2 or 3:
                    Saved<LureDesign> undo = store.Undo(now.Owner, now.N, EditId.New());
                    if (past.Count == 0)
                    {
                        Assert.IsType<Saved<LureDesign>.Nothing>(undo);
                        break;
                    }
                    future.Push(now.Name);
                    now = Done(undo);
                    Assert.Equal(past.Pop(), now.Name);
                    undone++;
                    break;
                default:
                    Saved<LureDesign> redo = store.Redo(now.Owner, now.N, EditId.New());
                    if (future.Count == 0)
                    {
                        Assert.IsType<Saved<LureDesign>.Nothing>(redo);
                        break;
                    }
                    past.Push(now.Name);
                    now = Done(redo);
                    Assert.Equal(future.Pop(), now.Name);
                    redone++;
                    break;
            }
            Assert.Equal(now.N, store.Newest(now.Owner)!.N);
        }
        Assert.True(undone > 20 && redone > 5, $"{undone} undone, {redone} redone");
        Assert.Equal(Enumerable.Range(1, now.N), store.History(now.Owner).Select(r => r.N));
    }

    [Fact]
    public void The_box_is_kept_by_the_same_rules()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        Core.Box.MakersBox box = Core.Box.BoxFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo", "kitchen.box.json"))).Value!;
        Assert.Null(store.Box());
        Assert.IsType<Saved<Core.Box.MakersBox>.Done>(store.SaveBox(0, box, EditId.New(), "first box"));
        Assert.IsType<Saved<Core.Box.MakersBox>.Conflict>(store.SaveBox(0, box with { Name = "other" }, EditId.New(), "other"));
        Assert.IsType<Saved<Core.Box.MakersBox>.Done>(store.SaveBox(1, box with { NoLead = true }, EditId.New(), "no lead"));
        Assert.True(store.Box()!.Read().Value!.NoLead);
        Assert.IsType<Saved<Core.Box.MakersBox>.Done>(store.UndoBox(2, EditId.New()));
        Assert.Equal(box.NoLead, store.Box()!.Read().Value!.NoLead);
        Assert.Equal([1, 2, 3], store.BoxHistory().Select(r => r.N));
    }

    [Fact]
    public void A_lure_put_away_is_listed_only_when_asked_for_and_keeps_everything()
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        long id = Done(store.NewLure(Lure, EditId.New(), "new")).Owner;
        Assert.True(store.PutAway(id, true));
        Assert.Empty(store.Lures());
        Assert.True(Assert.Single(store.Lures(withPutAway: true)).IsPutAway);
        Assert.True(store.PutAway(id, false));
        Assert.Single(store.Lures());
        Assert.False(store.PutAway(id + 5, true));
    }
}
