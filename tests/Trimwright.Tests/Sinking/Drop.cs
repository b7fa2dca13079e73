using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>The motion of a falling body in time, by the classical fourth-order Runge–Kutta method.</summary>
internal static class Drop
{
    /// <summary>One step of so many ms.</summary>
    public static MotionState Step(Motion motion, in MotionState s, double dt)
    {
        MotionState a = motion.Rate(s);
        MotionState b = motion.Rate(Ahead(s, a, dt / 2));
        MotionState c = motion.Rate(Ahead(s, b, dt / 2));
        MotionState d = motion.Rate(Ahead(s, c, dt));
        double k = dt / 6;
        Vec3 up = s.Up + k * (a.Up + 2 * b.Up + 2 * c.Up + d.Up);
        return new MotionState(
            s.V + k * (a.V + 2 * b.V + 2 * c.V + d.V), s.Omega + k * (a.Omega + 2 * b.Omega + 2 * c.Omega + d.Omega), up.Unit());
    }

    private static MotionState Ahead(in MotionState s, in MotionState rate, double dt) =>
        new(s.V + dt * rate.V, s.Omega + dt * rate.Omega, s.Up + dt * rate.Up);

    /// <summary>A step, ms, that follows both the fall and the lure's own swing under its lift, the fastest thing it does.</summary>
    public static double StepFor(FallingBody body, double speed)
    {
        double least = Math.Min(body.Inertia.X, Math.Min(body.Inertia.Y, body.Inertia.Z));
        double swing = Math.Sqrt(Units.Gravity * body.Weight * (body.Cg - body.Cb).Length / least);
        return Math.Min(body.Length / speed / 25, 0.5 / Math.Max(swing, 1e-9));
    }

    /// <summary>How far a state is from a steady one: accelerations over a typical speed, rates of turn over speed and length.</summary>
    public static double Unrest(Motion motion, FallingBody body, in MotionState s)
    {
        MotionState rate = motion.Rate(s);
        double speed = Math.Max(s.V.Length, 1e-9), turn = speed / body.Length;
        return rate.V.Length / (speed * turn) + rate.Omega.Length / (turn * turn) + rate.Up.Length / turn;
    }

    /// <summary>How far a state is from a steady fall: angle of the up direction, velocity's share, turning.</summary>
    public static double Apart(FallingBody body, in MotionState s, Fall fall) =>
        Vec3.Angle(s.Up, fall.Up) + (s.V - fall.Velocity).Length / fall.Velocity.Length
        + s.Omega.Length * body.Length / fall.Velocity.Length;

    /// <summary>So many body lengths at a speed, or until nothing changes any more.</summary>
    public static MotionState? Settled(Motion motion, FallingBody body, MotionState s, double speed, int lengths = 800)
    {
        double step = StepFor(body, speed), length = body.Length / speed;
        int look = (int)Math.Ceiling(length / step);
        bool left = false;
        for (int i = 0; i < lengths * look; i++)
        {
            s = Step(motion, s, step);
            if (i % look > 0) continue;
            double unrest = Unrest(motion, body, s);
            left |= unrest > 1e-3;
            // Beside an unstable fall it first comes nearly to rest, then leaves.
            if (unrest < (left || i > 100 * look ? 1e-6 : 1e-9)) return s;
        }
        return null;
    }

    /// <summary>Time, ms, until a motion has gone down so many mm.</summary>
    public static double TimeTo(Motion motion, MotionState s, double depth, double dt)
    {
        double down = 0, time = 0;
        while (true)
        {
            MotionState next = Step(motion, s, dt);
            double step = -0.5 * dt * (Vec3.Dot(s.V, s.Up) + Vec3.Dot(next.V, next.Up));
            if (down + step >= depth) return time + dt * (depth - down) / step;
            (down, time, s) = (down + step, time + dt, next);
            if (time > 1e7) return double.NaN;
        }
    }
}
