using System.Globalization;

namespace Trimwright.Tests;

/// <summary>Reads the published tables in <c>Reference/</c>.</summary>
internal static class ReferenceTable
{
    /// <summary>The rows of a table as dictionaries by column name.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string file)
    {
        string[] lines = File.ReadAllLines(Path.Combine(Here.Tests, "Reference", file));
        string[] header = lines[0].Split(',');
        return [.. lines.Skip(1).Where(l => l.Length > 0).Select(line =>
        {
            string[] cells = Cells(line);
            return (IReadOnlyDictionary<string, string>)header.Zip(cells).ToDictionary(p => p.First, p => p.Second);
        })];
    }

    // A name with a comma in it stands in quotes.
    private static string[] Cells(string line)
    {
        string[] quoted = line.Split('"');
        for (int i = 1; i < quoted.Length; i += 2) quoted[i] = quoted[i].Replace(',', '\0');
        return [.. string.Concat(quoted).Split(',').Select(cell => cell.Replace('\0', ','))];
    }

    public static double Number(this IReadOnlyDictionary<string, string> row, string column) =>
        double.Parse(row[column], CultureInfo.InvariantCulture);
}

/// <summary>Where the sources lie, whatever folder the tests run in.</summary>
internal static class Here
{
    public static string Tests { get; } = Path.GetDirectoryName(File())!;

    public static string Root { get; } = Path.GetFullPath(Path.Combine(Tests, "..", ".."));

    private static string File([System.Runtime.CompilerServices.CallerFilePath] string path = "") => path;
}
