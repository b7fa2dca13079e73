using System.ComponentModel;
using System.Text;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

internal sealed class PredictCommand : Command<PredictCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure file, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--stage <STAGE>")]
        [Description("blank, dry-fit, glued, sealed or finished.")]
        [DefaultValue("finished")]
        public required string Stage { get; init; }

        [CommandOption("--rig <RIG>")]
        [Description("bare, standins (lead on thread with the hooks' wet weight) or rigged; left out, rigged, and a blank bare.")]
        public string? Rig { get; init; }

        [CommandOption("--water <WATER>")]
        [Description("tap, lake, brackish, ocean, reef, or S,T (salinity, °C).")]
        [DefaultValue("ocean")]
        public required string Water { get; init; }

        [CommandOption("--picture <FILE>")]
        [Description("Draw it in the water, as SVG.")]
        public string? Picture { get; init; }

        [CommandOption("--force")]
        [Description("Overwrite the picture if it is there.")]
        public bool Force { get; init; }

        [CommandOption("--json")]
        [Description("One JSON object on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        if (settings.Picture is { } drawing) Files.Ending("--picture", drawing, ".svg");
        Circumstances where = Options.Where(settings.Stage, settings.Rig, settings.Water);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(settings.File);
        if (Options.NothingHangs(design, where.Stage, settings.Rig) is { } nothing) warnings = [.. warnings, nothing];
        PredictAnswer answer;
        using (var work = new AtWork(cancellation)) answer = new HowItSits(design, where).Answer(work.Pace);
        if (settings.Picture is { } picture)
            Files.Save(picture, Encoding.UTF8.GetBytes(new DrawnInWater(answer, settings.Notation).Answer(cancellation)), settings.Force);
        if (settings.Json)
        {
            Paper.Print(PredictJson.Of(answer, warnings));
            return (int)Exit.Done;
        }
        int width = Paper.Width;
        foreach (string line in Lines(answer, settings.Notation, width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes(warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }

    /// <summary>The sentence first, then what it weighs by part, then the ways it can sit.</summary>
    internal static IEnumerable<string> Lines(PredictAnswer answer, Notation notation, int width)
    {
        Prediction p = answer.Prediction;
        foreach (string line in Paper.Said($"{answer.Design.Name} ({Words.Of(p.Circumstances.Stage)}, {Words.Of(p.Ledger.Rig)}, {Words.In(p.Circumstances.Water)})", width)) yield return line;
        yield return "";
        foreach (string line in Paper.Wrap(Sentence.Of(p, notation), width)) yield return line;
        yield return "";
        foreach (string line in Weights(p, notation, width)) yield return line;
        yield return "";
        if (p.Descent is { } descent)
        {
            foreach (string line in Drops(answer, descent, notation, width)) yield return line;
            yield return "";
        }
        foreach (string line in Ways(p, notation, width)) yield return line;
    }

    private static IEnumerable<string> Drops(PredictAnswer answer, Descent descent, Notation notation, int width)
    {
        yield return "How it falls";
        if (descent.First is not { } fall)
        {
            string why = descent.RollsOnTheFall && descent.IfItHolds is { } held
                ? $"Its keel is little for so fast a fall: {Words.Trim(held.Trim, notation)}{(held.BellyUp ? ", belly up" : "")} and at {notation.Speed(held.Rate)} if it holds, "
                    + $"it rolls onto its side with a chance of {DoubtWords.Chance(descent.RollChance, notation)}. That hangs on how much of the turning moment its wake leaves, which nobody has measured on lures."
                : "No steady fall: it swings from one way to another.";
            foreach (string line in Paper.Wrap(why, width - 2, "")) yield return "  " + line;
            if (LetGoWords.Of(answer.Starts, descent, notation) is { } ways)
                foreach (string line in Paper.Wrap(ways, width - 2, "")) yield return "  " + line;
            yield break;
        }
        string rate = $"If built exactly as drawn: {DoubtWords.ByDrag(descent, notation)}"
            + $"; from rest the first {notation.Way} takes {Sentence.Seconds(Units.ToSeconds(descent.TimeTo(notation.WayMm)), notation)}";
        foreach (string line in Paper.Wrap(rate + ".", width - 2, "")) yield return "  " + line;
        if (LetGoWords.Of(answer.Starts, descent, notation) is { } starts)
            foreach (string line in Paper.Wrap(starts, width - 2, "")) yield return "  " + line;
        foreach (Touch touch in answer.Touches)
            foreach (string line in Paper.Row("  " + Paper.Plain(TouchWords.Of(touch, notation)), width, (Changed(touch.Rate, notation.Speed), 12), (Changed(Units.ToDegrees(touch.Trim), v => notation.Number(v, 1) + "°"), 8)))
                yield return line;
    }

    private static string Changed(double value, Func<double, string> shown) => !double.IsFinite(value) ? "lost" : (value > 0 ? "+" : "") + shown(value);

    private static IEnumerable<string> Weights(Prediction p, Notation notation, int width)
    {
        (string, int) Column(string text) => (text, 11);
        foreach (string line in Paper.Row("What it weighs", width, Column("weight"), Column("volume"))) yield return line;
        foreach ((string name, double mass, double volume) in WeightLines.Of(p.Ledger))
            foreach (string line in Paper.Row("  " + Paper.Plain(name), width, Column(notation.Weight(mass)),
                Column(Math.Abs(volume) < 5 ? "" : notation.Volume(volume)))) yield return line;
        foreach (string line in Paper.Row("In all", width, Column(notation.Weight(p.Ledger.Weight)), Column(notation.Volume(p.Ledger.Volume))))
            yield return line;
    }

    private static IEnumerable<string> Ways(Prediction p, Notation notation, int width)
    {
        if (p.SpareBuoyancy <= 0)
        {
            foreach (string line in Paper.Wrap($"At rest under water it {Words.Posture(p.Posture, notation, "hangs")}.", width)) yield return line;
            yield break;
        }
        yield return p.Postures.Length == 1 ? "How it can sit: one way" : $"How it can sit: {p.Postures.Length} ways";
        Posture first = p.Posture;
        foreach (string line in Paper.Wrap($"1. {Words.Posture(first, notation)}{(first.Mirror && Math.Abs(first.Heel ?? 0) < Units.FromDegrees(2) ? ", or its mirror image" : "")}.", width, "   "))
            yield return line;
        if (p.Tipping is { } tipping)
        {
            string stiff = $"GM {notation.Caliper(tipping.HeelGm)} in heel, {notation.Caliper(tipping.TrimGm)} in trim"
                + (tipping.RollPeriod is { } period ? $"; rolls once in about {notation.Number(period / 1000, 1)} s" : "");
            foreach (string line in Paper.Wrap("   " + stiff + ".", width - 3, "   ")) yield return "   " + line.TrimStart();
        }
        int number = 2;
        foreach (string other in Sentence.Others(p, notation))
            foreach (string line in Paper.Wrap($"{number++}. {other}", width, "   ")) yield return line;
    }
}
