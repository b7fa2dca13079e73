using System.ComponentModel;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal class LogSettings : MeasuredSettings
{
    [CommandArgument(0, "<FILE>")]
    [Description("A lure file, NAME.lure.json.")]
    public required string File { get; init; }

    [CommandOption("--log <FILE>")]
    [Description("Its readings, NAME.log.json; without it nothing has been measured.")]
    public string? Log { get; init; }

    [CommandOption("--hand <FILE>")]
    [Description("Your own habits, NAME.hand.json, as learn wrote it.")]
    public string? Hand { get; init; }

    [CommandOption("--rig <RIG>")]
    [Description("Predict it bare, standins or rigged; left out, rigged, and a blank bare.")]
    public string? Rig { get; init; }

    [CommandOption("--water <WATER>")]
    [Description("Predict it in tap, lake, brackish, ocean, reef, or S,T (salinity, °C).")]
    [DefaultValue("ocean")]
    public required string Water { get; init; }

    [CommandOption("--json")]
    [Description("One JSON object on standard output.")]
    public bool Json { get; init; }

    /// <summary>The question, with what its files hold and what their readers warned of.</summary>
    internal (WhatIsKnown Question, IReadOnlyList<Warning> Warnings) Known(string stage)
    {
        Circumstances where = Options.Where(stage, Rig, Water);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(File);
        if (Options.NothingHangs(design, where.Stage, Rig) is { } nothing) warnings = [.. warnings, nothing];
        TubLog log = Nothing;
        if (Log is { } path)
        {
            (log, IReadOnlyList<Warning> ofLog) = Files.LoadLog(path);
            warnings = [.. warnings, .. ofLog];
            if (log.Name != design.Name)
                warnings = [.. warnings, new Warning(path, $"this log says that it is of \"{log.Name}\", not of \"{design.Name}\"")];
        }
        Asked.Sound(WhatIsKnown.FlawIn(design, log));
        (Hand hand, IReadOnlyList<Warning> ofHand) = Hand is { } file ? Files.LoadHand(file) : (Core.Doubt.Hand.Unknown, []);
        return (new WhatIsKnown(design, log, hand, where), [.. warnings, .. ofHand]);
    }

    private static readonly TubLog Nothing = new() { Name = "" };
}

internal sealed class ReadingsCommand : Command<ReadingsCommand.Settings>
{
    internal sealed class Settings : LogSettings
    {
        [CommandOption("--stage <STAGE>")]
        [Description("Predict it blank, dry-fit, glued, sealed or finished.")]
        [DefaultValue("finished")]
        public required string Stage { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        (WhatIsKnown question, IReadOnlyList<Warning> warnings) = settings.Known(settings.Stage);
        using var work = new AtWork(cancellation);
        (ReadingsAnswer answer, _) = Asked.Of(question.Answer(work.Pace));
        if (settings.Json) Paper.Print(ReadingsJson.Of(answer, warnings));
        else
        {
            foreach (string line in Lines(answer, settings.Notation, Paper.Width)) Console.Out.WriteLine(line);
            foreach (string line in Paper.Notes(warnings, Paper.Width)) Console.Error.WriteLine(line);
        }
        return (int)Exit.Done;
    }

    private static IEnumerable<string> Lines(ReadingsAnswer answer, Notation notation, int width)
    {
        Knowing k = answer.Knowing;
        int count = k.Log.Readings.Length;
        string head = $"{answer.Design.Name} ({Words.Of(k.Where.Stage)}, {Words.Of(k.Where.Rig)}, {Words.In(k.Where.Water)}), {(count == 0 ? "nothing read yet" : count == 1 ? "after one reading" : $"after {count} readings")}";
        foreach (string line in Paper.Said(head, width)) yield return line;
        yield return "";
        foreach (string line in Paper.Wrap(DoubtWords.Told(k.After, k.Where.Water, notation, answer.OnlyDrawn), width)) yield return line;
        yield return "";
        foreach (string line in Table(answer, notation, width)) yield return line;
        if (!k.After.Ways.IsEmpty) yield return "";
        foreach (string line in Chances(k.After, notation, width)) yield return line;
        foreach (string line in Odd(k, false, "Set aside, for it does not fit", notation, width)) yield return line;
        foreach (string line in Odd(k, true, "Used, though it hardly fits", notation, width)) yield return line;
        if (k.Stretch > 1)
        {
            yield return "";
            foreach (string line in Paper.Wrap(DoubtWords.Stretched(k.Stretch, notation), width)) yield return line;
        }
        yield return "";
        foreach (string line in Causes(answer, notation, width)) yield return line;
        yield return "";
        foreach (string line in Paper.Wrap($"The ladder: give or take of the {notation.Grams} to spare, as more is measured", width)) yield return line;
        foreach (Rung rung in answer.Ladder)
            foreach (string line in Paper.Row("  " + rung.What, width, ("±" + notation.Weight(rung.Grams), 11))) yield return line;
    }

