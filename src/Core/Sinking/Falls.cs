using System.Collections.Immutable;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Sinking;

/// <summary>
/// All steady falls of a sinking body.
/// <para>
/// <b>Unknown</b>: one angle α, the direction of motion in the body's plane: v = U(cos α, 0, sin α). At each α the speed
/// follows from |drag| = net weight (drag grows with speed), the up direction is the drag's own, and what is left is
/// one moment about y: drag, Munk's, and the weight hung under the lift.
/// <b>Residual</b>: that moment. <b>Method</b>: its sign changes over a full turn of α, each closed in on by Brent's
/// method. <b>Stop</b>: α to 1e-12. Roots that are tangent to zero without crossing it are not found; they are falls at
/// the edge of being one.
/// </para>
/// </summary>
public static class Falls
{
    private const int Looks = 180;

    /// <summary>The falls of a body that sinks.</summary>
    /// <exception cref="ArgumentException">It does not sink: misuse.</exception>
    public static Sinking Of(FallingBody body)
    {
        if (body.Heavy <= 0) throw new ArgumentException("a body that does not sink does not fall");
        var motion = new Motion(body);
        var falls = new List<Fall>();
        double step = 2 * Math.PI / Looks, guess = 0.1;
        // Off the axes, where symmetry puts roots.
        double from = 0.37 * step, before = Moment(body, from, ref guess);
        for (int k = 1; k <= Looks; k++)
        {
            double to = 0.37 * step + k * step, after = Moment(body, to, ref guess);
            if (before == 0 || Math.Sign(before) != Math.Sign(after))
            {
                double speed = guess;
                double alpha = Roots.Between(a => Moment(body, a, ref speed), from, to, 1e-12);
                falls.Add(At(body, motion, alpha, speed));
            }
            (from, before) = (to, after);
        }
        ImmutableArray<Fall> all = [.. falls.OrderBy(f => f.Kind).ThenBy(f => f.Rate)];
        Vec3 rest = (body.Cb - body.Cg).Unit();
        Fall? first = all.Where(f => f.Kind == FallKind.Steady).MinBy(f => Vec3.Angle(f.Up, rest));
        return new Sinking(all, first, first is null ? 0 : RestToSpeed(body, first));
    }

    /// <summary>Speed at which drag balances the net weight, moving along α; with the wrench there.</summary>
    private static (double Speed, Wrench Drag) Balance(FallingBody body, double alpha, double guess)
    {
        (double sin, double cos) = Math.SinCos(alpha);
        Vec3 along = new(cos, 0, sin);
        double pull = Units.Gravity * body.Heavy, speed = Math.Max(guess, 1e-6);
        Wrench drag = default;
        for (int i = 0; i < 60; i++)
        {
            drag = Flow.Drag(body, speed * along, Vec3.Zero);
            double ratio = pull / Math.Max(drag.Force.Length, 1e-300);
            if (Math.Abs(ratio - 1) < 1e-13) break;
            // Nearly quadratic drag: the square root of the ratio is nearly Newton's step.
            speed *= Math.Sqrt(Math.Clamp(ratio, 1e-4, 1e4));
        }
        return (speed, drag);
    }

    /// <summary>The moment about y that is left at α, N·mm, nose-up positive.</summary>
    private static double Moment(FallingBody body, double alpha, ref double guess)
    {
        (double speed, Wrench drag) = Balance(body, alpha, guess);
        guess = speed;
        return drag.Moment.Y + Flow.Munk(body, Velocity(alpha, speed)).Y + Flow.Statics(body, drag.Force.Unit()).Moment.Y;
    }

    private static Vec3 Velocity(double alpha, double speed)
    {
        (double sin, double cos) = Math.SinCos(alpha);
        return new Vec3(speed * cos, 0, speed * sin);
    }

    private static Fall At(FallingBody body, Motion motion, double alpha, double guess)
    {
        (double speed, Wrench drag) = Balance(body, alpha, guess);
        Vec3 v = Velocity(alpha, speed), up = drag.Force.Unit();
        // Level, pointing where the tail points; on end, where the back does.
        Vec3 level = Vec3.Cross(Vec3.UnitY, up);
        if (up.Z < 0) level = -level;
        (double inPlane, double outOfPlane) = motion.Growth(v, up);
        // Rounding leaves neutral modes a hair on either side of zero.
        double still = 1e-6 * Math.Max(speed, 1e-3) / body.Length;
        FallKind kind = inPlane > still ? FallKind.Unsteady : outOfPlane > still ? FallKind.Rolls : FallKind.Steady;
        return new Fall(up, v, -Vec3.Dot(v, up), Vec3.Dot(v, level), kind);
    }

    // Mass and moved water along the way of the fall, over drag per speed².
    private static double RestToSpeed(FallingBody body, Fall fall)
    {
        Vec3 way = fall.Velocity.Unit();
        Vec3 k = body.Added.Along;
        double moved = body.Weight + body.Water * body.SkinVolume * (k.X * way.X * way.X + k.Y * way.Y * way.Y + k.Z * way.Z * way.Z);
        return moved * fall.Velocity.Length / (Units.Gravity * body.Heavy);
    }
}
