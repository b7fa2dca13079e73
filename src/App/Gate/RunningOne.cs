using System.Globalization;
using System.Text;

namespace Trimwright.App.Gate;

/// <summary>
/// The one program that serves a data folder. It holds a lock on a file for as long as it runs and writes its port into
/// another; a second start finds the lock taken and reads where the first one is.
/// </summary>
internal sealed class RunningOne : IDisposable
{
    private readonly FileStream held;
    private readonly string port;

    private RunningOne(FileStream held, string port) => (this.held, this.port) = (held, port);

    /// <summary>Takes the place, or null when another program has it.</summary>
    public static RunningOne? Take(DataFolder folder)
    {
        try
        {
            // The system lets go of the lock when the program ends, however it ends.
            return new RunningOne(new FileStream(folder.File("serving.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None), folder.File("serving.port"));
        }
        catch (IOException) when (File.Exists(folder.File("serving.lock")))
        {
            return null;
        }
    }

    /// <summary>Says where the page is from now on.</summary>
    public void ServesAt(int at) => File.WriteAllText(port, at.ToString(CultureInfo.InvariantCulture), Encoding.ASCII);

    /// <summary>The port of the program that has the place; null while it is only starting.</summary>
    public static async Task<int?> PortOfTheOther(DataFolder folder)
    {
        for (int wait = 0; wait < 50; wait++)
        {
            try
            {
                if (int.TryParse(File.ReadAllText(folder.File("serving.port")), NumberStyles.None, CultureInfo.InvariantCulture, out int at)) return at;
            }
            catch (IOException)
            {
                // Not written yet.
            }
            await Task.Delay(100);
        }
        return null;
    }

    public void Dispose()
    {
        File.Delete(port);
        held.Dispose();
    }
}
