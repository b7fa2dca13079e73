using Microsoft.Data.Sqlite;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>Lures and the box: chains of revisions, appended to only on top of what the edit was made on.</summary>
public sealed partial class Store
{
    /// <summary>The owner of the box's chain.</summary>
    private const long TheBox = 1;

    private static readonly Chain<LureDesign> LureChain = new(Kind.Lure);
    private static readonly Chain<MakersBox> BoxChain = new(Kind.Box);

    /// <summary>The newest revision of each lure, in the order in which they were made; those put away only if asked for.</summary>
    public IReadOnlyList<KeptLure> Lures(bool withPutAway = false) => ReadAtOnce(db =>
    {
        Dictionary<long, bool> away = db.All("SELECT id, put_away_at IS NOT NULL FROM lure", row => (Id: row.GetInt64(0), Away: row.GetBoolean(1)))
            .ToDictionary(l => l.Id, l => l.Away);
        return LureChain.AllNewest(db).Select(r => new KeptLure(r.Owner, r, away[r.Owner])).Where(l => withPutAway || !l.IsPutAway).ToList();
    });

    /// <summary>A new lure with its first revision. The same edit id again gives the lure that it made.</summary>
    public Saved<LureDesign> NewLure(LureDesign design, string editId, string cause)
    {
        CheckEdit(editId, cause);
        string text = Kind.Lure.TextOf(design);
        return InTransaction<Saved<LureDesign>>(db =>
        {
            if (Before(LureChain, db, editId, null, 0, text) is { } before) return (before, false);
            db.Do("INSERT INTO lure (put_away_at) VALUES (NULL)");
            long id = db.Number("SELECT last_insert_rowid()")!.Value;
            return (Append(LureChain, db, id, 0, editId, cause, null, design.Name, text), true);
        });
    }

    /// <summary>A lure's newest revision, null when there is no such lure.</summary>
    public Revision<LureDesign>? Newest(long lure) => Read(db => LureChain.Newest(db, lure));

    /// <summary>A revision of a lure, null when there is none.</summary>
    public Revision<LureDesign>? Revision(long lure, int n) => Read(db => LureChain.At(db, lure, n));

    /// <summary>Every revision of a lure, oldest first; without <paramref name="texts"/> their text is empty and it is quick.</summary>
    public IReadOnlyList<Revision<LureDesign>> History(long lure, bool texts = false) => Read(db => LureChain.History(db, lure, texts));

    /// <summary>Appends an edit that was made on revision <paramref name="onto"/>, if that is still the newest; else nothing is written.</summary>
    public Saved<LureDesign> Save(long lure, int onto, LureDesign design, string editId, string cause) =>
        Save(LureChain, lure, onto, design, editId, cause);

    /// <summary>
    /// Puts an edit that came too late on the disk without making it the newest: it is appended on top of the newest, and the
    /// newest again on top of it, both or neither. A redo brings it back; nobody's undo meets it.
    /// </summary>
    /// <returns>The newest, as it stands again.</returns>
    public Saved<LureDesign> SetAside(long lure, LureDesign design, string editId, string cause)
    {
        CheckEdit(editId, cause);
        string text = Kind.Lure.TextOf(design);
        return InTransaction<Saved<LureDesign>>(db =>
        {
            if (LureChain.Newest(db, lure) is not { } theirs) return (new Saved<LureDesign>.Gone(lure), false);
            if (LureChain.ByEdit(db, editId) is { } sent)
                return (sent.Owner == lure && sent.Text == text ? new Saved<LureDesign>.Done(theirs, WasThere: true) : new Saved<LureDesign>.Conflict(sent, LureChain.At(db, sent.Owner, sent.Parent), text), false);
            if (!theirs.IsWhole) throw StoreRefusal.Damaged(Path, theirs.Read().Faults[0].Path + ", which is not as it was written");
            Append(LureChain, db, lure, theirs.N, editId, cause, null, design.Name, text);
            return (Append(LureChain, db, lure, theirs.N + 1, EditId.New(), theirs.Cause, theirs.SameAs ?? theirs.N, theirs.Name, theirs.Text), true);
        });
    }

    /// <summary>Appends the state before the newest one: undo without limit, also after a restart.</summary>
    public Saved<LureDesign> Undo(long lure, int onto, string editId) => BringBack(LureChain, lure, onto, editId, redo: false);

    /// <summary>Appends the state that was undone last, as long as no fresh edit came since.</summary>
    public Saved<LureDesign> Redo(long lure, int onto, string editId) => BringBack(LureChain, lure, onto, editId, redo: true);

    /// <summary>Whether there is something to undo and to redo.</summary>
    public (bool Undo, bool Redo) CanUndoRedo(long lure) => ReadAtOnce(db => LureChain.Newest(db, lure) is { } newest
        ? (LureChain.UndoTarget(db, lure, newest.N) is not null, LureChain.RedoTarget(db, lure, newest.N) is not null)
        : (false, false));

    /// <summary>Puts a lure away, or takes it out again; nothing is ever removed. False when there is no such lure.</summary>
    public bool PutAway(long lure, bool away) => InTransaction(db =>
    {
        int changed = db.Do("UPDATE lure SET put_away_at = @2 WHERE id = @1", lure, away ? Moment.Utc(clock.GetUtcNow()) : null);
        return (changed == 1, changed == 1);
    });

