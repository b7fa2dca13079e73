using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace Trimwright.App.Gate;

/// <summary>A phone that was let in.</summary>
/// <param name="Id">Its number in the list, while the door is open.</param>
/// <param name="Name">What it says it is, for the maker to tell one from another.</param>
/// <param name="At">When it joined.</param>
internal sealed record JoinedPhone(int Id, string Name, DateTimeOffset At);

/// <summary>
/// Lets phones in, one for each code: 128 bits, good for one phone, two minutes and eight tries. What it buys is in two halves, as the
/// desk's (<see cref="PageSecret"/>): a cookie, which the phone's browser brings to every port of this machine, and a word, which the
/// phone's page says with everything that it asks. Both are good until the phone is sent away or the door is shut; nothing of them
/// outlives the program.
/// </summary>
internal sealed class PhoneDoor(TimeProvider clock)
{
    public static readonly TimeSpan GoodFor = TimeSpan.FromMinutes(2);

    public const int Tries = 8;

    private const int LongestName = 40;

    private readonly Lock turn = new();
    private readonly Dictionary<string, (JoinedPhone Phone, string Word)> cookies = [];
    private string? code;
    private DateTimeOffset until;
    private int tries, last;

    /// <summary>The phones that are let in, in the order in which they joined.</summary>
    public ImmutableArray<JoinedPhone> Phones { get; private set; } = [];

    /// <summary>A phone came or went, or a code was used up; raised on any thread.</summary>
    public event Action? Changed;

    /// <summary>A new code; the one before it is void.</summary>
    public string NewCode()
    {
        lock (turn)
        {
            (code, until, tries) = (Random128(), clock.GetUtcNow() + GoodFor, 0);
            return code;
        }
    }

    /// <summary>How long the code is good for yet; null when there is none.</summary>
    public TimeSpan? Left
    {
        get
        {
            lock (turn) return code is not null && until - clock.GetUtcNow() is { Ticks: > 0 } left ? left : null;
        }
    }

    /// <summary>A phone brings a code: its cookie and its word, or null.</summary>
    public (string Cookie, string Word)? Join(string? brought, string? name)
    {
        string cookie, word;
        lock (turn)
        {
            if (code is null) return null;
            if (clock.GetUtcNow() >= until || ++tries > Tries)
            {
                code = null;
                return null;
            }
            if (!PageSecret.Same(code, brought))
            {
                if (tries == Tries) code = null;
                return null;
            }
            code = null;
            (cookie, word) = (Random128(), Random128());
            var phone = new JoinedPhone(++last, Shown(name), clock.GetUtcNow());
            cookies[Kept(cookie)] = (phone, word);
            Phones = Phones.Add(phone);
        }
        Changed?.Invoke();
        return (cookie, word);
    }

    /// <summary>Whose cookie and word these are, null when they are nobody's, or not of one.</summary>
    public JoinedPhone? Of(string? cookie, string? word)
    {
        if (cookie is null) return null;
        lock (turn)
            return cookies.TryGetValue(Kept(cookie), out var one) && PageSecret.Same(one.Word, word) ? one.Phone : null;
    }

    /// <summary>From now on this phone is a stranger.</summary>
    public void SendAway(int id)
    {
        lock (turn)
        {
            foreach (string gone in cookies.Where(c => c.Value.Phone.Id == id).Select(c => c.Key).ToArray()) cookies.Remove(gone);
            Phones = [.. Phones.Where(p => p.Id != id)];
        }
        Changed?.Invoke();
    }

    /// <summary>Sends all away and makes the code void.</summary>
    public void Shut()
    {
        lock (turn)
        {
            code = null;
            cookies.Clear();
            Phones = [];
        }
        Changed?.Invoke();
    }

    // Looked up by its hash, so that a look-up takes as long for a near miss as for any other.
    private static string Kept(string cookie) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(cookie)));

    private static string Random128() => PageSecret.Text(RandomNumberGenerator.GetBytes(16));

    // Letters, digits and spaces: a name is shown on the desk, whoever sent it.
    private static string Shown(string? name)
    {
        string plain = new([.. (name ?? "").Where(c => char.IsAsciiLetterOrDigit(c) || c is ' ' or '.' or '-' or '_').Take(LongestName)]);
        return plain.Trim().Length == 0 ? "a phone" : plain.Trim();
    }
}
