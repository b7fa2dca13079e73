using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>What a ballast piece is as a solid: exact volume, weight and extent, from its form and sizes.</summary>
public static class PieceForm
{
    extension(BallastPiece piece)
    {
        /// <summary>Its middle, mm.</summary>
        public Vec3 Middle => new(piece.AtMm[0], piece.AtMm[1], piece.AtMm[2]);

        /// <summary>What it is like for pockets and pictures.</summary>
        public PieceShape Shape => piece.Form.Shape;

        /// <summary>Round about an axis that lies across the lure: its pocket is a hole, square into the glue face.</summary>
        public bool IsAcross => piece.Form.Shape == PieceShape.Round && piece.Axis == Axis.Y;

        /// <summary>How much wider and longer its pocket is, mm.</summary>
        public double Clearance => piece.Form.IsCast ? 0 : piece.ClearanceMm ?? Allowances.Pocket;

        /// <summary>The room it takes, bore included, mm³.</summary>
        public double Room => piece.Form.Room(piece, 0);

        /// <summary>Length of its bore, mm.</summary>
        public double Along => piece.Form.Along(piece);

        /// <summary>Volume of its own stuff, mm³: its room less its bore (a straight hole; a ball's caps neglected).</summary>
        public double Stuff => Math.Max(piece.Room - Solids.Cylinder(piece.BoreMm, piece.Along), 0);

        /// <summary>Weight, g: as weighed, else by form and density.</summary>
        public double Mass => piece.MassG ?? piece.Stuff * Units.FromGramsPerCm3(piece.DensityGPerCm3 ?? 0);

        /// <summary>Its extent along x, y and z, mm.</summary>
        public Vec3 Box
        {
            get
            {
                double along = piece.Along;
                (double side, double up) = piece.Form.Across(piece);
                return piece.Axis switch
                {
                    Axis.X => new Vec3(along, side, up),
                    Axis.Y => new Vec3(side, along, up),
                    Axis.Z => new Vec3(side, up, along),
                };
            }
        }

        /// <summary>The pocket cut for it: its room, grown by its clearance in every size, mm³.</summary>
        public double Pocket => piece.Form.Room(piece, piece.Clearance);

        /// <summary>The share of its pocket that is cut into the right half: all that lies to starboard of the glue face.</summary>
        public double RightShare
        {
            get
            {
                double u = Math.Clamp(2 * piece.Middle.Y / (piece.Box.Y + piece.Clearance), -1, 1);
                return piece.Form.Shape switch
                {
                    // Of a sphere beyond a plane; of a circle beyond a chord.
                    PieceShape.Ball => (2 + 3 * u - u * u * u) / 4,
                    PieceShape.Round when piece.Axis != Axis.Y => 0.5 + (u * Math.Sqrt(1 - u * u) + Math.Asin(u)) / Math.PI,
                    PieceShape.Round or PieceShape.Flat => (1 + u) / 2,
                };
            }
        }

        /// <summary>Mean square distances of its stuff from its middle along x, y and z, mm².</summary>
        public Vec3 Spread => piece.Form.Spread(piece);

        /// <summary>Points on its skin, for asking whether it lies in the wood.</summary>
        public IEnumerable<Vec3> Points() => piece.Form.Points(piece);
    }

    /// <summary>Mean square distances by its extents: a length gives its square by 12, a side its square by what is said, mm².</summary>
    internal static Vec3 Spread(BallastPiece piece, double bySide)
    {
        Vec3 box = piece.Box;
        double Of(double size, bool along) => size * size / (along ? 12 : bySide);
        return new Vec3(Of(box.X, piece.Axis == Axis.X), Of(box.Y, piece.Axis == Axis.Y), Of(box.Z, piece.Axis == Axis.Z));
    }
}
