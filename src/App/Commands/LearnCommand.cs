using System.ComponentModel;
using System.Globalization;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class LearnCommand : Command<LearnCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "[FOLDER]")]
        [Description("Finished builds: every NAME.lure.json in it with its NAME.log.json.")]
        public string? Folder { get; init; }

        [CommandOption("--hand <FILE>")]
        [Description("Keep it in your hand file, NAME.hand.json, begun when it is not there; without it, it is only told.")]
        public string? Hand { get; init; }

        [CommandOption("--before <DAY>")]
        [Description("Tell what was known by a day, like 2026-05-30.")]
        public string? Before { get; init; }

        [CommandOption("--forget")]
        [Description("Begin anew; what was learned stays in a file beside it.")]
        public bool Forget { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        (Learned learned, string? kept, IReadOnlyList<Warning> warnings) = Learn(settings, cancellation);
        if (settings.Json) Paper.Print(LearnJson.Of(learned, warnings));
        else
        {
            foreach (string line in Lines(learned, kept, settings.Notation, Paper.Width)) Console.Out.WriteLine(line);
            foreach (string line in Paper.Notes(warnings, Paper.Width)) Console.Error.WriteLine(line);
        }
        return (int)Exit.Done;
    }

    private const string Ending = ".hand.json", Lure = ".lure.json";

    /// <summary>Asks of a folder's builds and keeps what was learned; also where the version before is kept, null when there was none, or nothing changed.</summary>
    internal static (Learned Learned, string? Kept, IReadOnlyList<Warning> Warnings) Learn(Settings settings, CancellationToken cancellation)
    {
        if (settings.Hand?.EndsWith(Ending, StringComparison.OrdinalIgnoreCase) == false)
            throw Options.Wrong("--hand", $"\"{settings.Hand}\"", "a name that ends in .hand.json", "Name the hand file, for example my.hand.json.");
        DateOnly? before = settings.Before is null ? null : HandFile.DayOf(settings.Before)
            ?? throw Options.Wrong("--before", $"\"{settings.Before}\"", "a day like 2026-05-30", "Write year, month and day.");
        if (settings is { Hand: null, Folder: null } or { Hand: null, Forget: true })
            throw Options.Wrong("--hand", "nothing", "a folder of finished builds, or a hand file", "Name a folder, or --hand NAME.hand.json.");
        bool there = File.Exists(settings.Hand);
        (Hand old, IReadOnlyList<Warning> warnings) = there ? Files.LoadHand(settings.Hand!) : (Hand.Unknown, []);
        (IReadOnlyList<FinishedBuild> builds, IReadOnlyList<Warning> more) = settings.Folder is { } folder ? Builds(folder) : ([], []);
        using var work = new AtWork(cancellation);
        (Learned learned, _) = Asked.Of(new WhatBuildsTeach(settings.Forget ? old.Forgotten() : old, [.. builds], before).Answer(work.Pace));
        string? kept = settings.Hand is { } own && learned.Hand.Version != old.Version ? Keep(own, learned.Hand, there ? old : null) : null;
        return (learned, kept, [.. warnings, .. more]);
    }

    private static (IReadOnlyList<FinishedBuild> Builds, IReadOnlyList<Warning> Warnings) Builds(string folder)
    {
        if (!Directory.Exists(folder))
            throw new Refusal(Exit.InputWrong, "file", folder, "no such folder", "a folder with NAME.lure.json and NAME.log.json", "Check the name.");
        var builds = new List<FinishedBuild>();
        var warnings = new List<Warning>();
        foreach (string file in Directory.GetFiles(folder, "*" + Lure).Order(StringComparer.Ordinal))
        {
            (LureDesign design, IReadOnlyList<Warning> ofLure) = Files.LoadLure(file);
            warnings.AddRange(ofLure);
            string log = file[..^Lure.Length] + ".log.json";
            builds.Add(new FinishedBuild(design, File.Exists(log) ? Files.LoadLog(log).Log : null));
        }
        return (builds, warnings);
    }

    // The version before stays beside it, and no file that is there already is touched.
    private static string? Keep(string own, Hand hand, Hand? old)
    {
        var files = new List<(string, byte[])>();
        string? kept = null;
        if (old is not null)
        {
            int n = old.Version;
            do kept = own[..^Ending.Length] + string.Create(CultureInfo.InvariantCulture, $".v{n++}") + Ending;
            while (File.Exists(kept));
            files.Add((kept, HandFile.Write(old)));
        }
        files.Add((own, HandFile.Write(hand)));
        Files.Save(files, force: true);
        return kept;
    }

    private static IEnumerable<string> Lines(Learned learned, string? before, Notation notation, int width)
    {
        Hand hand = learned.Told;
        string builds = hand.Builds.Length switch { 0 => "nothing learned yet", 1 => "from one finished build", int n => $"from {n} finished builds" };
        foreach (string line in Paper.Said($"Your hand, {builds}", width)) yield return line;
        if (hand.Builds.Length > 0)
        {
            yield return "";
            foreach (string line in Paper.Row("", width, ("builds", 8), ("you", 11), ("next one", 11), ("usual", 11))) yield return line;
            foreach (string habit in Hand.Habits)
            {
                Habit own = hand[habit];
                if (own.Builds == 0) continue;
                foreach (string line in Paper.Row("  " + HandWords.Of(habit), width, (notation.Number(own.Builds, 0), 8),
                    (HandWords.Size(habit, own.Mean, true, notation), 11), (HandWords.Size(habit, own.Spread, false, notation), 11), (HandWords.Size(habit, 1, false, notation), 11))) yield return line;
            }
        }
        foreach (Untaught build in learned.Untaught)
            foreach (string line in Paper.Said($"{build.Name} taught nothing: {build.Why}.", width)) yield return line;
        if (before is { } kept)
            foreach (string line in Paper.Said($"What was known before is kept in {Path.GetFileName(kept)}.", width)) yield return line;
    }
}
