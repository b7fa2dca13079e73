using System.Diagnostics;
using System.Diagnostics.CodeAnalysis;
using Trimwright.App.Scheduling;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>A lure as it is saved, all of one revision.</summary>
/// <param name="Design">The lure.</param>
/// <param name="N">The revision's number.</param>
/// <param name="EditId">The edit that made it.</param>
/// <param name="Cause">The maker's word for that.</param>
public sealed record Newest(LureDesign Design, int N, string EditId, string Cause);

/// <summary>
/// One lure, for all tabs that show it. Edits go through it one after the other, each saying on which revision it was made;
/// whoever listens hears of each new revision, whether made here, in another tab or by the command line.
/// </summary>
public sealed class LureSession
{
    private readonly Store store;
    private readonly SemaphoreSlim queue = new(1);
    private Newest newest;

    public LureSession(Store store, Revision<LureDesign> newest, LureDesign design, Scheduler scheduler, Looks looks)
    {
        (this.store, Id, this.newest, Scheduler, Looks) = (store, newest.Owner, Of(newest, design), scheduler, looks);
    }

    /// <summary>Where its tabs have things worked out.</summary>
    public Scheduler Scheduler { get; }

    /// <summary>What was worked out lately, for all of them.</summary>
    public Looks Looks { get; }

    public long Id { get; }

    /// <summary>The newest revision.</summary>
    public Newest Newest => Volatile.Read(ref newest);

    public int N => Newest.N;

    public string EditId => Newest.EditId;

    public LureDesign Design => Newest.Design;

    /// <summary>There is a newer revision.</summary>
    public event Action? Changed;

    /// <summary>Saves an edit; done only when it is on the disk.</summary>
    public Task<Saved<LureDesign>> Save(int onto, LureDesign design, string editId, string cause) =>
        Queued("Save", () => store.Save(Id, onto, design, editId, cause));

    /// <summary>Puts an edit that came too late on the disk, one redo away from the newest.</summary>
    public Task<Saved<LureDesign>> SetAside(LureDesign design, string editId, string cause) =>
        Queued("SetAside", () => store.SetAside(Id, design, editId, cause));

    public Task<Saved<LureDesign>> Undo(int onto, string editId) => Queued("Undo", () => store.Undo(Id, onto, editId));

    public Task<Saved<LureDesign>> Redo(int onto, string editId) => Queued("Redo", () => store.Redo(Id, onto, editId));

    public (bool Undo, bool Redo) CanUndoRedo => store.CanUndoRedo(Id);

    /// <summary>How it was when it was last put down: the newest revision older than a time, null when there is none.</summary>
    public LureDesign? Before(DateTimeOffset time)
    {
        Revision<LureDesign>? last = store.History(Id).LastOrDefault(r => r.At < time);
        return last is null || last.N == N ? null : store.Revision(Id, last.N)?.Read().Value;
    }

    /// <summary>Reads the newest revision again and tells of it if it is a new one.</summary>
    public void Refresh()
    {
        // The store's watch and the answer to an edit both come here, from threads of their own: neither may put an older one back.
        while (true)
        {
            Newest before = Newest;
            if (store.Newest(Id) is not { } now || now.EditId == before.EditId || now.Read().Value is not { } design) return;
            if (Interlocked.CompareExchange(ref newest, Of(now, design), before) == before) break;
        }
        Changed?.Invoke();
    }

    private static Newest Of(Revision<LureDesign> revision, LureDesign design) => new(design, revision.N, revision.EditId, revision.Cause);

    private async Task<Saved<LureDesign>> Queued([ConstantExpected] string what, Func<Saved<LureDesign>> edit)
    {
        long asked = Stopwatch.GetTimestamp();
        await queue.WaitAsync();
        long begun = Stopwatch.GetTimestamp();
        Ending ending = Ending.Failed;
        try
        {
            Saved<LureDesign> saved = await Task.Run(edit);
            Refresh();
            ending = Ending.Done;
            return saved;
        }
        finally
        {
            queue.Release();
            Scheduler.Operations.Note(what, ending, Stopwatch.GetElapsedTime(asked, begun), Stopwatch.GetElapsedTime(begun));
        }
    }
}
