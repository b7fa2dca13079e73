using System.ComponentModel;
using System.Globalization;
using System.Text;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Drawing.Sheets;

namespace Trimwright.App.Commands;

internal sealed class BuildPlanCommand : Command<BuildPlanCommand.Settings>
{
    internal sealed class Settings : MeasuredSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("A lure file, NAME.lure.json.")]
        public required string File { get; init; }

        [CommandOption("--box <FILE>")]
        [Description("What you have, NAME.box.json: finishes, scales, prices.")]
        public string? Box { get; init; }

        [CommandOption("--wood <ID>")]
        [Description("Which wood of the box it is cut from, by its id; left out, the one that the lure names.")]
        public string? Wood { get; init; }

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
        (BuildPlan plan, Notation notation, IReadOnlyList<Warning> warnings) = Write(settings, width, cancellation);
        if (settings.Json)
        {
            Paper.Print(BuildPlanJson.Of(plan, notation, warnings));
            return (int)Exit.Done;
        }
        foreach (string line in BuildPlanText.Lines(plan, notation, width)) Console.Out.WriteLine(line);
        foreach (string line in Paper.Notes(warnings, width)) Console.Error.WriteLine(line);
        return (int)Exit.Done;
    }

    /// <summary>Asks for the plan, and writes the files of it that are asked for: all, or none.</summary>
    internal static (BuildPlan Plan, Notation Notation, IReadOnlyList<Warning> Warnings) Write(Settings settings, int width, CancellationToken cancellation)
    {
        if (settings.Pdf is { } paperFile) Files.Ending("--pdf", paperFile, ".pdf");
        if (settings.Calendar is { } dates) Files.Ending("--calendar", dates, ".ics");
        BuildConditions conditions = Conditions(settings);
        Notation notation = settings.Notation;
        if (settings.Calendar is not null)
            Asked.Sound(BuildPlanAsCalendar.FlawIn(conditions), (nameof(BuildPlanAsCalendar.Plan), Asked.By(
                "--calendar", "no --start", "--calendar together with --start", "Say when the first step begins: --start 2026-11-28T18:00+01:00.")));
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(settings.File);
        (MakersBox? box, IReadOnlyList<Warning> ofBox) = settings.Box is { } path ? Files.LoadBox(path) : (null, (IReadOnlyList<Warning>)[]);
        (design, IReadOnlyList<Warning> ofWood) = WoodOfBox.Chosen(design, box, settings.Wood);
        using var work = new AtWork(cancellation);
        (BuildPlan plan, _) = Asked.Of(new HowToBuild(design, box, conditions).Answer(work.Pace));
        var files = new List<(string Path, byte[] Bytes)>();
        if (settings.Pdf is { } pdf)
        {
            PaperSize paper = Options.One("--paper", settings.PaperSize, ("a4", Drawing.Sheets.PaperSize.A4), ("letter", Drawing.Sheets.PaperSize.Letter));
            files.Add((pdf, Asked.Of(new BuildPlanOnPaper(plan, notation, paper).Answer(work.Pace), fault => fault with { Path = "--pdf" }).Answer));
        }
        if (settings.Calendar is { } calendar) files.Add((calendar, Encoding.UTF8.GetBytes(Asked.Of(new BuildPlanAsCalendar(plan, notation).Answer(cancellation)).Answer)));
        if (settings.Text is { } text) files.Add((text, Encoding.UTF8.GetBytes(string.Join('\n', BuildPlanText.Lines(plan, notation, width)) + "\n")));
        Files.Save(files, settings.Force);
        return (plan, notation, [.. warnings, .. ofBox, .. ofWood]);
    }

    private static BuildConditions Conditions(Settings settings)
    {
        var usual = new BuildConditions();
        // Each is refused before the next is read.
        DateTimeOffset? start = settings.Start is { } moment ? Moment(moment) : null;
        TimeZoneInfo? zone = settings.Zone is { } name ? ZoneOf(name) : null;
        BuildConditions conditions = usual with { Start = start, Zone = zone, StationStep = settings.Notation.Inches && !settings.Json ? Stations.HalfInch : Stations.Centimetre, TemperatureC = settings.Temperature is { } t ? Options.Number(t) ?? double.NaN : usual.TemperatureC };
        Asked.Sound(HowToBuild.FlawIn(conditions), Air("--temperature", nameof(BuildConditions.TemperatureC), settings.Temperature, HowToBuild.Coldest, HowToBuild.Warmest, "°C"));
        conditions = conditions with { Humidity = settings.Humidity is { } h ? (Options.Number(h) ?? double.NaN) / 100 : null };
        Asked.Sound(HowToBuild.FlawIn(conditions), Air("--humidity", nameof(BuildConditions.Humidity), settings.Humidity, HowToBuild.Driest, HowToBuild.Dampest, "%"));
        return conditions with { PocketsBefore = Options.One("--pockets", settings.Pockets, ("before", true), ("after", false)) };
    }

    private static (string, Func<Fault, Refusal>) Air(string option, string part, string? typed, double least, double most, string unit) => (part, Asked.By(
        option, $"\"{typed}\"", string.Create(CultureInfo.InvariantCulture, $"a number with a dot, {least} to {most} {unit}"), $"Write for example {option} 20."));

    // An offset is asked for: the same words mean another moment elsewhere.
    private static DateTimeOffset Moment(string text)
    {
        string[] forms = ["yyyy-MM-dd'T'HH:mmzzz", "yyyy-MM-dd'T'HH:mm:sszzz", "yyyy-MM-dd'T'HH:mm'Z'", "yyyy-MM-dd'T'HH:mm:ss'Z'"];
        if (DateTimeOffset.TryParseExact(text, forms, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset moment)
            && moment.Year is >= 1970 and <= 2200) return moment;
        throw Options.Wrong("--start", $"\"{text}\"", "a date, an hour and the offset from UTC, years 1970 to 2200", "Write for example --start 2026-11-28T18:00+01:00.");
    }

    private static TimeZoneInfo ZoneOf(string name) => TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? zone) ? zone
        : throw Options.Wrong("--zone", $"\"{name}\"", "a time zone that this machine knows", "Write for example --zone Europe/Oslo, or leave it out.");
}
