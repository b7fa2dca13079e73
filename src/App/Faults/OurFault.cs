using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.RegularExpressions;
using Trimwright.App.Scheduling;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Workshop;

namespace Trimwright.App.Faults;

/// <summary>
/// A mistake in Trimwright itself: a report in the data folder for whoever mends it. Versions, system, stack, and what the program did
/// last; the lure only when the maker wants it in. Nothing is sent, ever.
/// </summary>
internal static partial class OurFault
{
    // A fault that comes with every move of a hand must not fill the disk.
    private const int Kept = 20;

    private const string Pattern = "report-*.txt";

    /// <summary>Writes the report; its path, or null when it could not be written anywhere.</summary>
    public static string? Report(Exception fault, DataFolder folder, DateTimeOffset at, Operations? operations = null) =>
        Write(fault, folder.Path, at, operations) ?? Write(fault, Path.GetTempPath(), at, operations);

    /// <summary>What the maker is told.</summary>
    public static string Said(string? report) => "This is our own fault, not yours. "
        + (report is null ? "A report of it could not be written." : $"A report lies in {report}.") + " Nothing was sent.";

    /// <summary>Puts the lure into a report: its maker ticked that it may be in.</summary>
    public static void PutIn(string report, LureDesign lure)
    {
        try
        {
            File.AppendAllText(report, $"\nThe lure, since its maker wanted it in:\n{Encoding.UTF8.GetString(LureFile.Write(lure))}\n");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The report stays as it is; the lure is in its store.
        }
    }

    private static string? Write(Exception fault, string folder, DateTimeOffset at, Operations? operations)
    {
        try
        {
            Directory.CreateDirectory(folder);
            foreach (string old in Directory.GetFiles(folder, Pattern).Order(StringComparer.Ordinal).Reverse().Skip(Kept - 1)) File.Delete(old);
            string path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"report-{at.UtcDateTime:yyyyMMdd'T'HHmmssfff'Z'}.txt"));
            WholeFiles.Write(path, Encoding.UTF8.GetBytes(Text(fault, at, operations)), replace: true);
            return path;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static string Text(Exception fault, DateTimeOffset at, Operations? operations)
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"Trimwright {Store.Program}, {at.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC");
        text.AppendLine(CultureInfo.InvariantCulture, $"{RuntimeInformation.OSDescription}, {RuntimeInformation.OSArchitecture}, {RuntimeInformation.FrameworkDescription}");
        text.AppendLine(CultureInfo.InvariantCulture, $"Formats: lure {LureFile.Version}, box {BoxFile.Version}, want {WantFile.Version}, log {LogFile.Version}, hand {HandFile.Version}");
        text.AppendLine();
        Tell(text, fault, "");
        if (operations is not null) Tell(text, operations.Last);
        return text.ToString();
    }

    // A library's words may quote what the maker wrote, or where it lies: what stands in quotation marks and every path is left out.
    private static void Tell(StringBuilder text, Exception fault, string because)
    {
        text.AppendLine(CultureInfo.InvariantCulture, $"{because}{fault.GetType().FullName}: {Paths().Replace(Quoted().Replace(fault.Message, "…"), "…")}");
        if (fault.StackTrace is { } stack) text.AppendLine(Source().Replace(stack, " in "));
        foreach (Exception inner in fault is AggregateException many ? many.InnerExceptions : fault.InnerException is { } one ? [one] : (IEnumerable<Exception>)[])
            Tell(text, inner, "because of ");
    }

    private static void Tell(StringBuilder text, IReadOnlyList<Operation> last)
    {
        text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"What it did last, at most {Operations.Kept} operations, no lure among them; seconds since the start, ms:");
        foreach (Operation o in last)
            text.AppendLine(CultureInfo.InvariantCulture, $"{o.Ended.TotalSeconds,9:0.000} {o.Name}{(o.Times > 1 ? $" ×{o.Times}" : "")} {Word(o.Ending)}, waited {o.Waited.TotalMilliseconds:0.0}, took {o.Took.TotalMilliseconds:0.0}");
    }

    private static string Word(Ending ending) => ending switch
    {
        Ending.Done => "done",
        Ending.GivenUp => "given up",
        Ending.Failed => "failed",
    };

    [GeneratedRegex("'[^']*'|\"[^\"]*\"|“[^”]*”|„[^“]*“|«[^»]*»")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"\S*[/\\][^\s,;]*")]
    private static partial Regex Paths();

    // Folders of whoever built it.
    [GeneratedRegex(@" in \S.*?[/\\](?=[^/\\]+:line \d)")]
    private static partial Regex Source();
}
