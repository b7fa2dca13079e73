using System.Collections.Concurrent;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>The sessions of the lures that are open, one for each; they follow the store, whoever writes to it.</summary>
public sealed class LureSessions : IDisposable
{
    private readonly Store store;
    private readonly ConcurrentDictionary<long, LureSession> open = new();
    private readonly IDisposable watch;

    /// <summary>Where long work is done for all of them.</summary>
    public Aside Aside { get; } = new();

    public LureSessions(Store store)
    {
        this.store = store;
        watch = store.Watch(Seen);
    }

    /// <summary>The session of a lure, or null when there is no such lure or this version can't read it.</summary>
    public LureSession? Of(long lure)
    {
        if (open.TryGetValue(lure, out LureSession? there)) return there;
        if (store.Newest(lure) is not { } newest || newest.Read().Value is not { } design) return null;
        return open.GetOrAdd(lure, _ => new LureSession(store, newest, design));
    }

    private void Seen(StoreChange change)
    {
        if (change.Of == ChangeOf.Everything)
            foreach (LureSession session in open.Values) session.Refresh();
        else if (change.Of == ChangeOf.Lure && open.TryGetValue(change.Owner, out LureSession? session)) session.Refresh();
    }

    public void Dispose() => watch.Dispose();
}
