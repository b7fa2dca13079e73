using System.ComponentModel;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class NextCommand : Command<NextCommand.Settings>
{
    internal sealed class Settings : LogSettings
    {
        [CommandOption("--at <STAGE>")]
        [Description("What to measure at this stage; without it, at the latest that the log has come to.")]
        public string? At { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("Whose scales and instruments, NAME.box.json; without it all of a kitchen's.")]
        public string? Box { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        (MakersBox? box, IReadOnlyList<Warning> ofBox) = settings.Box is { } path ? Files.LoadBox(path) : (null, (IReadOnlyList<Warning>)[]);
        (WhatIsKnown known, IReadOnlyList<Warning> warnings) = settings.Known("finished");
        Stage? at = settings.At is { } word ? Options.StageOf("--stage", word) : null;
        using var work = new AtWork(cancellation);
        (NextAnswer answer, _) = Asked.Of(new WhatToMeasureNext(known, at, box).Answer(work.Pace));
        warnings = [.. warnings, .. ofBox, .. WoodOfBox.Chosen(known.Design, box, null).Notes];
        if (settings.Json) Paper.Print(NextJson.Of(answer, warnings));
        else
        {
            foreach (string line in Lines(answer, settings.Notation, Paper.Width)) Console.Out.WriteLine(line);
            foreach (string line in Paper.Notes(warnings, Paper.Width)) Console.Error.WriteLine(line);
        }
        return (int)Exit.Done;
    }

    // A chance that rises by less, and grams that narrow by less, are not worth the evening; common practice, no source.
    private const double WorthChance = 0.03;
    private const double WorthShare = 0.1;

    // "" where something helps.
    private static string Helps(NextAnswer answer)
    {
        if (answer.Candidates.IsEmpty) return "";
        double now = answer.Knowing.After.Spare.GiveOrTake;
        bool chance = answer.Stage <= Core.Ledger.Stage.DryFit && answer.Candidates.Any(c => c.ChanceAfter - c.ChanceBefore >= WorthChance);
        return chance || answer.Candidates.Any(c => c.GramsAfter <= (1 - WorthShare) * now) ? ""
            : "Nothing here helps much: build on.";
    }

    private static IEnumerable<string> Lines(NextAnswer answer, Notation notation, int width)
    {
        Knowing k = answer.Knowing;
        foreach (string line in Paper.Said($"{answer.Design.Name}, {Words.Of(answer.Stage)}: what is most worth measuring next", width)) yield return line;
        yield return "";
        foreach (string line in Paper.Wrap($"Now, {Words.Of(k.Where.Rig)} {Words.In(k.Where.Water)}: {DoubtWords.GiveOrTake(k.After.Spare, notation, answer.OnlyDrawn)}.", width)) yield return line;
        bool free = answer.Stage <= Stage.DryFit;
        if (free && !answer.Candidates.IsEmpty)
            foreach (string line in Paper.Wrap($"Weights set by what is known now come out as wanted with a chance of {DoubtWords.Chance(answer.Candidates[0].ChanceBefore, notation)}; the last column says with what chance after the reading.", width)) yield return line;
        if (Helps(answer) is { Length: > 0 } little)
            foreach (string line in Paper.Wrap(little, width)) yield return line;
        yield return "";
        (string, int)[] head = free ? [("minutes", 9), ("then", 9), ("", 5), ("odds", 12)] : [("minutes", 9), ("then", 9), ("", 5)];
        foreach (string line in Paper.Row("", width, head)) yield return line;
        foreach (Candidate c in answer.Candidates.Take(8))
        {
            (string, int)[] cells = [(notation.Number(c.Minutes, 0), 9), ("±" + notation.Weight(c.GramsAfter), 9), ("±" + notation.Number(c.DegreesAfter, 0) + "°", 5)];
            if (free) cells = [.. cells, (DoubtWords.Chance(c.ChanceAfter, notation), 12)];
            foreach (string line in Paper.Row("  " + Paper.Plain(DoubtWords.Of(c.Reading)), width, cells)) yield return line;
        }
        if (answer.Candidates.IsEmpty) yield return "Nothing is left to read at this stage.";
        else if (DoubtWords.Takes(answer.Candidates[0], notation) is { Length: > 0 } takes)
            foreach (string line in Paper.Said($"The first takes: {takes}.", width)) yield return line;
        if (answer.Lacking.IsEmpty) yield break;
        yield return "";
        yield return "Not with what the box has";
        foreach (Lacking lacking in answer.Lacking)
            foreach (string line in Paper.Said($"{DoubtWords.Of(lacking.Reading)}: wants {DoubtWords.Of(lacking, notation)}.", width, "  ", "  ")) yield return line;
    }
}
