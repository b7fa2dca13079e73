using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>How sure a rate is by its drag alone, against builds of which nothing but the drag is drawn.</summary>
public class DragDoubtTests
{
    [Fact]
    public void What_drag_alone_does_to_the_rate_is_what_sampled_drags_do()
    {
        int draws = Tier.Count(400, 2000), asked = Tier.Count(12, 60), told = 0;
        var make = new RandomSinkers(16);
        var off = new List<double>();
        for (int i = 0; i < asked; i++)
        {
            (_, FallingBody body) = make.Next();
            if (Falls.Of(body)! is not { First: { } fall } descent) continue;
            told++;
            var rates = new List<double>();
            double[] xi = new double[4];
            for (int k = 0; k < draws; k++)
            {
                new NormalDraws(16 + i, k).Fill(xi);
                FallingBody drawn = body.Dragging(
                    Math.Exp(DragModel.AcrossSd * xi[0]), Math.Exp(DragModel.HooksSd * xi[1]), Math.Exp(DragModel.EndsSd * xi[2]), DragModel.WakeSd * xi[3]);
                if (Falls.Follow(drawn, fall) is { } after) rates.Add(Math.Log(after.Rate / fall.Rate));
            }
            double mean = rates.Average(), sd = Math.Sqrt(rates.Average(r => (r - mean) * (r - mean)));
            Console.WriteLine($"{descent.RateDoubt:0.000} told, {sd:0.000} sampled, {mean:0.000} off, {rates.Count} of {draws}");
            off.Add(Math.Log(descent.RateDoubt / sd));
        }
        off.Sort();
        Console.WriteLine($"{told} told; {Math.Exp(off[0]):0.00} to {Math.Exp(off[^1]):0.00} of what is sampled, {Math.Exp(off[off.Count / 2]):0.00} in the middle");
        Assert.True(told > asked / 3);
        Assert.InRange(Math.Exp(off[off.Count / 2]), 0.9, 1.1);
    }

    [Fact]
    public void A_lure_that_only_its_body_drags_level_is_told_half_the_bodys_doubt()
    {
        // Drag over speed squared, up to what Reynolds' number does: a factor on it is its square root on the rate.
        FallingBody body = Ellipsoid.Ideal(85, Vec3.Zero, heavy: 4);
        body = body with
        {
            Cg = body.Cb - 3 * Vec3.UnitZ, Strips = [.. Enumerable.Range(0, 20).Select(i => new Strip(body.Cb.X + 4 * (i - 9.5), 0, 4, 8, 10, 1))],
            Model = new DragModel { FixedCrossFlow = 0.9, Ends = 0 },
        };
        Fall fall = Falls.Of(body)!.All.First(f => Math.Abs(f.Trim) < 0.01 && !f.BellyUp);
        Assert.Equal(0.5 * DragModel.AcrossSd, DragDoubt.Of(body, fall), 1e-3);
    }
}
