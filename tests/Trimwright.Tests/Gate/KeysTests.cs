using Trimwright.App.Gate;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>
/// Keys: of entry, each once and for minutes; of tabs, each for one return to the same store and port; and the file behind both.
/// </summary>
public class KeysTests
{
    private const int Port = 40213;

    private static KeptSecrets Begin(TempStore temp, TimeProvider clock) => KeptSecrets.Begin(temp.Path, clock);

    private static SetClock Clock() => new(new DateTimeOffset(2026, 3, 29, 0, 59, 0, TimeSpan.Zero));

    [Fact]
    public void An_entry_key_lets_in_once_for_five_minutes_at_one_port_of_one_run()
    {
        using var temp = new TempStore();
        var clock = Clock();
        KeptSecrets kept = Begin(temp, clock);
        var keys = new EntryKeys(kept.Secret, clock);
        string key = keys.New(Port);
        // The whole link fits a line.
        Assert.True($"http://127.0.0.1:65535/enter#{key}".Length <= 80);
        Assert.DoesNotContain(kept.Secret, key);
        Assert.False(keys.Take(key, Port + 1));
        Assert.True(keys.Take(key, Port));
        Assert.False(keys.Take(key, Port));

        // A second start makes keys that the first has never seen.
        string second = new EntryKeys(KeptSecrets.OfTheFirst(temp.Path)!, clock).New(Port);
        Assert.NotEqual(key, second);
        clock.Now += EntryKeys.GoodFor - TimeSpan.FromSeconds(1);
        Assert.True(keys.Take(second, Port));
        string late = keys.New(Port);
        clock.Now += EntryKeys.GoodFor;
        Assert.False(keys.Take(late, Port));
        // Used keys are forgotten when they have ended, and are no better for it.
        Assert.False(keys.Take(second, Port));

        string before = keys.New(Port);
        Assert.False(new EntryKeys(Begin(temp, clock).Secret, clock).Take(before, Port));
    }

    [Fact]
    public void An_entry_key_that_differs_in_any_letter_lets_nobody_in()
    {
        var clock = Clock();
        var keys = new EntryKeys(PageSecret.Random(), clock);
        string key = keys.New(Port);
        for (int i = 0; i < key.Length; i++)
            foreach (char other in "Az0-_. =\u00e9")
                if (other != key[i]) Assert.False(keys.Take(key[..i] + other + key[(i + 1)..], Port));
        foreach (string? none in new[] { null, "", "=", key[1..], key + "A", key + "=", key[..^1], new string('A', 4000), "\0" })
            Assert.False(keys.Take(none, Port));
        Assert.True(keys.Take(key, Port));
    }

    // What the page's script does with a key; the browser tests have the script itself.
    private static TabKeys.Said Asks(TabKey key, string word) => new(key.Run, key.Id, key.Until, word, null);

    private static TabKeys.Said Returns(TabKey key, string run) =>
        new(key.Run, key.Id, key.Until, null, PageSecret.Proof(key.Secret, "tab", run));

    [Fact]
    public void A_tab_knows_the_program_after_a_restart_and_comes_back_once()
    {
        using var temp = new TempStore();
        var clock = Clock();
        TabKey key = new TabKeys(Begin(temp, clock), clock).New(Port);
        clock.Now += TimeSpan.FromHours(11);
        var again = new TabKeys(Begin(temp, clock), clock);
        string word = PageSecret.Random();
        TabKeys.Answer answer = again.Prove(Asks(key, word), Port)!;
        Assert.Equal(PageSecret.Proof(key.Secret, "program", word, answer.Run), answer.Proof);
        Assert.NotEqual(key.Run, answer.Run);
        Assert.True(again.TakeBack(Returns(key, answer.Run), Port));
        // Once, in this run and in all that come.
        Assert.False(again.TakeBack(Returns(key, answer.Run), Port));
        KeptSecrets third = Begin(temp, clock);
        Assert.False(new TabKeys(third, clock).TakeBack(Returns(key, third.Run), Port));
        // What it got instead is good once more.
        TabKey next = again.New(Port);
        Assert.NotEqual((key.Id, key.Secret), (next.Id, next.Secret));
        Assert.True(new TabKeys(third, clock).TakeBack(Returns(next, third.Run), Port));
    }

