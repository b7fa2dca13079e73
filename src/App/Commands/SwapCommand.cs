using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Work;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class SwapCommand : Command<SwapCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure file, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("Your box, NAME.box.json: its hooks, rings, leaders, wire and drills; usual ones when left out.")]
        public string? Box { get; init; }

        [CommandOption("--water <WATER>")]
        [Description("In which the remedies are told: tap, lake, brackish, ocean, reef, or S,T (salinity, °C).")]
        [DefaultValue("ocean")]
        public required string Water { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output, with every hook set under every leader.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        SwapAnswer answer = Swap.Run(new SwapRequest(settings.File, settings.Box, settings.Water, settings.Json), cancellation);
        if (settings.Json)
        {
            Paper.Print(SwapJson.Of(answer));
            return (int)Exit.Done;
        }
        int width = Paper.Width;
        foreach (string line in SwapLines.Of(answer, Notation.Metric, width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes(answer.Warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }
}
