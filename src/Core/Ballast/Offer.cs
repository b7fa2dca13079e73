using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Core.Ballast;

/// <summary>How a pocket is cut.</summary>
/// <param name="Cutter">The cutter's own name in the box; null: knife and chisel, or none listed.</param>
/// <param name="Kind">What kind it is; null: knife and chisel.</param>
/// <param name="DiameterMm">Of the hole or groove.</param>
/// <param name="Beyond">How far its spur or point goes beyond the pocket's bottom, mm.</param>
/// <param name="HardByHand">Needs a gouge or a chisel and patience.</param>
public sealed record PocketTool(string? Cutter, CutterKind? Kind, double DiameterMm, double Beyond, bool HardByHand);

/// <summary>
/// One way in which something from the box can become a weight: a kind by the piece, or a length cut from stock, lying along
/// or across. Its own weight in the lure, μ, is the same wherever it goes.
/// </summary>
/// <param name="BoxId">What it comes from.</param>
/// <param name="Piece">As a design takes it, its middle at the origin.</param>
/// <param name="Cut">How its pocket is cut.</param>
/// <param name="Count">How many there are; null: plenty, or stock.</param>
/// <param name="StockLeft">Of stock: how much there is, mm; null: plenty, or no stock.</param>
/// <param name="IsStock">Cut to length.</param>
/// <param name="Net">μ: what it adds to the lure less the wood cut for it, filler round it, g.</param>
public sealed record Offer(string BoxId, BallastPiece Piece, PocketTool Cut, int? Count, double? StockLeft, bool IsStock, double Net)
{
    // Asked for every cell of a pocket, so worked out once: no offer's piece changes.
    private readonly PieceShape shape = Piece.Shape;

    /// <summary>Half its pocket's length and height in the glue face, mm, and its depth into either half.</summary>
    public double HalfX { get; } = (Piece.Box.X + Piece.Clearance) / 2;

    public double HalfZ { get; } = (Piece.Box.Z + Piece.Clearance) / 2;

    public double Depth { get; } = (Piece.Box.Y + Piece.Clearance) / 2;

    public double Clearance { get; } = Piece.Clearance;

    /// <summary>Whether the pocket is a hole drilled square into the glue face.</summary>
    public bool IsAcross { get; } = Piece.IsAcross;

    /// <summary>The pocket's depth at a distance from its middle in the glue face, mm; 0 outside it.</summary>
    public double DepthAt(double dx, double dz)
    {
        if (Math.Abs(dx) > HalfX || Math.Abs(dz) > HalfZ) return 0;
        if (shape == PieceShape.Ball) return Round(dx * dx + dz * dz);
        if (IsAcross) return dx * dx + dz * dz <= HalfX * HalfX ? Depth : 0;
        return shape == PieceShape.Flat ? Depth : Round(dz * dz);
    }

    private double Round(double square) => Depth * Depth - square is var left && left > 0 ? Math.Sqrt(left) : 0;

    /// <summary>The piece at a place.</summary>
    public BallastPiece At(double x, double z) => Piece with { AtMm = [x, 0, z] };
}

/// <summary>An offer at a place in the glue face: its moment and height as the target counts them, and what it costs.</summary>
/// <param name="Offer">Which of the model's offers.</param>
/// <param name="X">mm.</param>
/// <param name="Z">mm.</param>
/// <param name="Moment">μ(p − O)·e, g·mm.</param>
/// <param name="Height">μ(p − O)·n, g·mm.</param>
/// <param name="Cost">In pockets.</param>
public readonly record struct Seat(int Offer, double X, double Z, double Moment, double Height, double Cost);
