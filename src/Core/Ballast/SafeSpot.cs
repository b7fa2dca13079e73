using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>From which side a hole is drilled.</summary>
public enum DrilledFrom
{
    Belly,
    Back,
    RightSide,
    LeftSide,
}

/// <summary>Sound wood that a hole from outside leaves, mm: common practice, no source.</summary>
/// <param name="ToSkin">Round the filling and beyond the drill's point, to the outside.</param>
/// <param name="ToWire">To the slot of the wire and to its eyes.</param>
/// <param name="ToHanger">To a hanger's loop, slot or screw.</param>
/// <param name="ToWeight">To another weight's pocket, a pin or an eye seat.</param>
/// <param name="Cover">Length of the stopper that closes the hole over its filling.</param>
public sealed record Walls(double ToSkin = 3, double ToWire = 2, double ToHanger = 5, double ToWeight = 2, double Cover = 3)
{
    public static readonly Walls Usual = new();

    public double To(BuriedKind kind) => kind switch
    {
        BuriedKind.Wire => ToWire,
        BuriedKind.Hanger => ToHanger,
        BuriedKind.Weight or BuriedKind.Pin or BuriedKind.EyeSeat => ToWeight,
    };
}

/// <summary>A drill: its diameter, how far its spur or point goes beyond the full width, and how deep it can go at all.</summary>
public readonly record struct DrillBit(double Diameter, double Beyond, double Reach = double.PositiveInfinity)
{
    public static DrillBit Of(BoxCutter cutter, double diameter) => new(diameter, cutter.BeyondMm(diameter), cutter.ReachMm ?? double.PositiveInfinity);
}

/// <summary>
/// A place on the outside of a glued lure where a hole can be drilled that meets nothing and leaves sound wood, and how deep.
/// Lengths mm, body axes, on the body as drawn.
/// </summary>
/// <param name="From">The side that the drill enters.</param>
/// <param name="Mouth">Where the hole's axis meets the skin.</param>
/// <param name="Into">Unit vector along the drill: straight up or down, or straight across.</param>
/// <param name="Bit">The drill.</param>
/// <param name="Rim">Depth below <paramref name="Mouth"/> at which the whole of the hole's rim is in the wood.</param>
/// <param name="FillingFrom">Depth from which a filling has sound wood all round and its stopper above it.</param>
/// <param name="Depth">Depth of the full width's bottom, the deepest that is safe: what the drill stop is set to.</param>
/// <param name="StoppedBy">What would be met next: a name, or null for the far skin.</param>
public sealed record SafeSpot(
    DrilledFrom From, Vec3 Mouth, Vec3 Into, DrillBit Bit, double Rim, double FillingFrom, double Depth, string? StoppedBy)
{
    /// <summary>The axis that the hole lies along.</summary>
    public Axis Axis => Into.Z != 0 ? Axis.Z : Axis.Y;

    /// <summary>The longest filling, mm.</summary>
    public double Room => Depth - FillingFrom;

    /// <summary>Volume of the longest filling, mm³.</summary>
    public double Volume => Solids.Cylinder(Bit.Diameter, Room);

    /// <summary>A point on the hole's axis at a depth.</summary>
    public Vec3 At(double depth) => Mouth + depth * Into;

    // A hair inside the skin, so that rounding puts no rim outside.
    private const double Hair = 0.05;

    /// <summary>The filling at the hole's bottom and the stopper over it, as pieces that a design takes.</summary>
    /// <param name="name">What it is filled with.</param>
    /// <param name="density">Of the filling, g/cm³.</param>
    /// <param name="stopper">Density of the stopper, g/cm³.</param>
    /// <param name="room">Length of the filling, mm; at most <see cref="Room"/>. The hole ends where it ends.</param>
    public (BallastPiece Filling, BallastPiece Stopper) Filled(string name, double density, double stopper, double room)
    {
        BallastPiece Plug(string what, double from, double to, double grams)
        {
            Vec3 middle = At(0.5 * (from + to));
            return new BallastPiece
            {
                Name = what, Form = BallastForm.Plug, Axis = Axis, DiameterMm = Bit.Diameter, LengthMm = to - from,
                DensityGPerCm3 = grams, AtMm = [middle.X, middle.Y, middle.Z],
            };
        }
        return (Plug(name, FillingFrom, FillingFrom + Math.Min(room, Room), density), Plug("stopper over it", Rim + Hair, FillingFrom, stopper));
    }
}
