using Trimwright.App.Faults;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Workshop;

namespace Trimwright.App.Commands;

/// <summary>Files as makers name them; what goes wrong with them is said in a sentence.</summary>
internal static class Files
{
    // The reader refuses above its own limit; there is no need to load more than a byte beyond it.
    private const int Enough = 5_000_001;

    // No file can have such names; a dash in a place where a file is named means them.
    private const string Input = "\0standard input", Output = "\0standard output";

    /// <summary>Options that name a file to write; a dash after one means standard output, and elsewhere standard input.</summary>
    private static readonly string[] Writing = ["--out", "--picture", "--calendar", "--text", "--pdf"];

    /// <summary>
    /// The arguments with each dash that stands for a file spelt out: the library takes it for an option without a name. What would go to
    /// standard output goes to standard error then, so that the file stands alone.
    /// </summary>
    public static string[] Spelt(string[] args)
    {
        string[] spelt = [.. args.Select((arg, i) => arg != "-" ? arg : i > 0 && Writing.Contains(args[i - 1]) ? Output : Input)];
        foreach (string stream in new[] { Input, Output })
            if (spelt.Count(arg => arg == stream) > 1)
                throw new Refusal(Exit.CommandLineWrong, "command-line", "-", $"{stream[1..]} twice", "once", "Name a file for the other.");
        if (spelt.Contains(Output)) Console.SetOut(Console.Error);
        return spelt;
    }

    /// <summary>NAME of a file called NAME.lure.json; null of one that is called otherwise.</summary>
    public static string? LureName(string path)
    {
        string name = Path.GetFileName(Shown(path));
        int lure = name.IndexOf(".lure.", StringComparison.OrdinalIgnoreCase);
        return lure > 0 ? name[..lure] : null;
    }

    /// <summary>A file's name as it is said.</summary>
    public static string Shown(string path) => path.TrimStart('\0');

    public static byte[] Load(string path)
    {
        Named(path);
        try
        {
            using Stream stream = path == Input ? Console.OpenStandardInput() : Opened(path);
            // A pipe doesn't know how much will come.
            var bytes = new byte[stream.CanSeek ? Math.Min(stream.Length, Enough) : Enough];
            int read = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            return read == bytes.Length ? bytes : bytes[..read];
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new Refusal(Exit.InputWrong, "file", Shown(path), "no such file", "a file that is there",
                "Check the name; `trimwright demo` writes some to try.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new Refusal(Exit.MachineRefused, "file", Shown(path), Directory.Exists(path) ? "a folder" : "a file that can't be read", "a file that this account may read", "Check its name and its permissions.");
        }
    }

    // A pipe that nobody writes into keeps its reader waiting, as pipes do; whoever looks on is told what for.
    private static FileStream Opened(string path)
    {
        using var waiting = new Timer(_ => Console.Error.WriteLine(Paper.Plain($"{path}: waiting for somebody to write into it; Ctrl+C ends it.")), null, 1000, Timeout.Infinite);
        return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0);
    }

    public static (LureDesign Design, IReadOnlyList<Warning> Warnings) LoadLure(string path)
    {
        byte[] bytes = Load(path);
        Reading<LureDesign> reading = LureFile.Read(bytes);
        if (reading.Value is { } design) return (design, reading.Warnings);
        if (BoxFile.IsBox(bytes)) throw new Refusal(Exit.InputWrong, "wrong-type", Shown(path), "a box", "a lure", "Name a lure file here; check reads boxes too.");
        if (LogFile.IsLog(bytes)) throw new Refusal(Exit.InputWrong, "wrong-type", Shown(path), "a tub log", "a lure", "Name a lure file here, and the log after --log.");
        throw new Refusal(Exit.InputWrong, reading.Faults);
    }

    public static (TubLog Log, IReadOnlyList<Warning> Warnings) LoadLog(string path)
    {
        byte[] bytes = Load(path);
        Reading<TubLog> reading = LogFile.Read(bytes);
        if (reading.Value is { } log) return (log, reading.Warnings);
        if (!LogFile.IsLog(bytes) && reading.Faults.All(f => f.Kind != "syntax"))
            throw new Refusal(Exit.InputWrong, "wrong-type", Shown(path), "a file without \"trimwright_log\"", "a tub log", "Name a log file after --log; the lure comes first.");
        throw new Refusal(Exit.InputWrong, reading.Faults);
    }

    public static (Hand Hand, IReadOnlyList<Warning> Warnings) LoadHand(string path) =>
        HandFile.Read(Load(path)) is var reading && reading.Value is { } hand ? (hand, reading.Warnings) : throw new Refusal(Exit.InputWrong, reading.Faults);

    public static Want LoadWant(string path) =>
        WantFile.Read(Load(path)) is var reading && reading.Value is { } want ? want : throw new Refusal(Exit.InputWrong, reading.Faults);

    public static (MakersBox Box, IReadOnlyList<Warning> Warnings) LoadBox(string path)
    {
        byte[] bytes = Load(path);
        if (!BoxFile.IsBox(bytes) && LureFile.Read(bytes).IsSound)
            throw new Refusal(Exit.InputWrong, "wrong-type", Shown(path), "a lure", "a box", "Name a box file here: NAME.box.json.");
        Reading<MakersBox> reading = BoxFile.Read(bytes);
        return reading.Value is { } box ? (box, reading.Warnings) : throw new Refusal(Exit.InputWrong, reading.Faults);
    }

    /// <summary>A name that was given; an empty one is most often a variable of the shell that was never set.</summary>
    public static string Named(string name, string option = "FILE") => !string.IsNullOrWhiteSpace(name) ? name
        : throw new Refusal(Exit.CommandLineWrong, "command-line", option, "an empty name", "the name of a file or folder", "Name one, or leave it out where it may be left out.");

    /// <summary>A file's name has to end as what is written into it does: a picture in a text's clothes opens nowhere.</summary>
    public static void Ending(string option, string path, string ending)
    {
        if (Named(path, option) != Output && !path.EndsWith(ending, StringComparison.OrdinalIgnoreCase))
            throw new Refusal(Exit.CommandLineWrong, "command-line", option, $"{path}", $"a name that ends in {ending}", $"Write {option} {Path.ChangeExtension(path, ending)}.");
    }

    /// <summary>A folder's name; several files don't go to standard output.</summary>
    public static void Folder(string option, string path)
    {
        if (Named(path, option) == Output) throw new Refusal(Exit.CommandLineWrong, "command-line", option, "-", "a folder", $"Write {option} DIR.");
    }

    /// <summary>Writes a file, whole or not at all.</summary>
    public static void Save(string path, byte[] bytes, bool force) => Save([(path, bytes)], force);

    /// <summary>Writes several files, all or none: a name that is taken, or a disk that fills up, is found before the first has its name.</summary>
    public static void Save(IReadOnlyList<(string Path, byte[] Bytes)> files, bool force)
    {
        if (files is [(Output, var alone)])
        {
            using Stream output = Console.OpenStandardOutput();
            output.Write(alone);
            return;
        }
        foreach ((string path, _) in files)
            if (!force && File.Exists(Named(path)))
                throw new Refusal(Exit.InputWrong, "file", path, "a file that is there already", "a new name", "Add --force to overwrite it, or choose another.");
        using var whole = new WholeFiles(force);
        string now = "";
        try
        {
            foreach ((string path, byte[] bytes) in files) whole.Begin(now = Named(path)).Write(bytes);
            whole.Finish();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new Refusal(Exit.MachineRefused, [WholeFiles.Fault(now, e)]);
        }
    }
}
