using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Floating;

/// <summary>The first thing to know: a sphere of half the water's density floats at its equator.</summary>
public class FirstTest
{
    [Fact]
    public void A_sphere_of_half_the_waters_density_floats_at_its_equator()
    {
        var inTap = new Circumstances(Stage.Finished, Rig.Rigged, WaterState.Tap);
        Prediction sphere = Prediction.Of(
            Lures.Round(Lures.DensityFor(0.5, inTap), 100, [(0, 0), (50, 50), (100, 0)]), inTap);

        Assert.Equal(Verdict.Floats, sphere.Verdict);
        Assert.Equal(50, sphere.Posture.Draft, 0.01);
        Assert.True(sphere.Posture.HeelIsFree);
    }
}