    private static IEnumerable<string> Odd(Knowing k, bool kept, string head, Notation notation, int width)
    {
        if (!k.Flags.Any(f => f.IsKept == kept)) yield break;
        yield return "";
        yield return head;
        foreach (Flag flag in k.Flags.Where(f => f.IsKept == kept))
        {
            LogReading reading = k.Log.Readings[flag.Reading];
            foreach (string line in Paper.Said($"{flag.Reading + 1}. {DoubtWords.Of(reading)}: {DoubtWords.Of(flag, reading, notation)}", width - 2, hang: "   ")) yield return "  " + line;
        }
    }

    private static IEnumerable<string> Table(ReadingsAnswer answer, Notation notation, int width)
    {
        Knowing k = answer.Knowing;
        // Of what is as drawn the prediction stands in the middle: null in its place where the drawn lure does something else.
        static string Of(Ranged? r, Func<double, string> show, bool drawn, double? middle) => r is not { } v ? "none"
            : drawn && middle is null ? $"({show(v.Low95)} to {show(v.High95)})" : $"{show(middle ?? v.Median)} ({show(v.Low95)} to {show(v.High95)})";
        // The unit stands once, in the row's name.
        static string Bare(string shown) => Notation.Apart(shown).Number;
        static string Unit(string shown) => Notation.Apart(shown).Unit;
        (string, Func<Forecast, Ranged?>, Func<Prediction, double?>, Func<double, string>)[] rows =
        [
            ("weight", f => f.Weight, p => p.Ledger.Weight, v => Bare(notation.Weight(v))),
            (notation.Grams + " to spare", f => f.Spare, p => p.SpareBuoyancy, v => Bare(notation.Weight(v))),
            ("degrees tail down", f => f.Trim, p => BallastPlan.TrimOf(p), v => notation.Number(Units.ToDegrees(v), 0)),
            ($"{Unit(notation.Length(0))} of nose out", f => f.NoseOut, p => p.SpareBuoyancy > 0 ? p.Posture.NoseShowsAlong : null, v => Bare(notation.Length(v))),
            ($"fall, {Unit(notation.Speed(0))}", f => f.Rate, p => p.Descent?.First?.Rate, v => Bare(notation.Speed(v))),
        ];
        (bool read, bool drawn) = (k.Log.Readings.Length > 0, answer.Drawn is not null);
        (string, int)[] Cells(string before, string after) => read ? [(before, 28), (after, 28)] : [(before, 28)];
        foreach (string line in Paper.Row("95 of 100 lie in", width, Cells(drawn ? "as drawn" : read ? "before" : "now", "after"))) yield return line;
        foreach ((string name, Func<Forecast, Ranged?> of, Func<Prediction, double?> middle, Func<double, string> show) in rows)
            if (of(k.Before) is not null || of(k.After) is not null)
                foreach (string line in Paper.Row("  " + name, width, Cells(
                    Of(of(k.Before), show, drawn, answer.Drawn is { } p ? middle(p) : null), Of(of(k.After), show, false, null)))) yield return line;
    }

    private static IEnumerable<string> Chances(Forecast f, Notation notation, int width)
    {
        if (f.Ways.IsEmpty) yield break;
        yield return "How it sits, when it floats";
        foreach ((Sat way, double chance, Ranged trim) in f.Ways)
            foreach (string line in Paper.Row("  " + DoubtWords.Of(way), width,
                (DoubtWords.Chance(chance, notation), 12), ($"{DoubtWords.Degrees(trim.Low80, notation)} to {DoubtWords.Degrees(trim.High80, notation)}", 16))) yield return line;
    }

    private static IEnumerable<string> Causes(ReadingsAnswer answer, Notation notation, int width)
    {
        foreach (string line in Paper.Row("What the doubt comes from", width, ("share", 9), ("were it sure", 16))) yield return line;
        foreach (Share share in answer.Knowing.Causes.Take(8))
            foreach (string line in Paper.Row("  " + DoubtWords.Of(share.Cause, notation), width, (notation.Number(100 * share.Part, 0) + "\u00A0%", 9), ("±" + notation.Weight(share.Left, 2), 16))) yield return line;
        if (answer.OnlyDrawn?.Descent is { First: not null } descent)
            foreach (string line in Paper.Said($"The fall besides, if built exactly as drawn: {DoubtWords.ByDrag(descent, notation)}.", width - 2)) yield return "  " + line;
    }
}
