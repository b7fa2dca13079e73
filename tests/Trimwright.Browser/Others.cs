using System.Globalization;

namespace Trimwright.Browser;

/// <summary>
/// What the rest of the machine did meanwhile: the cores' time that neither this test nor what it started used, stolen time of a virtual
/// machine among it. Linux tells it (proc(5), stat and pid/stat); elsewhere the rest is taken to be idle.
/// </summary>
internal sealed class Others
{
    private readonly (long Worked, long Whole) machine = Machine();
    private readonly long ours = Ours();

    /// <summary>From the start until now, in cores: 0 is a machine of our own, 1 a core that others kept busy.</summary>
    public double Cores()
    {
        (long worked, long whole) = Machine();
        long passed = whole - machine.Whole;
        return passed <= 0 ? 0 : Math.Max(0, (double)(worked - machine.Worked - (Ours() - ours)) / passed) * Environment.ProcessorCount;
    }

    // user, nice, system, idle, iowait, irq, softirq, steal.
    private static (long Worked, long Whole) Machine()
    {
        if (!File.Exists("/proc/stat")) return (0, 0);
        long[] times = [.. File.ReadLines("/proc/stat").First().Split(' ', StringSplitOptions.RemoveEmptyEntries).Skip(1).Take(8).Select(Number)];
        return (times.Sum() - times[3] - times[4], times.Sum());
    }

    // Children count as ours while they run; what a process that ended had used is its parent's (cutime, cstime).
    private static long Ours()
    {
        if (!File.Exists("/proc/stat")) return 0;
        var all = Directory.EnumerateDirectories("/proc").Select(Of).OfType<(int Id, int Parent, long Used)>().ToDictionary(p => p.Id);
        return all.Values.Where(p => IsOurs(p.Id)).Sum(p => p.Used);

        bool IsOurs(int id) => id == Environment.ProcessId || (all.TryGetValue(id, out var one) && one.Parent != id && IsOurs(one.Parent));
    }

    private static (int Id, int Parent, long Used)? Of(string folder)
    {
        if (!int.TryParse(Path.GetFileName(folder), NumberStyles.None, CultureInfo.InvariantCulture, out int id)) return null;
        try
        {
            // The name, in brackets, may hold blanks: state and parent follow its end.
            string stat = File.ReadAllText(Path.Combine(folder, "stat"));
            string[] rest = stat[(stat.LastIndexOf(')') + 2)..].Split(' ');
            return (id, (int)Number(rest[1]), rest[11..15].Sum(Number));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // It ended meanwhile.
            return null;
        }
    }

    private static long Number(string text) => long.Parse(text, CultureInfo.InvariantCulture);
}
