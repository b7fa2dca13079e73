using System.Security.Cryptography;
using System.Text;

namespace Trimwright.App.Gate;

/// <summary>
/// What tells this account's browser from another account's on the same machine. The opened link carries the key once; the
/// cookie that it buys is derived from it, so a cookie that is seen doesn't give the link.
/// </summary>
/// <param name="key">From a file that only this account may read.</param>
internal sealed class PageSecret(string key)
{
    /// <summary>What the link carries.</summary>
    public string Key => key;

    /// <summary>What the cookie holds.</summary>
    public string Cookie { get; } = Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(key), "the page's cookie"u8));

    /// <summary>Compares in the same time wherever the words differ.</summary>
    public static bool Same(string expected, string? got) =>
        got is not null && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(expected), Encoding.UTF8.GetBytes(got));
}
