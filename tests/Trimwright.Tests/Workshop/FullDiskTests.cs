using System.Text;
using Trimwright.App.Commands;
using Trimwright.App.Faults;
using Trimwright.Core.Design;
using Trimwright.StoreWriter;
using Trimwright.Tests.App;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>
/// A disk that fills up at each of 20 points of a save, an export and a sheet of paper: nothing acknowledged is lost, no half file
/// stays, a backup elsewhere works at that very moment, and with room again the next try goes through.
/// </summary>
public class FullDiskTests
{
    private const int Points = 20, PageKb = 4, RoomKb = 4096;

    // All of them in the CI tier; in the quick one every fifth, the last among them.
    private static IEnumerable<int> AllPoints => Enumerable.Range(0, Points).Where(p => Tier.IsCi || p % 5 == 4);

    [Fact]
    public void At_each_of_20_points_of_a_save()
    {
        int refused = 0, kept = 0;
        foreach (int point in AllPoints)
        {
            using var disk = new TinyDisk(RoomKb);
            Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
            using var elsewhere = new TempStore();
            var acks = new List<string>();
            using (Store store = Store.Open(disk.Store))
            {
                for (int i = 0; i < 3; i++) Acknowledged(store.NewLure(LoadDesign.Of($"before-{i:00}"), $"before-{i:00}", "new"), acks);
            }
            // Opened anew, the log begins anew: from no room at all to more than a save of 20 kB takes, a page at a time.
            bool opened = point / 2 % 2 == 1;
            Store? open = opened ? Store.Open(disk.Store) : null;
            disk.FillBut("ballast", point * PageKb);
            try
            {
                open ??= Store.Open(disk.Store);
                Acknowledged(open.Save(1, 1, LoadDesign.Of("at-point"), "at-point-1", "more"), acks);
                kept++;
            }
            catch (StoreRefusal refusal)
            {
                Assert.Equal(RefusalCause.DiskFull, refusal.Cause);
                refused++;
            }
            // While it is full: everything acknowledged goes into a backup elsewhere, from within and by the command line.
            open?.BackUp(elsewhere.In("from-within"));
            TheProgram.Ran ran = TheProgram.Run("store", "backup", elsewhere.In("from-outside"), "--store", disk.Store);
            Assert.True(ran.Exit == 0, $"point {point}: {ran.Error}");
            open?.Dispose();
            foreach (string copy in Directory.GetFiles(elsewhere.Folder))
                using (Store read = Store.OpenToRead(copy)) Writer.CheckAcks(read, acks);
            Assert.Empty(Directory.GetFiles(disk.Folder).Select(f => Path.GetFileName(f)!).Except(["ballast", "workshop.trimwright", "workshop.trimwright-wal", "workshop.trimwright-shm"]));
            File.Delete(Path.Combine(disk.Folder, "ballast"));
            using (Store store = Store.Open(disk.Store))
            {
                Writer.CheckAll(store, acks);
                int onto = store.Newest(1)!.N;
                Acknowledged(store.Save(1, onto, LoadDesign.Of("after-it"), "after-it-1", "more"), acks);
            }
            using (Store store = Store.Open(disk.Store)) Writer.CheckAll(store, acks);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"a save at {AllPoints.Count()} points: {refused} refused, {kept} kept");
        Assert.True(refused > 0 && kept > 0, $"{refused} refused, {kept} kept: the points miss the save");
    }

