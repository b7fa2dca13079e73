using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Sinking;

/// <summary>Facts of the trade about falling lures, direction and size; common practice, no source.</summary>
public class TradeFallTests
{
    private static readonly LureDesign Lure = Lures.Demo("tidegate-185");

    private static (double Heavy, Fall Fall) Falling(LureDesign lure, WaterState? water = null)
    {
        Prediction p = Prediction.Of(lure, Circumstances.InTheSea with { Water = water ?? WaterState.Ocean });
        return (-p.SpareBuoyancy, p.Descent!.First!);
    }

    private static LureDesign Wood(double density) => Lure with { Wood = Lure.Wood with { DensityGPerCm3 = density } };

    private static void Say(string text) => TestContext.Current.TestOutputHelper?.WriteLine(text);

    [Fact]
    public void Rate_goes_as_the_square_root_of_the_grams_that_it_is_heavy()
    {
        // By more lead in both rods, so that the trim hardly changes.
        var rates = new List<(double Grams, double Rate)>();
        foreach (double more in new[] { 0, 1.0, 2, 4 })
        {
            ImmutableArray<BallastPiece> pieces = [.. Lure.Ballast.Select(b => b with { MassG = b.Mass + more / 2 })];
            (double heavy, Fall fall) = Falling(Lure with { Ballast = pieces });
            rates.Add((heavy, fall.Rate));
            Say($"{heavy:F2} g heavy: {1000 * fall.Rate:F0} mm/s");
        }
        double exponent = Math.Log(rates[^1].Rate / rates[0].Rate) / Math.Log(rates[^1].Grams / rates[0].Grams);
        Assert.InRange(exponent, 0.42, 0.55);
    }

    [Fact]
    public void Denser_wood_and_fresher_water_make_it_fall_faster()
    {
        (double heavy, Fall fall) = Falling(Lure);
        (double denser, Fall faster) = Falling(Wood(0.57));
        (double tap, Fall inTap) = Falling(Lure, WaterState.Tap);

        Assert.InRange(denser - heavy, 3.5, 4.8);
        Assert.True(faster.Rate > fall.Rate);
        // 2.4 % of the displacement, or about two and a half grams.
        Assert.InRange(tap - heavy, 2.2, 2.7);
        Assert.True(inTap.Rate > fall.Rate);
    }

    [Fact]
    public void Weight_moved_aft_and_a_larger_tail_hook_put_the_tail_down()
    {
        Fall fall = Falling(Lure).Fall;
        Fall aft = Falling(Lure with { Ballast = [.. Lure.Ballast.Select(b => b with { AtMm = [b.AtMm[0] + 5, b.AtMm[1], b.AtMm[2]] })] }).Fall;
        Fall hook = Falling(Lure with { Hardware = [.. Lure.Hardware.Select(h => h.Name == "treble 2/0" ? h with { MassG = 9.5, LengthMm = 48 } : h)] }).Fall;
        Say($"trim {Units.ToDegrees(fall.Trim):F1}°, lead 5 mm aft {Units.ToDegrees(aft.Trim):F1}°, tail hook a size up {Units.ToDegrees(hook.Trim):F1}°");

        Assert.True(aft.Trim > fall.Trim && hook.Trim > fall.Trim);
        Assert.True(hook.Rate > fall.Rate);
    }

    [Fact]
    public void Nose_rings_are_hardware_with_grams()
    {
        // Without 2.2 g at the line tie the stickbait falls some 16 to 21 degrees more tail down.
        Fall with = Falling(Lure).Fall, without = Falling(Lure with { Hardware = [.. Lure.Hardware.Where(h => h.HangsFrom != "line_tie")] }).Fall;
        double more = Units.ToDegrees(without.Trim - with.Trim);
        Say($"{more:F1}° more tail down without nose rings");
        Assert.InRange(more, 13, 24);
    }

    [Fact]
    public void At_rest_the_posture_is_touchy_and_the_fall_steadies_it()
    {
        Prediction before = Prediction.Of(Lure, Circumstances.InTheSea);
        Prediction after = Prediction.Of(Lure with { Ballast = [.. Lure.Ballast.Select(b => b with { AtMm = [b.AtMm[0] + 1, b.AtMm[1], b.AtMm[2]] })] }, Circumstances.InTheSea);
        double rest = Units.ToDegrees(after.Posture.Trim - before.Posture.Trim), falling = Units.ToDegrees(after.Descent!.First!.Trim - before.Descent!.First!.Trim);
        Say($"all lead 1 mm aft: {rest:F1}° at rest, {falling:F1}° falling");
        Assert.InRange(rest, 2, 4);
        Assert.InRange(falling, 0.3, 0.75 * rest);
    }

    [Fact]
    public void What_a_touch_says_is_what_a_changed_design_does()
    {
        Prediction p = Prediction.Of(Lure, Circumstances.InTheSea);
        Fall fall = p.Descent!.First!;
        Touch told = Touch.Of(Lure, FallingBody.Of(Lure, p.Ledger, WaterState.Ocean), fall).First(t => t is { By: TouchBy.Aft, Name: "rear lead rod" });
        LureDesign moved = Lure with { Ballast = [Lure.Ballast[0], Lure.Ballast[1] with { AtMm = [109, 0, -9] }] };
        Fall done = Prediction.Of(moved, Circumstances.InTheSea).Descent!.First!;

        Assert.Equal(done.Rate - fall.Rate, told.Rate, 2e-4);
        Assert.Equal(done.Trim - fall.Trim, told.Trim, 2e-3);
    }

    [Fact]
    public void Too_fast_for_its_keel_it_rolls_on_the_fall()
    {
        // Higher than wide, 15 g heavy, its weight 3.6 mm under the lift: past w_c = √(W·g·BG/((k_y − k_z)ρV)), 0.2 to 0.4 m/s.
        Prediction p = Prediction.Of(Wood(0.65), Circumstances.InTheSea);
        Say($"{Telling(p)}: {string.Join("; ", p.Descent!.All.Select(f => $"{f.Kind} {1000 * f.Rate:F0} mm/s"))}");
        Assert.Null(p.Descent.First);
        Assert.True(p.Descent.RollsOnTheFall);
    }

    private static string Telling(Prediction p) => Core.Telling.Sentence.Of(p, Core.Telling.Notation.Metric);
}
