using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Carving;

/// <summary>A half of the lure: right is starboard, seen from the tail with the back up.</summary>
public enum WhichHalf
{
    Left,
    Right,
}

/// <summary>What cuts a pocket; its form follows it.</summary>
public enum Cutter
{
    /// <summary>A bit with a flat bottom, bored square into the glue face.</summary>
    FlatBit,

    /// <summary>A cutter with a round nose, or a gouge, along the glue face.</summary>
    RoundNose,

    /// <summary>A chisel.</summary>
    Chisel,
}

/// <summary>
/// One half's share of a weight's pocket, cut from the glue face. A weight that lies off the seam's plane takes more of one half
/// than of the other, and one that lies all in one half is still let in from the glue face.
/// </summary>
/// <param name="Number">Of the piece in the design, from 1.</param>
/// <param name="Piece">The weight.</param>
/// <param name="Half">Which half.</param>
/// <param name="Cutter">What cuts it.</param>
/// <param name="X">Middle of the opening along the body, mm.</param>
/// <param name="Z">Middle of the opening in height, mm.</param>
/// <param name="Long">Size of the opening along x, mm.</param>
/// <param name="High">Size of the opening along z, mm.</param>
/// <param name="Round">The opening is a circle of that size.</param>
/// <param name="Depth">From the glue face to the bottom, mm.</param>
public sealed record PocketCut(
    int Number, BallastPiece Piece, WhichHalf Half, Cutter Cutter, double X, double Z, double Long, double High, bool Round, double Depth)
{
    // Less than the saw's and sander's own error is no pocket.
    private const double Least = 0.05;

    /// <summary>The pocket in a half, or null where the weight leaves that half alone.</summary>
    public static PocketCut? Of(BallastPiece piece, int number, WhichHalf half)
    {
        Vec3 size = piece.Box + piece.Clearance * new Vec3(1, 1, 1);
        // The weight's middle, counted into this half.
        double into = half == WhichHalf.Right ? piece.Middle.Y : -piece.Middle.Y, depth = into + size.Y / 2;
        if (depth < Least) return null;
        bool across = piece.IsAcross, ball = piece.Shape == PieceShape.Ball, flat = piece.Shape == PieceShape.Flat;
        // Walls stand square from the glue face down to a round weight's middle; where that lies in the other half, only its cap is here.
        double share = across || flat || into >= 0 ? 1 : Math.Sqrt(1 - 4 * into * into / (size.Y * size.Y));
        bool alongX = ball || piece.Axis != Axis.X, alongZ = ball || piece.Axis != Axis.Z;
        double length = size.X * (alongX ? share : 1), high = size.Z * (alongZ ? share : 1);
        Cutter cutter = flat ? Cutter.Chisel : across ? Cutter.FlatBit : Cutter.RoundNose;
        return new(number, piece, half, cutter, piece.Middle.X, piece.Middle.Z, length, high, across || ball, depth);
    }

    /// <summary>Size of the cutter, mm; of a chisel's pocket, its narrow side.</summary>
    public double CutterSize => Cutter switch
    {
        Cutter.Chisel => Math.Min(Long, High),
        Cutter.FlatBit or Cutter.RoundNose => Piece.DiameterMm + (Piece.Clearance > Allowances.Tight ? Piece.Clearance : 0),
    };

    // Across a round weight's pocket, whatever it was cut with, mm.
    private double Across => Piece.DiameterMm + Piece.Clearance;

    /// <summary>Distance in the glue face from a point to the opening, mm; negative inside.</summary>
    public double DistanceTo(double x, double z)
    {
        if (Round) return double.Hypot(x - X, z - Z) - Long / 2;
        double dx = Math.Abs(x - X) - Long / 2, dz = Math.Abs(z - Z) - High / 2;
        return dx > 0 && dz > 0 ? double.Hypot(dx, dz) : Math.Max(dx, dz);
    }

    /// <summary>Points of the pocket's wall and bottom, body axes, mm: its opening's rim and the weight's own room in this half.</summary>
    public IEnumerable<Vec3> Points()
    {
        const int Around = 24;
        double side = Half == WhichHalf.Right ? 1 : -1, into = side * Piece.Middle.Y, radius = Cutter == Cutter.Chisel ? CutterSize / 2 : Across / 2;
        bool flat = Cutter != Cutter.RoundNose;
        int levels = flat ? 1 : 6;
        for (int level = 0; level <= levels; level++)
        {
            // A round bottom narrows from its middle down.
            double y = flat ? Depth * level : Math.Max(into, 0) + (Depth - Math.Max(into, 0)) * level / levels;
            double share = flat ? 1 : Math.Sqrt(Math.Max(1 - (y - into) * (y - into) / (radius * radius), 0));
            foreach (Vec3 p in Rim(level == 0 ? 1 : share, Around)) yield return p with { Y = side * y };
        }
        foreach (Vec3 p in Rim(1, Around)) yield return p;
    }

    private IEnumerable<Vec3> Rim(double share, int around)
    {
        bool ball = Piece.Shape == PieceShape.Ball;
        double full = Cutter == Cutter.Chisel ? CutterSize : Across;
        double length = Narrows(Axis.X) ? full * share : Long, high = Narrows(Axis.Z) ? full * share : High;
        if (share == 1) (length, high) = (Long, High);
        for (int k = 0; k < around; k++)
        {
            (double sin, double cos) = Math.SinCos(2 * Math.PI * k / around);
            // A rectangle's rim by the larger of the two.
            double stretch = Round ? 1 : 1 / Math.Max(Math.Abs(sin), Math.Abs(cos));
            yield return new Vec3(X + length / 2 * cos * stretch, 0, Z + high / 2 * sin * stretch);
        }
        bool Narrows(Axis axis) => ball || (Cutter == Cutter.RoundNose && Piece.Axis != axis);
    }
}
