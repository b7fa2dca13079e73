using Trimwright.Core.Numerics;

namespace Trimwright.Core.Floating;

/// <summary>
/// Rest in the water.
/// <para>
/// <b>Unknowns</b>: the unit vector n (the world's up in body axes) and the water plane's offset d. Trim and heel are
/// singular where standing lures live, so they only report.
/// </para>
/// <para>
/// <b>Residuals</b>: lift less weight, ∂E/∂d; and the two tangential components of ∇E in n, the righting moments.
/// </para>
/// <para>
/// <b>Method</b>: E is convex in d (∂E/∂d rises with every mm of draft), so d is found first, by Newton kept inside a
/// bracket; then E over n alone is minimised by Newton on the sphere with the analytic curvature, its negative
/// eigenvalues turned positive so that every step goes down, and halved until it does.
/// </para>
/// <para>
/// <b>Stop</b>: lift equals weight to 1e-12 of it; the moment is below 1e-11 of weight × reach, or no step lowers the
/// energy any more.
/// </para>
/// <para>
/// <b>Fails</b> when there is no spare buoyancy (the caller asks first), and says so by not converging within its
/// steps, which <see cref="Found.Converged"/> tells.
/// </para>
/// </summary>
public static class Equilibrium
{
    private const int MostSteps = 80;
    private const double ForceTolerance = 1e-12;
    private const double MomentTolerance = 1e-11;
    private const double LongestStep = 0.35;
    private const double LeastHeel = 1e-9;

    /// <summary>A rest that the descent came to.</summary>
    public readonly record struct Found(Balance Balance, bool Converged);

    /// <summary>The water plane at which a body with up direction n carries its own weight.</summary>
    /// <param name="body">With spare buoyancy.</param>
    /// <param name="n">Unit vector up.</param>
    /// <param name="guess">A plane offset to start from, or null.</param>
    /// <param name="tolerance">Of weight.</param>
    public static Balance Afloat(FloatingBody body, Vec3 n, double? guess = null, double tolerance = ForceTolerance)
    {
        (double low, double high) = body.Range(n);
        double d = guess is { } g && g > low && g < high ? g : 0.5 * (low + high);
        double allowed = tolerance * body.Weight;
        Balance best = default;
        double bestForce = double.PositiveInfinity;
        for (int i = 0; i < 100; i++)
        {
            Balance b = body.At(n, d);
            if (Math.Abs(b.ForceUp) < bestForce) (best, bestForce) = (b, Math.Abs(b.ForceUp));
            if (bestForce <= allowed) return best;
            if (b.ForceUp > 0) high = d;
            else low = d;
            if (high - low <= 1e-15 * body.Reach) return best;
            double step = b.Kdd > 0 ? b.ForceUp / b.Kdd : double.PositiveInfinity;
            double next = d - step;
            d = next > low && next < high ? next : 0.5 * (low + high);
        }
        return best;
    }

    /// <summary>Goes down from an up direction to the rest below it.</summary>
    /// <param name="body">With spare buoyancy.</param>
    /// <param name="start">Unit vector up to start from.</param>
    /// <param name="longest">Longest step, radians; short, it does not leave a shallow hollow that it starts in.</param>
    /// <param name="guess">A plane offset to start from, or null.</param>
    /// <param name="tolerance">
    /// Moment over weight × reach at which it stops; what is looser than the usual leaves out the last digits too, for
    /// thousands of builds whose doubt is a million times as wide.
    /// </param>
    public static Found Descend(
        FloatingBody body, Vec3 start, double longest = LongestStep, double? guess = null, double tolerance = MomentTolerance)
    {
        double scale = body.Weight * body.Reach;
        double force = Math.Max(ForceTolerance, 0.1 * tolerance);
        Balance here = Afloat(body, start, guess, force);
        for (int i = 0; i < MostSteps; i++)
        {
            (double g1, double g2) = here.Slope;
            if (Moment(here) <= tolerance * scale) return new Found(tolerance > MomentTolerance ? here : Settle(body, here, scale), true);
            (double s1, double s2) = Step(here, g1, g2, scale);
            double slope = g1 * s1 + g2 * s2;
            double length = Math.Sqrt(s1 * s1 + s2 * s2), part = Math.Min(1, longest / length);
            Balance? next = null;
            for (int halving = 0; halving < 40 && next is null; halving++, part *= 0.5)
            {
                Balance there = Afloat(body, Turn(here, part * s1, part * s2), here.Offset, force);
                bool lower = there.Energy <= here.Energy + 1e-4 * part * slope;
                // So near rest that energies differ by their rounding only, the moment decides.
                bool close = -part * slope < 1e-13 * scale && Moment(there) < Moment(here);
                if (lower || close) next = there;
            }
            // No step goes down any further: rest to the arithmetic's own precision.
            if (next is not { } taken) return new Found(here, Moment(here) <= 1e-6 * scale);
            here = taken;
        }
        return new Found(here, false);
    }

    /// <summary>
    /// The last digits. One more step of Newton's costs one look and squares what error is left, which tells near a
    /// branch point, where the righting moment is weak. And port and starboard are summed in different orders: a heel
    /// within that rounding is none, exactly.
    /// </summary>
    private static Balance Settle(FloatingBody body, in Balance found, double scale)
    {
        Balance rest = found;
        (double g1, double g2) = rest.Slope;
        (double s1, double s2) = Step(rest, g1, g2, scale);
        Balance nearer = Afloat(body, Turn(rest, s1, s2), rest.Offset);
        if (Moment(nearer) < Moment(rest)) rest = nearer;
        if (rest.N.Y == 0 || Math.Abs(rest.N.Y) > LeastHeel) return rest;
        Balance level = Afloat(body, (rest.N with { Y = 0 }).Unit(), rest.Offset);
        return Moment(level) <= MomentTolerance * scale ? level : rest;
    }

    private static double Moment(in Balance b)
    {
        (double g1, double g2) = b.Slope;
        return Math.Sqrt(g1 * g1 + g2 * g2);
    }

    // Newton's step with the curvature's eigenvalues made positive, and not too small.
    private static (double, double) Step(in Balance b, double g1, double g2, double scale)
    {
        (double h11, double h12, double h22) = b.Curvature;
        double mean = 0.5 * (h11 + h22), half = 0.5 * (h11 - h22), spread = Math.Sqrt(half * half + h12 * h12);
        double angle = 0.5 * Math.Atan2(h12, half);
        (double sin, double cos) = Math.SinCos(angle);
        double floor = 1e-9 * scale;
        double big = Math.Max(Math.Abs(mean + spread), floor), small = Math.Max(Math.Abs(mean - spread), floor);
        double along = -(cos * g1 + sin * g2) / big, across = -(-sin * g1 + cos * g2) / small;
        return (cos * along - sin * across, sin * along + cos * across);
    }

    // n moved by a tangent vector along the sphere's great circle.
    internal static Vec3 Turn(in Balance b, double s1, double s2)
    {
        double angle = Math.Sqrt(s1 * s1 + s2 * s2);
        if (angle == 0) return b.N;
        Vec3 direction = (s1 * b.E1 + s2 * b.E2) / angle;
        (double sin, double cos) = Math.SinCos(angle);
        return (cos * b.N + sin * direction).Unit();
    }
}
