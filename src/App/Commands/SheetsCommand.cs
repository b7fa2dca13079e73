using System.Collections.Immutable;
using System.ComponentModel;
using System.Globalization;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Questions;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.App.Commands;

internal sealed class SheetsCommand : Command<SheetsCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure file, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--out <DIR>", isRequired: true)]
        [Description("Folder to write to.")]
        public required string Out { get; init; }

        [CommandOption("--paper <PAPER>")]
        [Description("a4 or letter.")]
        [DefaultValue("a4")]
        public required string Paper { get; init; }

        [CommandOption("--only <SHEETS>")]
        [Description("first-evening, or names of sheets with commas between; all when left out.")]
        public string? Only { get; init; }

        [CommandOption("--nose <SIDE>")]
        [Description("left or right; when left out, left, and glue faces as they lie with the back up.")]
        public string? Nose { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("What you have, NAME.box.json: the glue, syringe and scale of the glue card.")]
        public string? Box { get; init; }

        [CommandOption("--measured-100 <MM>")]
        [Description("What the 100 mm line measures on your paper; the next sheets make up for it. Once more for what it measures on those.")]
        public string[] Measured100 { get; init; } = [];

        [CommandOption("--trial-loop <PIN,EYE>")]
        [Description("A pin, and the inside of the loop that it left in your wire, mm; sets the pins of the wire sheet.")]
        public string? Trial { get; init; }

        [CommandOption("--force")]
        [Description("Overwrite files of the same names.")]
        public bool Force { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        (SheetsAnswer answer, IReadOnlyList<string> written, IReadOnlyList<Warning> warnings) = Write(settings, cancellation);
        int width = Commands.Paper.Width;
        foreach (string line in Lines(answer, settings, written[0], width)) Console.Out.WriteLine(line);
        foreach (string line in Commands.Paper.Notes(warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }

    private static (SheetsAnswer Answer, IReadOnlyList<string> Written, IReadOnlyList<Warning> Warnings) Write(Settings settings, CancellationToken cancellation)
    {
        Files.Folder("--out", settings.Out);
        (string, Func<Fault, Refusal>)[] said =
        [
            (nameof(SheetOptions.Measured100), Asked.By("--measured-100", string.Join(", then ", settings.Measured100.Select(m => $"\"{m}\"")),
                string.Create(CultureInfo.InvariantCulture, $"a number of mm with a dot, {SheetsFor.LeastMeasured} to {SheetsFor.MostMeasured}"))),
            (nameof(SheetOptions.Trial), Asked.By("--trial-loop", $"\"{settings.Trial}\"",
                "PIN,EYE in mm: a pin of 0.5 to 30, and what the loop then measures inside, not less than its pin", "Write for example --trial-loop 5,5.4.")),
            (nameof(SheetsFor.Only), Asked.By("--only", next: "Choose from these words, with commas between.")),
        ];
        var options = new SheetOptions(
            Options.Either("--paper", settings.Paper, ("a4", PaperSize.A4), ("letter", PaperSize.Letter)),
            settings.Notation,
            settings.Nose is { } nose ? Options.Either("--nose", nose, ("left", (Nose?)Nose.Left), ("right", Nose.Right)) : null,
            settings.Measured100.Aggregate(100.0, (inForce, measured) => SheetOptions.GoneOn(inForce, Options.Number(measured) ?? double.NaN)),
            settings.Trial is { } trial ? TrialOf(trial) : null);
        Asked.Sound(SheetsFor.FlawIn(options), said);
        ImmutableArray<string> only = Only(settings.Only);
        Asked.Sound(SheetsFor.FlawIn(only), said);
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(settings.File);
        (MakersBox? box, IReadOnlyList<Warning> ofBox) = settings.Box is { } path ? Files.LoadBox(path) : (null, (IReadOnlyList<Warning>)[]);
        using var work = new AtWork(cancellation);
        (SheetsAnswer answer, _) = Asked.Of(new SheetsFor(design, options with { Box = box }, only, SheetsFor.StemOf(Files.LureName(settings.File) ?? Path.GetFileName(settings.File))).Answer(work.Pace),
            fault => fault.Kind != SheetsFor.PocketOutside ? fault : fault with { Next = "Move it, choose a smaller one, or ask for other sheets with --only." }, said);
        (string Path, byte[] Bytes)[] files = [.. answer.Pieces.Select(piece => (Path.Combine(settings.Out, piece.Name), piece.Bytes))];
        Files.Save(files, settings.Force);
        return (answer, [.. files.Select(f => f.Path)], [.. warnings, .. ofBox]);
    }

    private static (double Pin, double Eye) TrialOf(string text) =>
        text.Split(',') is [var pin, var eye] ? (Options.Number(pin) ?? double.NaN, Options.Number(eye) ?? double.NaN) : (double.NaN, double.NaN);

    // Commas and nothing between them are no choice: said back as they were typed.
    private static ImmutableArray<string> Only(string? words) => words is null ? []
        : words.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) is { Length: > 0 } asked ? [.. asked] : [words];

    private static string Pages(int count) => count == 1 ? "1 page" : $"{count} pages";

    /// <summary>What each sheet is, in the order of the work, and where it lies.</summary>
    internal static IEnumerable<string> Lines(SheetsAnswer answer, Settings settings, string first, int width)
    {
        int pages = answer.Sheets.Sum(s => s.Pages);
        string head = $"{answer.Design.Name}: {(answer.Sheets.Count == 1 ? "1 sheet" : $"{answer.Sheets.Count} sheets")} on {Pages(pages)}";
        foreach (string line in Commands.Paper.Said(head, width)) yield return line;
        yield return "";
        foreach ((string id, string title, int count) in answer.Sheets)
            foreach (string line in Paper.Row($"  {title}", width, (id, 14), (Pages(count), 10))) yield return line;
        yield return "";
        foreach (string line in Paper.Wrap($"Print {Paper.Plain(Path.GetFileName(first))} at 100 %, nothing fitted to the page, and lay a rule on the 100 mm line.", width)) yield return line;
        if (answer.Measured100 == 100) yield break;
        string again = string.Join(' ', settings.Measured100.Append("MM").Select(m => $"--measured-100 {m}"));
        foreach (string line in Paper.Wrap($"They are drawn for a printer whose 100 mm measure {Notation.Metric.Number(answer.Measured100, 2)} mm. If the line isn't 100 mm now, go on with {again}.", width)) yield return line;
    }
}
