using System.Runtime.InteropServices;

namespace Trimwright.App.Faults;

/// <summary>What the program needs of the machine beyond the C library.</summary>
internal static class Machine
{
    // Those that the runtime looks for (its opensslshim), newest first. It ends the whole process when it finds none.
    private static readonly string[] Names = ["libssl.so.3", "libssl.so.1.1", "libssl.so.4"];

    /// <summary>
    /// Keeps threads free for whoever waits at the page: two long works at once, the page's own and one for a phone, are loops that
    /// take every thread of the pool, which then grows by one or two a second. On two cores a word waited one to three seconds for its turn
    /// (<c>dotnet run -c Release --project benchmarks turns</c>).
    /// </summary>
    public static void KeepThreadsFree()
    {
        ThreadPool.GetMinThreads(out int workers, out int ports);
        ThreadPool.SetMinThreads(Math.Max(workers, 2 * Environment.ProcessorCount + 4), ports);
    }

    /// <summary>Secrets, seals and the page's socket are the system's OpenSSL on Linux; other systems bring their own.</summary>
    public static void NeedsOpenSsl()
    {
        if (!OperatingSystem.IsLinux() || Environment.GetEnvironmentVariable("CLR_OPENSSL_VERSION_OVERRIDE") is not null) return;
        if (!Names.Any(name => NativeLibrary.TryLoad(name, out _)))
            throw new Refusal(Exit.MachineRefused, "openssl", "this system", "no OpenSSL", "libssl.so.3 or libssl.so.1.1", "Install your system's package of it, libssl3 or openssl, and start again.");
    }
}
