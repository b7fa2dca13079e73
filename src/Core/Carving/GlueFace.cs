using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

/// <summary>A locating pin across the seam, and how much wood stands between it and whatever is nearest, mm.</summary>
public readonly record struct Pin(double X, double Z, double Clear, bool Given);

/// <summary>
/// Everything that is cut into the glue faces. Places are of the glued body; the wood lost at the seam in parting and
/// cleaning thins the wall outside a pocket, not its depth.
/// </summary>
/// <param name="Slot">For the wire; null without one.</param>
/// <param name="Right">Pockets of the right half.</param>
/// <param name="Left">Pockets of the left half.</param>
/// <param name="Pins">As the design gives them, else two that are clear of everything, where there is room.</param>
public sealed record GlueFace(
    WireSlot? Slot, ImmutableArray<PocketCut> Right, ImmutableArray<PocketCut> Left, ImmutableArray<Pin> Pins)
{
    /// <summary>Diameter of a locating pin and how deep it goes into each half, mm; common practice, no source.</summary>
    public const double PinDiameter = 2;
    public const double PinDepth = 5;

    // Sound wood around a pin, mm; common practice, no source.
    private const double PinWall = 2;

    public static GlueFace Of(LureDesign design, Body body)
    {
        WireSlot? slot = design.Wire is { } wire ? WireSlot.Of(wire, body, new WireShape(wire, body)) : null;
        ImmutableArray<PocketCut> Pockets(WhichHalf half) =>
            [.. design.Ballast.Select((piece, i) => PocketCut.Of(piece, i + 1, half)).OfType<PocketCut>()];
        var face = new GlueFace(slot, Pockets(WhichHalf.Right), Pockets(WhichHalf.Left), []);
        return face with { Pins = face.PlacePins(design, body) };
    }

    public ImmutableArray<PocketCut> Pockets(WhichHalf half) => half == WhichHalf.Right ? Right : Left;

    /// <summary>
    /// Pockets of which some part would lie outside the wood, at their rim, walls or bottom.
    /// </summary>
    public IEnumerable<PocketCut> Leaving(LureDesign design, Body body)
    {
        double lost = Lost(design);
        return Right.Concat(Left).Where(pocket => !pocket.Points().All(p => InWood(body, p, lost)));
    }

    private static double Lost(LureDesign design) =>
        (design.Joint?.LostPerHalf ?? 0) - (design.Joint?.GlueLineMm ?? 0) / 2 + Math.Abs(design.Halves?.RightWiderMm ?? 0) / 2;

    // What parting takes off a half at the seam is missing at its side.
    private static bool InWood(Body body, Vec3 p, double lost) =>
        body.Contains(p with { Y = Math.Abs(p.Y) + Math.Max(lost, 0) });

    private ImmutableArray<Pin> PlacePins(LureDesign design, Body body)
    {
        ImmutableArray<(double X, double Z)> given = design.Joint?.PinsMm ?? [];
        (double X, double Z)[] outline = [.. Outline(body)];
        if (!given.IsEmpty) return [.. given.Select(p => new Pin(p.X, p.Z, Clear(p.X, p.Z, outline) - PinDiameter / 2, true))];
        return [.. new[] { (0.06, 0.4), (0.6, 0.94) }.Select(share => Best(body, outline, share.Item1, share.Item2)).OfType<Pin>()];
    }

    /// <summary>On a 1 mm grid the place with the most wood around it; null where that is too little.</summary>
    private Pin? Best(Body body, (double X, double Z)[] outline, double from, double to)
    {
        Pin best = default;
        for (double x = Math.Ceiling(from * body.Length); x <= to * body.Length; x++)
            for (double z = Math.Ceiling(body.BellyAt(x)); z <= body.BackAt(x); z++)
            {
                if (body.SectionAt(x).BreadthAt(z) < PinDepth + PinWall) continue;
                double clear = Clear(x, z, outline) - PinDiameter / 2;
                if (clear > best.Clear) best = new Pin(x, z, clear, false);
            }
        return best.Clear >= PinWall ? best : null;
    }

    private double Clear(double x, double z, (double X, double Z)[] outline)
    {
        double nearest = outline.Min(p => double.Hypot(p.X - x, p.Z - z));
        if (Slot is { } slot) nearest = Math.Min(nearest, slot.DistanceTo(x, z));
        foreach (PocketCut pocket in Right.Concat(Left)) nearest = Math.Min(nearest, pocket.DistanceTo(x, z));
        return nearest;
    }

    private static IEnumerable<(double X, double Z)> Outline(Body body)
    {
        foreach (double x in Stations.Fine(body))
        {
            yield return (x, body.BackAt(x));
            yield return (x, body.BellyAt(x));
        }
        if (body.Face is null) yield break;
        for (int i = 0; i <= 40; i++)
        {
            double z = body.BellyAt(0) + (body.BackAt(0) - body.BellyAt(0)) * i / 40;
            yield return (body.FaceAt(0, z), z);
        }
    }
}
