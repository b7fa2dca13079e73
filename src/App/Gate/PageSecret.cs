using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Trimwright.App.Gate;

/// <summary>
/// What a browser that was let in holds, in two halves. Both are random, new at each start, held in this process's memory alone
/// and so worth nothing when it ends, whoever has a copy. Neither is enough without the other.
/// </summary>
/// <remarks>
/// The <b>cookie</b>: the browser sends it by itself, also with a page's first request, and no script can read it. But cookies
/// know no ports: the browser hands it to every server of this machine that its user visits, another account's too.
/// The <b>word</b>: the page's own script keeps it in the browser's storage, which is apart for each port, and says it with
/// everything that opens the socket or brings or changes something. No other port and no other site can read it there, and the
/// browser sends it nowhere by itself.
/// Photos and what is saved as a file are fetched by the browser, which says no word: their addresses carry a <b>mark</b> made from a third secret, and are
/// told over the socket only.
/// </remarks>
internal sealed class PageSecret
{
    /// <summary>The header in which the word is said.</summary>
    public const string WordHeader = "Trimwright-Word";

    private readonly byte[] marks = RandomNumberGenerator.GetBytes(32);

    public string Cookie { get; } = Random();

    public string Word { get; } = Random();

    /// <summary>What the address of a photo must carry.</summary>
    public string Mark(long photo) => Mark(photo.ToString(CultureInfo.InvariantCulture));

    /// <summary>What the address of anything else must carry that the browser fetches by itself; no number, so that no photo's mark opens it.</summary>
    public string Mark(string what) => Text(HMACSHA256.HashData(marks, Encoding.UTF8.GetBytes(what)));

    /// <summary>Cookies know no ports: two programs on one machine would overwrite each other's.</summary>
    public static string CookieName(int port) => $"trimwright-{port}";

    /// <summary>Compares in the same time wherever the words differ.</summary>
    public static bool Same(string expected, string? got) =>
        got is not null && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(expected), Encoding.UTF8.GetBytes(got));

    /// <summary>256 random bits.</summary>
    public static string Random() => Text(RandomNumberGenerator.GetBytes(32));

    /// <summary>In letters that fit addresses, headers and files.</summary>
    public static string Text(ReadOnlySpan<byte> bytes) => System.Buffers.Text.Base64Url.EncodeToString(bytes);

    /// <summary>A proof over some words, by whoever knows the secret; none of the words may hold a bar.</summary>
    public static string Proof(string secret, params ReadOnlySpan<string> words) =>
        Text(HMACSHA256.HashData(Encoding.UTF8.GetBytes(secret), Encoding.UTF8.GetBytes(string.Join('|', words))));
}
