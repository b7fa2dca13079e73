using System.Collections.Immutable;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Sinking;

/// <summary>How a steady fall holds.</summary>
public enum FallKind
{
    /// <summary>Small disturbances die out.</summary>
    Steady,

    /// <summary>
    /// It keeps its trim, its rate and its back up, but not its course: a disturbance grows slowly into a wide spiral.
    /// </summary>
    Spirals,

    /// <summary>It holds in its plane but heels out of it: past a certain speed a body higher than wide lies on its side.</summary>
    Rolls,

    /// <summary>It does not hold even in its plane.</summary>
    Unsteady,
}

/// <summary>One steady planar fall.</summary>
/// <param name="Up">The world's up in body axes.</param>
/// <param name="Velocity">The lure's own velocity, mm/ms, body axes.</param>
/// <param name="Rate">Downward speed, mm/ms.</param>
/// <param name="Glide">Horizontal speed, mm/ms, positive tail first.</param>
/// <param name="Kind">Whether it holds.</param>
public sealed record Fall(Vec3 Up, Vec3 Velocity, double Rate, double Glide, FallKind Kind)
{
    /// <summary>Direction of motion in the body's plane, radians from x aft towards z up.</summary>
    public double Direction => Math.Atan2(Velocity.Z, Velocity.X);

    /// <summary>Trim under way, radians, positive nose up (tail down).</summary>
    public double Trim => WaterPlane.Trim(Up);

    /// <summary>It falls belly up.</summary>
    public bool BellyUp => Up.Z < 0;

    /// <summary>Seconds for a metre.</summary>
    public double SecondsPerMetre => Units.ToSeconds(1000 / Rate);
}

/// <summary>What becomes of a sinking lure.</summary>
/// <param name="All">Every steady fall, steady ones first, then by rate.</param>
/// <param name="First">
/// The one it comes to from rest: of the steady and the spiralling falls the nearest to the posture at rest; null when
/// there is none.
/// </param>
/// <param name="RestToSpeed">Time constant of the drop from rest, ms: speed grows as tanh(t/τ).</param>
public sealed record Descent(ImmutableArray<Fall> All, Fall? First, double RestToSpeed)
{
    /// <summary>It has a steady fall in its plane but rolls out of it.</summary>
    public bool RollsOnTheFall => First is null && All.Any(f => f.Kind == FallKind.Rolls);

    /// <summary>The fall that it comes to from rest, or would come to if it held its keel; null when there is none in its plane either.</summary>
    public Fall? IfItHolds { get; init; }

    /// <summary>How likely it rolls onto its side on the fall, 0 to 1: see <see cref="Rolling"/>.</summary>
    public double RollChance => Roll?.Value ?? 0;

    /// <summary>That chance, worked out when it is asked for.</summary>
    internal Lazy<double>? Roll { get; init; }

    /// <summary>
    /// How sure the rate of <see cref="First"/> is if the lure is built exactly as drawn, one standard deviation as a share of it: see
    /// <see cref="DragDoubt"/>; 0 without a first fall.
    /// </summary>
    public double RateDoubt => Drag?.Value ?? 0;

    /// <summary>That doubt, worked out when it is asked for.</summary>
    internal Lazy<double>? Drag { get; init; }

    /// <summary>No steady fall at all.</summary>
    public bool Flutters => First is null && !RollsOnTheFall;

    /// <summary>Its rate, mm/ms; without a steady fall, the rate at which it would fall if it held.</summary>
    public double TypicalRate => First?.Rate ?? (All.IsEmpty ? 0 : All[0].Rate);

    /// <summary>
    /// Depth (mm) reached in a time (ms) from rest: (v·τ)·ln cosh(t/τ), with v the steady rate and τ = m/(c·v), m the mass
    /// moved with its water and c the drag over speed².
    /// </summary>
    public double DepthAfter(double time) =>
        First is null ? 0 : First.Rate * RestToSpeed * (time / RestToSpeed + Math.Log((1 + Math.Exp(-2 * time / RestToSpeed)) / 2));

    /// <summary>Time (ms) to reach a depth (mm) from rest.</summary>
    public double TimeTo(double depth)
    {
        double x = depth / (First!.Rate * RestToSpeed);
        // arcosh(eˣ), without the overflow of eˣ on a long way down.
        return RestToSpeed * (x + Math.Log(1 + Math.Sqrt(1 - Math.Exp(-2 * x))));
    }
}
