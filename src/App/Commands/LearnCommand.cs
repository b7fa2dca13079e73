using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Work;
using Trimwright.Core.Doubt;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class LearnCommand : Command<LearnCommand.Settings>
{
    internal sealed class Settings : CommandSettings
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
        Learned learned = Learn.Run(new LearnRequest(settings.Folder, settings.Hand, settings.Before, settings.Forget), cancellation);
        if (settings.Json) Paper.Print(LearnJson.Of(learned));
        else
        {
            foreach (string line in Lines(learned, Notation.Metric, Paper.Width)) Console.Out.WriteLine(line);
            foreach (string line in Paper.Notes(learned.Warnings, Paper.Width)) Console.Error.WriteLine(line);
        }
        return (int)Exit.Done;
    }

    private static IEnumerable<string> Lines(Learned learned, Notation notation, int width)
    {
        Hand hand = learned.Hand;
        string builds = hand.Builds.Length switch { 0 => "nothing learned yet", 1 => "from one finished build", int n => $"from {n} finished builds" };
        yield return $"Your hand, {builds}";
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
        if (learned.Kept is { } kept)
            foreach (string line in Paper.Said($"What was known before is kept in {Path.GetFileName(kept)}.", width)) yield return line;
    }
}
