using Trimwright.Core.Box;
using Trimwright.Core.Finish;

namespace Trimwright.Tests.Finish;

public class CureTimesTests
{
    private static readonly BoxFinish Epoxy = Catalogue.Finishes.Single(f => f.Id == "epoxy-2-1");

    [Fact]
    public void Each_ten_degrees_double_the_rate_and_halve_the_times()
    {
        // Common practice, no source: the rule of 10 °C.
        Assert.Equal(1, CureTimes.RateAt(20, 20), 1e-12);
        Assert.Equal(2, CureTimes.RateAt(30, 20), 1e-12);
        Assert.Equal(0.25, CureTimes.RateAt(5, 25), 1e-12);
        Assert.Equal(CureTimes.RateAt(31, 20), CureTimes.RateAt(31, 26) * CureTimes.RateAt(26, 20), 1e-12);
        CureTimes at20 = CureTimes.Of(Epoxy, 20), at30 = CureTimes.Of(Epoxy, 30), at10 = CureTimes.Of(Epoxy, 10);
        Assert.Equal((TimeSpan.FromHours(4), TimeSpan.FromHours(12), TimeSpan.FromHours(24), TimeSpan.FromMinutes(30)), (at20.RecoatFrom, at20.RecoatUntil, at20.SandFrom, at20.PotLife));
        Assert.Equal((TimeSpan.FromHours(2), TimeSpan.FromHours(6), TimeSpan.FromHours(12), TimeSpan.FromMinutes(15)), (at30.RecoatFrom, at30.RecoatUntil, at30.SandFrom, at30.PotLife));
        Assert.Equal((TimeSpan.FromHours(8), TimeSpan.FromHours(24), TimeSpan.FromHours(48), TimeSpan.FromMinutes(60)), (at10.RecoatFrom, at10.RecoatUntil, at10.SandFrom, at10.PotLife));
    }

    [Fact]
    public void Times_are_rounded_to_their_safe_side_and_keep_their_order()
    {
        var random = new Random(7);
        for (int i = 0; i < 2000; i++)
        {
            double from = 20 * random.NextDouble(), until = from + 20 * random.NextDouble(), sand = from + 30 * random.NextDouble(), t = 45 * random.NextDouble(), at = 10 + 20 * random.NextDouble();
            CureTimes times = CureTimes.Of(Epoxy with { RecoatFromH = from, RecoatUntilH = until, SandFromH = sand, CureH = 40 * random.NextDouble(), TimesAtC = at }, t);
            double rate = Math.Pow(2, (t - at) / 10);
            Assert.InRange(times.RecoatFrom!.Value.TotalHours - from / rate, -1e-6, 5.0 / 60);
            Assert.InRange(times.SandFrom.TotalHours - sand / rate, -1e-6, 5.0 / 60);
            Assert.True(times.RecoatUntil!.Value.TotalHours <= until / rate + 1e-6 || times.RecoatUntil == times.RecoatFrom);
            Assert.True(times.RecoatFrom <= times.RecoatUntil && times.RecoatFrom <= times.SandFrom && times.SandFrom <= times.Cure);
        }
    }

    [Fact]
    public void A_product_that_nobody_names_gets_usual_times_and_says_so()
    {
        CureTimes times = CureTimes.Of(null, 20);
        Assert.True(times.AreTypical);
        Assert.Null(times.RecoatFrom);
        Assert.Equal(TimeSpan.FromHours(24), times.SandFrom);
        Assert.False(CureTimes.Of(Epoxy with { Source = Source.Published }, 20).AreTypical);
    }
}
