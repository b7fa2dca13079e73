using Microsoft.Data.Sqlite;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.Tests.Workshop;

/// <summary>Times across both changes of the clock, and a clock that is set back.</summary>
public class TimesTests
{
    // Central European time by Directive 2000/84/EC: from 01:00 UTC on the last Sunday of March to 01:00 UTC on that of October.
    // Written out, so that the test does not hang on the time zones of a machine.
    private static readonly TimeZoneInfo Central = TimeZoneInfo.CreateCustomTimeZone("test-central", TimeSpan.FromHours(1), "central", "winter", "summer",
    [
        TimeZoneInfo.AdjustmentRule.CreateAdjustmentRule(new DateTime(1996, 1, 1), new DateTime(2099, 12, 31), TimeSpan.FromHours(1),
            TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 2, 0, 0), 3, 5, DayOfWeek.Sunday),
            TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 3, 0, 0), 10, 5, DayOfWeek.Sunday)),
    ]);

    [Theory]
    [InlineData("2026-03-29T00:00:00Z", new[] { "01:00 +1", "01:30 +1", "03:00 +2", "03:30 +2", "04:00 +2" })]
    [InlineData("2026-10-25T00:00:00Z", new[] { "02:00 +2", "02:30 +2", "02:00 +1", "02:30 +1", "03:00 +1" })]
    public void Entries_every_half_hour_keep_their_order_their_wall_time_and_half_an_hour_between_them(string from, string[] wall)
    {
        using var temp = new TempStore();
        using var fresh = new TempStore();
        var clock = new SetClock(DateTimeOffset.Parse(from, System.Globalization.CultureInfo.InvariantCulture), Central);
        long build;
        using (Store store = temp.Open(clock))
        {
            store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "new");
            build = store.NewBuild(1, 1, "drying", EditId.New())!.Id;
            for (int i = 0; i < wall.Length; i++, clock.Now += TimeSpan.FromMinutes(30)) store.Log(build, "coat", $"{i}", EditId.New());
        }
        using (Store store = temp.Open())
        {
            Check(store);
            using Store other = fresh.Open();
            store.Export(temp.In("all.json"));
            using FileStream file = File.OpenRead(temp.In("all.json"));
            Assert.True(other.Import(file).IsSound);
            Check(other);
        }
        using SqliteConnection look = Connections.OpenForReading(temp.Path);
        List<string> texts = look.All("SELECT at_utc FROM log_entry ORDER BY id", row => row.GetString(0));
        Assert.Equal(texts.Order(StringComparer.Ordinal), texts);

        void Check(Store store)
        {
            DateTimeOffset[] at = [.. store.LogOf(build).Select(e => e.Entry.At)];
            Assert.Equal(wall, at.Select(a => $"{a:HH:mm} +{a.Offset.TotalHours:0}"));
            Assert.All(at.Zip(at.Skip(1)), pair => Assert.Equal(TimeSpan.FromMinutes(30), pair.Second - pair.First));
        }
    }

    [Fact]
    public void A_clock_set_back_changes_no_order_and_no_number()
    {
        using var temp = new TempStore();
        var clock = new SetClock(new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero), Central);
        using Store store = temp.Open(clock);
        store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "one");
        clock.Now -= TimeSpan.FromDays(400);
        Assert.IsType<Saved<LureDesign>.Done>(store.Save(1, 1, Lures.Demo("slipway-150"), EditId.New(), "two"));
        Assert.Equal(["one", "two"], store.History(1).Select(r => r.Cause));
        Assert.Equal("two", store.Newest(1)!.Cause);
        Assert.True(store.History(1)[1].At < store.History(1)[0].At);
    }

    [Theory]
    [InlineData(345)]
    [InlineData(-570)]
    [InlineData(0)]
    public void An_offset_of_any_minutes_and_the_last_digit_of_a_second_come_back(int offset)
    {
        using var temp = new TempStore();
        DateTimeOffset at = new DateTimeOffset(2026, 1, 2, 3, 4, 5, TimeSpan.FromMinutes(offset)).AddTicks(1234567);
        using Store store = temp.Open();
        store.NewLure(Lures.Demo("tidegate-185"), EditId.New(), "new");
        long build = store.NewBuild(1, 1, "one", EditId.New())!.Id;
        store.Log(build, "tub", "{}", EditId.New(), at);
        DateTimeOffset kept = store.LogOf(build)[0].Entry.At;
        Assert.True(kept.EqualsExact(at), $"{kept:o} for {at:o}");
    }
}
