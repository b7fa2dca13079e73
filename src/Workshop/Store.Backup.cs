using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;

namespace Trimwright.Workshop;

/// <summary>Backup and restore, each to and from one file.</summary>
public sealed partial class Store
{
    /// <summary>
    /// Copies the whole store into one file while others go on reading and writing. The file gets its name only when the copy
    /// is finished and was found whole.
    /// </summary>
    public void BackUp(string to)
    {
        to = System.IO.Path.GetFullPath(to);
        if (IsSelf(to)) throw new ArgumentException("a store is not backed up onto itself", nameof(to));
        Read(_ =>
        {
            Copies.Make(asItLies, Path, to);
            return 0;
        });
    }

    /// <summary>Whether a name is that of the store itself, or of what lies beside it.</summary>
    public bool IsSelf(string file)
    {
        string real = Files.Real(file);
        return new[] { Path, Path + "-wal", Path + "-shm" }.Any(own => own == real || (FileMark.Of(own) is { } mark && mark.IsSame(FileMark.Of(real))));
    }

    /// <summary>
    /// Puts a backup in a store's place. Everything is checked on a copy first: that it is a store, not a newer one, with the
    /// tables that its version should have and without damage or gap. What is replaced is kept beside it.
    /// </summary>
    /// <param name="store">The store's file; need not be there.</param>
    /// <param name="from">The backup; it is only read.</param>
    /// <param name="clock">For the name of what is kept.</param>
    /// <returns>Where the replaced store lies, null when there was none.</returns>
    public static string? Restore(string store, string from, TimeProvider? clock = null)
    {
        store = Files.Real(store);
        clock ??= TimeProvider.System;
        string fresh = store + ".restoring";
        try
        {
            if (!File.Exists(from)) throw StoreRefusal.NotAStore(from, "no such file");
            Files.MakeFolder(System.IO.Path.GetDirectoryName(store)!);
            CopyAside(from, fresh);
            Examine(fresh, from, clock);
            return Swap(store, fresh, clock);
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(store, e);
        }
        finally
        {
            Files.TryDelete(fresh, fresh + "-wal", fresh + "-shm", fresh + "-journal");
        }
    }

    // A raw copy of a live store has its log beside it, and the last commits in it.
    private static void CopyAside(string from, string fresh)
    {
        foreach (string part in (ReadOnlySpan<string>)["", "-wal"])
        {
            Files.TryDelete(fresh + part);
            if (!File.Exists(from + part) || (part.Length > 0 && StoreHeader.Look(from) is { HasLog: false })) continue;
            using var source = new FileStream(from + part, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using FileStream copy = Files.Create(fresh + part);
            source.CopyTo(copy);
        }
    }

    private static void Examine(string fresh, string from, TimeProvider clock)
    {
        try
        {
            if (StoreHeader.Admit(fresh, Version) is not { Application: StoreHeader.Ours }) throw StoreRefusal.NotAStore(from, "an empty file");
            if (StoreHeader.IsCutShort(fresh)) throw StoreRefusal.Damaged(from, "a file that was cut short");
            if (!Seal.TakeOff(fresh)) throw StoreRefusal.Damaged(from, "a file that is not as it was when the backup was finished");
            using SqliteConnection copy = Connections.OpenForWriting(fresh);
            if (Migrations.Ours.Differs(copy) is { } thing) throw StoreRefusal.NotAStore(from, $"a database whose {thing} is not as a store's");
            if (Health.Of(copy) is { } damage) throw StoreRefusal.Damaged(from, damage);
            Migrations.Ours.Bring(copy, fresh, clock, keepCopy: false);
            copy.Do("PRAGMA journal_mode = DELETE");
        }
        catch (SqliteException e)
        {
            throw StoreRefusal.Of(from, e);
        }
        catch (StoreRefusal e) when (e.Fault.Path == fresh)
        {
            throw new StoreRefusal(e.Cause, e.Fault with { Path = from }, e);
        }
    }

    private static string? Swap(string store, string fresh, TimeProvider clock)
    {
        StoreHeader? header;
        try
        {
            header = StoreHeader.Admit(store, Version);
        }
        catch (SqliteException e) when (e.SqliteErrorCode is 1 or 11 or 26)
        {
            // With a log beside it, it is SQLite that looks, and finds it damaged.
            return ReplaceDamaged(store, fresh, clock);
        }
        catch (StoreRefusal e) when (e.Cause == RefusalCause.Damaged)
        {
            return ReplaceDamaged(store, fresh, clock);
        }
        if (header is null)
        {
            // A log left behind by a store that is gone would be played into the new one.
            Copies.PutStrayLogAside(store, clock);
            Files.TryDelete(store + "-wal", store + "-shm");
            Files.Name(fresh, store);
            return null;
        }
        string? whole = null;
        try
        {
            string kept = Copies.Beside(store, "before-restore", clock);
            Copies.Make(store, kept);
            whole = kept;
            // Page by page into the living store, in one transaction: others see the old one or the new one, and no file is
            // pulled from under them.
            using SqliteConnection source = Connections.OpenPlain(fresh);
            using SqliteConnection target = Connections.OpenForWriting(store);
            source.BackupDatabase(target);
            return whole;
        }
        catch (Exception e) when (whole is null && (e is SqliteException { SqliteErrorCode: 11 or 26 or 1 } or StoreRefusal { Cause: RefusalCause.Damaged or RefusalCause.NotAStore }))
        {
            return ReplaceDamaged(store, fresh, clock);
        }
    }

    private static string ReplaceDamaged(string store, string fresh, TimeProvider clock)
    {
        using FirstStart? alone = FirstStart.Take(store);
        if (alone is null)
            throw new StoreRefusal(RefusalCause.Busy, new Fault("store", store, "a damaged store that Trimwright has open", "a store that nobody has open",
                "Close Trimwright everywhere and restore again."));
        string aside = Copies.Beside(store, "damaged", clock);
        foreach (string part in (ReadOnlySpan<string>)["", "-wal", "-shm"])
            if (File.Exists(store + part)) File.Move(store + part, aside + part);
        Files.Name(fresh, store);
        return aside;
    }
}
