using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>
/// Kirchhoff's equations in an ideal fluid keep energy, momentum and its moment (Lamb 1932, Hydrodynamics, arts 119–124);
/// here momentum is written out anew from the masses, with the centre of gravity off the centre of buoyancy.
/// </summary>
public class ConservationTests
{
    private static readonly Vec3 Offset = new(-4, 1.5, -2.5);
    private static readonly MotionState Start =
        new(new Vec3(0.2, 0.05, -0.1), new Vec3(8e-4, 1.5e-3, -1e-3), new Vec3(0.3, -0.2, 0.9).Unit());

    /// <summary>Linear momentum, and its moment about the centre of buoyancy, of lure and moved water, body axes.</summary>
    private static (Vec3 P, Vec3 L) Momentum(FallingBody body, in MotionState s)
    {
        double water = body.Water * body.SkinVolume;
        Vec3 Times(Vec3 a, Vec3 b) => new(a.X * b.X, a.Y * b.Y, a.Z * b.Z);
        Vec3 arm = body.Cg - body.Cb, rigid = body.Weight * (s.V + Vec3.Cross(s.Omega, arm));
        return (rigid + water * Times(body.Added.Along, s.V),
            Times(body.Inertia, s.Omega) + Vec3.Cross(arm, rigid) + water * Times(body.Added.About, s.Omega));
    }

    private static double Kinetic(FallingBody body, in MotionState s)
    {
        (Vec3 p, Vec3 l) = Momentum(body, s);
        return 0.5 * (Vec3.Dot(p, s.V) + Vec3.Dot(l, s.Omega));
    }

    [Fact]
    public void With_weight_equal_to_lift_momentum_and_its_moment_about_the_vertical_are_kept()
    {
        FallingBody body = Ellipsoid.Ideal(85, Offset, heavy: 0);
        var motion = new Motion(body);
        MotionState s = Start;
        (Vec3 p0, _) = Momentum(body, s);
        double upward0 = Vec3.Dot(p0, s.Up), about0 = Vertical(body, s, Vec3.Zero), most = 0;
        // The way gone, kept in body axes: its rate of change there is v − ω×x.
        Vec3 way = Vec3.Zero;
        for (int i = 0; i < 6000; i++)
        {
            MotionState before = s, middle = Drop.Step(motion, s, 0.25);
            s = Drop.Step(motion, s, 0.5);
            way = Carried(way, before, middle, s, 0.5);
            (Vec3 p, _) = Momentum(body, s);
            most = Math.Max(most, Math.Abs(p.Length - p0.Length) / p0.Length);
            most = Math.Max(most, Math.Abs(Vec3.Dot(p, s.Up) - upward0) / p0.Length);
        }
        double about = Vertical(body, s, way);
        TestContext.Current.TestOutputHelper?.WriteLine($"momentum kept to {most:E2}, its moment {about0:G9} then {about:G9}");
        Assert.True(most < 1e-7, $"{most:E2}");
        Assert.Equal(about0, about, 1e-5 * p0.Length * body.Length);
    }

    // (x×P + L)·n: weight hung off the lift turns the lure, but never about the vertical.
    private static double Vertical(FallingBody body, in MotionState s, Vec3 way)
    {
        (Vec3 p, Vec3 l) = Momentum(body, s);
        return Vec3.Dot(Vec3.Cross(way, p) + l, s.Up);
    }

    // The same Runge–Kutta step, with the motion known at its middle and end.
    private static Vec3 Carried(Vec3 way, in MotionState a, in MotionState middle, in MotionState b, double dt)
    {
        static Vec3 Rate(in MotionState s, Vec3 x) => s.V - Vec3.Cross(s.Omega, x);
        Vec3 k1 = Rate(a, way), k2 = Rate(middle, way + dt / 2 * k1), k3 = Rate(middle, way + dt / 2 * k2), k4 = Rate(b, way + dt * k3);
        return way + dt / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
    }

