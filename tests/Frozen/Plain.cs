using System.Globalization;
using System.Text.RegularExpressions;

namespace Trimwright.Frozen;

/// <summary>What no program can say twice alike is put in braces: the moment, random names, the bench's own folder; versions where asked.</summary>
/// <param name="folder">The bench.</param>
/// <param name="version">Of the program.</param>
internal sealed partial class Plain(string folder, string version)
{
    private readonly DateTimeOffset begun = DateTimeOffset.UtcNow;

    // A list of what ships: a name, its version, its licence, in columns.
    private const int VersionFrom = 44, VersionTo = 56;

    public string Of(string text, bool versions)
    {
        text = text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace(folder, "{here}", StringComparison.Ordinal);
        text = Moment().Replace(text, m => IsNow(m.Value) ? "{now}" : m.Value);
        text = RandomName().Replace(text, "{random}");
        return versions ? Versions(text) : text;
    }

    private string Versions(string text)
    {
        text = Regex.Replace(text, $@"(?<![\d.]){Regex.Escape(version)}(?![\d.])", "{version}");
        return string.Join('\n', text.Split('\n').Select(line => line.Length > VersionTo && Dotted().IsMatch(line[VersionFrom..VersionTo]) ? line[..VersionFrom] + "{version}  " + line[VersionTo..] : line));
    }

    // Within a day: a bench runs for hours at most, and fixtures are older.
    private bool IsNow(string moment) =>
        DateTimeOffset.TryParseExact(moment.Replace(' ', 'T').TrimEnd('Z'), ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF",
            "yyyy-MM-dd'T'HH:mm:sszzz", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", "yyyyMMdd'T'HHmmss", "yyyyMMdd'T'HHmmssfff"],
            CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset at) && Math.Abs((at - begun).TotalDays) < 1;

    [GeneratedRegex(@"\b\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)?|\b\d{8}T\d{6}(\d{3})?Z?")]
    private static partial Regex Moment();

    [GeneratedRegex(@"\b[0-9a-f]{32}\b")]
    private static partial Regex RandomName();

    [GeneratedRegex(@"^\d+(\.\d+)+ *$")]
    private static partial Regex Dotted();
}
