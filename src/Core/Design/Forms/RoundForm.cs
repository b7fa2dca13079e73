using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>Whatever is a cylinder as a solid.</summary>
internal abstract class RoundForm : BallastForm
{
    public override PieceShape Shape => PieceShape.Round;

    public override FormSizes Needs => new(Diameter: true, Length: true);

    internal override double Room(BallastPiece piece, double larger) => Solids.Cylinder(piece.DiameterMm + larger, piece.LengthMm + larger);

    internal override double Along(BallastPiece piece) => piece.LengthMm;

    internal override (double Side, double Up) Across(BallastPiece piece) => (piece.DiameterMm, piece.DiameterMm);

    internal override double Narrowest(BallastPiece piece) => piece.DiameterMm;

    // A length gives l²/12, a round side d²/16.
    internal override Vec3 Spread(BallastPiece piece) => PieceForm.Spread(piece, 16);

    internal override IEnumerable<Vec3> Points(BallastPiece piece) => Solids.CylinderPoints(piece.Middle, piece.Axis, piece.DiameterMm, piece.LengthMm);
}
