using System.ComponentModel;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.App.Commands;

internal sealed class SwapCommand : Command<SwapCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
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
        WaterState water = Options.Water(settings.Water);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(settings.File);
        (MakersBox? box, IReadOnlyList<Warning> ofBox) = settings.Box is { } file ? Files.LoadBox(file) : (null, (IReadOnlyList<Warning>)[]);
        warnings = [.. warnings, .. ofBox, .. WoodOfBox.Chosen(design, box, null).Notes];
        using var work = new AtWork(cancellation);
        SwapAnswer answer = new WhatSwapsDo(design, box, water, Everything: settings.Json).Answer(work.Pace);
        if (settings.Json)
        {
            Paper.Print(SwapJson.Of(answer, warnings));
            return (int)Exit.Done;
        }
        int width = Paper.Width;
        foreach (string line in SwapLines.Of(answer, settings.Notation, width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes(warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }
}
