using Trimwright.App.Scheduling;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>
/// One lure, for all tabs that show it. Edits go through it one after the other, each saying on which revision it was made;
/// whoever listens hears of each new revision, whether made here, in another tab or by the command line.
/// </summary>
public sealed class LureSession
{
    private readonly Store store;
    private readonly SemaphoreSlim queue = new(1);
    private readonly Lock following = new();
    private Revision<LureDesign> newest;

    public LureSession(Store store, Revision<LureDesign> newest, LureDesign design, Scheduler scheduler, Looks looks)
    {
        (this.store, this.newest, Scheduler, Looks) = (store, newest, scheduler, looks);
        Design = design;
    }

    /// <summary>Where its tabs have things worked out.</summary>
    public Scheduler Scheduler { get; }

    /// <summary>What was worked out lately, for all of them.</summary>
    public Looks Looks { get; }

    public long Id => newest.Owner;

    /// <summary>The number of the newest revision.</summary>
    public int N => newest.N;

    /// <summary>The maker's word for what made it.</summary>
    public string Cause => newest.Cause;

    /// <summary>The edit that made it.</summary>
    public string EditId => newest.EditId;

    /// <summary>The newest design.</summary>
    public LureDesign Design { get; private set; }

    /// <summary>There is a newer revision.</summary>
    public event Action? Changed;

    /// <summary>Saves an edit; done only when it is on the disk.</summary>
    public Task<Saved<LureDesign>> Save(int onto, LureDesign design, string editId, string cause) =>
        Queued(() => store.Save(Id, onto, design, editId, cause));

    /// <summary>Puts an edit that came too late on the disk, one redo away from the newest.</summary>
    public Task<Saved<LureDesign>> SetAside(LureDesign design, string editId, string cause) =>
        Queued(() => store.SetAside(Id, design, editId, cause));

    public Task<Saved<LureDesign>> Undo(int onto, string editId) => Queued(() => store.Undo(Id, onto, editId));

    public Task<Saved<LureDesign>> Redo(int onto, string editId) => Queued(() => store.Redo(Id, onto, editId));

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
        lock (following)
        {
            if (store.Newest(Id) is not { } now || now.EditId == newest.EditId || now.Read().Value is not { } design) return;
            (newest, Design) = (now, design);
        }
        Changed?.Invoke();
    }

    private async Task<Saved<LureDesign>> Queued(Func<Saved<LureDesign>> edit)
    {
        await queue.WaitAsync();
        try
        {
            Saved<LureDesign> saved = await Task.Run(edit);
            Refresh();
            return saved;
        }
        finally
        {
            queue.Release();
        }
    }
}
