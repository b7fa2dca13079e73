using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Finish;

/// <summary>The cavity for one piece as it is cut from the two glue faces.</summary>
/// <param name="Piece">The piece's name.</param>
/// <param name="Form">Of the piece.</param>
/// <param name="Axis">Along which a rod, barrel or strip lies.</param>
/// <param name="At">Its middle, mm.</param>
/// <param name="Along">Its length on the glue face from nose to tail, mm.</param>
/// <param name="High">Its height on the glue face, mm.</param>
/// <param name="Right">How deep it goes into the right half, mm; 0: not at all.</param>
/// <param name="Left">How deep into the left half, mm.</param>
/// <param name="OnWire">The piece is threaded on the wire.</param>
/// <param name="Mass">Of the piece, g.</param>
/// <param name="IsPoured">A plug, cast into its hole.</param>
public sealed record Pocket(
    string Piece, BallastForm Form, Axis Axis, Vec3 At, double Along, double High, double Right, double Left, bool OnWire, double Mass, bool IsPoured)
{
    /// <summary>For a piece of a sound design, its clearance in it.</summary>
    public static Pocket Of(BallastPiece piece)
    {
        Vec3 box = piece.Box + piece.Clearance * new Vec3(1, 1, 1), at = piece.Middle;
        return new(piece.Name, piece.Form, piece.Axis, at, box.X, box.Z, Math.Max(0, box.Y / 2 + at.Y), Math.Max(0, box.Y / 2 - at.Y),
            piece.OnWire, piece.Mass, piece.Form.IsCast);
    }
}
