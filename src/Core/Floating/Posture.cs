using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Floating;

/// <summary>How a lure lies in (or under) the water, as its maker would read it with protractor and ruler.</summary>
public sealed record Posture
{
    /// <summary>From here on a lure stands upright, radians of trim either way; common practice, no source.</summary>
    public static readonly double Upright = Units.FromDegrees(80);

    /// <summary>The water plane in body axes; when sunk, only its direction has meaning.</summary>
    public required WaterPlane Plane { get; init; }

    /// <summary>Radians, positive nose up.</summary>
    public required double Trim { get; init; }

    /// <summary>Radians, positive starboard down; null above 89° of trim or when it rolls freely.</summary>
    public required double? Heel { get; init; }

    public required bool HeelIsFree { get; init; }

    /// <summary>Its mirror image is a posture too.</summary>
    public required bool Mirror { get; init; }

    /// <summary>Submerged volume, hardware and leader included, mm³.</summary>
    public required double Submerged { get; init; }

    /// <summary>Where the water's lift acts on all that is under it, mm, body axes.</summary>
    public Vec3 CentreOfBuoyancy { get; init; }

    /// <summary>Energy above the first posture's, g·mm²/ms² (mJ).</summary>
    public double Energy { get; init; }

    /// <summary>Energy to leave it for another, mJ; infinite when there is no other.</summary>
    public double Barrier { get; init; } = double.PositiveInfinity;

    /// <summary>Depth of the skin's deepest point, mm.</summary>
    public double Draft { get; init; }

    /// <summary>Vertical height of the body's first point over the water, mm; 0 when under.</summary>
    public double NoseShows { get; init; }

    public double TailShows { get; init; }

    /// <summary>The same as a ruler laid along the back reads it, mm.</summary>
    public double NoseShowsAlong { get; init; }

    public double TailShowsAlong { get; init; }

    /// <summary>Station at which the water crosses the back (belly) nearest the nose, mm; null when it does not.</summary>
    public double? WaterlineBack { get; init; }

    public double? WaterlineBelly { get; init; }

    /// <summary>How far the highest part of the back stands out of the water, mm, and its station.</summary>
    public double BackProud { get; init; }

    public double BackProudAt { get; init; }

    /// <summary>Skin under water, mm².</summary>
    public double WettedArea { get; init; }

    /// <summary>A rest afloat, read off.</summary>
    public static Posture Afloat(FloatingBody body, Rest rest, double lowest)
    {
        Balance b = rest.Balance;
        var plane = new WaterPlane(b.N, b.Offset + Vec3.Dot(b.N, body.Middle));
        Posture bare = Facing(plane, rest.HeelIsFree) with
        {
            Mirror = rest.HasMirror,
            Submerged = b.Submerged,
            // The pull is weight × CG less lift × CB, and lift equals weight here.
            CentreOfBuoyancy = body.Cg - b.Pull / body.Weight,
            Energy = Units.Gravity * (b.Energy - lowest),
            Barrier = Units.Gravity * rest.Escape,
        };
        return Profile.Read(bare, body.Skin);
    }

    /// <summary>
    /// At rest under water: the centre of volume over the centre of gravity, which is stable whatever the shape.
    /// </summary>
    public static Posture Sunk(FloatingBody body) =>
        Sunk(body.Cb, body.Cg, body.Reach) with { Submerged = body.Volume, CentreOfBuoyancy = body.Cb, WettedArea = SolidProperties.Of(body.Skin).Area };

    internal static Posture Sunk(Vec3 cb, Vec3 cg, double reach = 0)
    {
        Vec3 up = cb - cg;
        bool any = up.Length < 1e-6;
        // Halves that are alike differ by the rounding of their sums, which is no heel.
        if (Math.Abs(up.Y) < 1e-13 * reach) up = up with { Y = 0 };
        return Facing(new WaterPlane(any ? Vec3.UnitZ : up.Unit(), 0), any);
    }

    /// <summary>A rest afloat with what its back and belly show, the areas left out: for thousands of builds.</summary>
    internal static Posture Marked(FloatingBody body, in Balance b)
    {
        var plane = new WaterPlane(b.N, b.Offset + Vec3.Dot(b.N, body.Middle));
        return Profile.Marks(Facing(plane, false) with { Submerged = b.Submerged }, body.Skin);
    }

    private static Posture Facing(WaterPlane plane, bool free)
    {
        double trim = WaterPlane.Trim(plane.N);
        bool upright = Math.Abs(trim) > Units.FromDegrees(89);
        return new Posture
        {
            Plane = plane,
            Trim = trim,
            Heel = free || upright ? null : WaterPlane.Heel(plane.N),
            HeelIsFree = free,
            Mirror = false,
            Submerged = 0,
        };
    }
}
