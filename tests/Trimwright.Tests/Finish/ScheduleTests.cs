using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;

namespace Trimwright.Tests.Finish;

/// <summary>Dates: forwards only, windows kept, at hours when makers are awake, and no hour lost where the clock changes.</summary>
public class ScheduleTests
{
    private static readonly LureDesign Lure = Lures.Demo("tidegate-185") with
    {
        Finish =
        [
            new Coat { Name = "scale paint", Coats = 2, ThicknessMm = 0.03, DensityGPerCm3 = 1.3 },
            new Coat { Name = "clear epoxy", Coats = 3, ThicknessMm = 0.2 },
        ],
    };

    [Fact]
    public void Visits_never_overlap_or_go_backwards_and_windows_are_kept_at_any_temperature_and_start()
    {
        var random = new Random(41);
        int sanded = 0, unsanded = 0;
        for (int i = 0; i < Tier.Count(24, 600); i++)
        {
            DateTimeOffset? start = random.Next(6) == 0 ? null : Plans.Evening.AddMinutes(random.Next(600_000));
            var conditions = Plans.Quick with { Start = start, Zone = random.Next(2) == 0 ? Plans.WallClock : null, TemperatureC = 45 * random.NextDouble(), PocketsBefore = random.Next(2) == 0 };
            BuildPlan plan = BuildPlan.Of(Lure, Plans.Box(random), conditions);
            string about = FormattableString.Invariant($"draw {i}: {conditions.TemperatureC:F1} °C from {start}");
            Assert.Equal(TimeSpan.Zero, plan.Steps[0].Visit.From);
            foreach ((BuildStep before, BuildStep after) in plan.Steps.Zip(plan.Steps.Skip(1)))
            {
                Assert.True(before.Visit.To <= after.Visit.From && before.Phase <= after.Phase, about);
                if (after is CoatStep late) Check(before, late, about);
                if (before is GlueStep glue) Assert.True(after.Visit.From - glue.Visit.To >= glue.Times.SandFrom, about);
                if (before is SealStep seal) Assert.True(after.Visit.From - seal.Visit.To >= seal.Times.SandFrom, about);
                if (before is SoakStep soak) Assert.True(after.Visit.From - soak.Visit.To >= soak.Under + SoakStep.Drying, about);
            }
            CoatStep last = plan.Steps.OfType<CoatStep>().Last();
            Assert.True(last.IsLast && plan.Steps.OfType<RigStep>().Single().Visit.From - last.Visit.To >= last.Times.Cure - TimeSpan.FromMinutes(1), about);
            sanded += plan.Steps.OfType<CoatStep>().Count(c => c.SandFirst);
            unsanded += plan.Steps.OfType<CoatStep>().Count(c => c.Visit.Closes is not null);
            if (start is not null) Assert.All(plan.Steps.Skip(1), step => Assert.InRange(plan.At(step.Visit.From)!.Value.TimeOfDay, TimeSpan.FromHours(8), TimeSpan.FromHours(22)));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{sanded} coats sanded before, {unsanded} inside a window that closes");
        Assert.True(sanded > 0 && unsanded > 0);
    }

    private static void Check(BuildStep before, CoatStep coat, string about)
    {
        if (before is not CoatStep under) return;
        TimeSpan since = coat.Visit.From - under.Visit.To;
        bool inWindow = under.Times.RecoatFrom is { } from && since >= from && (under.Times.RecoatUntil is not { } until || since <= until);
        Assert.True(inWindow || since >= under.Times.SandFrom, $"{about}: a coat {since} after the one under it");
        if (coat.SandFirst) Assert.True(!inWindow && under.Film.Use != FinishUse.Colour, about);
        if (coat.Visit.Closes is { } closes) Assert.True(coat.Visit.From <= closes && coat.Visit.From >= coat.Visit.Opens, about);
    }

    [Theory]
    [InlineData("2026-10-24T09:00+02:00")]
    [InlineData("2026-03-28T09:00+01:00")]
    public void Cures_are_elapsed_hours_across_both_changes_of_the_clock(string from)
    {
        DateTimeOffset start = DateTimeOffset.Parse(from, System.Globalization.CultureInfo.InvariantCulture);
        for (int days = -14; days <= 1; days += Tier.Count(3, 1))
        {
            BuildPlan plan = BuildPlan.Of(Lure, Plans.Kitchen, Plans.Quick with { Start = start.AddDays(days), Zone = Plans.WallClock, TemperatureC = 20 });
            foreach ((BuildStep before, BuildStep after) in plan.Steps.Zip(plan.Steps.Skip(1)))
            {
                DateTimeOffset off = plan.At(before.Visit.To)!.Value, on = plan.At(after.Visit.From)!.Value;
                // As a stopwatch counts: the wall clock's own offsets are taken out.
                Assert.Equal(after.Visit.From - before.Visit.To, on.UtcDateTime - off.UtcDateTime);
                Assert.Equal(Plans.WallClock.GetUtcOffset(on), on.Offset);
                if (before is GlueStep glue) Assert.True(on.UtcDateTime - off.UtcDateTime >= glue.Times.SandFrom);
                if (before is CoatStep coat) Assert.True(on.UtcDateTime - off.UtcDateTime >= (coat.Times.RecoatFrom ?? coat.Times.SandFrom));
            }
        }
    }

    [Fact]
    public void A_night_in_which_the_clock_goes_back_is_an_hour_longer_and_mornings_stay_at_eight()
    {
        // Glued at nine in the evening; whoever sleeps then begins at eight by the wall, which is 11 h later, or 12.
        TimeSpan Night(string start)
        {
            BuildPlan plan = BuildPlan.Of(Lure, null, Plans.Quick with { Start = DateTimeOffset.Parse(start, System.Globalization.CultureInfo.InvariantCulture), Zone = Plans.WallClock });
            (BuildStep Before, BuildStep After) first = plan.Steps.Zip(plan.Steps.Skip(1)).First(p => plan.At(p.First.Visit.From)!.Value.Date != plan.At(p.Second.Visit.From)!.Value.Date);
            Assert.Equal(TimeSpan.FromHours(8), plan.At(first.After.Visit.From)!.Value.TimeOfDay);
            return first.After.Visit.From - first.Before.Visit.From;
        }
        Assert.Equal(TimeSpan.FromHours(1), Night("2026-10-24T18:00+02:00") - Night("2026-10-17T18:00+02:00"));
        Assert.Equal(TimeSpan.FromHours(-1), Night("2026-03-28T18:00+01:00") - Night("2026-03-21T18:00+01:00"));
    }

    [Fact]
    public void Colour_is_never_sanded_and_the_last_coat_is_left_as_it_is()
    {
        BuildPlan plan = BuildPlan.Of(Lure, Plans.Kitchen, Plans.Quick with { Start = Plans.Evening });
        CoatStep[] coats = [.. plan.Steps.OfType<CoatStep>()];
        Assert.Equal(5, coats.Length);
        Assert.All(coats.Zip(coats.Skip(1)), pair => Assert.False(pair.Second.SandFirst && pair.First.Film.Use == FinishUse.Colour));
        Assert.Equal([false, false, false, false, true], coats.Select(c => c.IsLast));
        // Eyes go between colour and clear.
        int eyes = Array.FindIndex([.. plan.Steps], s => s is EyesStep);
        Assert.Equal(("scale paint", "clear epoxy"), (((CoatStep)plan.Steps[eyes - 1]).Film.Name, ((CoatStep)plan.Steps[eyes + 1]).Film.Name));
    }
}
