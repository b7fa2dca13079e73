using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
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
        return [.. new HowItSits(lure, new Circumstances(Stage.DryFit, rig, WaterState.Tap)).Answer(Pace.Free).Touches.Select(t => TouchWords.Of(t, Notation.Metric))];
    }

    [Fact]
    public void A_hook_comes_in_sizes_and_a_stand_in_does_not()
    {
        Assert.Contains(Changes(Rig.Rigged), change => change.EndsWith("a size up", StringComparison.Ordinal));
        string[] standIns = Changes(Rig.StandIns);
        Assert.NotEmpty(standIns);
        Assert.DoesNotContain(standIns, change => change.Contains("size", StringComparison.Ordinal));
    }

    /// <summary>"A size up" is the same hook in both, and does the same to the last digit shown.</summary>
    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("finished/ebb")]
    public void A_hook_a_size_up_is_the_hook_that_a_swap_hangs_there(string name)
    {
        LureDesign lure = Lures.Demo(name);
        PredictAnswer predicted = new HowItSits(lure, Circumstances.InTheSea).Answer(Pace.Free);
        SwapRow[] rows = [.. new WhatSwapsDo(lure, null, WaterState.Ocean, false).Answer(Pace.Free).Rows
            .Where(r => r.Case.WaterName == "ocean" && r.Case.Leader.Name is null && r.Case.Hooks is { Change: HookChange.SizeUp, Changed.Length: 1 })];
        Touch[] touches = [.. predicted.Touches.Where(t => t.By == TouchBy.SizeUp)];
        Assert.NotEmpty(rows);
        Assert.Equal(rows.Select(r => SwapWords.Of(r.Case.Hooks)), touches.Select(t => $"a size up: {t.Name} at the {t.Place.Replace('_', ' ')}"));
        foreach ((SwapRow row, Touch touch) in rows.Zip(touches))
        {
            Assert.Equal(Notation.Metric.Speed(row.Effect.Rate ?? double.NaN), Notation.Metric.Speed(touch.Rate));
            Assert.Equal(row.Effect.Trim ?? double.NaN, touch.Trim, Units.FromDegrees(0.05));
        }
    }
}
