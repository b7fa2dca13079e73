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

    public static byte[] Load(string path)
    {
        Named(path);
        try
        {
            using FileStream stream = File.OpenRead(path);
            var bytes = new byte[Math.Min(stream.Length, Enough)];
            stream.ReadExactly(bytes);
            return bytes;
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new Refusal(Exit.InputWrong, "file", path, "no such file", "a file that is there",
                "Check the name; `trimwright demo` writes some to try.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw new Refusal(Exit.MachineRefused, "file", path, e.Message, "a file that this account may read", "Check the file's permissions.");
        }
    }

    public static (LureDesign Design, IReadOnlyList<Warning> Warnings) LoadLure(string path)
    {
        byte[] bytes = Load(path);
        Reading<LureDesign> reading = LureFile.Read(bytes);
        if (reading.Value is { } design) return (design, reading.Warnings);
        if (BoxFile.IsBox(bytes)) throw new Refusal(Exit.InputWrong, "wrong-type", path, "a box", "a lure", "Name a lure file here; check reads boxes too.");
        if (LogFile.IsLog(bytes)) throw new Refusal(Exit.InputWrong, "wrong-type", path, "a tub log", "a lure", "Name a lure file here, and the log after --log.");
        throw new Refusal(Exit.InputWrong, reading.Faults);
    }

    public static (TubLog Log, IReadOnlyList<Warning> Warnings) LoadLog(string path)
    {
        byte[] bytes = Load(path);
        Reading<TubLog> reading = LogFile.Read(bytes);
        if (reading.Value is { } log) return (log, reading.Warnings);
        if (!LogFile.IsLog(bytes) && reading.Faults.All(f => f.Kind != "syntax"))
            throw new Refusal(Exit.InputWrong, "wrong-type", path, "a file without \"trimwright_log\"", "a tub log", "Name a log file after --log; the lure comes first.");
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
            throw new Refusal(Exit.InputWrong, "wrong-type", path, "a lure", "a box", "Name a box file here: NAME.box.json.");
        Reading<MakersBox> reading = BoxFile.Read(bytes);
        return reading.Value is { } box ? (box, reading.Warnings) : throw new Refusal(Exit.InputWrong, reading.Faults);
    }

    /// <summary>A name that was given; an empty one is most often a variable of the shell that was never set.</summary>
    public static string Named(string name, string option = "FILE") => !string.IsNullOrWhiteSpace(name) ? name
        : throw new Refusal(Exit.CommandLineWrong, "command-line", option, "an empty name", "the name of a file or folder", "Name one, or leave it out where it may be left out.");

    /// <summary>Writes a file, whole or not at all.</summary>
    public static void Save(string path, byte[] bytes, bool force) => Save([(path, bytes)], force);

    /// <summary>Writes several files, all or none: a name that is taken, or a disk that fills up, is found before the first has its name.</summary>
    public static void Save(IReadOnlyList<(string Path, byte[] Bytes)> files, bool force)
    {
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
