using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Doubt;

/// <summary>A slip of the hand among honest readings is named, with the number that was meant.</summary>
public class SlipTests
{
    private static readonly LureDesign Design = Lures.Demo("tidegate-185");
    private static readonly BuildModel Build = new(Design);
    private static readonly TubLog Honest = Simulation.Log(Build, Simulation.Readings(Design, 3), new double[Build.Unknowns.Count], seed: 4, width: 0);

    // The last weighing in air that has four digits to slip with.
    private static readonly int Weighed = Honest.Readings.Index().Last(r => r.Item.Kind == ReadingKind.Weight && r.Item.MassG > 20).Index;

    private static IEnumerable<Suspect> Suspects(int reading, Func<LogReading, LogReading> slip)
    {
        TubLog log = Honest with { Readings = Honest.Readings.SetItem(reading, slip(Honest.Readings[reading])) };
        Knowing knowing = Knowing.Of(Build, log, Circumstances.InTheSea, count: 64);
        Flag? flag = knowing.Flags.FirstOrDefault(f => f.Reading == reading);
        Assert.True(flag is not null, "not flagged");
        TestContext.Current.TestOutputHelper?.WriteLine(Core.Telling.DoubtWords.Of(flag, log.Readings[reading], Core.Telling.Notation.Metric));
        return flag.Suspects;
    }

    private static double Swapped(double value)
    {
        string digits = Math.Round(10 * value).ToString(System.Globalization.CultureInfo.InvariantCulture);
        return double.Parse($"{digits[1]}{digits[0]}{digits[2..]}", System.Globalization.CultureInfo.InvariantCulture) / 10;
    }

    public static TheoryData<string> Slips => ["swapped", "digit", "left out", "point", "hundredfold", "ounces", "tare"];

    [Theory]
    [MemberData(nameof(Slips))]
    public void A_weight_with_a_slip_is_named_for_it(string slip)
    {
        double meant = Math.Round(10 * Honest.Readings[Weighed].MassG!.Value) / 10;
        string text = meant.ToString("F1", System.Globalization.CultureInfo.InvariantCulture);
        double Parsed(string other) => double.Parse(other, System.Globalization.CultureInfo.InvariantCulture);
        (double read, SuspectKind kind, double amount) = slip switch
        {
            "swapped" => (Swapped(meant), SuspectKind.DigitsSwapped, meant),
            "digit" => (meant + (text[0] >= '3' ? -20 : 20), SuspectKind.DigitWrong, meant),
            "left out" => (Parsed(text[1..]), SuspectKind.DigitsCounted, meant),
            "point" => (meant * 10, SuspectKind.Point, meant),
            "hundredfold" => (meant * 100, SuspectKind.Point, meant),
            "ounces" => (meant / Units.Ounce, SuspectKind.Ounces, meant),
            _ => (meant + 137.4, SuspectKind.Tare, 137.4),
        };
        Suspect[] suspects = [.. Suspects(Weighed, r => r with { MassG = read })];
        Assert.Contains(suspects, s => s.Kind == kind && Math.Abs(s.Amount - amount) < 1);
        // What could be anything goes with the question whether the number is right at all.
        if (kind is SuspectKind.DigitWrong or SuspectKind.DigitsCounted or SuspectKind.Tare) Assert.Contains(suspects, s => s.Kind == SuspectKind.Unexplained || s.Kind == SuspectKind.Point);
        else Assert.Equal(kind, suspects[0].Kind);
    }

    [Fact]
    public void Water_that_was_salt_is_not_told_as_air_that_clings()
    {
        int under = Honest.Readings.Index().Last(r => r.Item.Kind == ReadingKind.UnderWater && r.Item is { SinkerG: not null, Way: UnderWaterWay.Sinker }).Index;
        LogReading fresh = Honest.Readings[under];
        var bare = new Circumstances(fresh.Stage, fresh.Rig, fresh.Water) { Mesh = MeshSize.Coarse };
        double volume = Prediction.Of(Design, bare).Ledger.Volume;
        double more = volume * (new WaterState(32, fresh.Water.TemperatureC).Density - fresh.Water.Density);
        Suspect salted = Suspects(under, r => r with { WithLureG = r.WithLureG - more }).First();
        Assert.Equal(SuspectKind.SaltWater, salted.Kind);
        Assert.Equal(32, salted.Amount, 3.0);
        // And the other way round.
        TubLog log = Honest with { Readings = Honest.Readings.SetItem(under, fresh with { Salinity = 32 }) };
        Flag flag = Knowing.Of(Build, log, Circumstances.InTheSea, count: 64).Flags.First(f => f.Reading == under);
        Assert.Equal(SuspectKind.FreshWater, flag.Suspects[0].Kind);
    }
}
