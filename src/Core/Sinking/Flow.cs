using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Sinking;

/// <summary>A force (N) with its moment (N·mm) about the centre of buoyancy, body axes.</summary>
public readonly record struct Wrench(Vec3 Force, Vec3 Moment)
{
    public static Wrench operator +(Wrench a, Wrench b) => new(a.Force + b.Force, a.Moment + b.Moment);
}

/// <summary>
/// What the water does to a moving lure, added mass apart. Velocities are the body's own through still water, mm/ms,
/// body axes, of the point at the centre of buoyancy.
/// <para>
/// Strips, each at its own speed v − r-part (without it nothing would damp pitch): cross-flow drag
/// ½ρ·η·C_dc(Re, section)·width·|V|V with V across the axis and the width seen along V, η by the whole body's
/// slenderness. Axis: friction ½ρC_f(1 + 1.5(d/l)^1.5 + 7(d/l)³)S·u|u| with the laminar line 1.328/√Re of these small
/// Reynolds numbers (Blasius; form factor Hoerner 1965, ch. 6), and the ends' drag areas. Hardware: ½ρ·A·|V|V at the
/// hang point.
/// </para>
/// </summary>
public static class Flow
{
    // Hardware is dragged back along its own way, whatever way that is. (Left out along the body's axis, a level fall would
    // glide twice as far and answer a shifted weight with half the angle.)

    /// <summary>Drag of everything at velocity v (mm/ms) and rate of turn ω (1/ms).</summary>
    public static Wrench Drag(FallingBody body, Vec3 v, Vec3 omega) =>
        v.Y == 0 && omega == Vec3.Zero ? StraightDrag(body, v) : AnyDrag(body, v, omega);

    // In the plane of back and belly, without a turn, every strip is met at one speed over its breadth: the same sums without a
    // root and a logarithm for each. The search for a steady fall asks nothing else.
    private static Wrench StraightDrag(FallingBody body, Vec3 v)
    {
        double speed = Math.Abs(v.Z), fz = 0, my = 0;
        if (speed > 0)
        {
            double half = 0.5 * body.Water * body.Model.Across, eta = body.FiniteLength, log = Math.Log(speed / body.Viscosity);
            ReadOnlySpan<double> breadths = body.LogBreadths.AsSpan();
            ReadOnlySpan<Strip> strips = body.Strips.AsSpan();
            for (int i = 0; i < strips.Length; i++)
            {
                ref readonly Strip strip = ref strips[i];
                if (strip.HalfBreadth <= 0) continue;
                double coefficient = body.Model.FixedCrossFlow ?? eta * strip.Shape * CrossFlow.OfCylinder(log + breadths[i]);
                double z = -half * coefficient * 2 * strip.HalfBreadth * strip.Length * speed * v.Z;
                fz += z;
                my -= (strip.X - body.Cb.X) * z;
            }
        }
        return WithHardware(body, v, Vec3.Zero, new Vec3(Axial(body, v), 0, fz), new Vec3(0, my, 0));
    }

    private static Wrench AnyDrag(FallingBody body, Vec3 v, Vec3 omega)
    {
        double half = 0.5 * body.Water * body.Model.Across, eta = body.FiniteLength;
        double fy = 0, fz = 0, mx = 0, my = 0, mz = 0;
        foreach (ref readonly Strip strip in body.Strips.AsSpan())
        {
            // v + ω×arm across the axis, the arm (ax, 0, az) from the centre of buoyancy.
            double ax = strip.X - body.Cb.X, az = strip.Z - body.Cb.Z;
            double vy = v.Y + omega.Z * ax - omega.X * az, vz = v.Z - omega.Y * ax;
            double speed = Math.Sqrt(vy * vy + vz * vz);
            if (speed <= 0) continue;
            double b = strip.HalfBreadth, h = strip.HalfHeight;
            // The shadow of an oval along the flow.
            double width = 2 * Math.Sqrt(b * b * vz * vz + h * h * vy * vy) / speed;
            if (width <= 0) continue;
            double coefficient = body.Model.FixedCrossFlow
                ?? eta * strip.Shape * CrossFlow.OfCylinder(Math.Log(speed * width / body.Viscosity));
            double push = half * coefficient * width * strip.Length * speed, y = -push * vy, z = -push * vz;
            (fy, fz) = (fy + y, fz + z);
            // arm × force; and rolling, one side of the strip meets the water faster than the other: ∫2|V|p·y² over its width.
            mx += -az * y - push * width * width / 6 * omega.X;
            my -= ax * z;
            mz += ax * y;
        }
        return WithHardware(body, v, omega, new(Axial(body, v), fy, fz), new(mx, my, mz));
    }

