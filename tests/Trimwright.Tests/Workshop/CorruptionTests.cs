using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>
/// 24 things that a disk, a copy or a hand does to a store's files: the program says so in a sentence or shows everything that was
/// acknowledged, never something else, and the backup that lies elsewhere works each time.
/// </summary>
public class CorruptionTests
{
    private const int Page = 4096;

    private static void Change(string file, Func<byte[], byte[]> change) => File.WriteAllBytes(file, change(File.ReadAllBytes(file)));

    private static Func<byte[], byte[]> Zeroed(int from, int length) => bytes =>
    {
        bytes.AsSpan(Math.Min(from, bytes.Length), Math.Min(length, bytes.Length - Math.Min(from, bytes.Length))).Clear();
        return bytes;
    };

    private static Func<byte[], byte[]> Noise(int from, int length) => bytes =>
    {
        new Random(31).NextBytes(bytes.AsSpan(Math.Min(from, bytes.Length), Math.Min(length, bytes.Length - Math.Min(from, bytes.Length))));
        return bytes;
    };

    private static Func<byte[], byte[]> Flipped(int at, int bit) => bytes =>
    {
        bytes[at] ^= (byte)(1 << bit);
        return bytes;
    };

    // Of a store whose program was killed: the file, its log and its index.
    private static readonly (string What, Action<string> Do)[] All =
    [
        ("the file gone", store => File.Delete(store)),
        ("the file empty", store => Change(store, _ => [])),
        ("the file a letter", store => Change(store, _ => "Dear store"u8.ToArray())),
        ("the file cut in its header", store => Change(store, bytes => bytes[..60])),
        ("the file cut in its first page", store => Change(store, bytes => bytes[..1000])),
        ("the file cut in half", store => Change(store, bytes => bytes[..(bytes.Length / 2)])),
        ("the file cut by a byte", store => Change(store, bytes => bytes[..^1])),
        ("the file with zeros for its first page", store => Change(store, Zeroed(0, Page))),
        ("the file with zeros for its second page", store => Change(store, Zeroed(Page, Page))),
        ("the file with noise for its third page", store => Change(store, Noise(2 * Page, Page))),
        ("the file with noise at its end", store => Change(store, bytes => [.. bytes, .. bytes[..777]])),
        ("the file's size of a page flipped", store => Change(store, Flipped(16, 4))),
        ("the file's version flipped upwards", store => Change(store, Flipped(63, 6))),
        ("the file's program flipped", store => Change(store, Flipped(70, 1))),
        ("the file all zeros", store => Change(store, bytes => new byte[bytes.Length])),
        ("the log gone", store => File.Delete(store + "-wal")),
        ("the log empty", store => Change(store + "-wal", _ => [])),
        ("the log cut in its header", store => Change(store + "-wal", bytes => bytes[..20])),
        ("the log cut in half", store => Change(store + "-wal", bytes => bytes[..(bytes.Length / 2)])),
        ("the log with noise in its midst", store => Change(store + "-wal", bytes => Noise(bytes.Length / 2, 500)(bytes))),
        ("the log with its header flipped", store => Change(store + "-wal", Flipped(17, 3))),
        ("the log all noise", store => Change(store + "-wal", bytes => Noise(0, bytes.Length)(bytes))),
        ("the index all noise", store => Change(store + "-shm", bytes => Noise(0, bytes.Length)(bytes))),
        ("the index gone", store => File.Delete(store + "-shm")),
    ];

    public static TheoryData<string> Names => [.. All.Select(one => one.What)];

    // One store for all of them, made once: acknowledged writes, some in the file, some in its log, and a backup elsewhere.
    private static readonly Lazy<(TempStore Kept, string[] Before, string[] After)> Made = new(() =>
    {
        var temp = new TempStore();
        string[] before;
        using (var writer = new Writer("load", temp.Path, "3"))
        {
            writer.AwaitLines(30, TimeSpan.FromSeconds(60));
            before = writer.Kill();
        }
        using (Store store = temp.Open()) store.BackUp(temp.In("elsewhere.trimwright"));
        string[] after;
        using (var writer = new Writer("load", temp.Path, "4"))
        {
            writer.AwaitLines(15, TimeSpan.FromSeconds(60));
            after = writer.Kill();
        }
        return (temp, before, after);
    });

    [Fact]
    public void There_are_24() => Assert.Equal(24, All.Length);

    [Theory]
    [MemberData(nameof(Names))]
    public void It_is_said_or_harmless_and_the_backup_elsewhere_works(string what)
    {
        (TempStore kept, string[] before, string[] after) = Made.Value;
        using var temp = new TempStore();
        foreach (string part in (string[])["", "-wal", "-shm"]) File.Copy(kept.Path + part, temp.Path + part);
        All.First(one => one.What == what).Do(temp.Path);
        bool onlyLog = what.StartsWith("the log", StringComparison.Ordinal), onlyIndex = what.StartsWith("the index", StringComparison.Ordinal);

        // Looking: a sentence or what was kept; a fault of our own never.
        foreach (string[] words in (string[][])[["list"], ["check"], ["export", temp.In("out.json"), "--force"], ["backup", temp.In("out.trimwright"), "--force"]])
        {
            TheProgram.Ran ran = TheProgram.Run(["store", .. words, "--store", temp.Path]);
            Assert.True(ran.Exit is 0 or 1 or 4, $"{words[0]}: {ran.Exit} {ran.Error}");
            Assert.DoesNotContain("   at ", ran.Error + ran.Out);
            if (ran.Exit != 0) Assert.Contains("allowed:", ran.Error);
        }
        // Opening: as SQLite brings it back, a prefix without a gap, or a sentence.
        StoreRefusal? refusal = null;
        bool whole = false;
        try
        {
            using Store store = Store.Open(temp.Path);
            whole = store.Check() is null && store.Lures(withPutAway: true).Count > 0;
            if (whole)
            {
                int revisions = Writer.CheckWhole(store, texts: true);
                // A log that a disk lost takes what was in it along; the file alone, and with its log, loses nothing.
                if (!onlyLog) Writer.CheckAcks(store, after);
                Writer.CheckAcks(store, onlyLog ? before.Take(revisions / 2) : before);
            }
        }
        catch (StoreRefusal e)
        {
            refusal = e;
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{what}: {(refusal is not null ? refusal.Message : whole ? "whole" : "said by check, or empty")}");
        if (onlyIndex) Assert.True(whole);
        // Elsewhere, and in its place: everything up to the backup.
        string backup = kept.In("elsewhere.trimwright");
        using (var elsewhere = new TempStore())
        {
            Assert.Null(Store.Restore(elsewhere.Path, backup));
            using Store store = elsewhere.Open();
            Writer.CheckAll(store, before);
        }
        bool takesIt = Record.Exception(() => Store.Restore(temp.Path, backup)) switch
        {
            null => true,
            // Left as it is: it says that it is another's, or a newer program's.
            StoreRefusal { Cause: RefusalCause.NotAStore or RefusalCause.TooNew } => false,
            Exception e => throw e,
        };
        if (!takesIt) return;
        using (Store store = temp.Open()) Writer.CheckAll(store, before);
    }
}
