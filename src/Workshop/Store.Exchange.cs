using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace Trimwright.Workshop;

/// <summary>What an import did.</summary>
/// <param name="Lures">Lures that were not there.</param>
/// <param name="Revisions">Revisions of lures and box that were added, those of new lures among them.</param>
/// <param name="Builds">Builds that were not there.</param>
/// <param name="Entries">Log entries that were not there.</param>
/// <param name="Photos">Photos that were not there.</param>
/// <param name="Differing">What has gone different ways here and in the file, and was left as it is here.</param>
public sealed record Imported(int Lures, int Revisions, int Builds, int Entries, int Photos, IReadOnlyList<string> Differing);

/// <summary>Everything as JSON, out and in.</summary>
public sealed partial class Store
{
    /// <summary>Writes everything as one JSON object: designs as their files, so that any program can read them.</summary>
    public void Export(Stream to) => ReadAtOnce(db =>
    {
        using var json = new Utf8JsonWriter(to, new JsonWriterOptions { Indented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        ExportFile.Write(json, db, Moment.Now(clock));
        return 0;
    });

    /// <summary>Writes everything into a file, a revision at a time; it gets its name only when it is finished and on the disk.</summary>
    public void Export(string file)
    {
        using var whole = new WholeFiles(replace: true, forMe: true);
        FileStream to;
        try
        {
            to = whole.Begin(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(file, e);
        }
        try
        {
            Export(to);
            whole.Finish();
        }
        catch (StoreRefusal e) when (e.InnerException is IOException and not FileNotFoundException)
        {
            // Said of the store by whoever was reading it, but it is the file that could not be written.
            throw StoreRefusal.Of(file, e.InnerException);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(file, e);
        }
    }

    /// <summary>
    /// Adds what an export holds and this store lacks, in one transaction; doing it twice adds nothing. It is read a record at a
    /// time, and a fault anywhere undoes the transaction: nothing of it is taken in.
    /// </summary>
    /// <returns>What was added, or the faults.</returns>
    public Core.Design.Reading<Imported> Import(Stream from)
    {
        if (from.CanSeek) return Import(new LongJson(from));
        // Sections may stand in any order, so the file is gone through more than once.
        using var aside = new FileStream(System.IO.Path.GetTempFileName(), FileMode.Open, FileAccess.ReadWrite, FileShare.None, 64 * 1024, FileOptions.DeleteOnClose);
        from.CopyTo(aside);
        return Import(new LongJson(aside));
    }

    internal Core.Design.Reading<Imported> Import(LongJson file) =>
        ImportReader.Read(file, work => InTransaction(db => (work(db), true)));
}