    [Fact]
    public void Falling_without_drag_what_height_loses_speed_gains()
    {
        FallingBody body = Ellipsoid.Ideal(85, Offset, heavy: 4);
        var motion = new Motion(body);
        MotionState s = Start;
        double height = 0, least = 0;
        // Lift acts at the centre of buoyancy, weight at the centre of gravity.
        double Whole(in MotionState at) => Kinetic(body, at)
            + Units.Gravity * (body.Heavy * height + body.Weight * Vec3.Dot(body.Cg - body.Cb, at.Up));
        double before = Whole(s), kinetic = Kinetic(body, s);
        Assert.Equal(kinetic, motion.Energy(s), 1e-12 * kinetic);
        for (int i = 0; i < 4000; i++)
        {
            MotionState next = Drop.Step(motion, s, 0.5);
            MotionState middle = Drop.Step(motion, s, 0.25);
            // Simpson.
            height += 0.5 / 6 * (Vec3.Dot(s.V, s.Up) + 4 * Vec3.Dot(middle.V, middle.Up) + Vec3.Dot(next.V, next.Up));
            s = next;
            least = Math.Min(least, height);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"fell {-least:F0} mm; {before:G9} then {Whole(s):G9} mJ");
        Assert.True(least < -50);
        Assert.Equal(before, Whole(s), 1e-6 * Math.Max(kinetic, Units.Gravity * body.Heavy * -least));
    }

    [Fact]
    public void Rates_of_change_are_the_momentums_own()
    {
        // d(P, L)/dt in fixed axes is force and moment: by difference quotients, at random states, drag and wake included.
        var random = new Random(5);
        var sinkers = new RandomSinkers(11);
        for (int i = 0; i < 8; i++)
        {
            FallingBody body = sinkers.Next().Body;
            var motion = new Motion(body);
            double wake = 1 - body.Model.Wake;
            MotionState s = new(0.4 * Any(random), 2e-3 * Any(random), Any(random).Unit());
            const double H = 1e-3;
            (Vec3 pa, Vec3 la) = Momentum(body, Drop.Step(motion, s, H));
            (Vec3 pb, Vec3 lb) = Momentum(body, Drop.Step(motion, s, -H));
            (Vec3 p, Vec3 l) = Momentum(body, s);
            Wrench outer = Flow.Drag(body, s.V, s.Omega) + Flow.Statics(body, s.Up);
            Vec3 force = (pa - pb) / (2 * H) + Vec3.Cross(s.Omega, p);
            // What the wake takes of the moved water's push and turn comes from outside too.
            Wrench ideal = Flow.MovedWater(body with { Model = body.Model with { Wake = 1 } }, s.V, s.Omega), left = Flow.MovedWater(body, s.V, s.Omega);
            force += ideal.Force - left.Force;
            Vec3 moment = (la - lb) / (2 * H) + Vec3.Cross(s.Omega, l) + Vec3.Cross(s.V, p) + ideal.Moment - left.Moment;
            // And does no work, at any share.
            Assert.Equal(0, Vec3.Dot(left.Force, s.V) + Vec3.Dot(left.Moment, s.Omega), 1e-12 * left.Moment.Length * s.Omega.Length);
            Assert.InRange(wake, 0.1, 0.5);
            Assert.Equal(0, (force - outer.Force).Length, 1e-5 * (outer.Force.Length + p.Length * s.Omega.Length));
            Assert.Equal(0, (moment - outer.Moment).Length, 1e-5 * (outer.Moment.Length + p.Length * s.V.Length));
        }
    }

    private static Vec3 Any(Random random) => new(2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1, 2 * random.NextDouble() - 1);

    [Fact]
    public void Rolling_is_damped_as_an_endless_number_of_little_plates_would()
    {
        // One side of a strip meets the water faster: ∫y·(½ρC·l)·|V + p·y|(V + p·y)dy over its width, by quadrature.
        FallingBody still = Ellipsoid.Ideal(85, Vec3.Zero, heavy: 4);
        const double Half = 14, Length = 10, Speed = 0.2, Turn = 1e-4, C = 0.9;
        FallingBody body = still with { Strips = [new Strip(0, 0, Length, Half, Half, 1)], Model = new DragModel { FixedCrossFlow = C } };
        double plates = Quadrature.Over(y => -y * 0.5 * body.Water * C * Length * Math.Abs(-Speed + Turn * y) * (-Speed + Turn * y), -Half, Half, 8);
        // ω about x (aft) moves starboard up.
        Wrench rolling = Flow.Drag(body, new Vec3(0, 0, -Speed), new Vec3(Turn, 0, 0));
        Assert.Equal(plates, rolling.Moment.X, 1e-6 * Math.Abs(plates));
        Assert.True(plates < 0);
    }
}
