using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>Why the machine, or the file, would not do what the store asked of it.</summary>
public enum RefusalCause
{
    DiskFull,
    ReadOnly,
    CannotOpen,
    Busy,
    TooNew,
    NotAStore,
    NotThere,
    Damaged,

    /// <summary>The store's file was deleted, renamed or replaced while it was open.</summary>
    Moved,

    /// <summary>An edit's id was used before for something else.</summary>
    UsedId,
    MachineFault,
}

/// <summary>
/// The store could not do it, and nothing was half done. Any call may meet a full disk or a pulled plug, so this one kind
/// of failure is thrown; what a maker's own doing leads to, a conflict above all, is a value (<see cref="Saved{T}"/>).
/// </summary>
public sealed class StoreRefusal(RefusalCause cause, Fault fault, Exception? inner = null) : Exception(fault.ToString(), inner)
{
    public RefusalCause Cause => cause;

    /// <summary>What, where, got, allowed, what to do next.</summary>
    public Fault Fault => fault;

    internal static StoreRefusal TooNew(string path, long version, int ours) => new(RefusalCause.TooNew, new Fault(
        "newer-version", path, $"a store of version {version}", $"up to {ours}",
        "It was kept by a newer Trimwright and was left as it is; open it with that one."));

    internal static StoreRefusal NotAStore(string path, string got) => new(RefusalCause.NotAStore, new Fault(
        "store", path, got, "a store of Trimwright", "It was left as it is; check the name, or choose a new one."));

    internal static StoreRefusal NotThere(string path) => new(RefusalCause.NotThere, new Fault(
        "store", path, "no such file", "a store that is there", "Check the name; nothing was made under it."));

    internal static StoreRefusal NoRoomToRead(string path, string tried, Exception? why) => new(RefusalCause.DiskFull, new Fault(
        "store", path, $"no room beside it, nor in {tried}", "room for a copy of it for a moment, since its log can't be read where it lies",
        "Name a folder on another disk in TMPDIR (TEMP on Windows) and ask again."), why);

    internal static StoreRefusal TwoNames(string path, uint names) => new(RefusalCause.CannotOpen, new Fault(
        "store", path, $"a file with {names} names (hard links)", "a file with one name, since each name gets a log of its own, and two logs tear a store apart",
        "Delete the other name, or copy the file and use the copy; list, check, backup and export work as it is."));

    internal static StoreRefusal Moved(string path, string what) => new(RefusalCause.Moved, new Fault(
        "store", path, $"{what} while Trimwright had it open", "the file that was opened, where it was",
        "Nothing is kept there any more: put the file back, or save what you see elsewhere, end Trimwright and start it again."));

    internal static StoreRefusal UsedId(string what, string editId) => new(RefusalCause.UsedId, new Fault(
        "edit-id", editId, $"another {what} under a number that was used before", "each its own number, or the very same one again", "It was not kept; type it again."));

    internal static StoreRefusal Damaged(string path, string got) => new(RefusalCause.Damaged, new Fault(
        "store", path, got, "a store without damage", "Keep a copy of it and of the files beside it, then restore a backup: trimwright store restore FILE."));

    /// <summary>What the database or the file system said, in a maker's words.</summary>
    internal static StoreRefusal Of(string path, Exception said) => said switch
    {
        SqliteException e => Of(path, e),
        IOException e when Files.IsNoRoom(e) => new(RefusalCause.DiskFull, new Fault("store", path, "a full disk", "some free room", "Nothing was written under that name; free some room and try again."), e),
        _ => new(said is UnauthorizedAccessException || said is IOException disk && Files.IsReadOnlyDisk(disk) ? RefusalCause.ReadOnly : RefusalCause.CannotOpen,
            WholeFiles.Fault(path, said) with { Kind = "store" }, said),
    };

    // Primary result codes: https://www.sqlite.org/rescode.html
    private static StoreRefusal Of(string path, SqliteException e)
    {
        // SQLite looks as well, now and then, and may see it before we do (SQLITE_READONLY_DBMOVED).
        if (e.SqliteExtendedErrorCode == 1032) return Moved(path, "a file that was deleted, renamed or replaced");
        (RefusalCause cause, string got, string allowed, string next) = e.SqliteErrorCode switch
        {
            13 => (RefusalCause.DiskFull, "a full disk", "some free room", "What was saved before is safe, the last edit is not saved; free some room and try again."),
            8 => (RefusalCause.ReadOnly, "a store that may only be read", "a store that this account may write to", "Check the permissions of the file and its folder, or choose another with --store FILE."),
            3 or 14 or 23 => (RefusalCause.CannotOpen, "a store that cannot be opened for writing", "a file in a folder that this account may write to", "Check the permissions of the file and its folder, or choose another with --store FILE."),
            5 or 6 => (RefusalCause.Busy, "another program writing for over five seconds", "a moment in which nobody else writes", "Nothing was changed; try again."),
            11 => (RefusalCause.Damaged, "damage inside the store", "a store without damage", "Keep a copy of it and of the files beside it, then restore a backup: trimwright store restore FILE."),
            26 => (RefusalCause.NotAStore, "a file that is no store", "a store of Trimwright", "It was left as it is; check the name, or choose a new one."),
            _ => (RefusalCause.MachineFault, $"a fault of disk or system ({e.Message.TrimEnd('.')})", "a disk that reads and writes", "What was saved before is safe; check the disk and its free room, and try again."),
        };
        // A disk that fills up while SQLite makes or sizes its shared index is reported as a fault of that file (SQLITE_CANTOPEN,
        // SQLITE_IOERR_SHMSIZE, _WRITE).
        if ((e.SqliteErrorCode == 14 || e.SqliteExtendedErrorCode is 4874 or 778) && IsFull(path))
            (cause, got, allowed, next) = (RefusalCause.DiskFull, "a full disk", "some free room", "What was saved before is safe, the last edit is not saved; free some room and try again.");
        return new StoreRefusal(cause, new Fault("store", path, got, allowed, next), e);
    }

    private static bool IsFull(string path)
    {
        const long Least = 128 * 1024;
        try
        {
            return Path.GetDirectoryName(path) is { Length: > 0 } folder && new DriveInfo(folder).AvailableFreeSpace < Least;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return false;
        }
    }
}
