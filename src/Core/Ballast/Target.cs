using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Ballast;

/// <summary>Why no weights at all could do what is wanted.</summary>
public enum NoTarget
{
    /// <summary>Without any weight it is too heavy already; by how much, g.</summary>
    TooHeavy,

    /// <summary>Held at that trim, no fall's drag is straight up.</summary>
    NoSuchFall,

    /// <summary>At that trim it can't show so much of its nose.</summary>
    NoSuchWaterline,

    /// <summary>So many grams fall faster or slower than wanted; the seconds that they take for a metre.</summary>
    OtherRate,
}

/// <summary>
/// What the weights must add up to: the wanted posture posed, and read off.
/// <para>
/// The lure without its weights is held in the wanted posture. A weight of μ grams (what a piece adds, less the wood cut for
/// it, filler round it) at p then does three things, all linear in what is chosen:
/// </para>
/// <para>
/// <b>Weight.</b> Σμ = M*, what the water carries there beyond the lure's own weight: afloat, the lift at the wanted plane;
/// falling, the lift and the drag of the fall.
/// </para>
/// <para>
/// <b>Moment.</b> R = Σμ(p − O)·e − T(Σμ) = 0, with e = (cos θ, 0, sin θ) the direction in which a weight trims the lure. A plan
/// that misses M* by a little floats deeper or falls faster, so T is a line: T* + T′(Σμ − M*).
/// </para>
/// <para>
/// <b>Stiffness.</b> A moment R left over turns the lure by R/K, K = K₀ − H, H = Σμ(p − O)·n with n the world's up: weights
/// that lie low hold the lure. K > 0 is GM > 0 in trim; heel has its own K. In a fall the water's moment is in K₀, and heel
/// must be stiff enough for Munk's moment at that speed: BG > w²(k_y − k_z)ρV/(W g).
/// </para>
/// </summary>
public sealed record Target
{
    /// <summary>O, from which moments are taken, mm.</summary>
    public required Vec3 Origin { get; init; }

    /// <summary>e, unit vector in the body's plane.</summary>
    public required Vec3 Trimming { get; init; }

    /// <summary>n, the world's up in body axes.</summary>
    public required Vec3 Up { get; init; }

    /// <summary>M*, g.</summary>
    public required double Weight { get; init; }

    /// <summary>T*, g·mm.</summary>
    public required double Moment { get; init; }

    /// <summary>T′ = dT/dM, mm.</summary>
    public required double MomentPerGram { get; init; }

    /// <summary>K₀ in trim, g·mm per radian.</summary>
    public required double TrimStiffness { get; init; }

    /// <summary>K₀ in heel, g·mm per radian.</summary>
    public required double HeelStiffness { get; init; }

    /// <summary>What stiffness must be left in heel, g·mm per radian.</summary>
    public required double LeastHeelStiffness { get; init; }

    /// <summary>What a scale is to read with the weights in, g.</summary>
    public required double WholeWeight { get; init; }

    /// <summary>What stiffness must be left in trim: 0.3 mm of GM.</summary>
    public double LeastTrimStiffness => LeastMetacentre * WholeWeight;

    // Below this metacentric height (mm) a nudge or a wet patch of paint decides; common practice, no source.
    internal const double LeastMetacentre = 0.3;

    /// <summary>Where the weights' common centre must lie along e from O, mm; for sentences.</summary>
    public double Arm => Moment / Weight;

    /// <summary>The target of a want, or why there is none and by how much.</summary>
    /// <param name="design">The lure with the pieces that stay, and no others; its joint given.</param>
    /// <param name="want">What is wanted.</param>
    public static (Target? Target, NoTarget Reason, double Amount) Of(LureDesign design, Want want)
    {
        Circumstances c = want.Circumstances;
        double water = c.Water.Density - Units.AirDensity;
        WeightLedger ledger = Bookkeeper.Of(design, c.Stage, c.Rig, water, c.Mesh);
        (Target? target, NoTarget reason, double amount) = want.Manner switch
        {
            Manner.Floats => Afloat(new FloatingBody(ledger, water), want, design.Eyes),
            Manner.Suspends => Under(new FloatingBody(ledger, water), want),
            Manner.Falls => PosedFall.TargetOf(FallingBody.Of(design, ledger, c.Water), want),
        };
        if (target is { } t && t.Weight < -want.WeightWithin) return (null, NoTarget.TooHeavy, -t.Weight);
        return (target is null ? null : target with { WholeWeight = ledger.Weight + target.Weight }, reason, amount);
    }

