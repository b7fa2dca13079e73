using Trimwright.App.Scheduling;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>Two edits on one revision: somebody else's, which is saved, and mine, which waits for the maker's word.</summary>
/// <param name="Mine">What was to be saved here.</param>
/// <param name="Theirs">What is saved.</param>
/// <param name="MyCause">The maker's word for mine.</param>
/// <param name="TheirCause">And for theirs.</param>
public sealed record TwoVersions(Look Mine, Look Theirs, string MyCause, string TheirCause);

/// <summary>What the store would not take: it is in this tab only.</summary>
/// <param name="Mine">The lure as it was made.</param>
/// <param name="Cause">The maker's words for all that isn't saved of it.</param>
/// <param name="Why">Why not.</param>
public sealed record Unsaved(Look Mine, string Cause, Fault Why);

/// <summary>How what is made in a tab comes to the disk, and what is asked when somebody was quicker.</summary>
public sealed partial class Tab
{
    private readonly SemaphoreSlim turn = new(1);

    /// <summary>
    /// Saves a change; when it returns, it is on the disk, or the tab says why not. Changes made here go one after the other, each
    /// on what the one before it left: two fields answered at once are two edits.
    /// </summary>
    /// <returns>Whether what was asked for is on the disk: as the newest, or beside another's edit that came first.</returns>
    public async Task<bool> Commit(Func<LureDesign, LureDesign> change, string cause)
    {
        await turn.WaitAsync();
        try
        {
            return Now.Versions is { } both ? await AddTo(both, change, cause) : await Land(change, cause);
        }
        finally
        {
            turn.Release();
        }
    }

    private async Task<bool> Land(Func<LureDesign, LureDesign> change, string cause)
    {
        shown.Replace(s => s with { InHand = true });
        (Shown now, long generation) = shown.Read();
        Checked made = Check(change(now.Standing.Design));
        // What the store didn't take before goes with it.
        if (now.Unsaved is { } before) cause = cause.Length > 0 ? $"{before.Cause}, {cause}" : before.Cause;
        if (made.Design is { } design && !Same(design, now.Rested.Design))
        {
            Forget();
            Look mine = At(design, now, Priority.Hand);
            shown.Land(generation, s => s with { Look = mine, Changed = mine.Since(s.Rested, s.Notation), Fault = null, Warnings = made.Warnings });
            return await Write(mine, cause, () => session.Save(now.N, design, EditId.New(), cause));
        }
        // Nothing to save: what was shown under the hand is let go.
        shown.Replace(s =>
        {
            if (made.Design is not null) s = s with { Unsaved = null };
            return s with { Look = s.Standing, InHand = s.Unsaved is not null, Changed = null, Fault = made.Fault };
        });
        WonderAgain();
        Follow();
        return made.Design is not null;
    }

    // Made while the maker hasn't chosen yet: it belongs to their own version.
    private async Task<bool> AddTo(TwoVersions both, Func<LureDesign, LureDesign> change, string cause)
    {
        Checked made = Check(change(both.Mine.Design));
        if (made.Design is not { } design)
        {
            shown.Replace(s => s with { Fault = made.Fault });
            return false;
        }
        Look mine = At(design, Now, Priority.Hand);
        shown.Replace(s => s with { Versions = (s.Versions ?? both) with { Mine = mine, MyCause = $"{both.MyCause}, {cause}" }, Fault = null });
        return await SetAside(mine, cause);
    }

    /// <summary>Offers the store once more what it would not take.</summary>
    /// <returns>Whether it is on the disk now.</returns>
    public async Task<bool> TryAgain()
    {
        await turn.WaitAsync();
        try
        {
            return Now.Unsaved is null || await Land(design => design, "");
        }
        finally
        {
            turn.Release();
        }
    }

    public Task Undo() => Turn("undo", session.Undo);

    public Task Redo() => Turn("redo", session.Redo);

    private async Task Turn(string word, Func<int, string, Task<Saved<LureDesign>>> turned)
    {
        await turn.WaitAsync();
        try
        {
            // An undo takes back what was made last, saved or not.
            if (Now.Unsaved is not null && !await Land(design => design, "")) return;
            if (Now.Versions is null) await Write(null, word, () => turned(Now.N, EditId.New()));
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>Ends a conflict: mine goes on top of theirs, or stays one redo away.</summary>
    public async Task Choose(bool mine)
    {
        if (Now.Versions is not { } both) return;
        shown.Replace(s => s with { Versions = null, InHand = false });
        Follow();
        if (mine) await Commit(_ => both.Mine.Design, both.MyCause);
        else Redraw?.Invoke();
    }

    private async Task<bool> Write(Look? mine, string cause, Func<Task<Saved<LureDesign>>> edit)
    {
        shown.Replace(s => s with { InHand = true });
        try
        {
            return await (await edit()).Match(Done, Met, _ => LetGo(kept: false), _ => Gone());
        }
        catch (StoreRefusal refusal)
        {
            Keep(mine, cause, refusal.Fault);
            return false;
        }

        Task<bool> Done(Saved<LureDesign>.Done done)
        {
            shown.Replace(s => s with { Unsaved = null });
            Adopt(done.Revision.Read().Value ?? Now.Look.Design, done.Revision.N, done.Revision.EditId, null, mine);
            return Task.FromResult(true);
        }

        async Task<bool> Met(Saved<LureDesign>.Conflict conflict)
        {
            if (mine is null || conflict.Theirs.Read().Value is not { } theirs) return await LetGo(kept: false);
            // Twice the same is no conflict.
            if (Same(theirs, mine.Design)) return await LetGo(kept: true);
            // Both are on the disk before anything is asked.
            bool kept = await SetAside(mine, cause);
            shown.Replace(s => s with { Versions = new TwoVersions(mine, At(theirs, s, Priority.Hand), cause, conflict.Theirs.Cause), Unsaved = null });
            return kept;
        }

        Task<bool> Gone()
        {
            if (mine is null) return LetGo(kept: false);
            Keep(mine, cause, new Fault("store", "", "a lure that the store no longer has: another store was put in its place", "a lure of this store",
                "Save it elsewhere and take it in again: trimwright store import FILE."));
            return Task.FromResult(false);
        }

        Task<bool> LetGo(bool kept)
        {
            // Of what is saved already nothing is left over; an undo that found nothing leaves what waits.
            shown.Replace(s => s with { InHand = mine is null && s.Unsaved is not null, Unsaved = mine is null ? s.Unsaved : null });
            Follow();
            return Task.FromResult(kept);
        }
    }

    // Not on the disk, and not lost: it stays in sight, and the page offers to save it elsewhere.
    private void Keep(Look? mine, string cause, Fault why) => shown.Replace(s =>
    {
        if (mine is not null) s = s with { Unsaved = new Unsaved(mine, cause, why) };
        return s with { InHand = s.Unsaved is not null, Look = s.Standing, Changed = null, Fault = why };
    });

    private async Task<bool> SetAside(Look mine, string cause)
    {
        try
        {
            return await session.SetAside(mine.Design, EditId.New(), cause) is Saved<LureDesign>.Done;
        }
        catch (StoreRefusal refusal)
        {
            shown.Replace(s => s with { Fault = refusal.Fault });
            return false;
        }
    }
}
