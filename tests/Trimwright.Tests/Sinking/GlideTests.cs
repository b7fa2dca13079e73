using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Sinking;

public class GlideTests
{
    /// <summary>A manufactured solution: self-consistent, no independent source.</summary>
    [Fact]
    public void Steady_glides_are_the_manufactured_ones()
    {
        WaterState fresh = WaterState.Tap;
        var model = new DragModel { Wake = 1, Ends = 0, Face = 0, Cup = 0, Base = 0, FixedCrossFlow = 0.60 * 1.1 };
        foreach (var row in ReferenceTable.Rows("manufactured_glide.csv"))
        {
            double heavy = row.Number("net_weight_in_water_N") / Units.Gravity;
            FallingBody body = Spheroid.Of(fresh.Density, fresh.KinematicViscosity, row.Number("mass_g"), row.Number("xG_ahead_of_CB_mm"), heavy) with { Model = model };
            Descent descent = Falls.Of(body)!;
            double speed = row.Number("U_m_s"), alpha = row.Number("alpha_deg");
            // Nose first (u < 0) and towards the belly (w < 0), or its mirror image.
            Fall fall = descent.All.Where(f => f.Velocity.X < 0).MinBy(f => Math.Abs(f.Velocity.Length - speed))!;
            string which = $"U {speed}, α {alpha}";
            Tolerances.Check("manufactured glide, speed", fall.Velocity.Length, speed, which);
            Tolerances.Check("manufactured glide, incidence", Units.ToDegrees(Math.Atan2(Math.Abs(fall.Velocity.Z), -fall.Velocity.X)), alpha, which);
            Tolerances.Check("manufactured glide, axis nose down", -Units.ToDegrees(fall.Trim), row.Number("nose_down_axis_angle_deg"), which);
            Tolerances.Check("manufactured glide, path", Units.ToDegrees(Math.Atan2(fall.Rate, Math.Abs(fall.Glide))), row.Number("glide_angle_below_horizontal_deg"), which);
        }
    }

    /// <summary>Common knowledge, by the sign of Munk's moment.</summary>
    [Fact]
    public void A_long_body_with_its_weight_in_the_middle_falls_broadside_and_with_its_weight_far_forward_dives()
    {
        WaterState fresh = WaterState.Tap;
        Fall broad = Falls.Of(Spheroid.Of(fresh.Density, fresh.KinematicViscosity, 76, 0) with { Cg = new Vec3(Spheroid.A, 0, -1) })!.First!;
        Assert.True(Math.Abs(broad.Trim) < 0.02);
        Assert.True(Math.Abs(broad.Velocity.X) < 0.05 * Math.Abs(broad.Velocity.Z));

        Fall dive = Falls.Of(Spheroid.Of(fresh.Density, fresh.KinematicViscosity, 76, 25))!.First!;
        Assert.True(Units.ToDegrees(dive.Trim) < -75, $"{Units.ToDegrees(dive.Trim):F1}°");
        Assert.True(dive.Velocity.X < -5 * Math.Abs(dive.Velocity.Z));
        Assert.True(dive.Rate > broad.Rate);
    }

    [Fact]
    public void The_drop_from_rest_is_the_exact_solution()
    {
        // Constant drag coefficient: v = v_T·tanh(t/τ), x = v_T·τ·ln cosh(t/τ): 10 mm lead ball, v_T 1.75466 m/s,
        // τ 0.204830 s, x(0.2 s) = 0.149491 m.
        var descent = new Descent([], new Fall(Vec3.UnitZ, -1.75466 * Vec3.UnitZ, 1.75466, 0, FallKind.Steady), 204.830);
        Tolerances.Check("drop from rest, mm after 0.2 s", descent.DepthAfter(200));
        Assert.Equal(200, descent.TimeTo(descent.DepthAfter(200)), 1e-6);
        Assert.Equal(5000, descent.TimeTo(descent.DepthAfter(5000)), 1e-6);
    }
}
