using System.Buffers;
using System.Buffers.Binary;
using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace Trimwright.App.Gate;

/// <summary>
/// Keys that let a browser in: each once, for five minutes, at one port of one run of the program. A key is 128 random bits, the
/// second at which it ends, and 128 bits of a proof of both by the run's secret, so that a second start can make one that the first
/// has never seen. In 48 letters, so that the whole link fits a line of a terminal.
/// </summary>
/// <remarks>
/// A key reaches the browser in a file that only this account reads (<see cref="EntryNote"/>), or as the printed link, behind its #,
/// which no browser sends and which the page takes out of the address at once. It stands in no command line. Who finds a key later,
/// in a terminal's memory or a browser's history, finds one that was used, or has ended.
/// </remarks>
internal sealed class EntryKeys(string secret, TimeProvider clock)
{
    public static readonly TimeSpan GoodFor = TimeSpan.FromMinutes(5);

    private const int Once = 16, Said = Once + sizeof(uint), Whole = Said + 16, Letters = Whole / 3 * 4;

    private readonly Lock turn = new();
    private readonly Dictionary<string, uint> used = [];

    public string New(int port)
    {
        byte[] key = new byte[Whole];
        RandomNumberGenerator.Fill(key.AsSpan(0, Once));
        BinaryPrimitives.WriteUInt32BigEndian(key.AsSpan(Once), checked((uint)(clock.GetUtcNow() + GoodFor).ToUnixTimeSeconds()));
        Proof(port, key.AsSpan(0, Said)).CopyTo(key.AsSpan(Said));
        return PageSecret.Text(key);
    }

    /// <summary>Takes a key: whether it lets in.</summary>
    public bool Take(string? text, int port)
    {
        Span<byte> key = stackalloc byte[Whole];
        if (text is not { Length: Letters }) return false;
        if (Base64Url.DecodeFromChars(text, key, out _, out int length) != OperationStatus.Done || length != Whole) return false;
        if (!CryptographicOperations.FixedTimeEquals(Proof(port, key[..Said]), key[Said..])) return false;
        uint until = BinaryPrimitives.ReadUInt32BigEndian(key[Once..]), now = checked((uint)clock.GetUtcNow().ToUnixTimeSeconds());
        lock (turn)
        {
            foreach (string gone in used.Where(u => u.Value <= now).Select(u => u.Key).ToArray()) used.Remove(gone);
            return until > now && used.TryAdd(PageSecret.Text(key[..Said]), until);
        }
    }

    private ReadOnlySpan<byte> Proof(int port, ReadOnlySpan<byte> said)
    {
        byte[] what = Encoding.UTF8.GetBytes($"entry|{port}|{PageSecret.Text(said)}");
        return HMACSHA256.HashData(Encoding.UTF8.GetBytes(secret), what).AsSpan(0, Whole - Said);
    }
}
