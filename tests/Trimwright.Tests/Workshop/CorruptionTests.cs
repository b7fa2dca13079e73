using Trimwright.App.Commands;
using Trimwright.App.Faults;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>
/// 24 things that a disk, a copy or a hand does to a store's files: the program says so in a sentence or shows everything that was
/// acknowledged, never something else, and the backup that lies elsewhere works each time.
/// </summary>
public class CorruptionTests(CorruptionTests.Made made) : IClassFixture<CorruptionTests.Made>
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

    // What begins with "the log" or "the index", or ends with "a log beside it", happens to a store whose program was killed; all else to
    // one that was closed, with everything in its file.
    private static readonly (string What, Action<string> Do)[] All =
    [
        ("the file gone, a log beside it", store => File.Delete(store)),
        ("the file empty, a log beside it", store => Change(store, _ => [])),
        ("the file a letter", store => Change(store, _ => "Dear store"u8.ToArray())),
        ("the file cut in its header", store => Change(store, bytes => bytes[..60])),
        ("the file cut in its first page", store => Change(store, bytes => bytes[..1000])),
        ("the file cut in half, a log beside it", store => Change(store, bytes => bytes[..(bytes.Length / 2)])),
        ("the file cut by a byte", store => Change(store, bytes => bytes[..^1])),
        ("the file with zeros for its first page", store => Change(store, Zeroed(0, Page))),
        ("the file with zeros for its second page", store => Change(store, Zeroed(Page, Page))),
        ("the file with noise for its third page", store => Change(store, Noise(2 * Page, Page))),
        ("the file with noise at its end, a log beside it", store => Change(store, bytes => [.. bytes, .. bytes[..777]])),
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

    /// <summary>One store for all of them, made once: acknowledged writes, a backup elsewhere, and more writes; once killed, once closed.</summary>
    public sealed class Made : IDisposable
    {
        private readonly TempStore closed = new(), killed = new(), elsewhere = new();

        public Made()
        {
            Before = Load("3", 30);
            using (Store store = killed.Open()) store.BackUp(Backup);
            After = Load("4", 15);
            foreach (string part in (string[])["", "-wal"]) File.Copy(killed.Path + part, closed.Path + part);
            closed.Open().Dispose();
        }

        /// <summary>Acknowledged before the backup, and after it.</summary>
        public string[] Before { get; }

        public string[] After { get; }

        public string Backup => elsewhere.In("backup.trimwright");

        public string Folder(bool isKilled) => (isKilled ? killed : closed).Folder;

        private string[] Load(string seed, int least)
        {
            using var writer = new Writer("load", killed.Path, seed);
            writer.AwaitLines(least);
            return writer.Kill();
        }

        public void Dispose()
        {
            foreach (TempStore temp in (TempStore[])[closed, killed, elsewhere]) temp.Dispose();
        }
    }

    [Fact]
    public void There_are_24() => Assert.Equal(24, All.Select(one => one.What).Distinct().Count());

    [Theory]
    [MemberData(nameof(Names))]
    public void It_is_said_or_harmless_and_the_backup_elsewhere_works(string what)
    {
        bool log = what.StartsWith("the log", StringComparison.Ordinal), index = what.StartsWith("the index", StringComparison.Ordinal);
        string from = made.Folder(log || index || what.EndsWith("a log beside it", StringComparison.Ordinal));
        using var temp = new TempStore();
        foreach (string file in Directory.GetFiles(from)) File.Copy(file, temp.In(Path.GetFileName(file)));
        All.First(one => one.What == what).Do(temp.Path);

        // Looking: a sentence or what was kept; a fault of our own never.
        string out1 = temp.In("out.json"), out2 = temp.In("out.trimwright");
        foreach ((string name, Action look) in ((string, Action)[])
            [("list", () => Keep.List(temp.Path, _ => { })), ("check", () => Keep.Check(temp.Path, _ => { })),
                ("export", () => Keep.Export(temp.Path, out1, null, null, true, _ => { })), ("backup", () => Keep.BackUp(temp.Path, out2, true, _ => { }))])
            if (Record.Exception(look) is { } said)
                Assert.True(said is Refusal { Exit: Exit.InputWrong or Exit.MachineRefused }, $"{name}: {said}");
        if (Tier.IsCi)
        {
            TheProgram.Ran ran = TheProgram.Run("store", "list", "--store", temp.Path);
            Assert.True(ran.Exit is 0 or 1 or 4, $"{ran.Exit} {ran.Error}");
            Assert.DoesNotContain("   at ", ran.Error + ran.Out);
        }
        // Opening: everything, or a sentence; of a log that a disk lost, a prefix.
        string outcome;
        try
        {
            using Store store = Store.Open(temp.Path);
            if (store.Check() is { } fault)
            {
                outcome = "opened, and check says: " + fault.Got;
            }
            else if (what.StartsWith("the file gone", StringComparison.Ordinal))
            {
                Assert.Empty(store.Lures(withPutAway: true));
                outcome = "a new store; the log is kept aside";
                Assert.Single(Directory.GetFiles(temp.Folder, "*log-of-another*"));
            }
            else
            {
                int revisions = Writer.CheckWhole(store, texts: true);
                Writer.CheckAcks(store, made.Before);
                if (!log) Writer.CheckAcks(store, made.After);
                outcome = $"whole, {revisions} revisions";
            }
        }
        catch (StoreRefusal e)
        {
            outcome = e.Message;
            Assert.False(index);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{what}: {outcome}");
        // Elsewhere, and in its place: everything up to the backup.
        using (var elsewhere = new TempStore())
        {
            Assert.Null(Store.Restore(elsewhere.Path, made.Backup));
            using Store store = elsewhere.Open();
            Writer.CheckAll(store, made.Before);
        }
        if (Record.Exception(() => Store.Restore(temp.Path, made.Backup)) is { } refused)
        {
            // Left as it is: it says that it is another program's, or a newer one's.
            Assert.True(refused is StoreRefusal { Cause: RefusalCause.NotAStore or RefusalCause.TooNew }, $"{refused}");
            return;
        }
        using (Store store = temp.Open()) Writer.CheckAll(store, made.Before);
    }
}
