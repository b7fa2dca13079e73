using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>A strip cut of sheet.</summary>
internal sealed class StripForm : BallastForm
{
    public override string Word => "strip";

    public override PieceShape Shape => PieceShape.Flat;

    public override FormSizes Needs => new(Diameter: false, Length: true, Sides: true);

    internal override double Room(BallastPiece piece, double larger) => (piece.LengthMm + larger) * (piece.WidthMm + larger) * (piece.ThicknessMm + larger);

    internal override double Along(BallastPiece piece) => piece.LengthMm;

    internal override (double Side, double Up) Across(BallastPiece piece) => (piece.WidthMm, piece.ThicknessMm);

    internal override double Narrowest(BallastPiece piece) => Math.Min(piece.WidthMm, piece.ThicknessMm);

    // Every side gives its square by 12.
    internal override Vec3 Spread(BallastPiece piece) => PieceForm.Spread(piece, 12);

    internal override IEnumerable<Vec3> Points(BallastPiece piece) => Solids.BoxPoints(piece.Middle, piece.Box);
}
