using System.Globalization;

namespace Trimwright.App.Gate;

/// <summary>A tab's key, as the tab keeps it.</summary>
/// <param name="Run">In which run of the program it was given.</param>
/// <param name="Id">Its own name.</param>
/// <param name="Until">When it ends, in seconds since 1970.</param>
/// <param name="Secret">What only this tab and the program can know; it is said to nobody, only proofs by it are.</param>
internal sealed record TabKey(string Run, string Id, long Until, string Secret);

/// <summary>
/// How a tab that was open when the program ended comes back in when it runs again, and how it knows that it is the program: another
/// account may have taken the port meanwhile.
/// </summary>
/// <remarks>
/// Each tab keeps a key in its session storage: apart for each port and each tab, gone with the tab, in no address, cookie or
/// history. It is good for one return within twelve hours, at the same port, for the same store; it is given anew every hour and
/// after each return. A tab says its key's name and a random word; the program, which finds the key's secret again by the run's
/// (<see cref="KeptSecrets"/>), proves by it that it is the program; only then does the tab prove that it has the key, get the two
/// halves of this run (<see cref="PageSecret"/>), and load itself anew. The secret itself goes from the program to the tab when it is
/// given, and never back: whoever listens at the port instead of the program gets a name and a random word, and relaying them to the
/// program at another port is no use, since the port is in every proof.
/// </remarks>
internal sealed class TabKeys(KeptSecrets kept, TimeProvider clock)
{
    public static readonly TimeSpan GoodFor = TimeSpan.FromHours(12);

    private const string For = "tab", Program = "program", Tab = "tab";

    /// <summary>What a tab says: first <paramref name="Word"/>, later <paramref name="Proof"/>.</summary>
    internal sealed record Said(string? Run, string? Id, long Until, string? Word, string? Proof);

    /// <summary>What the program answers to a tab's word.</summary>
    internal sealed record Answer(string Run, string Proof);

    public TabKey New(int port)
    {
        string id = PageSecret.Random();
        long until = (clock.GetUtcNow() + GoodFor).ToUnixTimeSeconds();
        return new TabKey(kept.Run, id, until, SecretOf(kept.Secret, port, id, until));
    }

    /// <summary>Proves to a tab that this is the program; null when the tab's run isn't remembered. Who asks learns nothing else.</summary>
    public Answer? Prove(Said said, int port) =>
        Known(said, port) is { } secret && IsWord(said.Word)
            ? new Answer(kept.Run, PageSecret.Proof(secret, Program, said.Word!, kept.Run)) : null;

    /// <summary>Whether a tab that says so comes back in; its key is used up then.</summary>
    public bool TakeBack(Said said, int port) =>
        Known(said, port) is { } secret && said.Until > clock.GetUtcNow().ToUnixTimeSeconds()
        && PageSecret.Same(PageSecret.Proof(secret, Tab, kept.Run), said.Proof) && kept.UseUp(said.Id!, said.Until);

    private string? Known(Said said, int port) =>
        said.Run is not null && IsWord(said.Id) && kept.SecretOf(said.Run) is { } of ? SecretOf(of, port, said.Id!, said.Until) : null;

    private static string SecretOf(string run, int port, string id, long until) =>
        PageSecret.Proof(run, For, port.ToString(CultureInfo.InvariantCulture), id, until.ToString(CultureInfo.InvariantCulture));

    private static bool IsWord(string? text) => text is { Length: 43 } && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_');
}
