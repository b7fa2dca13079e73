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

    // How closely drag matches the net weight, at a look and at a root.
    private const double Rough = 1e-4;
    private const double Fine = 1e-13;

    // Lighter in the water than this share of its weight it hangs rather than falls, and takes minutes to find its way.
    private const double Hanging = 1e-7;

    // Out of its plane a fall fails in two ways, and motions integrated from there part them. About and past
    // w_c = √(W·g·BG/((k_y − k_z)ρV)) heel itself is lost, mostly at once, and the motion ends leaning or lying on a side, up to
    // half slower. Well below w_c, and with a round body at any speed, only the course is lost: the disturbance is more
    // turn than heel, grows less than e-fold in a body length, and ends in a spiral with its keel kept, heel under 20°,
    // trim within 12° and rate within 15 % of the straight fall's.
    private const double AtOnce = 1;

    /// <summary>The falls of a body; null when it does not sink.</summary>
    public static Descent? Of(FallingBody body)
    {
        if (body.Heavy <= Hanging * body.Weight) return null;
        var motion = new Motion(body);
        var falls = new List<Fall>();
        double step = 2 * Math.PI / Looks, guess = 0.1;
        // Off the axes, where symmetry puts roots.
        double from = 0.37 * step, before = Moment(body, from, ref guess, Rough);
        for (int k = 1; k <= Looks; k++)
        {
            double to = 0.37 * step + k * step, after = Moment(body, to, ref guess, Rough);
            if (before == 0 || Math.Sign(before) != Math.Sign(after))
            {
                double speed = guess;
                // A look is rough: near a root its sign may be wrong at an end, and then there is none between.
                if (Root(body, from, to, ref speed) is { } alpha) falls.Add(At(body, motion, alpha, speed));
            }
            (from, before) = (to, after);
        }
        ImmutableArray<Fall> all = [.. falls.OrderBy(f => f.Kind).ThenBy(f => f.Rate)];
        Vec3 rest = (body.Cb - body.Cg).Unit();
        Fall? first = all.Where(f => f.Kind is FallKind.Steady or FallKind.Spirals).MinBy(f => Vec3.Angle(f.Up, rest));
        Fall? ifItHolds = first ?? all.Where(f => f.Kind == FallKind.Rolls).MinBy(f => Vec3.Angle(f.Up, rest));
        return new Descent(all, first, first is null ? 0 : RestToSpeed(body, first))
        {
            IfItHolds = ifItHolds,
            Drag = new Lazy<double>(() => first is null ? 0 : DragDoubt.Of(body, first)),
            Roll = new Lazy<double>(() => first is null && ifItHolds is not null ? Rolling.Chance(body, ifItHolds) : 0),
        };
    }

    /// <summary>
    /// The steady fall that a known one has become after a small change of the body; null when it is no longer near.
    /// </summary>
    public static Fall? Follow(FallingBody body, Fall fall)
    {
        double speed = fall.Velocity.Length;
        for (double reach = 0.02; reach < 0.7; reach *= 2)
            if (Root(body, fall.Direction - reach, fall.Direction + reach, ref speed) is { } alpha)
                return At(body, new Motion(body), alpha, speed);
        return null;
    }

    private static double? Root(FallingBody body, double from, double to, ref double speed)
    {
        double guess = speed;
        double low = Moment(body, from, ref guess, Fine), high = Moment(body, to, ref guess, Fine);
        if (low != 0 && Math.Sign(low) == Math.Sign(high)) return null;
        double alpha = Roots.Between(a => Moment(body, a, ref guess, Fine), from, to, 1e-12);
        speed = guess;
        return alpha;
    }

    /// <summary>Speed at which drag balances the net weight, moving along α; with the wrench there.</summary>
    private static (double Speed, Wrench Drag) Balance(FallingBody body, double alpha, double guess, double tolerance)
    {
        (double sin, double cos) = Math.SinCos(alpha);
        Vec3 along = new(cos, 0, sin);
        double pull = Units.Gravity * body.Heavy, speed = Math.Max(guess, 1e-6);
        Wrench drag = default;
        for (int i = 0; i < 60; i++)
        {
            drag = Flow.Drag(body, speed * along, Vec3.Zero);
            double ratio = pull / Math.Max(drag.Force.Length, 1e-300);
            if (Math.Abs(ratio - 1) < tolerance) break;
            // Nearly quadratic drag: the square root of the ratio is nearly Newton's step.
            speed *= Math.Sqrt(Math.Clamp(ratio, 1e-4, 1e4));
        }
        return (speed, drag);
    }

    /// <summary>The moment about y that is left at α, N·mm, nose-up positive.</summary>
    private static double Moment(FallingBody body, double alpha, ref double guess, double tolerance)
    {
        (double speed, Wrench drag) = Balance(body, alpha, guess, tolerance);
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
        (double speed, Wrench drag) = Balance(body, alpha, guess, Fine);
        Vec3 v = Velocity(alpha, speed), up = drag.Force.Unit();
        // Level, pointing where the tail points; on end, where the back does.
        Vec3 level = Vec3.Cross(Vec3.UnitY, up);
        if (up.Z < 0) level = -level;
        return new Fall(up, v, -Vec3.Dot(v, up), Vec3.Dot(v, level), KindOf(motion, body, v, up));
    }

    internal static FallKind KindOf(Motion motion, FallingBody body, Vec3 v, Vec3 up)
    {
        (double inPlane, double outOfPlane, double turnOverHeel) = motion.Growth(v, up);
        double speed = v.Length;
        // Rounding leaves neutral modes a hair on either side of zero.
        double still = 1e-6 * Math.Max(speed, 1e-3) / body.Length;
        bool courseOnly = outOfPlane < AtOnce * speed / body.Length && turnOverHeel > 1;
        return inPlane > still ? FallKind.Unsteady : outOfPlane <= still ? FallKind.Steady : courseOnly ? FallKind.Spirals : FallKind.Rolls;
    }

    // Mass and moved water along the way of the fall, over drag per speed².
    internal static double RestToSpeed(FallingBody body, Fall fall)
    {
        Vec3 way = fall.Velocity.Unit();
        Vec3 k = body.Added.Along;
        double moved = body.Weight + body.Water * body.SkinVolume * (k.X * way.X * way.X + k.Y * way.Y * way.Y + k.Z * way.Z * way.Z);
        return moved * fall.Velocity.Length / (Units.Gravity * body.Heavy);
    }
}
