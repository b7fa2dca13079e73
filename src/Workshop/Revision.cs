using System.Text;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>One link of a chain that only grows: a lure or a box as it was after one edit.</summary>
/// <param name="Owner">Whose: the lure's id; 1 for the box.</param>
/// <param name="N">1, 2, 3 … without a gap. Order is by this, never by the clock, which may be set back.</param>
/// <param name="Parent">The revision that the edit was made on; 0 for the first.</param>
/// <param name="EditId">Chosen by whoever edits; the same edit sent twice is kept once.</param>
/// <param name="At">When, with the offset from UTC that the maker's clock had then.</param>
/// <param name="Cause">The maker's word for the edit: "tail hook a size up".</param>
/// <param name="SameAs">For an undo or a redo the revision whose state it brought back, else null.</param>
/// <param name="Name">The name inside.</param>
/// <param name="MadeBy">The version of Trimwright that wrote it.</param>
/// <param name="Text">The file's text, as <see cref="LureFile"/> writes it.</param>
/// <param name="IsWhole">Whether the row is as it was written; a disk can forget. Unknown, and so true, without its text.</param>
public sealed record Revision<T>(
    long Owner, int N, int Parent, string EditId, DateTimeOffset At, string Cause, int? SameAs, string Name, string MadeBy, string Text, bool IsWhole = true)
    where T : class
{
    /// <summary>The design or box itself, through its one reader in Core; faults when a later version became stricter, or the row is broken.</summary>
    public Reading<T> Read() => IsWhole ? Kind.Of<T>().Read(Encoding.UTF8.GetBytes(Text)) : new(null, [Broken], []);

    private Fault Broken => new("damaged", $"revision {N} of {Name}", "a text that is not as it was written", "one that matches its seal",
        "The disk has changed it; restore a backup: trimwright store restore FILE.");
}

/// <summary>What became of an edit.</summary>
public abstract record Saved<T>
    where T : class
{
    private Saved()
    {
    }

    /// <summary>Does with each what is said for it.</summary>
    public abstract TOut Match<TOut>(Func<Done, TOut> done, Func<Conflict, TOut> conflict, Func<Nothing, TOut> nothing, Func<Gone, TOut> gone);

    /// <summary>Acknowledged: it is on the disk. <paramref name="WasThere"/> when this very edit had come before.</summary>
    public sealed record Done(Revision<T> Revision, bool WasThere) : Saved<T>
    {
        public override TOut Match<TOut>(Func<Done, TOut> done, Func<Conflict, TOut> conflict, Func<Nothing, TOut> nothing, Func<Gone, TOut> gone) => done(this);
    }

    /// <summary>
    /// Somebody else edited first. Nothing was written; both versions are here, with the one that the edit was based on.
    /// </summary>
    /// <param name="Theirs">The newest revision.</param>
    /// <param name="Base">The revision that the edit was based on, null when there is none of that number.</param>
    /// <param name="Mine">The text that was to be saved.</param>
    public sealed record Conflict(Revision<T> Theirs, Revision<T>? Base, string Mine) : Saved<T>
    {
        public override TOut Match<TOut>(Func<Done, TOut> done, Func<Conflict, TOut> conflict, Func<Nothing, TOut> nothing, Func<Gone, TOut> gone) => conflict(this);

        /// <summary>What was to be saved, read.</summary>
        public Reading<T> ReadMine() => Kind.Of<T>().Read(Encoding.UTF8.GetBytes(Mine));
    }

    /// <summary>There is nothing to undo or redo.</summary>
    public sealed record Nothing : Saved<T>
    {
        public override TOut Match<TOut>(Func<Done, TOut> done, Func<Conflict, TOut> conflict, Func<Nothing, TOut> nothing, Func<Gone, TOut> gone) => nothing(this);
    }

    /// <summary>The store has no such lure (any more): another store was restored over it.</summary>
    public sealed record Gone(long Owner) : Saved<T>
    {
        public override TOut Match<TOut>(Func<Done, TOut> done, Func<Conflict, TOut> conflict, Func<Nothing, TOut> nothing, Func<Gone, TOut> gone) => gone(this);
    }
}
