using System.Security.Cryptography;
using System.Text;

namespace Trimwright.App.Gate;

/// <summary>
/// What tells this account's browser from another account's on the same machine: a random key in a file that only this
/// account may read. The opened link carries it once; the cookie that it buys is derived from it, so neither gives the other.
/// </summary>
internal sealed class PageSecret
{
    private const int Bytes = 32;
    private readonly byte[] key;

    private PageSecret(byte[] key) => this.key = key;

    /// <summary>What the link carries.</summary>
    public string Key => Word(key);

    /// <summary>What the cookie holds.</summary>
    public string Cookie => Word(HMACSHA256.HashData(key, "the page's cookie"u8));

    /// <summary>Reads the secret, or makes one where there is none that is sound.</summary>
    public static PageSecret Of(string file)
    {
        if (File.Exists(file) && File.ReadAllBytes(file) is { Length: Bytes } kept)
        {
            if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);
            return new PageSecret(kept);
        }
        byte[] made = RandomNumberGenerator.GetBytes(Bytes);
        File.Delete(file);
        var how = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows()) how.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using (var stream = new FileStream(file, how)) stream.Write(made);
        return new PageSecret(made);
    }

    /// <summary>Compares in the same time wherever the words differ.</summary>
    public static bool Same(string expected, string? got) =>
        got is not null && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(expected), Encoding.UTF8.GetBytes(got));

    private static string Word(byte[] bytes) => Convert.ToHexStringLower(bytes);
}
