using Trimwright.Core.Box;
using Trimwright.Core.Finish;

namespace Trimwright.Tests.Finish;

/// <summary>Amounts keep their mass, and syringes and scale measure the same mix.</summary>
public class MixTests
{
    private static BoxFinish Any(Random random) => new()
    {
        Id = "f", Name = "f", ThicknessMm = 0.2,
        RatioByVolume = random.Next(3) == 0 ? null : [random.Next(1, 10), random.Next(1, 4)],
        RatioByWeight = null,
        ResinDensityGPerCm3 = 0.9 + 0.6 * random.NextDouble(), HardenerDensityGPerCm3 = 0.8 + 0.5 * random.NextDouble(),
        Solids = random.Next(2) == 0 ? null : 0.2 + 0.8 * random.NextDouble(),
        Losses = random.Next(2) == 0 ? null : 2 * random.NextDouble(),
        PotMinimumG = random.Next(2) == 0 ? null : 20 * random.NextDouble(),
    };

    [Fact]
    public void What_is_mixed_is_on_the_lure_in_brush_and_cup_or_left_over_and_nothing_is_lost()
    {
        var random = new Random(23);
        for (int i = 0; i < 5000; i++)
        {
            BoxFinish product = Any(random);
            double film = 0.05 + 20 * random.NextDouble(), solids = product.Solids ?? 1, losses = product.Losses ?? 0.2;
            Mix mix = Mix.Of(film, product);
            // Dry film, dry losses and dry leftovers are the solids of all that was mixed.
            Assert.Equal(mix.MixedG * solids, film + mix.LostG * solids + mix.LeftOverG * solids, 1e-9);
            Assert.Equal(film * (1 + losses) / solids, mix.NeededG, 1e-9);
            Assert.True(mix.MixedG >= mix.PotMinimumG && mix.LeftOverG >= -1e-12);
            if (mix.LeftOverG > 1e-9) Assert.Equal(mix.PotMinimumG, mix.MixedG, 1e-9);
        }
    }

    [Fact]
    public void Two_to_one_by_volume_is_a_hundred_to_forty_seven_by_weight()
    {
        // One such epoxy, as seen stated; densities follow: the resin is 100/47/2 times as dense as the hardener.
        BoxFinish stated = Catalogue.Finishes.Single(f => f.Id == "epoxy-2-1");
        Mix mix = Mix.Of(14.7 / 1.2, stated);
        Assert.Equal(14.7, mix.MixedG, 1e-9);
        Portions scale = mix.Weighed(0.1)!, syringes = mix.Syringes(0.1)!;
        Assert.Equal((10.0, 4.7), (Math.Round(scale.Resin, 6), Math.Round(scale.Hardener, 6)));
        Assert.Equal(2, syringes.Resin / syringes.Hardener, 1e-9);
        BoxFinish byDensity = stated with { RatioByWeight = null, HardenerDensityGPerCm3 = 1.08, ResinDensityGPerCm3 = 1.08 * 100 / 94 };
        Assert.Equal(100.0 / 47, MixRatio.Of(byDensity)!.ByWeight!.Value, 1e-9);
    }

    [Fact]
    public void Ratios_by_volume_and_by_weight_agree_through_the_densities_of_the_parts()
    {
        var random = new Random(5);
        for (int i = 0; i < 2000; i++)
        {
            BoxFinish product = Any(random);
            if (product.RatioByVolume is not { } stated) continue;
            MixRatio ratio = MixRatio.Of(product)!;
            double resin = product.ResinDensityGPerCm3!.Value, hardener = product.HardenerDensityGPerCm3!.Value;
            Assert.Equal(stated[0] / stated[1], ratio.ByVolume!.Value, 1e-12);
            // One volume of hardener, ratio volumes of resin: weigh them.
            Assert.Equal(ratio.ByVolume.Value * resin / hardener, ratio.ByWeight!.Value, 1e-12);
            Assert.Equal((ratio.ByVolume.Value * resin + hardener) / (ratio.ByVolume.Value + 1), 1000 * ratio.Density, 1e-12);
            // The same product told by weight gives the same ratio by volume.
            MixRatio back = MixRatio.Of(product with { RatioByVolume = null, RatioByWeight = [ratio.ByWeight.Value, 1] })!;
            Assert.Equal(ratio.ByVolume.Value, back.ByVolume!.Value, 1e-9);
            Assert.Equal(ratio.Density, back.Density, 1e-12);
            // Fine syringes and a fine scale then measure out the same grams.
            Mix mix = Mix.Of(30, product);
            Portions ml = mix.Syringes(0.001)!, g = mix.Weighed(0.001)!;
            Assert.Equal(g.Resin, ml.Resin * resin, 0.02);
            Assert.Equal(g.Hardener, ml.Hardener * hardener, 0.02);
        }
    }

    [Fact]
    public void Portions_are_whole_marks_never_too_little_and_keep_the_ratio_where_marks_can()
    {
        var random = new Random(11);
        double worst = 0;
        for (int i = 0; i < 5000; i++)
        {
            double total = 1 + 60 * random.NextDouble(), step = new[] { 0.05, 0.1, 0.2, 0.5 }[random.Next(4)], ratio = random.Next(1, 6) / (double)random.Next(1, 4);
            Portions portions = Portions.Of(total, ratio, step);
            Assert.True(portions.Total >= total - 1e-9, $"{portions} for {total}");
            foreach (double part in (double[])[portions.Resin, portions.Hardener]) Assert.Equal(Math.Round(part / step), part / step, 1e-6);
            Assert.Equal(Math.Abs(portions.Resin / portions.Hardener / ratio - 1), portions.OffRatio, 1e-9);
            Assert.True(portions.Total <= 1.25 * total + (1 + ratio) * step * 4, $"{portions} for {total} at {ratio}, step {step}");
            if (total > 20 * step * (1 + ratio)) worst = Math.Max(worst, portions.OffRatio);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"worst ratio of a mix of twenty marks and more: {100 * worst:F2} % off");
        Assert.True(worst < 0.03);
    }

    [Fact]
    public void A_thing_with_nothing_to_mix_or_that_no_box_names_has_no_portions()
    {
        Assert.Null(Mix.Of(3, Catalogue.Finishes.Single(f => f.Id == "paint")).Ratio);
        Mix unknown = Mix.Of(3, null);
        Assert.Null(unknown.Syringes(0.1));
        Assert.Null(unknown.Weighed(0.1));
        Assert.Equal(3.6, unknown.MixedG, 1e-9);
    }
}
