using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>
/// Holds an open store against what stands at its path. A file that is open can be written to long after its name was deleted or
/// given to another file, so that a commit alone proves nothing: before each one, and again before it is acknowledged, the names
/// are looked up. Three of them, since what was committed last stands in the log, and other programs meet us over its index.
/// A file that was overwritten where it lies keeps its number; that shows by when it was written last, and then it is looked
/// through, since other programs of ours move pages from the log into it too.
/// </summary>
internal sealed class InPlace
{
    // As the maker named it, which may be a link; the file itself; and what SQLite keeps beside it.
    private readonly string asked, file, log, index;
    private readonly FileMark? atFirst, logAtFirst, indexAtFirst;

    // How the file and the log were left by what was done last, with the last change that was written then.
    private FileMark? left, logLeft;
    private bool writtenOver;
    private long others;
    private (long Id, string Mark)? last;

    /// <param name="asked">The store's name.</param>
    /// <param name="file">The file that it leads to.</param>
    /// <param name="before">What stood there before it was opened.</param>
    /// <param name="db">The connection that writes.</param>
    public InPlace(string asked, string file, FileMark? before, SqliteConnection db)
    {
        (this.asked, this.file, log, index) = (asked, file, file + "-wal", file + "-shm");
        atFirst = FileMark.Of(file);
        if (atFirst is not { } now || !now.IsSame(before)) throw StoreRefusal.Moved(file, "a file that was replaced");
        Leave();
        Remember(db);
        (logAtFirst, indexAtFirst) = (FileMark.Of(log), FileMark.Of(index));
    }

    /// <summary>Whether the store lies where it was opened, with its log and its index beside it, and is what it was.</summary>
    public bool Stands(SqliteConnection db) => !writtenOver && Missing() is null && (IsAsLeft || StoreHeader.SaysLog(Connections.HeadOf(db)));

    private bool IsAsLeft => left is not { } was || was.IsUntouched(FileMark.Of(file));

    /// <summary>Whether the store does, while nothing stands where its log was: what is in the log can be brought into the store.</summary>
    public bool LacksItsLogOnly => IsThere(file, atFirst) && IsThere(asked, atFirst) && FileMark.Of(log) is null && (IsThere(index, indexAtFirst) || FileMark.Of(index) is null);

    /// <summary>Throws unless what is open is what stands there. In a transaction that holds the right to write.</summary>
    public void BeforeWriting(SqliteConnection db)
    {
        Hold();
        bool touched = !IsAsLeft;
        bool shorter = logLeft is { } log && FileMark.Of(this.log) is { } now && now.Size < log.Size;
        long seen = db.Number("PRAGMA data_version")!.Value;
        writtenOver = true;
        if (touched && !StoreHeader.SaysLog(Connections.HeadOf(db))) throw StoreRefusal.Moved(file, "a file that was written over");
        if (touched || shorter) LookThrough(seen == others);
        (writtenOver, others) = (false, seen);
    }

    /// <summary>Remembers what is about to be committed.</summary>
    public void Remember(SqliteConnection db)
    {
        last = db.All("SELECT id, hex(mark) FROM change ORDER BY id DESC LIMIT 1", row => (row.GetInt64(0), row.GetString(1))) is [var change] ? change : null;
        others = db.Number("PRAGMA data_version")!.Value;
    }

    /// <summary>Throws unless what was written to is what stands there: then it may be acknowledged.</summary>
    public void BeforeAcknowledging()
    {
        Hold();
        Leave();
    }

    private void Leave() => (left, logLeft) = (FileMark.Of(file), FileMark.Of(log));

    private void Hold()
    {
        if (Missing() is { } what) throw StoreRefusal.Moved(file, what);
    }

    private string? Missing() =>
        !IsThere(file, atFirst) ? "a file that was deleted, renamed or replaced"
        : asked != file && !IsThere(asked, atFirst) ? $"a file that {asked} leads to no more"
        : !IsThere(log, logAtFirst) ? $"a log ({Path.GetFileName(log)}) that was deleted, renamed or replaced"
        : !IsThere(index, indexAtFirst) ? $"an index ({Path.GetFileName(index)}) that was deleted, renamed or replaced"
        : null;

    private static bool IsThere(string path, FileMark? atFirst) => atFirst is not { } first || first.IsSame(FileMark.Of(path));

    // Through eyes of its own: our connection may have in memory what the file no longer has. With nobody else writing, the last change is ours.
    private void LookThrough(bool nobodyElse)
    {
        try
        {
            using SqliteConnection fresh = Connections.OpenForReading(file);
            if (Health.OfItsFrame(fresh) is not null) throw StoreRefusal.Moved(file, "a file that was written over");
            if (nobodyElse && last is { } ours && fresh.One("SELECT hex(mark) FROM change WHERE id = @1", ours.Id) != ours.Mark)
                throw StoreRefusal.Moved(file, "a file that was written over");
        }
        catch (Exception e) when (e is SqliteException { SqliteErrorCode: 1 or 11 or 14 or 26 } or StoreRefusal { Cause: RefusalCause.CannotOpen })
        {
            // Taken away since it was held: then that is what happened.
            Hold();
            throw StoreRefusal.Moved(file, "a file that was written over");
        }
    }
}
