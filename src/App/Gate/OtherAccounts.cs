using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Trimwright.App.Gate;

/// <summary>
/// Whether a connection from this machine comes from another account than the program's. Linux tells the account of each socket;
/// where it tells one that is neither ours nor root's, nothing else is asked. It only ever takes away: who is of this account still
/// needs the cookie and the word, since a program of this account may carry what others ask (a proxy, a tunnel).
/// </summary>
/// <remarks>
/// Windows and a Mac don't tell it this simply, and behind a relay (a container's, a virtual machine's) it isn't known: then it is as
/// if nobody had looked. Root reads everything of ours anyway, and is the account of such relays.
/// https://docs.kernel.org/networking/proc_net_tcp.html has the columns; an address is printed as the machine's own 32-bit words.
/// </remarks>
internal static class OtherAccounts
{
    private const int LocalAt = 1, RemoteAt = 2, AccountAt = 7;

    // An address of IPv4 reached through a socket of IPv6 stands in the second list, mapped.
    private static readonly string[] Lists = ["/proc/net/tcp", "/proc/net/tcp6"];

    /// <summary>Whether the one who connected from there is known to be another account.</summary>
    /// <param name="here">Our end.</param>
    /// <param name="there">Theirs.</param>
    public static bool Ask(IPEndPoint here, IPEndPoint there) =>
        OperatingSystem.IsLinux() && AccountOf(there, here) is { } account && account != 0 && account != Ours.Value;

    private static readonly Lazy<uint?> Ours = new(() =>
        File.ReadLines("/proc/self/status").FirstOrDefault(l => l.StartsWith("Uid:", StringComparison.Ordinal)) is { } line
        && uint.TryParse(line.Split('\t')[2], NumberStyles.None, CultureInfo.InvariantCulture, out uint effective) ? effective : null);

    /// <summary>The account that holds one end of a connection of this machine; null when that isn't told.</summary>
    internal static uint? AccountOf(IPEndPoint local, IPEndPoint remote)
    {
        string[] own = [Written(local, mapped: false), Written(local, mapped: true)];
        string[] other = [Written(remote, mapped: false), Written(remote, mapped: true)];
        foreach (string list in Lists)
            try
            {
                foreach (string line in File.ReadLines(list))
                    if (line.Split(' ', StringSplitOptions.RemoveEmptyEntries) is { Length: > AccountAt } columns
                        && own.Contains(columns[LocalAt]) && other.Contains(columns[RemoteAt])
                        && uint.TryParse(columns[AccountAt], NumberStyles.None, CultureInfo.InvariantCulture, out uint account))
                        return account;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // Not told here: the cookie and the word decide.
            }
        return null;
    }

    private static string Written(IPEndPoint end, bool mapped)
    {
        IPAddress shown = mapped && end.AddressFamily == AddressFamily.InterNetwork ? end.Address.MapToIPv6() : end.Address;
        byte[] address = shown.GetAddressBytes();
        IEnumerable<uint> words = Enumerable.Range(0, address.Length / 4).Select(i => BitConverter.ToUInt32(address, 4 * i));
        return string.Concat(words.Select(w => w.ToString("X8", CultureInfo.InvariantCulture)))
            + ":" + end.Port.ToString("X4", CultureInfo.InvariantCulture);
    }
}
