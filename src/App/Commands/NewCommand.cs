using System.ComponentModel;
using System.Globalization;
using Spectre.Console.Cli;
using Trimwright.App.Carried;
using Trimwright.App.Faults;
using Trimwright.App.Questions;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.App.Commands;

internal sealed class NewCommand : Command<NewCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("The lure file to write, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--from <STARTER>")]
        [Description("tidegate-185 (stickbait), mooring-post-210 (pencil) or slipway-150 (popper), or a lure file of yours.")]
        [DefaultValue("tidegate-185")]
        public required string From { get; init; }

        [CommandOption("--length <MM>")]
        [Description("Whole body, mm; in inches as 7.25in. As long as the starter when left out.")]
        public string? Length { get; init; }

        [CommandOption("--wood <WOOD>")]
        [Description("A wood of the box, by its id; the starter's when left out.")]
        public string? Wood { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("Whose woods, NAME.box.json; the starter box when left out.")]
        public string? Box { get; init; }

        [CommandOption("--name <NAME>")]
        [Description("What the lure is called; as the file when left out.")]
        public string? Name { get; init; }

        [CommandOption("--force")]
        [Description("Overwrite that file if it is there.")]
        public bool Force { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellation)
    {
        Files.Ending("FILE", settings.File, ".json");
        LureDesign from = Starters.All.FirstOrDefault(s => s.File == settings.From).Design
            ?? (System.IO.File.Exists(settings.From) ? Files.LoadLure(settings.From).Design : throw NoStarter(settings.From));
        (MakersBox box, IReadOnlyList<Warning> warnings) = settings.Box is { } path ? Files.LoadBox(path) : (Starters.Box, []);
        (from, IReadOnlyList<Warning> ofWood) = WoodOfBox.Chosen(from, box, settings.Wood);
        double? length = settings.Length is not { } typed ? null : LengthOf(typed);
        var question = new ALureToBegin(from, settings.Name ?? NameOf(settings.File), length, box);
        LureDesign design = Asked.Of(question.Answer(cancellation), null, (nameof(ALureToBegin.LengthMm), Asked.By("--length", settings.Length))).Answer;
        Files.Save(settings.File, LureFile.Write(design), settings.Force);
        string said = $"{Paper.Plain(design.Name)}, {settings.Notation.Length(design.Body.LengthMm)} of {design.Wood.Name ?? "wood"}, is in {Files.Shown(settings.File)}. "
            + $"It has no weights yet: trimwright plan {Files.Shown(settings.File)} --want \"sinks slowly, level\".";
        foreach (string line in Paper.Said(said, Paper.Width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes([.. warnings, .. ofWood], Paper.Width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }

    private static double LengthOf(string typed) => Options.Millimetres(typed) is { } mm and > 0 ? mm
        : throw Options.Wrong("--length", $"\"{typed}\"", "a length in mm, or in inches with in after it, with a dot", "Write for example --length 170, or --length 6.75in.");

    private static Refusal NoStarter(string typed)
    {
        string[] names = [.. Starters.All.Select(s => s.File)];
        return Options.Wrong("--from", $"\"{typed}\"", $"{string.Join(", ", names)}, or a lure file",
            Options.Meant(names, typed) ?? "Choose one of these, or name a file that is there.");
    }

    private static string NameOf(string file) =>
        Files.LureName(file) ?? (Path.GetFileNameWithoutExtension(Files.Shown(file)) is { Length: > 0 } stem ? stem : "new lure");
}
