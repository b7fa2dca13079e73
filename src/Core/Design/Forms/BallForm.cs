using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>A ball.</summary>
internal sealed class BallForm : BallastForm
{
    public override string Word => "ball";

    public override PieceShape Shape => PieceShape.Ball;

    public override FormSizes Needs => new(Diameter: true, Length: false);

    internal override double Room(BallastPiece piece, double larger) => Solids.Ball(piece.DiameterMm + larger);

    internal override double Along(BallastPiece piece) => piece.DiameterMm;

    internal override (double Side, double Up) Across(BallastPiece piece) => (piece.DiameterMm, piece.DiameterMm);

    internal override double Narrowest(BallastPiece piece) => piece.DiameterMm;

    internal override Vec3 Spread(BallastPiece piece) => piece.DiameterMm * piece.DiameterMm / 20 * new Vec3(1, 1, 1);

    internal override IEnumerable<Vec3> Points(BallastPiece piece) => Solids.BallPoints(piece.Middle, piece.DiameterMm);
}
