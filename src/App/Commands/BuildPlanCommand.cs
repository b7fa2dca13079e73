using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Work;
using Trimwright.Core.Design;

namespace Trimwright.App.Commands;

internal sealed class BuildPlanCommand : Command<BuildPlanCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure file, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("What you have, NAME.box.json: finishes, scales, prices.")]
        public string? Box { get; init; }

        [CommandOption("--start <MOMENT>")]
        [Description("When the first step begins, as 2026-11-28T18:00+01:00; left out, hours are counted.")]
        public string? Start { get; init; }

        [CommandOption("--zone <ZONE>")]
        [Description("Whose clock hangs on the wall, as Europe/Oslo; left out, the offset of --start.")]
        public string? Zone { get; init; }

        [CommandOption("--temperature <C>")]
        [Description("In the shop, °C; left out, 20.")]
        public string? Temperature { get; init; }

        [CommandOption("--humidity <PCT>")]
        [Description("In the shop, %.")]
        public string? Humidity { get; init; }

        [CommandOption("--pockets <WHEN>")]
        [Description("before (in the square boards) or after carving.")]
        [DefaultValue("after")]
        public required string Pockets { get; init; }

        [CommandOption("--units <UNITS>")]
        [Description("mm or in.")]
        [DefaultValue("mm")]
        public required string Units { get; init; }

        [CommandOption("--calendar <FILE>")]
        [Description("Write the steps as a calendar, NAME.ics.")]
        public string? Calendar { get; init; }

        [CommandOption("--text <FILE>")]
        [Description("Write the plan into a text file.")]
        public string? Text { get; init; }

        [CommandOption("--pdf <FILE>")]
        [Description("Write the plan on paper, NAME.pdf.")]
        public string? Pdf { get; init; }

        [CommandOption("--paper <PAPER>")]
        [Description("a4 or letter, for --pdf.")]
        [DefaultValue("a4")]
        public required string PaperSize { get; init; }

        [CommandOption("--force")]
        [Description("Overwrite files that are there.")]
        public bool Force { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        int width = Paper.Width;
        BuildPlanAnswer answer = BuildPlans.Run(
            new BuildPlanRequest(settings.File, settings.Box, settings.Start, settings.Zone,
                settings.Temperature, settings.Humidity, settings.Pockets, settings.Units, settings.Calendar, settings.Force, settings.Pdf, settings.PaperSize),
            told => settings.Text is { } text ? (text, System.Text.Encoding.UTF8.GetBytes(string.Join('\n', BuildPlanText.Lines(told, width)) + "\n")) : null);
        if (settings.Json)
        {
            Paper.Print(BuildPlanJson.Of(answer));
            return (int)Exit.Done;
        }
        foreach (string line in BuildPlanText.Lines(answer, width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes(answer.Warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }
}
