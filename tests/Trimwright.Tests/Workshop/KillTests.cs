using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>Programs killed at random moments lose nothing that was acknowledged.</summary>
public class KillTests
{
    private const int LongestLifeMs = 700, LongestPauseMs = 40, MostWrites = 40, MostOfThree = 6;

    [Fact]
    public void No_acknowledged_write_is_lost_by_a_kill_under_load()
    {
        using var temp = new TempStore();
        var random = new Random(7);
        int rounds = Tier.Count(5, 100, 1000), acknowledged = 0, idle = 0;
        for (int round = 0; round < rounds; round++)
        {
            string[] acks;
            using (var writer = new Writer("load", temp.Path, $"{round}"))
            {
                // Often in the midst of writing, after so many writes and not so much time, which a busy machine fills with none; now and
                // then while it still opens.
                if (round % 5 != 0) writer.AwaitLines(1 + random.Next(MostWrites));
                Patience.Moment(random.Next(round % 5 == 0 ? LongestLifeMs : LongestPauseMs));
                acks = writer.Kill();
                Assert.Equal("", writer.Complaint());
            }
            acknowledged += acks.Length;
            if (acks.Length == 0) idle++;
            using Store store = temp.Open();
            Writer.CheckAll(store, acks);
        }
        using (Store store = temp.Open()) Writer.CheckWhole(store, texts: true);
        TestContext.Current.TestOutputHelper?.WriteLine($"{rounds} kills, {acknowledged} acknowledged writes, none lost; {idle} killed before the first");
        Assert.True(acknowledged > rounds * 5, $"only {acknowledged} writes in {rounds} rounds: too idle to mean anything");
    }

    [Fact]
    public void Nor_by_any_of_many_kills_while_three_write_into_one_store_and_a_backup_elsewhere_works_each_time()
    {
        // Three that write without a pause make a store that is slower to check with each kill: ten kills each is enough of one.
        int kills = Tier.Count(5, 100, 1000), acknowledged = 0, conflicts = 0;
        for (int done = 0; done < kills; done += 10)
        {
            (int kept, int met) = KillAmongThree(seed: 23 + done, Math.Min(10, kills - done));
            (acknowledged, conflicts) = (acknowledged + kept, conflicts + met);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{kills} kills among three writers, {acknowledged} acknowledged writes, {conflicts} conflicts, none lost");
        Assert.True(acknowledged > kills * 5 && conflicts > 0, $"{acknowledged} writes and {conflicts} conflicts: too idle to mean anything");
    }

    private static (int Acknowledged, int Conflicts) KillAmongThree(int seed, int kills)
    {
        const int Writers = 3;
        using var temp = new TempStore();
        using var elsewhere = new TempStore();
        var random = new Random(seed);
        int conflicts = 0, started = 0;
        var acks = new List<string>();
        temp.Open().Dispose();
        Writer[] writers = [.. Enumerable.Range(0, Writers).Select(_ => new Writer("share", temp.Path, $"{started++}"))];
        try
        {
            for (int kill = 0; kill < kills; kill++)
            {
                int victim = random.Next(Writers);
                if (kill % 4 != 0) writers[victim].AwaitLines(1 + random.Next(MostOfThree));
                Patience.Moment(random.Next(kill % 4 == 0 ? LongestLifeMs : LongestPauseMs));
                string[] said = writers[victim].Kill();
                Assert.Equal("", writers[victim].Complaint());
                writers[victim].Dispose();
                writers[victim] = new Writer("share", temp.Path, $"{started++}");
                string[] lines = [.. said.Where(line => line.Contains(' '))];
                conflicts += said.Length - lines.Length;
                acks.AddRange(lines);
                // The two others go on. Everything that the killed one was acknowledged goes into a backup, taken at this moment.
                string backup = elsewhere.In("backup.trimwright");
                File.Delete(backup);
                using (Store read = Store.OpenToRead(temp.Path)) read.BackUp(backup);
                using (Store copy = Store.OpenToRead(backup))
                {
                    Writer.CheckAcks(copy, lines);
                    Assert.Null(copy.Check());
                }
            }
            foreach (Writer writer in writers) acks.AddRange(writer.Kill());
            Assert.All(writers, writer => Assert.Equal("", writer.Complaint()));
        }
        finally
        {
            foreach (Writer writer in writers) writer.Dispose();
        }
        using (Store store = temp.Open())
        {
            Writer.CheckAll(store, acks);
            Writer.CheckWhole(store, texts: true);
        }
        return (acks.Count(line => line.Contains(' ')), conflicts);
    }

    [Fact]
    public void A_kill_while_an_old_store_is_brought_up_to_date_loses_nothing_of_it()
    {
        var random = new Random(3);
        int old = 0, brought = 0;
        for (int round = 0; round < Tier.Count(4, 30, 200); round++)
        {
            using var temp = new TempStore();
            OldStore.Put(temp.Path);
            using (var writer = new Writer("open", temp.Path))
            {
                Patience.Moment(random.Next(50, 500));
                writer.Kill();
            }
            // Looked at in a copy: what a kill left half done has to be undone or finished first, and that is the store's own work here.
            using (var aside = new TempStore())
            {
                foreach (string file in Directory.GetFiles(temp.Folder, Path.GetFileName(temp.Path) + "*")) File.Copy(file, Path.Combine(aside.Folder, Path.GetFileName(file)));
                using var look = Connections.OpenPlain(aside.Path);
                if (look.Number("PRAGMA user_version") == 1) old++;
                else brought++;
            }
            using Store store = temp.Open();
            OldStore.Check(store);
            Assert.DoesNotContain(Directory.GetFiles(temp.Folder, "*before-v*.trimwright"), copy => !OldStore.IsWhole(copy));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{old} found as they were, {brought} brought up to date");
    }
}