    [Fact]
    public void A_tab_s_key_is_worth_nothing_elsewhere_later_or_without_its_secret()
    {
        using TempStore temp = new(), other = new();
        var clock = Clock();
        TabKey key = new TabKeys(Begin(temp, clock), clock).New(Port);
        KeptSecrets kept = Begin(temp, clock), elsewhere = Begin(other, clock);
        TabKeys tabs = new(kept, clock), others = new(elsewhere, clock);
        string word = PageSecret.Random();
        // At another port the proof is another: what a stranger relays there doesn't pass for the program here.
        Assert.NotEqual(PageSecret.Proof(key.Secret, "program", word, kept.Run), tabs.Prove(Asks(key, word), Port + 1)!.Proof);
        Assert.False(tabs.TakeBack(Returns(key, kept.Run), Port + 1));
        Assert.Null(others.Prove(Asks(key, word), Port));
        Assert.False(others.TakeBack(Returns(key, elsewhere.Run), Port));
        // A name of a key, which a stranger at the port hears, and everything that was said, without the secret.
        string heard = tabs.Prove(Asks(key, word), Port)!.Proof;
        foreach (string? proof in new[]
        {
            null, "", heard, key.Id, word, PageSecret.Proof(heard, "tab", kept.Run), PageSecret.Proof(key.Secret, "tab", key.Run),
            PageSecret.Proof(key.Secret, "program", word, kept.Run),
        })
            Assert.False(tabs.TakeBack(Asks(key, word) with { Proof = proof }, Port));
        // Nobody lengthens it, and it ends.
        Assert.False(tabs.TakeBack(Returns(key with { Until = key.Until + 1 }, kept.Run), Port));
        Assert.False(tabs.TakeBack(Returns(key with { Until = long.MaxValue }, kept.Run), Port));
        foreach (TabKeys.Said odd in new TabKeys.Said[]
        {
            new(null, null, 0, null, null), new(key.Run, "a|b", 1, word, ""), new(key.Run, key.Id + "\n", key.Until, word, ""),
            new("", "", -1, "", ""),
        })
        {
            Assert.Null(tabs.Prove(odd, Port));
            Assert.False(tabs.TakeBack(odd, Port));
        }
        Assert.Null(tabs.Prove(Asks(key, "short"), Port));
        clock.Now += TabKeys.GoodFor;
        Assert.False(tabs.TakeBack(Returns(key, kept.Run), Port));
        // It still tells the program from a stranger: a tab that slept long is told the truth.
        Assert.Equal(PageSecret.Proof(key.Secret, "program", word, kept.Run), tabs.Prove(Asks(key, word), Port)!.Proof);
    }

    [Fact]
    public void Eight_starts_are_remembered_and_no_more()
    {
        using var temp = new TempStore();
        var clock = Clock();
        TabKey key = new TabKeys(Begin(temp, clock), clock).New(Port);
        for (int later = 1; later < KeptSecrets.Runs; later++)
            Assert.NotNull(new TabKeys(Begin(temp, clock), clock).Prove(Asks(key, PageSecret.Random()), Port));
        Assert.Null(new TabKeys(Begin(temp, clock), clock).Prove(Asks(key, PageSecret.Random()), Port));
    }

    [Fact]
    public void The_file_is_for_its_owner_alone_and_what_others_could_read_or_write_is_not_believed()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "modes are Linux's and a Mac's");
        if (OperatingSystem.IsWindows()) return;
        using var temp = new TempStore();
        var clock = Clock();
        KeptSecrets first = Begin(temp, clock);
        Assert.True(first.AreKept);
        string file = KeptSecrets.FileOf(temp.Path);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        Assert.Equal([Path.GetFileName(file)], Directory.GetFiles(temp.Folder).Select(Path.GetFileName));
        Assert.Equal(first.Secret, KeptSecrets.OfTheFirst(temp.Path));
        // The same file by whatever link the store is reached.
        File.WriteAllText(temp.Path, "");
        File.CreateSymbolicLink(temp.In("link.trimwright"), temp.Path);
        Assert.Equal(file, KeptSecrets.FileOf(temp.In("link.trimwright")));

        File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        Assert.Null(KeptSecrets.OfTheFirst(temp.Path));
        KeptSecrets second = Begin(temp, clock);
        Assert.Null(second.SecretOf(first.Run));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));

        // Cut, or filled by something else: what is whole in it counts.
        File.WriteAllText(file, $"run {second.Run} {second.Secret}\nrun {first.Run}\nused\nused x y\n\0\0 run a b\nrun");
        KeptSecrets third = Begin(temp, clock);
        Assert.Equal(second.Secret, third.SecretOf(second.Run));
        Assert.Null(third.SecretOf(first.Run));
        Assert.Null(third.SecretOf(""));

        // Where it can't be written there is none: this run goes on by itself.
        KeptSecrets none = KeptSecrets.Begin(temp.In("no/such/folder/ws.trimwright"), clock);
        Assert.False(none.AreKept);
        Assert.True(none.UseUp(PageSecret.Random(), 1));
        Assert.Null(KeptSecrets.OfTheFirst(temp.In("no/such/folder/ws.trimwright")));
    }

    [Fact]
    public void Root_believes_nothing_that_lies_where_everybody_may_write()
    {
        Assert.SkipUnless(!OperatingSystem.IsWindows() && Environment.IsPrivilegedProcess, "only root reads what is others' alone");
        if (OperatingSystem.IsWindows()) return;
        using var temp = new TempStore();
        var clock = Clock();
        KeptSecrets planted = Begin(temp, clock);
        File.SetUnixFileMode(temp.Folder, (UnixFileMode)0b1_111_111_111);
        Assert.Null(KeptSecrets.OfTheFirst(temp.Path));
        KeptSecrets own = Begin(temp, clock);
        Assert.Null(own.SecretOf(planted.Run));
        Assert.False(own.AreKept);
    }
}
