using System.Diagnostics;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;

namespace Trimwright.Frozen;

/// <summary>A folder of its own in which a program is asked, with the frozen inputs in it, and everything around it fixed.</summary>
internal sealed class Bench : IDisposable
{
    private const string Out = "out";

    // Beside a store lie files that its database makes and removes as it likes.
    private static readonly string[] OfStores = [".trimwright", "-wal", "-shm", "-journal"];

    private readonly IProgram program;
    private readonly string folder = Directory.CreateTempSubdirectory("trimwright-frozen-").FullName;
    private readonly string before = Directory.GetCurrentDirectory();
    private readonly Plain plain;

    /// <param name="program">What is asked.</param>
    /// <param name="inputs">The folder with the inputs; it is copied.</param>
    public Bench(IProgram program, string inputs)
    {
        this.program = program;
        plain = new Plain(folder, program.Version);
        foreach (string file in Directory.GetFiles(inputs, "*", SearchOption.AllDirectories)) Copy(file, Path.Combine(folder, Path.GetRelativePath(inputs, file)));
        Environment.SetEnvironmentVariable("COLUMNS", "80");
        Environment.SetEnvironmentVariable("TZ", "UTC");
        // The maker's own store is not touched, whatever is asked.
        Environment.SetEnvironmentVariable("XDG_DATA_HOME", Path.Combine(folder, "data"));
        Environment.SetEnvironmentVariable("HOME", folder);
        Directory.SetCurrentDirectory(folder);
    }

    /// <summary>Asks, and takes up what was said and written.</summary>
    public Answer Ask(Ask ask)
    {
        if (Directory.Exists(Out)) Directory.Delete(Out, recursive: true);
        Directory.CreateDirectory(Out);
        foreach ((string to, string from) in ask.Before ?? []) Copy(from, Path.Combine(Out, to));
        var known = new Dictionary<string, string>();
        Written(known);
        return new Answer([.. ask.Commands.Select(command =>
        {
            (int exit, string said, string error) = program.Run(command);
            string[] files = [.. Written(known).Where(f => ask.Keeps?.Any(f.EndsWith) ?? true)];
            return new Said(command, exit, plain.Of(said, ask.SaysVersions), plain.Of(error, ask.SaysVersions),
                new(files.ToDictionary(f => plain.Of(f, false), f => Content(f, ask.SaysVersions)), StringComparer.Ordinal));
        })]);
    }

    // Paths of files that are new, or not as they were.
    private static List<string> Written(Dictionary<string, string> known)
    {
        var found = new List<string>();
        foreach (string path in Directory.GetFiles(Out, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            if (OfStores.Any(path.EndsWith)) continue;
            string hash = Hash(File.ReadAllBytes(path));
            if (known.GetValueOrDefault(path) == hash) continue;
            known[path] = hash;
            found.Add(path);
        }
        return found;
    }

    private string Content(string path, bool versions)
    {
        byte[] bytes = File.ReadAllBytes(path);
        if (path.EndsWith(".pdf", StringComparison.Ordinal)) return TextOf(path) is { } text ? plain.Of(text, versions) : Said.Unread;
        if (path.EndsWith(".3mf", StringComparison.Ordinal)) return Package(bytes);
        return path.EndsWith(".stl", StringComparison.Ordinal) || bytes.Contains((byte)0) ? $"{bytes.Length} bytes, SHA-256 {Hash(bytes)}" : plain.Of(Encoding.UTF8.GetString(bytes), versions);
    }

    // How well a package is pressed is .NET's affair; what lies in it is the program's.
    private static string Package(byte[] bytes)
    {
        using var zip = new ZipArchive(new MemoryStream(bytes));
        return string.Join('\n', zip.Entries.Select(entry =>
        {
            using Stream from = entry.Open();
            using var into = new MemoryStream();
            from.CopyTo(into);
            return $"{entry.FullName}: {into.Length} bytes, SHA-256 {Hash(into.ToArray())}";
        }));
    }

    private static string? TextOf(string pdf)
    {
        try
        {
            using Process reader = Process.Start(new ProcessStartInfo("pdftotext", ["-layout", "-enc", "UTF-8", pdf, "-"]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
            string text = reader.StandardOutput.ReadToEnd();
            reader.WaitForExit();
            return reader.ExitCode == 0 ? text : "a PDF that pdftotext refuses";
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }

    private static string Hash(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    private static void Copy(string from, string to)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(to))!);
        File.Copy(from, to);
    }

    public void Dispose()
    {
        Directory.SetCurrentDirectory(before);
        Directory.Delete(folder, recursive: true);
    }
}
