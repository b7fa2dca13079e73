using System.ComponentModel;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class CopyCommand : Command<CopyCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
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
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(settings.File);
        if (settings.Log is not { } path) throw Options.Wrong("--log", "nothing", "a NAME.log.json with at least one reading", "Weigh the lure, write it down, and name the file.");
        (TubLog log, IReadOnlyList<Warning> ofLog) = Files.LoadLog(path);
        Asked.Sound(WhatIsUnseen.FlawIn(design, log));
        (MakersBox? box, IReadOnlyList<Warning> ofBox) = settings.Box is { } file ? Files.LoadBox(file) : (null, (IReadOnlyList<Warning>)[]);
        Circumstances where = Circumstances.InTheSea;
        if (settings.Water is { } water) where = where with { Water = Options.Water(water) };
        using var work = new AtWork(cancellation);
        (CopyMade made, Exit exit) = Asked.Of(new WhatIsUnseen(design, log, where, box).Answer(work.Pace));
        if (made.Plan is { } planned) Asked.Take(planned, settings.Take);
        if (settings.Out is { } output)
            Files.Save(output, LureFile.Write(made.Plan is { Plans: { IsEmpty: false } plans } ? plans[settings.Take - 1].Design : made.Copied), settings.Force);
        warnings = [.. warnings, .. ofLog, .. ofBox, .. WoodOfBox.Chosen(design, box, null).Notes];
        if (settings.Json) Paper.Print(CopyJson.Of(made, warnings));
        else
        {
            foreach (string line in Lines(made, settings.Notation, Paper.Width)) Console.Out.WriteLine(line);
            foreach (string line in Paper.Notes(warnings, Paper.Width)) Console.Error.WriteLine(line);
        }
        return (int)exit;
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
