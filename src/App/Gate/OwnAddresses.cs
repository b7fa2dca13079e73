using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;

namespace Trimwright.App.Gate;

/// <summary>The addresses under which a phone on the same network finds this machine.</summary>
internal static class OwnAddresses
{
    /// <summary>Set to anything, this machine itself counts as a network: to try the phone's page where there is no phone.</summary>
    private const string Alone = "TRIMWRIGHT_PHONE_HERE";

    /// <summary>Private addresses of networks that are up now, with the network's name; none of them leads in from outside.</summary>
    public static IReadOnlyList<(IPAddress Address, string Network)> Now()
    {
        (IPAddress, string)[] here = Environment.GetEnvironmentVariable(Alone) is { Length: > 0 } ? [(IPAddress.Loopback, "this machine alone")] : [];
        try
        {
            return [.. here, .. NetworkInterface.GetAllNetworkInterfaces()
                .Where(n => n.OperationalStatus == OperationalStatus.Up && n.NetworkInterfaceType != NetworkInterfaceType.Loopback)
                .SelectMany(n => n.GetIPProperties().UnicastAddresses.Select(a => (a.Address, n.Name)))
                .Where(a => IsPrivate(a.Address))];
        }
        catch (NetworkInformationException)
        {
            return here;
        }
    }

    /// <summary>Whether an address belongs to a network of one's own: RFC 1918, and RFC 3927 where nobody gives addresses out.</summary>
    public static bool IsPrivate(IPAddress address)
    {
        if (address.AddressFamily != AddressFamily.InterNetwork) return false;
        byte[] b = address.GetAddressBytes();
        return b[0] == 10 || (b[0] == 172 && b[1] is >= 16 and <= 31) || (b[0] == 192 && b[1] == 168) || (b[0] == 169 && b[1] == 254);
    }
}
