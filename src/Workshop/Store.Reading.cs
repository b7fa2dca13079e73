using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>Opening a store only to read it, wherever it lies and however little can be written beside it.</summary>
public sealed partial class Store
{
    // What a copy is made from: the store as it lies, before it was brought up to date in memory.
    private readonly SqliteConnection asItLies;

    private Store(string path, ToRead found, TimeProvider clock)
    {
        (Path, asItLies, ReadThroughCopy, this.clock, version) = (path, found.Db, found.Why, clock, Version);
        reader = UpToDate(found.Db, path, clock);
    }

    /// <summary>Why the store itself could not be opened and a copy of it in memory is read, as a sentence; else null.</summary>
    public string? ReadThroughCopy { get; }

    /// <summary>
    /// Opens a store only to read it. None is made, none is changed: an older one is brought up to date in memory. Where SQLite can't
    /// open it, since nothing can be written beside it (a full disk, one that may only be read), it is read through a copy.
    /// </summary>
    /// <param name="path">Its file.</param>
    /// <param name="room">A folder that may have room for a moment if the usual ones have none.</param>
    /// <param name="clock">The maker's clock; the system's when left out.</param>
    public static Store OpenToRead(string path, string? room = null, TimeProvider? clock = null)
    {
        string file = Files.Real(path);
        try
        {
            if (StoreHeader.Look(file) is not { } header)
                throw !File.Exists(file) ? StoreRefusal.NotThere(file)
                    : StoreHeader.LogWaits(file) ? StoreRefusal.Damaged(file, "an empty file with a log beside it") : StoreRefusal.NotAStore(file, "an empty file");
            ToRead found = ToRead.Find(file, header, room);
            try
            {
                StoreHeader.Of(found.Db).Judge(file, Version);
                return new Store(file, found, clock ?? TimeProvider.System);
            }
            catch
            {
                found.Db.Dispose();
                throw;
            }
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(file, e);
        }
    }

    private static SqliteConnection UpToDate(SqliteConnection lies, string path, TimeProvider clock)
    {
        if (lies.Number("PRAGMA user_version") == Version) return lies;
        SqliteConnection memory = Connections.OpenInMemory();
        try
        {
            lies.BackupDatabase(memory);
            Migrations.Ours.Bring(memory, path, clock, keepCopy: false);
            return memory;
        }
        catch
        {
            memory.Dispose();
            throw;
        }
    }
}

