using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Work;
using Trimwright.Core.Ballast;
using Trimwright.Core.Doubt;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class CopyCommand : Command<CopyCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("The lure without the weights that nobody sees, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--log <FILE>")]
        [Description("Its readings, NAME.log.json.")]
        public string? Log { get; init; }

        [CommandOption("--water <WATER>")]
        [Description("What it does in tap, lake, brackish, ocean, reef, or S,T (salinity, °C).")]
        public string? Water { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("Your box, NAME.box.json: plans weights that do the same.")]
        public string? Box { get; init; }

        [CommandOption("--take <N>")]
        [Description("Which plan --out writes.")]
        [DefaultValue(1)]
        public int Take { get; init; }

        [CommandOption("--out <FILE>")]
        [Description("Write the lure with its weights.")]
        public string? Out { get; init; }

        [CommandOption("--force")]
        [Description("Overwrite that file if it is there.")]
        public bool Force { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        CopyMade made = Copy.Run(new CopyRequest(settings.File, settings.Log, settings.Water, settings.Box, settings.Take, settings.Out, settings.Force), cancellation);
        if (settings.Json) Paper.Print(CopyJson.Of(made));
        else
        {
            foreach (string line in Lines(made, Notation.Metric, Paper.Width)) Console.Out.WriteLine(line);
            foreach (string line in Paper.Notes(made.Warnings, Paper.Width)) Console.Error.WriteLine(line);
        }
        return (int)(made.Plan is { Plans.IsEmpty: true } ? Exit.CannotBeMet : Exit.Done);
    }

    private static IEnumerable<string> Lines(CopyMade made, Notation notation, int width)
    {
        Unseen u = made.Unseen;
        foreach (string line in Paper.Said($"{made.Design.Name}: the weights that nobody sees", width)) yield return line;
        yield return "";
        foreach (string line in Paper.Said(UnseenWords.Of(u, notation), width)) yield return line;
        if (UnseenWords.Hardly(u) is { Length: > 0 } hardly)
            foreach (string line in Paper.Said(hardly, width)) yield return line;
        if (made.Best is { } best)
            foreach (string line in Paper.Said($"Of what can still be read, most would come from: {DoubtWords.Of(best)}.", width)) yield return line;
        foreach (Flag flag in u.Knowing.Flags)
            foreach (string line in Paper.Said($"{(flag.IsKept ? "Hardly fits" : "Does not fit and is set aside")}: {DoubtWords.Of(u.Log.Readings[flag.Reading])}: {DoubtWords.Of(flag, u.Log.Readings[flag.Reading], notation)}", width)) yield return line;
        yield return "";
        foreach (string line in Paper.Said($"Finished and rigged: {DoubtWords.Told(u.Knowing.After, u.Knowing.Where.Water, notation)}", width)) yield return line;
        foreach (string line in Paper.Said($"A copy with that weight: {Sentence.Of(made.Prediction, notation)}", width)) yield return line;
        if (made.Plan is not { } plan) yield break;
        yield return "";
        if (plan.WhyNot is { } why)
        {
            foreach (string line in Paper.Said(PlanWords.Of(why, plan, made.Copied, notation), width)) yield return line;
            yield break;
        }
        for (int i = 0; i < plan.Plans.Length && i < Shown; i++)
        {
            foreach (string line in PlanLines.Of(plan, i, notation, width)) yield return line;
            yield return "";
        }
        if (plan.Plans.Length > Shown)
            foreach (string line in Paper.Said($"{plan.Plans.Length - Shown} more do it too: --json lists them, --take N writes one.", width)) yield return line;
        foreach (string line in Paper.Said(PlanWords.Caution, width)) yield return line;
    }

    private const int Shown = 2;
}
