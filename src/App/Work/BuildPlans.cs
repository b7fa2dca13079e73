using System.Globalization;
using System.Text;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>buildplan</c>: the steps from boards to fishing. Numbers as typed.</summary>
internal sealed record BuildPlanRequest(
    string File, string? Box, string? Start, string? Zone, string? Temperature, string? Humidity, string Pockets, string Units, string? Calendar, bool Force, string? Pdf = null, string Paper = "a4");

/// <param name="Plan">Steps, amounts, dates.</param>
/// <param name="Notation">As asked.</param>
/// <param name="Warnings">Of lure and box.</param>
internal sealed record BuildPlanAnswer(BuildPlan Plan, Notation Notation, IReadOnlyList<Warning> Warnings);

internal static class BuildPlans
{
    private const double Coldest = 0;
    private const double Warmest = 45;

    /// <param name="request">What was asked.</param>
    /// <param name="more">Another file of the answer, in the words of whoever asks; all are written, or none.</param>
    public static BuildPlanAnswer Run(BuildPlanRequest request, Func<BuildPlanAnswer, (string Path, byte[] Bytes)?>? more = null)
    {
        BuildConditions conditions = Parse(request);
        bool inches = Predict.One("--units", request.Units, ("mm", false), ("in", true));
        if (request.Calendar is not null && conditions.Start is null)
            throw new Refusal(Exit.CommandLineWrong, "command-line", "--calendar", "no --start", "--calendar together with --start", "Say when the first step begins: --start 2026-11-28T18:00+01:00.");
        (LureDesign design, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        (MakersBox? box, IReadOnlyList<Warning> boxWarnings) = request.Box is { } path ? Files.LoadBox(path) : (null, []);
        BuildPlan plan = BuildPlan.Of(design, box, conditions);
        var answer = new BuildPlanAnswer(plan, new Notation(inches), [.. warnings, .. boxWarnings]);
        var files = new List<(string Path, byte[] Bytes)>();
        if (request.Pdf is { } pdf) files.Add((pdf, OnPaper(answer, request.Paper)));
        if (request.Calendar is { } calendar) files.Add((calendar, Encoding.UTF8.GetBytes(BuildCalendar.Write(answer))));
        if (more?.Invoke(answer) is { } other) files.Add(other);
        Files.Save(files, request.Force);
        return answer;
    }

    private static byte[] OnPaper(BuildPlanAnswer answer, string paper)
    {
        PaperSize size = Predict.One("--paper", paper, ("a4", PaperSize.A4), ("letter", PaperSize.Letter));
        if (!Typefaces.AreHere)
            throw new Refusal(Exit.MachineRefused, "no-type", "--pdf", "a program built without Node, which brings the type for paper", "one built where Node 20 is", "Install Node 20 and build again.");
        return Drawing.Pdf.Write(BuildPages.Of(answer.Plan, answer.Notation, size), $"{answer.Plan.Design.Name}: build plan");
    }

    private static BuildConditions Parse(BuildPlanRequest request) => new()
    {
        Start = request.Start is { } start ? Moment(start) : null,
        Zone = request.Zone is { } zone ? ZoneOf(zone) : null,
        TemperatureC = request.Temperature is { } t ? Number("--temperature", t, Coldest, Warmest, "°C") : new BuildConditions().TemperatureC,
        Humidity = request.Humidity is { } h ? Number("--humidity", h, 1, 100, "%") / 100 : null,
        PocketsBefore = Predict.One("--pockets", request.Pockets, ("before", true), ("after", false)),
    };

    // An offset is asked for: the same words mean another moment elsewhere.
    private static DateTimeOffset Moment(string text)
    {
        string[] forms = ["yyyy-MM-dd'T'HH:mmzzz", "yyyy-MM-dd'T'HH:mm:sszzz", "yyyy-MM-dd'T'HH:mm'Z'", "yyyy-MM-dd'T'HH:mm:ss'Z'"];
        if (DateTimeOffset.TryParseExact(text, forms, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset moment)
            && moment.Year is >= 1970 and <= 2200) return moment;
        throw new Refusal(Exit.CommandLineWrong, "command-line", "--start", $"\"{text}\"", "a date, an hour and the offset from UTC, years 1970 to 2200",
            "Write for example --start 2026-11-28T18:00+01:00.");
    }

    private static TimeZoneInfo ZoneOf(string name) =>
        TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? zone) ? zone
            : throw new Refusal(Exit.CommandLineWrong, "command-line", "--zone", $"\"{name}\"", "a time zone that this machine knows", "Write for example --zone Europe/Oslo, or leave it out.");

    private static double Number(string option, string text, double least, double most, string unit) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value >= least && value <= most
            ? value
            : throw new Refusal(Exit.CommandLineWrong, "command-line", option, $"\"{text}\"",
                string.Create(CultureInfo.InvariantCulture, $"a number with a dot, {least} to {most} {unit}"), $"Write for example {option} 20.");
}
