using Trimwright.Core.Numerics;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

public class StraightDragTests
{
    /// <summary>A sideways hundredth of nothing takes the general sums; the short ones are theirs.</summary>
    [Fact]
    public void In_the_plane_of_back_and_belly_the_short_sums_are_the_general_ones()
    {
        double worst = 0;
        int compared = 0;
        var sinkers = new RandomSinkers(7);
        foreach (FallingBody body in Enumerable.Range(0, 30).Select(_ => sinkers.Next().Body))
            for (int k = 0; k < 24; k++)
            {
                (double sin, double cos) = Math.SinCos(Math.PI * k / 12 + 0.01);
                var v = new Vec3(0.3 * cos, 0, 0.3 * sin);
                Wrench shortly = Flow.Drag(body, v, Vec3.Zero), fully = Flow.Drag(body, v with { Y = 1e-200 }, Vec3.Zero);
                worst = Math.Max(worst, Math.Max((shortly.Force - fully.Force).Length / fully.Force.Length, (shortly.Moment - fully.Moment).Length / (fully.Force.Length * body.Length)));
                compared++;
            }
        Assert.Equal(30 * 24, compared);
        Assert.True(worst < 1e-13, $"{worst:E2}");
    }
}
