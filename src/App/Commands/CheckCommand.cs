using System.ComponentModel;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class CheckCommand : Command<CheckCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure, a box, a log or a want: NAME.lure.json, NAME.box.json, NAME.log.json, NAME.want.json.")]
        public required string File { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        Checked reading = new IsItSound(Files.Load(settings.File), settings.Notation).Answer(cancellation);
        if (settings.Json) Paper.Print(CheckJson.Of(reading));
        else Print(reading);
        return (int)(reading.IsSound ? Exit.Done : Exit.InputWrong);
    }

    private static void Print(Checked reading)
    {
        foreach (Fault fault in reading.Faults)
            foreach (string line in Paper.Wrap(Paper.Plain(fault.ToString()), Paper.Width, "  ")) Console.Error.WriteLine(line);
        foreach (string line in Paper.Notes(reading.Warnings, Paper.Width)) Console.Error.WriteLine(line);
        Console.Out.WriteLine(reading.Name is { } name
            ? $"{Paper.Plain(name)} is sound."
            : reading.Faults.Count == 1 ? "One fault; see above." : $"{reading.Faults.Count} faults; see above.");
    }
}
