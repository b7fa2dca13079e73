using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using Trimwright.App.Scheduling;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Numerics;
using Trimwright.Core.Telling;

namespace Trimwright.App.Questions;

/// <summary>A build plan as iCalendar (RFC 5545), one event for each step, every moment in UTC: a change of the clock moves no cure.</summary>
/// <param name="Plan">With a start.</param>
/// <param name="Notation">The maker's units.</param>
internal sealed record BuildPlanAsCalendar(BuildPlan Plan, Notation Notation) : IQuestion<Reply<string>>
{
    // An event of no length is not shown by every calendar.
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(15);

    /// <summary>What is wrong with a calendar of a plan without dates; null when it has some.</summary>
    public static Flaw? FlawIn(BuildConditions conditions) => conditions.Start is not null ? null
        : new Flaw(nameof(Plan), new Fault("missing", "start", "a plan without a start", "a plan with dates", "Say when the first step begins."));

    public Reply<string> Answer(Pace pace)
    {
        if (Plan.Conditions.Start is not { } start) return FlawIn(Plan.Conditions)!;
        var words = new BuildWords(Plan, Notation);
        var calendar = new Calendar { ProductId = "-//Trimwright//Build plan//EN" };
        for (int i = 0; i < Plan.Steps.Length; i++)
        {
            BuildStep step = Plan.Steps[i];
            ToldStep told = words.Of(step);
            TimeSpan to = step.Visit.To - step.Visit.From < Least ? step.Visit.From + Least : step.Visit.To;
            calendar.Events.Add(new CalendarEvent
            {
                // The same plan again replaces its events, it does not double them.
                Uid = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Slug(Plan.Design.Name)}-{start.UtcDateTime:yyyyMMddHHmm}-{i + 1}@trimwright"),
                DtStamp = Utc(start),
                Summary = $"{Plan.Design.Name}: {told.Title}",
                Description = string.Join("\n", [.. told.Do, .. told.Rows.Select(r => $"{r.Name}: {r.Value}"), .. told.Ticks.Select(t => "[ ] " + t), .. told.Cautions]).Replace('\u00A0', ' '),
                Start = Utc(start + step.Visit.From),
                End = Utc(start + to),
            });
        }
        return new CalendarSerializer().SerializeToString(calendar) ?? throw new InvalidOperationException("the calendar came out empty");
    }

    private static CalDateTime Utc(DateTimeOffset moment) => new(moment.UtcDateTime, "UTC");

    private static string Slug(string name)
    {
        string slug = new([.. name.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')]);
        return slug.Trim('-').Length > 0 ? slug.Trim('-') : "lure";
    }
}
