using System.Globalization;

namespace Trimwright.Workshop;

/// <summary>
/// The right to be the one server of a store. A lock that the system frees when its process ends, however it ends, so
/// nothing stale is left; beside it, in a file of its own since a locked one can't be read everywhere, the port.
/// </summary>
public sealed class FirstStart : IDisposable
{
    private readonly FileStream held;
    private readonly string portFile;

    private FirstStart(FileStream held, string portFile) => (this.held, this.portFile) = (held, portFile);

    /// <summary>The right, or null when another process has it: then ask <see cref="PortOfFirst"/>.</summary>
    public static FirstStart? Take(string store)
    {
        (string lockFile, string port) = Names(store);
        FileStream held;
        try
        {
            Files.MakeFolder(Path.GetDirectoryName(lockFile)!);
            held = Files.Create(lockFile, FileMode.OpenOrCreate, FileShare.None);
        }
        catch (IOException) when (File.Exists(lockFile))
        {
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreRefusal.Of(lockFile, e);
        }
        // Whoever had it last was killed before it could take its port away.
        Files.TryDelete(port);
        return new FirstStart(held, port);
    }

    /// <summary>Tells the port, once the page is there to be opened.</summary>
    public void Announce(int port)
    {
        WholeFiles.Write(portFile, System.Text.Encoding.ASCII.GetBytes(port.ToString(CultureInfo.InvariantCulture)), replace: true, forMe: true);
    }

    /// <summary>The first one's port; waits for it while the first is still starting. Null when it tells none in that time.</summary>
    public static int? PortOfFirst(string store, TimeSpan patience)
    {
        string port = Names(store).Port;
        for (long from = Environment.TickCount64; ;)
        {
            try
            {
                if (File.Exists(port) && int.TryParse(File.ReadAllText(port), NumberStyles.None, CultureInfo.InvariantCulture, out int told) && told is > 0 and < 65536)
                    return told;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // Being replaced at this moment, or another account's: the next look, or the end of patience.
            }
            if (Environment.TickCount64 - from > patience.TotalMilliseconds) return null;
            Thread.Sleep(50);
        }
    }

    private static (string Lock, string Port) Names(string store)
    {
        // Whatever name or link a store is opened by, one file has one lock. Of two hard links the second is refused by the store itself.
        string path = Files.Real(store);
        return (path + ".server-lock", path + ".server-port");
    }

    /// <summary>Gives the right back. The empty lock file stays: removing it would race with the next one's taking.</summary>
    public void Dispose()
    {
        Files.TryDelete(portFile);
        held.Dispose();
    }
}