    private static Wrench WithHardware(FallingBody body, Vec3 v, Vec3 omega, Vec3 force, Vec3 moment)
    {
        foreach (Trailing hung in body.Hardware)
        {
            Vec3 arm = hung.At - body.Cb, local = v + Vec3.Cross(omega, arm);
            Vec3 f = -0.5 * body.Water * hung.DragArea * local.Length * local;
            force += f;
            moment += Vec3.Cross(arm, f);
        }
        return new Wrench(force, moment);
    }

    private static double Axial(FallingBody body, Vec3 v)
    {
        double u = v.X, speed = v.Length;
        if (u == 0) return 0;
        double reynolds = Math.Max(speed * body.Length / body.Viscosity, 1);
        double friction = 1.328 / Math.Sqrt(reynolds) * body.FormFactor;
        DragModel model = body.Model;
        // Moving nose first is u < 0: the nose face then meets the water and the tail face trails.
        double meets = u < 0 ? model.Face * body.NoseFace + model.Cup * body.CupMouth : model.Face * body.TailFace;
        double trails = model.Base * (u < 0 ? body.TailFace : body.NoseFace + body.CupMouth);
        double area = friction * body.SkinArea + model.Ends * body.Frontal + meets + trails;
        return -0.5 * body.Water * area * u * Math.Abs(u);
    }

    /// <summary>
    /// Munk's moment, N·mm: an elongated body turns across its way. −v×(Av) with added masses A; the parts with motion
    /// along the axis keep only the wake's share, the part across it the share in roll. Nose-up positive: M_y = +f(k_z − k_x)ρV·u·w (Munk 1924, NACA Report
    /// 184).
    /// </summary>
    public static Vec3 Munk(FallingBody body, Vec3 v)
    {
        Vec3 a = body.Water * body.SkinVolume * body.Added.Along;
        double f = body.Model.Wake;
        return new Vec3(body.Model.WakeInRoll * (a.Y - a.Z) * v.Y * v.Z, f * (a.Z - a.X) * v.X * v.Z, f * (a.X - a.Y) * v.X * v.Y);
    }

    /// <summary>
    /// What the moved water does to a lure that moves and turns, added inertia apart: Kirchhoff's −ω×P and −v×P (Lamb 1932, art. 124), with
    /// P = Av the water's momentum, of which the wake leaves a share.
    /// <para>
    /// A share of the moment alone would do work: T·ω is then no longer undone by F·v. So each axis of turning i sees a momentum whose part
    /// across the lure is a_x + s_i(a − a_x), s_i the share on that axis: T_i = −(v×P_i)·e_i, which is <see cref="Munk"/>, and F = −Σ ω_i e_i×P_i.
    /// Then F·v + T·ω = 0 whatever the shares: the two together are a force whose line passes where the lure's own velocity is square to it. In
    /// a steady fall, which doesn't turn, that line lies infinitely far off and only Munk's moment is left: no steady fall hangs on the force
    /// (decision 0022).
    /// </para>
    /// </summary>
    public static Wrench MovedWater(FallingBody body, Vec3 v, Vec3 omega)
    {
        Vec3 roll = Left(body, v, body.Model.WakeInRoll), other = Left(body, v, body.Model.Wake);
        return new Wrench(-Vec3.Cross(new Vec3(omega.X, 0, 0), roll) - Vec3.Cross(new Vec3(0, omega.Y, omega.Z), other), Munk(body, v));
    }

    // The water's momentum, g·mm/ms, of whose part across the lure a share is left beyond what an equal part along it would be.
    private static Vec3 Left(FallingBody body, Vec3 v, double share)
    {
        Vec3 a = body.Water * body.SkinVolume * body.Added.Along;
        return new Vec3(a.X * v.X, (a.X + share * (a.Y - a.X)) * v.Y, (a.X + share * (a.Z - a.X)) * v.Z);
    }

    /// <summary>Weight and lift for an up direction n.</summary>
    public static Wrench Statics(FallingBody body, Vec3 n) => new(
        -Units.Gravity * body.Heavy * n,
        Vec3.Cross(body.Cg - body.Cb, -Units.Gravity * body.Weight * n));
}
