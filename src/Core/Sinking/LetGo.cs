using System.Collections.Immutable;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Sinking;

/// <summary>
/// From which start a fall is reached. A lure with several falls that hold comes to one or another by how it is let go: at rest, belly
/// down, at a trim. The motion (<see cref="Motion"/>) is integrated in the lure's own plane from every ten degrees, until it stays beside a
/// fall that holds there; between starts that end in different falls the edge is halved down to a degree.
/// </summary>
/// <param name="From">The most nose-down trim of a run of starts that end alike, radians, positive nose up.</param>
/// <param name="To">The most tail-down one.</param>
/// <param name="Fall">The place in <see cref="Descent.All"/> of the fall that they come to; null: it goes on swinging.</param>
public readonly record struct LetGo(double From, double To, int? Fall)
{
    private const int Starts = 19;

    // Edges are told in whole degrees.
    private static readonly double Edge = Units.FromDegrees(1);

    // As near a fall that holds, by angle of the up direction and share of the velocity, it stays there.
    private const double Beside = 0.05;

    // What hasn't settled after so many of its own lengths goes on swinging.
    private const int Lengths = 150;

    /// <summary>Whether a descent has several falls that hold in the lure's plane, so that the start decides.</summary>
    public static bool Decides(Descent descent) => descent.All.Count(Holds) > 1;

    private static bool Holds(Fall fall) => fall.Kind != FallKind.Unsteady;

    /// <summary>Runs of starts, nose down to tail down, and what each comes to; one run when the start doesn't matter.</summary>
    public static ImmutableArray<LetGo> Of(FallingBody body, Descent descent, Pace? pace = null)
    {
        var motion = new Motion(body);
        int? Ends(double trim)
        {
            pace?.Step();
            return EndOf(motion, body, descent, trim, pace);
        }
        double at = -0.5 * Math.PI, step = Math.PI / (Starts - 1), from = at;
        int? now = Ends(at);
        var runs = ImmutableArray.CreateBuilder<LetGo>();
        for (int i = 1; i < Starts; i++)
        {
            double to = -0.5 * Math.PI + i * step;
            int? next = Ends(to);
            if (next != now)
            {
                double low = at, high = to;
                while (high - low > Edge)
                {
                    double middle = 0.5 * (low + high);
                    if (Ends(middle) == now) low = middle;
                    else high = middle;
                }
                double edge = 0.5 * (low + high);
                runs.Add(new LetGo(from, edge, now));
                (from, now) = (edge, next);
            }
            at = to;
        }
        runs.Add(new LetGo(from, 0.5 * Math.PI, now));
        return runs.ToImmutable();
    }

    /// <summary>Where it comes to from rest at a trim: a place in <see cref="Descent.All"/>, or null.</summary>
    internal static int? EndOf(Motion motion, FallingBody body, Descent descent, double trim, Pace? pace = null)
    {
        double speed = descent.All.Max(f => f.Velocity.Length), length = body.Length / speed;
        double least = Math.Min(body.Inertia.X, Math.Min(body.Inertia.Y, body.Inertia.Z));
        double swing = Math.Sqrt(Units.Gravity * body.Weight * (body.Cg - body.Cb).Length / least);
        double step = Math.Min(length / 20, 0.5 / Math.Max(swing, 1e-9));
        int look = Math.Max((int)(length / step / 4), 1);
        long steps = (long)(Lengths * length / step);
        var s = new MotionState(Vec3.Zero, Vec3.Zero, WaterPlane.Up(trim, 0));
        for (long i = 1; i <= steps; i++)
        {
            s = InPlane(motion.Step(s, step));
            if (i % look > 0) continue;
            pace?.Step();
            for (int k = 0; k < descent.All.Length; k++)
                if (Holds(descent.All[k]) && Apart(body, s, descent.All[k]) < Beside) return k;
        }
        return null;
    }

    // Where a fall does not hold out of the plane, rounding would grow into a roll.
    private static MotionState InPlane(in MotionState s) => new(s.V with { Y = 0 }, new Vec3(0, s.Omega.Y, 0), (s.Up with { Y = 0 }).Unit());

    private static double Apart(FallingBody body, in MotionState s, Fall fall) =>
        Vec3.Angle(s.Up, fall.Up) + ((s.V - fall.Velocity).Length + s.Omega.Length * body.Length) / fall.Velocity.Length;
}
