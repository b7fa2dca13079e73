using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using Trimwright.Core.Finish;
using Trimwright.Core.Telling;

namespace Trimwright.App.Work;

/// <summary>A build plan as iCalendar (RFC 5545), every moment in UTC: a change of the clock moves no cure.</summary>
internal static class BuildCalendar
{
    // An event of no length is not shown by every calendar.
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(15);

    /// <summary>One event for each step. The plan must have a start.</summary>
    public static string Write(BuildPlanAnswer answer)
    {
        BuildPlan plan = answer.Plan;
        var words = new BuildWords(plan, answer.Notation);
        var calendar = new Calendar { ProductId = "-//Trimwright//Build plan//EN" };
        DateTimeOffset start = plan.Conditions.Start!.Value;
        for (int i = 0; i < plan.Steps.Length; i++)
        {
            BuildStep step = plan.Steps[i];
            ToldStep told = words.Of(step);
            TimeSpan to = step.Visit.To - step.Visit.From < Least ? step.Visit.From + Least : step.Visit.To;
            calendar.Events.Add(new CalendarEvent
            {
                // The same plan again replaces its events, it does not double them.
                Uid = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Slug(plan.Design.Name)}-{start.UtcDateTime:yyyyMMddHHmm}-{i + 1}@trimwright"),
                DtStamp = Utc(start),
                Summary = $"{plan.Design.Name}: {told.Title}",
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
