using System.Collections.Concurrent;
using Trimwright.App.Scheduling;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>The sessions of the lures that are open, one for each; they follow the store, whoever writes to it.</summary>
public sealed class LureSessions : IDisposable
{
    private readonly Store store;
    private readonly ConcurrentDictionary<long, LureSession> open = new();
    private readonly IDisposable watch;

    /// <summary>Where everything is worked out.</summary>
    public Scheduler Scheduler { get; }

    /// <summary>What was worked out lately, for all tabs.</summary>
    public Looks Looks { get; }

    /// <param name="store">Where the lures are kept.</param>
    /// <param name="scheduler">The process's own; null: one for these alone.</param>
    public LureSessions(Store store, Scheduler? scheduler = null)
    {
        this.store = store;
        Scheduler = scheduler ?? new Scheduler();
        Looks = new Looks(Scheduler);
        watch = store.Watch(Seen);
    }

    /// <summary>The session of a lure, or null when there is no such lure or this version can't read it.</summary>
    public LureSession? Of(long lure)
    {
        if (open.TryGetValue(lure, out LureSession? there)) return there;
        if (store.Newest(lure) is not { } newest || newest.Read().Value is not { } design) return null;
        return open.GetOrAdd(lure, _ => new LureSession(store, newest, design, Scheduler, Looks));
    }

    private void Seen(StoreChange change)
    {
        if (change.Of == ChangeOf.Everything)
            foreach (LureSession session in open.Values) session.Refresh();
        else if (change.Of == ChangeOf.Lure && open.TryGetValue(change.Owner, out LureSession? session)) session.Refresh();
    }

    public void Dispose() => watch.Dispose();
}
