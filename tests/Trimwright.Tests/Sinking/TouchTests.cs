using Trimwright.Core;
using Trimwright.Core.Ledger;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Sinking;

/// <summary>What a maker is told that a change would do.</summary>
public class TouchTests
{
    private static string[] Changes(Rig rig)
    {
        var lure = Lures.Demo("tidegate-185");
        Prediction p = Prediction.Of(lure, new Circumstances(Stage.DryFit, rig, WaterState.Tap));
        return [.. Touch.Of(lure, FallingBody.Of(lure, p.Ledger, WaterState.Tap), p.Ledger, p.Descent!.First!).Select(t => TouchWords.Of(t, Notation.Metric))];
    }

    [Fact]
    public void A_hook_comes_in_sizes_and_a_stand_in_does_not()
    {
        Assert.Contains(Changes(Rig.Rigged), change => change.EndsWith("a size up", StringComparison.Ordinal));
        string[] standIns = Changes(Rig.StandIns);
        Assert.NotEmpty(standIns);
        Assert.DoesNotContain(standIns, change => change.Contains("size", StringComparison.Ordinal));
    }
}
