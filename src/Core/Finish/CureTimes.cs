using Trimwright.Core.Box;

namespace Trimwright.Core.Finish;

/// <summary>
/// A product's times as they are at the shop's temperature, all from the moment the coat is on.
/// <para>Rates double for each 10 °C, so times shrink by 2^((T − T₀)/10): common practice, no source. The data sheet outranks it.</para>
/// </summary>
/// <param name="PotLife">How long a mix can be worked; null: not known.</param>
/// <param name="RecoatFrom">The next coat goes on without sanding from here …</param>
/// <param name="RecoatUntil">… to here; null: no end is known.</param>
/// <param name="SandFrom">From here it can be sanded and coated.</param>
/// <param name="Turn">It runs until then.</param>
/// <param name="Cure">Fully hard.</param>
/// <param name="Rate">By how much faster than at the temperature of the data sheet.</param>
/// <param name="AreTypical">Nobody's data sheet stands behind them.</param>
public sealed record CureTimes(
    TimeSpan? PotLife, TimeSpan? RecoatFrom, TimeSpan? RecoatUntil, TimeSpan SandFrom, TimeSpan? Turn, TimeSpan Cure, double Rate, bool AreTypical)
{
    private const double Doubling = 10;

    // Typical of slow two-part stuff at 20 °C, from memory.
    private const double UsualTemperature = 20;
    private const double UsualSand = 24;
    private const double UsualCure = 120;

    private static readonly TimeSpan Step = TimeSpan.FromMinutes(5);

    /// <summary>How many times as fast a resin hardens at one temperature as at another, both °C.</summary>
    public static double RateAt(double temperatureC, double timesAtC) => Math.Pow(2, (temperatureC - timesAtC) / Doubling);

    /// <summary>Of a product, or of slow two-part stuff in general when nobody knows which.</summary>
    /// <param name="product">From the box, or null.</param>
    /// <param name="temperatureC">In the shop, °C.</param>
    public static CureTimes Of(BoxFinish? product, double temperatureC)
    {
        double rate = RateAt(temperatureC, product?.TimesAtC ?? UsualTemperature);
        // In whole five minutes, each to its safe side: what must have passed is rounded up, what may have passed down.
        TimeSpan? Passed(double? hours) => hours is { } h ? Step * Math.Ceiling(60 * h / rate / Step.TotalMinutes - 1e-9) : null;
        TimeSpan? AtMost(double? hours) => hours is { } h ? Step * Math.Floor(60 * h / rate / Step.TotalMinutes + 1e-9) : null;
        TimeSpan? from = Passed(product?.RecoatFromH), until = AtMost(product?.RecoatUntilH);
        double sand = product?.SandFromH ?? Math.Max(UsualSand, product?.RecoatFromH ?? 0);
        double cure = Math.Max(product?.CureH ?? UsualCure, sand);
        TimeSpan? pot = product?.PotLifeMin is { } minutes ? TimeSpan.FromMinutes(Math.Max(1, Math.Floor(minutes / rate))) : null;
        return new(pot, from, until < from ? from : until, Passed(sand)!.Value, Passed(product?.TurnH), Passed(cure)!.Value, rate,
            product is null || product.Source == Source.Typical);
    }
}
