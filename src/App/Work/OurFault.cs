using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Work;

/// <summary>
/// A mistake in Trimwright itself: a report in the data folder for whoever mends it. Version, system and stack; the lure only
/// when the maker wants it in. Nothing is sent, ever.
/// </summary>
internal static class OurFault
{
    // A fault that comes with every move of a hand must not fill the disk.
    private const int Kept = 20;

    private const string Pattern = "report-*.txt";

    /// <summary>Writes the report; its path, or null when it could not be written anywhere.</summary>
    public static string? Report(Exception fault, DataFolder folder, DateTimeOffset at) =>
        Write(fault, folder.Path, at) ?? Write(fault, Path.GetTempPath(), at);

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

    private static string? Write(Exception fault, string folder, DateTimeOffset at)
    {
        try
        {
            Directory.CreateDirectory(folder);
            foreach (string old in Directory.GetFiles(folder, Pattern).Order(StringComparer.Ordinal).Reverse().Skip(Kept - 1)) File.Delete(old);
            string path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"report-{at.UtcDateTime:yyyyMMdd'T'HHmmssfff'Z'}.txt"));
            WholeFiles.Write(path, Encoding.UTF8.GetBytes(Text(fault, at)), replace: true);
            return path;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static string Text(Exception fault, DateTimeOffset at)
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"Trimwright {Store.Program}, {at.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC");
        text.AppendLine(CultureInfo.InvariantCulture, $"{RuntimeInformation.OSDescription}, {RuntimeInformation.OSArchitecture}, {RuntimeInformation.FrameworkDescription}");
        text.AppendLine().AppendLine(fault.ToString());
        return text.ToString();
    }
}