    [Theory]
    [InlineData("export")]
    [InlineData("backup")]
    public void At_each_of_20_points_of_a_copy(string what)
    {
        using var temp = new TempStore();
        using Store store = temp.Open();
        for (int i = 0; i < 20; i++) store.NewLure(LoadDesign.Of($"lure-{i:000}"), $"lure-{i:000}", "new");
        Filled((path, _) =>
        {
            try
            {
                if (what == "export") store.Export(path);
                else store.BackUp(path);
                return null;
            }
            catch (StoreRefusal refusal)
            {
                Assert.Equal(RefusalCause.DiskFull, refusal.Cause);
                return refusal.Fault;
            }
        }, what, replaceable: true);
        Assert.Equal(20, store.Lures().Count);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void At_each_of_20_points_of_a_pdf_with_its_companions(bool force)
    {
        Outside.NeedType();
        string lure = Path.Combine(Here.Root, "demo", "tidegate-185.lure.json");
        Filled((path, overwrite) =>
        {
            try
            {
                BuildPlanCommand.Write(new()
                {
                    File = lure, Start = "2026-11-28T18:00+01:00", Pockets = "after", Units = "mm", PaperSize = "a4", Pdf = path, Calendar = path + ".ics", Text = path + ".txt", Force = overwrite,
                }, 80, default);
                return null;
            }
            catch (Refusal refusal)
            {
                Assert.Equal(Exit.MachineRefused, refusal.Exit);
                return refusal.Faults[0];
            }
        }, "plan.pdf", force);
    }

    /// <summary>Writes onto disks with ever more room, from none to all that is wanted.</summary>
    /// <param name="write">Writes under a name, maybe over what is there; null when it did, else why not.</param>
    /// <param name="name">The file's name.</param>
    /// <param name="replaceable">Whether there is one of that name already, to be replaced.</param>
    private static void Filled(Func<string, bool, Fault?> write, string name, bool replaceable)
    {
        long need;
        using (var temp = new TempStore())
        {
            Assert.Null(write(temp.In(name), false));
            need = Directory.GetFiles(temp.Folder).Sum(file => new FileInfo(file).Length / 1024 + PageKb);
        }
        int refused = 0, written = 0;
        foreach (int point in AllPoints)
        {
            using var disk = new TinyDisk(RoomKb);
            Assert.SkipWhen(disk.Why is not null, $"no small disk could be mounted: {disk.Why}");
            string path = Path.Combine(disk.Folder, name);
            if (replaceable) File.WriteAllText(path, "what was there");
            disk.FillBut("ballast", (int)(need * 1.1 * point / (Points - 1)));
            string[] before = Directory.GetFileSystemEntries(disk.Folder);
            Fault? fault = write(path, replaceable);
            if (fault is null)
            {
                written++;
                Assert.True(new FileInfo(path).Length > 100);
            }
            else
            {
                refused++;
                Assert.Equal("a full disk", fault.Got);
                Assert.Equal(before, Directory.GetFileSystemEntries(disk.Folder));
                if (replaceable) Assert.Equal("what was there", File.ReadAllText(path));
            }
            File.Delete(Path.Combine(disk.Folder, "ballast"));
            // The next try is in nobody's way.
            if (fault is not null) Assert.Null(write(path, replaceable));
            Assert.DoesNotContain(Directory.GetFiles(disk.Folder), f => f.EndsWith(".unfinished", StringComparison.Ordinal));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{name} at {AllPoints.Count()} points up to {need} kB: {refused} refused, {written} written");
        Assert.True(refused >= AllPoints.Count() / 2 && written >= 1, $"{refused} refused, {written} written: the points miss the writing");
    }

    /// <summary>
    /// No small disk, and no right to mount one: the system lets no file grow beyond a size (ulimit -f, in kB), so that a write fails
    /// in the midst of a save with another error than that of a full disk.
    /// </summary>
    [Fact]
    public void Where_a_file_may_not_grow_at_each_of_20_points()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "the shell's ulimit");
        int acknowledged = 0;
        foreach (int point in AllPoints)
        {
            using var temp = new TempStore();
            using var elsewhere = new TempStore();
            using (Store store = temp.Open()) store.NewLure(LoadDesign.Of("before-00"), "before-00", "new");
            int limit = 260 + 37 * point;
            string writer = Path.Combine(AppContext.BaseDirectory, "Trimwright.StoreWriter.dll");
            // Without this the runtime itself wants a file of 2 GB, in memory.
            (int exit, string said, string complaint) = Outside.Run("bash", ["-c", $"trap '' XFSZ; ulimit -f {limit}; DOTNET_EnableWriteXorExecute=0 exec dotnet '{writer}' load '{temp.Path}' {point}"]);
            Assert.NotEqual(0, exit);
            Assert.Contains("What was saved before is safe", complaint);
            string[] acks = said.Split('\n', StringSplitOptions.RemoveEmptyEntries);
            acknowledged += acks.Length;
            using (Store read = Store.OpenToRead(temp.Path)) read.BackUp(elsewhere.In("backup"));
            using (Store copy = Store.OpenToRead(elsewhere.In("backup"))) Writer.CheckAcks(copy, acks);
            using (Store store = temp.Open()) Writer.CheckAll(store, [.. acks, "1 1 before-00"]);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{AllPoints.Count()} limits, {acknowledged} acknowledged writes, none lost");
        Assert.True(acknowledged > 0);
    }

    private static void Acknowledged(Saved<LureDesign> saved, List<string> acks)
    {
        Revision<LureDesign> revision = Assert.IsType<Saved<LureDesign>.Done>(saved).Revision;
        acks.Add($"{revision.Owner} {revision.N} {revision.EditId} {revision.Name}");
    }
}
