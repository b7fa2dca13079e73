using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Sinking;

/// <summary>Ends of the range: any sphere, long ways down, coefficients that were changed.</summary>
public class SmallPrintTests
{
    [Fact]
    public void Any_ball_has_a_speed_and_a_heavier_one_is_faster()
    {
        // From dust to cannon balls, through the drag crisis, where speed may jump but not fall back.
        foreach (double d in new[] { 0.01, 0.1, 1, 10, 100, 1000 })
        {
            double before = 0;
            foreach (double over in new[] { 1e-9, 1e-6, 1e-3, 0.1, 1, 10.3 })
            {
                double speed = SphereDrag.TerminalSpeed(d, 1e-3 * (1 + over), 1e-3, 1e-3);
                double balance = SphereDrag.Coefficient(speed * d / 1e-3) * speed * speed, push = 4.0 / 3 * 9.80665e-3 * d * ((1e-3 * (1 + over) / 1e-3) - 1);
                Assert.Equal(push, balance, 1e-6 * push);
                Assert.True(speed > before, $"{d} mm, {over}: {speed}");
                before = speed;
            }
        }
        Assert.Equal(0, SphereDrag.TerminalSpeed(5, 1e-3, 1e-3, 1e-3));
    }

    [Fact]
    public void Time_and_depth_undo_each_other_however_deep()
    {
        LureDesign lure = Lures.Demo("tidegate-185");
        Descent descent = Prediction.Of(lure, Circumstances.InTheSea).Descent!;
        double late = descent.First!.Rate * descent.RestToSpeed * Math.Log(2);
        foreach (double depth in new[] { 1e-3, 1, 200, 1000, 1e5, 1e7 })
        {
            Assert.Equal(depth, descent.DepthAfter(descent.TimeTo(depth)), 1e-6 * depth);
            // Never ahead of the steady rate, and late by v·τ·ln 2 in the end.
            double behind = descent.First.Rate * descent.TimeTo(depth) - depth;
            Assert.InRange(behind, 0, late * (1 + 1e-6));
            if (depth > 1e4) Assert.Equal(late, behind, 1e-3 * late);
        }
    }

    [Fact]
    public void More_drag_on_the_hooks_slows_the_fall()
    {
        LureDesign lure = Lures.Demo("tidegate-185");
        Prediction p = Prediction.Of(lure, Circumstances.InTheSea);
        Fall Falling(DragModel? model) => Falls.Of(FallingBody.Of(lure, p.Ledger, WaterState.Ocean, model))!.First!;
        Fall usual = Falling(null), draggy = Falling(DragModel.Usual with { Hardware = 1.3 * DragModel.Usual.Hardware });
        Assert.True(draggy.Rate < usual.Rate);
    }

    [Fact]
    public void A_round_lure_with_a_keel_is_not_said_to_roll()
    {
        // Nothing turns a round body over but its weight, at any speed (no w_c: k_y = k_z); it can only lose its course.
        var make = new RandomSinkers(8);
        int round = 0;
        for (int i = 0; i < 400 && round < Tier.Count(quick: 12, ci: 30); i++)
        {
            FallingBody body = make.Next().Body;
            if (Math.Abs(body.Height / body.Breadth - 1) > 1e-3 || body.Cb.Z - body.Cg.Z < 0.3) continue;
            round++;
            Assert.DoesNotContain(Falls.Of(body)!.All, f => f.Kind == FallKind.Rolls && !f.BellyUp);
        }
        Assert.True(round >= 8);
    }
}
