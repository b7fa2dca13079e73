using System.ComponentModel;
using Spectre.Console.Cli;
using Trimwright.App.Work;
using Trimwright.Core.Design;

namespace Trimwright.App.Commands;

internal sealed class SheetsCommand : Command<SheetsCommand.Settings>
{
    internal sealed class Settings : CommandSettings
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

        [CommandOption("--units <UNITS>")]
        [Description("mm or in.")]
        [DefaultValue("mm")]
        public required string Units { get; init; }

        [CommandOption("--only <SHEETS>")]
        [Description("first-evening, or names of sheets with commas between; all when left out.")]
        public string? Only { get; init; }

        [CommandOption("--nose <SIDE>")]
        [Description("left or right; when left out, left, and glue faces as they lie with the back up.")]
        public string? Nose { get; init; }

        [CommandOption("--measured-100 <MM>")]
        [Description("What the 100 mm line measures on your paper; the next sheets make up for it.")]
        public string? Measured100 { get; init; }

        [CommandOption("--trial-loop <PIN,EYE>")]
        [Description("A pin, and the inside of the loop that it left in your wire, mm; sets the pins of the wire sheet.")]
        public string? Trial { get; init; }

        [CommandOption("--force")]
        [Description("Overwrite files of the same names.")]
        public bool Force { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        SheetsAnswer answer = Work.Sheets.Run(new SheetsRequest(settings.File, settings.Out, settings.Paper, settings.Units,
            settings.Only, settings.Nose, settings.Measured100, settings.Trial, settings.Force));
        int width = Paper.Width;
        foreach (string line in Lines(answer, width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes(answer.Warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }

    /// <summary>What each sheet is, in the order of the work, and where it lies.</summary>
    internal static IEnumerable<string> Lines(SheetsAnswer answer, int width)
    {
        int pages = answer.Sheets.Sum(s => s.Pages);
        yield return $"{Paper.Plain(answer.Design.Name)}: {answer.Sheets.Count} sheets on {pages} pages";
        yield return "";
        foreach ((string id, string title, int count) in answer.Sheets)
            foreach (string line in Paper.Row($"  {title}", width, (id, 14), (count == 1 ? "1 page" : $"{count} pages", 10))) yield return line;
        yield return "";
        foreach (string line in Paper.Wrap($"Print {Paper.Plain(Path.GetFileName(answer.Files[0]))} at 100 %, nothing fitted to the page, and lay a rule on the 100 mm line.", width)) yield return line;
    }
}