    private static (Target?, NoTarget, double) Afloat(FloatingBody body, Want want, EyesDesign? eyes)
    {
        Vec3 n = WaterPlane.Up(want.Trim, 0);
        double? plane = want.NoseOut is { } nose ? Showing(body, n, nose)
            : !want.EyesAtWater ? Carrying(body, n, body.SpareBuoyancy - want.Spare!.Value)
            : eyes is { } pair ? Vec3.Dot(n, new Vec3(pair.XMm, 0, pair.ZMm) - body.Middle) : null;
        if (plane is not { } offset)
            return want.Spare is not null ? (null, NoTarget.TooHeavy, want.Spare.Value - body.SpareBuoyancy) : (null, NoTarget.NoSuchWaterline, 0);
        Balance b = body.At(n, offset);
        Vec3 e = Along(want.Trim);
        // How the moment wanted follows the weight: another draft at the same trim.
        const double Step = 0.05;
        double? deeper = Carrying(body, n, b.ForceUp + Step), higher = Carrying(body, n, b.ForceUp - Step);
        double slope = deeper is { } d && higher is { } h ? -(Vec3.Dot(body.At(n, d).Pull, e) - Vec3.Dot(body.At(n, h).Pull, e)) / (2 * Step) : 0;
        double whole = body.Weight + b.ForceUp;
        return (new Target
        {
            Origin = body.Middle, Trimming = e, Up = n, Weight = b.ForceUp, Moment = -Vec3.Dot(b.Pull, e), MomentPerGram = slope,
            TrimStiffness = b.CurvatureAlong(e), HeelStiffness = b.CurvatureAlong(Vec3.UnitY), LeastHeelStiffness = LeastMetacentre * whole, WholeWeight = whole,
        }, default, 0);
    }

    private static (Target?, NoTarget, double) Under(FloatingBody body, Want want)
    {
        Vec3 n = WaterPlane.Up(want.Trim, 0), e = Along(want.Trim);
        // All of it under: weight × place less lift × place, from the middle.
        Vec3 pull = body.Weight * (body.Cg - body.Middle) - body.Water * body.Volume * (body.Cb - body.Middle);
        double weight = body.SpareBuoyancy - (want.Spare ?? 0), own = -Vec3.Dot(pull, n), whole = body.Weight + weight;
        return (new Target
        {
            Origin = body.Middle, Trimming = e, Up = n, Weight = weight, Moment = -Vec3.Dot(pull, e), MomentPerGram = 0,
            TrimStiffness = own, HeelStiffness = own, LeastHeelStiffness = LeastMetacentre * whole, WholeWeight = whole,
        }, default, 0);
    }

    /// <summary>The direction in the body's plane in which a weight trims it.</summary>
    internal static Vec3 Along(double trim)
    {
        (double sin, double cos) = Math.SinCos(trim);
        return new Vec3(cos, 0, sin);
    }

    /// <summary>The plane's offset at which the water carries so many grams more than the body's own; null when it can't.</summary>
    private static double? Carrying(FloatingBody body, Vec3 n, double grams)
    {
        (double low, double high) = body.Range(n);
        if (body.At(n, high).ForceUp <= grams || body.At(n, low).ForceUp >= grams) return null;
        return Roots.Between(d => body.At(n, d).ForceUp - grams, low, high, 1e-10);
    }

    private static double? Showing(FloatingBody body, Vec3 n, double nose)
    {
        (double low, double high) = body.Range(n);
        double Out(double d) => Profile.NoseAlong(body.Skin, new WaterPlane(n, d + Vec3.Dot(n, body.Middle))) - nose;
        return Out(low) <= 0 || Out(high) >= 0 ? null : Roots.Between(Out, low, high, 1e-9);
    }
}
