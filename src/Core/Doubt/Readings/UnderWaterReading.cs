using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Doubt;

/// <summary>
/// Under water: what a hung sinker loses when the lure is tied to it, or what a jar of water gains. A sinker weighs less under water by
/// exactly the lure's spare buoyancy, whatever the bucket; a jar gains the weight of the water that the lure takes the place of. Water that
/// the wood drinks meanwhile is weight for the one and gone from the other: either way it is taken off. Where it was weighed before and
/// after, what it had drunk when the scale was read lies anywhere between nothing and all of it.
/// </summary>
internal sealed class UnderWaterReading : ReadingKind
{
    // Common practice, no source: what raw wood drinks in the seconds that it takes, g, and how far off from 15 °C water is whose
    // temperature nobody took.
    private const double WetWood = 0.1;
    private const double ColdOrWarm = 4;

    // Common practice, no source: a jar tall enough for a lure, with its water, which a scale must bear although it is tared.
    private const double JarG = 1500;

    // The sinker must pull the lure under, and stay under itself.
    private const double PullsUnder = 1.2, SinkerG = 20;

    public override string Word => "under_water";

    internal override ReadAt At => ReadAt.UnderWater;

    internal override ImmutableArray<string> May => ["sinker_g", "with_lure_g", "reading_g", "before_g", "after_g"];

    internal override void Check(ReadingCheck check)
    {
        LogReading r = check.Reading;
        if (r.Way == UnderWaterWay.Sinker)
        {
            check.Need(r.SinkerG is not null, "sinker_g", $"the sinker alone, hung in the water, {Sized.Name(OtherUnit.Ounce)}");
            check.Need(r.WithLureG is not null, "with_lure_g", $"the sinker with the lure, hung in the water, {Sized.Name(OtherUnit.Ounce)}");
        }
        if (r.Way == UnderWaterWay.Jar)
            check.Need(r.ReadingG is not null, "reading_g", $"what the tared jar gained with the lure pushed fully under, {Sized.Name(OtherUnit.Ounce)}");
        if (r.BeforeG is null != r.AfterG is null)
            check.Need(false, r.BeforeG is null ? "before_g" : "after_g", $"the lure in air, just before and, dabbed dry, just after: both or neither, {Sized.Name(OtherUnit.Ounce)}");
        if (r.AfterG < r.BeforeG)
            check.Refuse("after_g", r.AfterG.Value, $"at least {Sized.Key("before_g")}, {Sized.G(r.BeforeG.Value)}", "Wood takes water up; if it shows less, leave both out.");
    }

    internal override void Expect(Observations to, int i, LogReading r)
    {
        Shown air = to.Bubbles(i, r);
        double water = r.Water.Density - Units.AirDensity, digit = to.Digit(r);
        double? drunk = r is { BeforeG: { } before, AfterG: { } after } ? after - before : null;
        double middle = (drunk ?? 0) / 2;
        double wet = drunk is { } grams ? Observations.Hypot(grams / Math.Sqrt(12), 0.7 * digit, 0) : r.Stage <= Stage.DryFit ? WetWood : 0;
        double warm = Warm(to, r, x => to.Weigh(r, x).Volume);
        if (r.Way == UnderWaterWay.Jar)
            to.Number(i, "reading_g", r.ReadingG, Observations.Hypot(digit, wet, warm), to.Scaled(r, x => water * to.Weigh(r, x, air(x)).Volume - middle));
        if (r.Way == UnderWaterWay.Sinker && r.SinkerG is { } alone && r.WithLureG is { } together)
        {
            Shown scaled = to.Scaled(r, x => to.Weigh(r, x, air(x)).Spare(water) - middle), zero = to.Zero(r);
            // One reading less another: the zero drops out.
            to.Number(i, "with_lure_g", alone - together, Observations.Hypot(1.4 * digit, wet, warm), x => scaled(x) - zero(x));
        }
    }

    private static double Warm(Observations to, LogReading r, Shown volume)
    {
        double all = volume(new double[to.Build.Unknowns.Count]);
        if (r.TemperatureC is not null) return 0.0002e-3 * all;
        var warmer = new Trimwright.Core.Water.WaterState(r.Salinity, 15 + ColdOrWarm);
        return Math.Abs(warmer.Density - r.Water.Density) * all;
    }

    internal override IEnumerable<Possible> Proposed(Possibilities at)
    {
        if (at.IsDone(this)) yield break;
        LogReading tied = at.Empty(this);
        Weighed bare = at.Weigh(tied, out double water);
        double spare = bare.Spare(water), sinker = Math.Max(PullsUnder * spare, 0) + SinkerG, jar = water * bare.Volume;
        yield return new(tied with { SinkerG = sinker, WithLureG = sinker - spare }, 5, [Instrument.Sinker, Instrument.Tub], sinker + Math.Max(-spare, 0));
        yield return new(tied with { Way = UnderWaterWay.Jar, ReadingG = jar }, 5, [Instrument.Jar, Instrument.Needle], jar + JarG);
    }

    internal override bool HasWays => true;

    internal override string Said(LogReading r, ReadingNames names) => $"{names.Stage} weighed under water{(r.Way == UnderWaterWay.Jar ? " in a jar" : "")}";

    internal override string Off(bool isLess, bool isGrams) => isGrams ? isLess ? "less to spare" : "more to spare" : base.Off(isLess, isGrams);

    internal override int SignOfParts(LogReading r) => r.Way == UnderWaterWay.Sinker ? -1 : 0;

    internal override bool TakesAir => true;
}