    /// <summary>The box as it is now, null until one was saved.</summary>
    public Revision<MakersBox>? Box() => Read(db => BoxChain.Newest(db, TheBox));

    /// <summary>Every revision of the box, oldest first.</summary>
    public IReadOnlyList<Revision<MakersBox>> BoxHistory(bool texts = false) => Read(db => BoxChain.History(db, TheBox, texts));

    /// <summary>Appends an edit of the box that was made on revision <paramref name="onto"/>; 0 for the first.</summary>
    public Saved<MakersBox> SaveBox(int onto, MakersBox box, string editId, string cause) => Save(BoxChain, TheBox, onto, box, editId, cause);

    public Saved<MakersBox> UndoBox(int onto, string editId) => BringBack(BoxChain, TheBox, onto, editId, redo: false);

    public Saved<MakersBox> RedoBox(int onto, string editId) => BringBack(BoxChain, TheBox, onto, editId, redo: true);

    private Saved<T> Save<T>(Chain<T> chain, long owner, int onto, T value, string editId, string cause)
        where T : class
    {
        CheckEdit(editId, cause);
        string text = chain.Kind.TextOf(value);
        return InTransaction<Saved<T>>(db =>
        {
            if (Before(chain, db, editId, owner, onto, text) is { } before) return (before, false);
            if (Stale(chain, db, owner, onto, text) is { } stale) return (stale, false);
            return (Append(chain, db, owner, onto, editId, cause, null, chain.Kind.Name(value), text), true);
        });
    }

    private Saved<T> BringBack<T>(Chain<T> chain, long owner, int onto, string editId, bool redo)
        where T : class
    {
        CheckEdit(editId, "undo");
        return InTransaction<Saved<T>>(db =>
        {
            Revision<T>? mine = chain.At(db, owner, onto);
            if (chain.ByEdit(db, editId) is { } sent)
                return (sent.Owner == owner && sent.Parent == onto && sent.Cause == (redo ? "redo" : "undo") ? new Saved<T>.Done(sent, WasThere: true) : new Saved<T>.Conflict(sent, mine, mine?.Text ?? ""), false);
            if (Stale(chain, db, owner, onto, mine?.Text ?? "") is { } stale) return (stale, false);
            int? target = redo ? chain.RedoTarget(db, owner, onto) : chain.UndoTarget(db, owner, onto);
            if (target is not { } back || chain.At(db, owner, back) is not { } state) return (new Saved<T>.Nothing(), false);
            if (!state.IsWhole) throw StoreRefusal.Damaged(Path, state.Read().Faults[0].Path + ", which is not as it was written");
            return (Append(chain, db, owner, onto, editId, redo ? "redo" : "undo", state.N, state.Name, state.Text), true);
        });
    }

    // The same edit a second time is harmless. Another edit under the same id is none of that and must not vanish in silence.
    private static Saved<T>? Before<T>(Chain<T> chain, SqliteConnection db, string editId, long? owner, int onto, string text)
        where T : class
    {
        if (chain.ByEdit(db, editId) is not { } sent) return null;
        bool same = (owner is null || sent.Owner == owner) && sent.Parent == onto && sent.Text == text;
        return same ? new Saved<T>.Done(sent, WasThere: true) : new Saved<T>.Conflict(sent, chain.At(db, sent.Owner, onto), text);
    }

    private static Saved<T>? Stale<T>(Chain<T> chain, SqliteConnection db, long owner, int onto, string text)
        where T : class
    {
        Revision<T>? newest = chain.Newest(db, owner);
        if ((newest?.N ?? 0) == onto && (newest is not null || chain.Kind.Owner == Kind.Box.Owner)) return null;
        return newest is null ? new Saved<T>.Gone(owner) : new Saved<T>.Conflict(newest, chain.At(db, owner, onto), text);
    }

    private Saved<T>.Done Append<T>(
        Chain<T> chain, SqliteConnection db, long owner, int onto, string editId, string cause, int? sameAs, string name, string text)
        where T : class
    {
        var revision = new Revision<T>(owner, onto + 1, onto, editId, Moment.Now(clock), cause, sameAs, name, Program, text);
        chain.Add(db, revision);
        return new Saved<T>.Done(revision, WasThere: false);
    }

    private static void CheckEdit(string editId, string cause)
    {
        if (!EditId.IsOne(editId)) throw new ArgumentException($"an edit id is 8 to 64 of A-Z, a-z, 0-9 and -; got {editId}", nameof(editId));
        ArgumentException.ThrowIfNullOrWhiteSpace(cause);
    }
}

/// <summary>A lure in the store, with its newest revision.</summary>
public sealed record KeptLure(long Id, Revision<LureDesign> Newest, bool IsPutAway)
{
    public string Name => Newest.Name;
}

/// <summary>Names of edits, chosen by whoever makes the edit and kept until it is acknowledged.</summary>
public static class EditId
{
    public static string New() => Guid.NewGuid().ToString("N");

    public static bool IsOne(string text) =>
        text.Length is >= 8 and <= 64 && text.All(c => char.IsAsciiLetterOrDigit(c) || c == '-');
}
