using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>The repository's own files, as the rules read them.</summary>
internal static partial class Sources
{
    private static readonly string[] Made = ["bin", "obj", "node_modules", ".git", "TestResults", "BenchmarkDotNet.Artifacts", "out"];

    /// <summary>Files below a folder of the repository by ending, build products left out; paths from the root, with slashes.</summary>
    public static IEnumerable<string> Files(string folder, string ending) =>
        Directory.EnumerateFiles(Path.Combine(Here.Root, folder), "*" + ending, SearchOption.AllDirectories)
            .Select(Relative).Where(IsOurs).Order(StringComparer.Ordinal);

    /// <summary>Folders below a folder, likewise.</summary>
    public static IEnumerable<string> Folders(string folder) =>
        Directory.EnumerateDirectories(Path.Combine(Here.Root, folder), "*", SearchOption.AllDirectories)
            .Select(Relative).Where(IsOurs).Order(StringComparer.Ordinal);

    public static string Text(string file) => File.ReadAllText(Path.Combine(Here.Root, file)).ReplaceLineEndings("\n");

    /// <summary>The lines of a C# file with comments and the insides of strings blanked: what is left names types.</summary>
    public static IEnumerable<(int Line, string Code)> Code(string file) =>
        Text(file).Split('\n').Select((line, i) => (i + 1, Comment().Replace(Quoted().Replace(line, "\"\""), "")));

    private static string Relative(string path) => Path.GetRelativePath(Here.Root, path).Replace('\\', '/');

    private static bool IsOurs(string path) => !path.Split('/').Intersect(Made).Any();

    [GeneratedRegex("\"(\\\\.|[^\"\\\\])*\"")]
    private static partial Regex Quoted();

    [GeneratedRegex("//.*")]
    private static partial Regex Comment();
}
