using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>
/// What a pulled plug leaves: the log as far as it reached the disk, then nothing, or whatever lay there before. Killing a
/// process can't show that, since the system still writes what a dead process had handed to it.
/// </summary>
public class CutLogTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_log_cut_at_any_byte_under_load_opens_whole_with_a_prefix_of_what_was_written(bool afterCheckpoint)
    {
        using var temp = new TempStore();
        var random = new Random(afterCheckpoint ? 5 : 4);
        using Store store = temp.Open();
        var writing = new Load(store);
        for (int i = 0; i < 25; i++) writing.Once();
        // From here on nothing moves from the log into the file: a reader stands in the way. So every cut is one that a
        // plug could make, since what has moved was flushed before it moved. After a checkpoint the log starts over, and
        // frames of its last round lie beyond those of this one.
        if (afterCheckpoint)
            using (SqliteConnection other = Connections.OpenForWriting(temp.Path))
                // Its first column is 1 while somebody, the store's own watch for one, still reads: then only a part has moved.
                Patience.Until(() => other.Number("PRAGMA wal_checkpoint(RESTART)") == 0, "the log never came to its start");
        using SqliteConnection standing = Connections.OpenForReading(temp.Path);
        using SqliteTransaction held = standing.BeginTransaction(deferred: true);
        int fixedBefore = (int)standing.Number("SELECT count(*) FROM revision")!.Value, least = afterCheckpoint ? fixedBefore : 0;

        using var stop = new CancellationTokenSource();
        Task load = Task.Run(() =>
        {
            while (!stop.IsCancellationRequested && writing.Acknowledged < 300) writing.Once();
        });
        // Until the first write after the checkpoint the old round still stands in the log, whole on the disk since before it moved:
        // to cut that one is nothing that a plug could do.
        if (afterCheckpoint) Patience.Until(() => writing.Acknowledged > fixedBefore, "the load never wrote");
        int cuts = Tier.Count(8, 100, 2000), shortest = int.MaxValue, longest = 0;
        using var aside = new TempStore();
        for (int cut = 0; cut < cuts; cut++)
        {
            Patience.Moment(random.Next(4));
            int acknowledged = writing.Acknowledged;
            byte[] file = Bytes(temp.Path), log = Bytes(temp.Path + "-wal");
            // Every fifth copy keeps its log whole: then whatever was acknowledged before must be there.
            bool whole = cut % 5 == 0;
            int length = whole ? log.Length : random.Next(log.Length + 1);
            File.WriteAllBytes(aside.Path, file);
            File.WriteAllBytes(aside.Path + "-wal", Torn(log, length, random));
            File.Delete(aside.Path + "-shm");
            using (Store copy = aside.Open())
            {
                int kept = Writer.CheckWhole(copy, texts: true);
                Assert.InRange(kept, whole ? acknowledged : least, writing.Acknowledged + 1);
                (shortest, longest) = (Math.Min(shortest, kept), Math.Max(longest, kept));
            }
        }
        stop.Cancel();
        Assert.Null(load.Exception);
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{cuts} cuts of a log of {new FileInfo(temp.Path + "-wal").Length} bytes; {shortest} to {longest} revisions left of {writing.Acknowledged}, {fixedBefore} before the first cut");
        Assert.True(longest > fixedBefore, "nothing was written while the copies were made");
        Assert.True(shortest < fixedBefore || afterCheckpoint, "no cut reached what had been written");
    }

    // Cut short, or as long as before with noise or zeros from the cut on, as a disk may leave it.
    private static byte[] Torn(byte[] log, int length, Random random)
    {
        if (random.Next(3) == 0) return log[..length];
        byte[] torn = [.. log];
        if (random.Next(2) == 0) random.NextBytes(torn.AsSpan(length));
        else torn.AsSpan(length).Clear();
        return torn;
    }

    private static byte[] Bytes(string path)
    {
        using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    private sealed class Load(Store store)
    {
        private long lure;
        private int onto;

        public int Acknowledged => Volatile.Read(ref onto);

        public void Once()
        {
            string edit = EditId.New();
            Saved<LureDesign> saved = lure == 0 ? store.NewLure(LoadDesign.Of(edit), edit, "load") : store.Save(lure, onto, LoadDesign.Of(edit), edit, "load");
            Revision<LureDesign> revision = ((Saved<LureDesign>.Done)saved).Revision;
            lure = revision.Owner;
            Volatile.Write(ref onto, revision.N);
        }
    }
}
