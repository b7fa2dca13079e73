using System.Globalization;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>learn</c>: what do my finished builds say of my hand?</summary>
/// <param name="Folder">Every NAME.lure.json in it with a NAME.log.json; null: only to look, or to forget.</param>
/// <param name="Hand">The hand file to learn into, NAME.hand.json, begun when it is not there; null: only to tell.</param>
/// <param name="Before">A day: only builds finished before it count in what is told; null: all.</param>
/// <param name="Forget">Begin anew.</param>
internal sealed record LearnRequest(string? Folder, string? Hand, string? Before, bool Forget);

/// <summary>A build that could not teach, and why.</summary>
internal sealed record Untaught(string Name, string Why);

/// <param name="Hand">As it is now, builds up to the day asked for.</param>
/// <param name="New">Builds that taught this time.</param>
/// <param name="Untaught">Builds that did not.</param>
/// <param name="Kept">Where the version before is kept; null when there was none, or nothing changed.</param>
/// <param name="Warnings">Of the files.</param>
internal sealed record Learned(Hand Hand, IReadOnlyList<string> New, IReadOnlyList<Untaught> Untaught, string? Kept, IReadOnlyList<Warning> Warnings);

internal static class Learn
{
    private const string Ending = ".hand.json";

    public static Learned Run(LearnRequest request, Pace pace)
    {
        if (request.Hand?.EndsWith(Ending, StringComparison.OrdinalIgnoreCase) == false)
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--hand", $"\"{request.Hand}\"", "a name that ends in .hand.json", "Name the hand file, for example my.hand.json.");
        DateOnly? before = request.Before is null ? null : HandFile.DayOf(request.Before)
            ?? throw new Refusal(Exit.CommandLineWrong, "command-line", "--before", $"\"{request.Before}\"", "a day like 2026-05-30", "Write year, month and day.");
        if (request is { Hand: null, Folder: null } or { Hand: null, Forget: true })
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--hand", "nothing", "a folder of finished builds, or a hand file", "Name a folder, or --hand NAME.hand.json.");
        bool there = File.Exists(request.Hand);
        (Hand old, IReadOnlyList<Warning> warnings) = there ? Files.LoadHand(request.Hand!) : (Hand.Unknown, []);
        Hand hand = request.Forget ? old.Forgotten() : old;
        var taught = new List<string>();
        var untaught = new List<Untaught>();
        foreach (string file in request.Folder is { } folder ? Lures(folder) : [])
        {
            (LureDesign design, IReadOnlyList<Warning> more) = Files.LoadLure(file);
            string log = file[..^".lure.json".Length] + ".log.json";
            warnings = [.. warnings, .. more];
            (Taught? build, string why) = Teaches(design, log, pace);
            if (build is null) untaught.Add(new Untaught(design.Name, why));
            else
            {
                // What is known already is no new lesson.
                if (hand.Builds.Any(b => b.Name == build.Name && b.Finished == build.Finished && b.Lessons.SequenceEqual(build.Lessons))) continue;
                hand = hand.With(build);
                taught.Add(design.Name);
            }
        }
        string? kept = null;
        if (request.Hand is { } own && hand.Version != old.Version)
        {
            var files = new List<(string, byte[])>();
            // The version before stays beside it, and no file that is there already is touched.
            if (there)
            {
                int n = old.Version;
                do kept = own[..^Ending.Length] + string.Create(CultureInfo.InvariantCulture, $".v{n++}") + Ending;
                while (File.Exists(kept));
                files.Add((kept, HandFile.Write(old)));
            }
            files.Add((own, HandFile.Write(hand)));
            Files.Save(files, force: true);
        }
        return new Learned(hand.On(before), taught, untaught, kept, warnings);
    }

    private static IEnumerable<string> Lures(string folder)
    {
        if (!Directory.Exists(folder))
            throw new Refusal(Exit.InputWrong, "file", folder, "no such folder", "a folder with NAME.lure.json and NAME.log.json", "Check the name.");
        return Directory.GetFiles(folder, "*.lure.json").Order(StringComparer.Ordinal);
    }

    private static (Taught? Build, string Why) Teaches(LureDesign design, string logFile, Pace pace)
    {
        if (!File.Exists(logFile)) return (null, "it has no log");
        TubLog log = Files.LoadLog(logFile).Log;
        Readings.CheckParts(design, log);
        if (HandFile.DayOf(log.Finished) is not { } day) return (null, "its log has no \"finished\" day");
        if (!log.Readings.Any(r => r.Stage >= Stage.Glued)) return (null, "nothing was read of it after gluing");
        return (new Taught(design.Name, day, Hand.Of(design, log, pace)), "");
    }
}