/// <summary>A connection that a store can be read by, and why it is one to a copy, if it is.</summary>
internal readonly record struct ToRead(SqliteConnection Db, string? Why)
{
    private const int Tries = 5, PauseMs = 60;

    private const string Copy = "copy";

    /// <summary>The store itself if that can be; else a copy in memory, of the file and of what waits in the log beside it.</summary>
    /// <param name="file">The store.</param>
    /// <param name="header">What its file says.</param>
    /// <param name="room">One more folder to lay a log open in.</param>
    public static ToRead Find(string file, StoreHeader header, string? room)
    {
        // A finished copy: nobody writes it, and nothing of it lies elsewhere.
        if (!header.HasLog) return new(Copied(file, () => Connections.OpenAsItIs(file)), null);
        if (FileMark.Of(file) is { Names: > 1 and var names })
            return new(Through(file, room), $"{file}: it has {names} names (hard links); what is written under another one at this moment is not seen under this");
        string[] beside = [file + "-wal", file + "-shm"];
        bool[] were = [.. beside.Select(File.Exists)];
        try
        {
            // A newer one is left before anything is opened that tidies up when it is closed.
            _ = StoreHeader.Admit(file, Store.Version);
            return new(Tried(Connections.OpenForReading(file)), null);
        }
        catch (Exception e) when (NothingCanBeWritten(e))
        {
            // Half of an index that found no room.
            for (int i = 0; i < beside.Length; i++)
                if (!were[i]) Files.TryDelete(beside[i]);
            if (ByAnothersIndex(file, were[1]) is { } live) return new(live, null);
            string why = (e is SqliteException s ? StoreRefusal.Of(file, s).Fault : ((StoreRefusal)e).Fault).Got;
            return new(Through(file, room), $"{file}: opening it failed ({why}); it was read through a copy in memory, with everything that was saved");
        }
    }

    // Results of SQLite that say so: no permission, read-only, a fault in writing, full, can't open, not authorised; and a setting that was not taken.
    private static bool NothingCanBeWritten(Exception e) => e is SqliteException { SqliteErrorCode: 3 or 8 or 10 or 13 or 14 or 23 } or StoreRefusal { Cause: RefusalCause.CannotOpen };

    private static SqliteConnection Tried(SqliteConnection db)
    {
        try
        {
            db.One("SELECT count(*) FROM sqlite_schema");
            return db;
        }
        catch
        {
            db.Dispose();
            throw;
        }
    }

    // Somebody who may write has it open: then the index is there, and may be read by whom they let.
    private static SqliteConnection? ByAnothersIndex(string file, bool isThere)
    {
        if (!isThere) return null;
        try
        {
            return Tried(Connections.OpenToLook(file));
        }
        catch (SqliteException)
        {
            return null;
        }
    }

    // Opened where nobody's lock is asked for: if anybody wrote meanwhile, it shows, and it is done again.
    private static SqliteConnection Copied(string file, Func<SqliteConnection> open)
    {
        for (int i = 0; i < Tries; i++)
        {
            (FileMark? File, FileMark? Log) before = Marks(file);
            SqliteConnection memory = Connections.OpenInMemory();
            try
            {
                using (SqliteConnection lying = open()) lying.BackupDatabase(memory);
                if (Marks(file) == before) return memory;
            }
            catch (SqliteException) when (Marks(file) != before)
            {
                // Torn by whoever wrote.
            }
            catch
            {
                memory.Dispose();
                throw;
            }
            memory.Dispose();
            Thread.Sleep(PauseMs);
        }
        throw StoreRefusal.Of(file, new SqliteException("", 5));
    }

    private static (FileMark?, FileMark?) Marks(string file) => (FileMark.Of(file), FileMark.Of(file + "-wal"));

    /// <summary>
    /// A copy in memory of a store that can't be opened where it lies. A log can't be read without an index beside it: where one waits,
    /// both are laid in a folder of their own for a moment.
    /// </summary>
    public static SqliteConnection Through(string file, string? room)
    {
        if (!StoreHeader.LogWaits(file)) return Copied(file, () => Connections.OpenAsItIs(file));
        Exception? why = null;
        foreach (string? place in (ReadOnlySpan<string?>)[Path.GetTempPath(), room, OperatingSystem.IsLinux() ? "/dev/shm" : null])
        {
            if (place is null || !Directory.Exists(place)) continue;
            string folder = Path.Combine(place, "trimwright-" + EditId.New()), copy = Path.Combine(folder, Copy);
            try
            {
                Files.MakeFolder(folder);
                return Copied(file, () =>
                {
                    foreach (string part in (ReadOnlySpan<string>)["", "-wal"]) Lay(file + part, copy + part);
                    Files.TryDelete(copy + "-shm");
                    return Connections.OpenForReading(copy);
                });
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException || NothingCanBeWritten(e))
            {
                why = e;
            }
            finally
            {
                foreach (string part in (ReadOnlySpan<string>)["", "-wal", "-shm"]) Files.TryDelete(Path.Combine(folder, Copy + part));
                Files.TryDeleteFolder(folder);
            }
        }
        throw StoreRefusal.NoRoomToRead(file, Path.GetTempPath(), why);
    }

    private static void Lay(string from, string to)
    {
        Files.TryDelete(to);
        using var source = new FileStream(from, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using FileStream copy = Files.Create(to);
        source.CopyTo(copy);
    }
}
