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

        /// <summary>The room it takes, bore included, mm³.</summary>
        public double Room => piece.Form switch
        {
            BallastForm.Ball => Solids.Ball(piece.DiameterMm),
            BallastForm.Strip => piece.LengthMm * piece.WidthMm * piece.ThicknessMm,
            _ => Solids.Cylinder(piece.DiameterMm, piece.LengthMm),
        };

        /// <summary>Length of its bore, mm.</summary>
        public double Along => piece.Form == BallastForm.Ball ? piece.DiameterMm : piece.LengthMm;

        /// <summary>Volume of its own stuff, mm³: its room less its bore (a straight hole; a ball's caps neglected).</summary>
        public double Stuff => Math.Max(piece.Room - Solids.Cylinder(piece.BoreMm, piece.Along), 0);

        /// <summary>Weight, g: as weighed, else by form and density.</summary>
        public double Mass => piece.MassG ?? piece.Stuff * Units.FromGramsPerCm3(piece.DensityGPerCm3 ?? 0);

        /// <summary>Its extent along x, y and z, mm.</summary>
        public Vec3 Box
        {
            get
            {
                double d = piece.DiameterMm, l = piece.LengthMm;
                if (piece.Form == BallastForm.Ball) return new Vec3(d, d, d);
                (double across, double up) = piece.Form == BallastForm.Strip ? (piece.WidthMm, piece.ThicknessMm) : (d, d);
                return piece.Axis switch
                {
                    Axis.X => new Vec3(l, across, up),
                    Axis.Y => new Vec3(across, l, up),
                    _ => new Vec3(across, up, l),
                };
            }
        }

        /// <summary>The pocket cut for it: its room, grown by its clearance in every size, mm³.</summary>
        public double Pocket
        {
            get
            {
                double c = piece.ClearanceMm ?? Allowances.Pocket;
                return piece.Form switch
                {
                    BallastForm.Ball => Solids.Ball(piece.DiameterMm + c),
                    BallastForm.Strip => (piece.LengthMm + c) * (piece.WidthMm + c) * (piece.ThicknessMm + c),
                    // A plug is poured into its hole and fills it.
                    BallastForm.Plug => piece.Room,
                    _ => Solids.Cylinder(piece.DiameterMm + c, piece.LengthMm + c),
                };
            }
        }

        /// <summary>Mean square distances of its stuff from its middle along x, y and z, mm².</summary>
        public Vec3 Spread
        {
            get
            {
                Vec3 box = piece.Box;
                if (piece.Form == BallastForm.Ball) return piece.DiameterMm * piece.DiameterMm / 20 * new Vec3(1, 1, 1);
                // A bar's length gives l²/12; a round side d²/16, a flat one t²/12.
                double round = piece.Form == BallastForm.Strip ? 12 : 16;
                double Of(double size, bool along) => size * size / (along ? 12 : round);
                return new Vec3(Of(box.X, piece.Axis == Axis.X), Of(box.Y, piece.Axis == Axis.Y), Of(box.Z, piece.Axis == Axis.Z));
            }
        }

        /// <summary>Points on its skin, for asking whether it lies in the wood.</summary>
        public IEnumerable<Vec3> Points() => piece.Form switch
        {
            BallastForm.Ball => Solids.BallPoints(piece.Middle, piece.DiameterMm),
            BallastForm.Strip => Solids.BoxPoints(piece.Middle, piece.Box),
            _ => Solids.CylinderPoints(piece.Middle, piece.Axis, piece.DiameterMm, piece.LengthMm),
        };
    }
}
