using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Sinking;

/// <summary>A change that a maker can make.</summary>
public enum TouchBy
{
    /// <summary>A weight sits 1 mm further aft.</summary>
    Aft,

    /// <summary>A weight is 1 g heavier.</summary>
    Heavier,

    /// <summary>A hook is a size up.</summary>
    SizeUp,
}

/// <summary>What a change that a maker can make does to the fall.</summary>
/// <param name="By">What is changed.</param>
/// <param name="Name">Of what.</param>
/// <param name="Place">Where that hangs; "" for a weight.</param>
/// <param name="Rate">By how much the rate changes, mm/ms; NaN when the fall is lost.</param>
/// <param name="Trim">By how much the trim under way changes, radians, positive more tail down.</param>
public sealed record Touch(TouchBy By, string Name, string Place, double Rate, double Trim)
{
    /// <summary>
    /// Each weight 1 mm aft, each weight 1 g more: applied to the body's weight and centre exactly (skin and coats stay), the fall found
    /// anew from where it was.
    /// </summary>
    /// <param name="design">The design.</param>
    /// <param name="body">Its falling body.</param>
    /// <param name="fall">The fall to compare with.</param>
    public static ImmutableArray<Touch> Of(LureDesign design, FallingBody body, Fall fall)
    {
        var touches = ImmutableArray.CreateBuilder<Touch>();
        double wood = Units.FromGramsPerCm3(design.Wood.DensityGPerCm3);
        foreach (BallastPiece piece in design.Ballast)
        {
            // Moved, a weight leaves its pocket to be wood again and cuts another.
            double net = piece.Mass - wood * piece.Pocket;
            touches.Add(Compare(TouchBy.Aft, piece.Name, "", body with { Cg = body.Cg + net / body.Weight * Vec3.UnitX }, fall));
            double density = Units.FromGramsPerCm3(piece.DensityGPerCm3 ?? 11.3);
            touches.Add(Compare(TouchBy.Heavier, piece.Name, "", Heavier(body, 1 - wood / density, 0, piece.Middle), fall));
        }
        return touches.ToImmutable();
    }

    /// <summary>A hook of the next size in another's place.</summary>
    /// <param name="hook">Its name.</param>
    /// <param name="place">Where it hangs.</param>
    /// <param name="with">The lure with it.</param>
    /// <param name="fall">The fall to compare with.</param>
    public static Touch SizeUp(string hook, string place, FallingBody with, Fall fall) => Compare(TouchBy.SizeUp, hook, place, with, fall);

    private static FallingBody Heavier(FallingBody body, double mass, double volume, Vec3 at) => body with
    {
        Weight = body.Weight + mass,
        Cg = (body.Weight * body.Cg + mass * at) / (body.Weight + mass),
        Volume = body.Volume + volume,
        Cb = (body.Volume * body.Cb + volume * at) / (body.Volume + volume),
    };

    private static Touch Compare(TouchBy by, string name, string place, FallingBody changed, Fall before) =>
        changed.Heavy > 0 && Falls.Follow(changed, before) is { } after
            ? new Touch(by, name, place, after.Rate - before.Rate, after.Trim - before.Trim)
            : new Touch(by, name, place, double.NaN, double.NaN);
}
