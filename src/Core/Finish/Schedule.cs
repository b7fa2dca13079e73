using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Core.Finish;

/// <summary>
/// Puts dates on steps. Everything is elapsed time from the start, so no change of the clock makes a window an hour longer;
/// only the hours at which a maker is awake are read off the clock on the wall.
/// </summary>
/// <param name="start">When the first step begins; null: nobody knows the hour, and steps follow each other at once.</param>
/// <param name="zone">The wall clock; null: the start's own offset, throughout.</param>
internal sealed class Schedule(DateTimeOffset? start, TimeZoneInfo? zone)
{
    // A maker's day: common practice, no source.
    private static readonly TimeSpan Morning = TimeSpan.FromHours(8);
    private static readonly TimeSpan Night = TimeSpan.FromHours(22);

    /// <summary>The moment from which the next step may begin.</summary>
    private TimeSpan ready = TimeSpan.Zero;

    // Of the coat that lies on the work: when its window opened and closes.
    private (TimeSpan From, TimeSpan? Until)? window;

    // Colour is never sanded: what goes on it waits and no more.
    private bool overColour;

    /// <summary>Each step with its visit.</summary>
    public static ImmutableArray<BuildStep> Of(IEnumerable<BuildStep> steps, DateTimeOffset? start, TimeZoneInfo? zone)
    {
        var schedule = new Schedule(start, zone);
        return [.. steps.Select(schedule.Place)];
    }

    private BuildStep Place(BuildStep step)
    {
        if (step is CoatStep coat) return PlaceCoat(coat);
        TimeSpan from = Awake(ready, step.Hands);
        window = null;
        BuildStep placed = step with { Visit = new Visit(from, from + step.Hands) };
        ready = placed.Visit.To + step.Waits;
        return placed;
    }

    // Unsanded inside the window where the maker is awake in it; else when it can be sanded.
    private CoatStep PlaceCoat(CoatStep coat)
    {
        TimeSpan opens = window?.From ?? ready, from = Awake(opens, coat.Hands);
        bool late = window is { } w && from > w.Until;
        if (late) (opens, from) = (ready, Awake(ready, coat.Hands));
        CoatStep placed = coat with { SandFirst = late && !overColour, Visit = new Visit(from, from + coat.Hands, opens, late ? null : window?.Until) };
        TimeSpan on = placed.Visit.To;
        ready = on + coat.Times.SandFrom;
        window = coat.Times.RecoatFrom is { } recoat ? (on + recoat, on + coat.Times.RecoatUntil) : null;
        overColour = coat.Film.Use == FinishUse.Colour;
        return placed;
    }

    /// <summary>The first moment from which a step of that length fits into a maker's day.</summary>
    private TimeSpan Awake(TimeSpan earliest, TimeSpan hands)
    {
        if (start is not { } begin) return earliest;
        DateTimeOffset moment = Local(begin + earliest, zone);
        TimeSpan time = moment.TimeOfDay;
        // The very first step begins when the maker says; a step longer than the day begins in the morning.
        if (earliest == TimeSpan.Zero || (time >= Morning && (time + hands <= Night || time == Morning))) return earliest;
        DateTimeOffset day = time < Morning ? moment : moment.AddDays(1);
        return MorningOf(day) - begin;
    }

    private DateTimeOffset MorningOf(DateTimeOffset day)
    {
        DateTime wall = day.Date + Morning;
        return new DateTimeOffset(wall, zone?.GetUtcOffset(wall) ?? day.Offset);
    }

    /// <summary>A moment on the wall clock.</summary>
    public static DateTimeOffset Local(DateTimeOffset moment, TimeZoneInfo? zone) =>
        zone is null ? moment : TimeZoneInfo.ConvertTime(moment, zone);
}
