using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>
/// Everything in the box that can become a weight in this lure, each in every way in which the box's cutters can cut its
/// pocket. Form follows cutter: a flat-bottomed bit or a twist drill makes holes across, a round-nose cutter or a gouge
/// troughs along; a strip's slot is cut with knife and chisel. A box that lists no cutters is taken to have them all.
/// Poured plugs and thin wire have no pocket in the glue face: they serve after gluing.
/// </summary>
internal static class Offers
{
    // A bit may be so much wider than the piece.
    private const double Loosest = 1.5;

    private const double ShortestCut = 4;
    private const double ThinnestRod = 3;
    private const double LeastBorePlay = 0.1;

    public static ImmutableArray<Offer> Of(LureDesign design, MakersBox box, PlanLimits limits, Stage stage, double most)
    {
        var list = new List<(string Id, BallastPiece Piece, PocketTool Cut, int? Count, double? Stock, bool IsStock)>();
        ImmutableArray<BoxCutter> cutters = box.Cutters;
        bool any = limits.AnyCutter || cutters.IsEmpty;
        bool lead = limits.LeadAllowed || !box.NoLead;
        IEnumerable<BoxWeight> weights = box.Weights.Where(w => (limits.AnyCount || w.IsThere) && (lead || !w.IsLead));
        foreach (BoxWeight weight in weights.Where(w => !w.Kind.IsCast))
            foreach ((BallastPiece piece, PocketTool cut) in Ways(weight.Piece(Axis.X, [0, 0, 0]), design.Wire, cutters, any))
                list.Add((weight.Id, piece, cut, limits.AnyCount ? null : weight.Count, null, false));
        IEnumerable<BoxStock> stocks = limits.LeadAllowed ? box.Stock : box.UsableStock;
        foreach (BoxStock stock in limits.Extra.IsEmpty ? stocks : [.. stocks, .. limits.Extra])
            foreach (BallastPiece cutPiece in Cuts(stock, most, design, limits))
                foreach ((BallastPiece piece, PocketTool cut) in Ways(cutPiece, null, cutters, any))
                    list.Add((stock.Id, piece, cut, null, limits.AnyCount ? null : stock.LengthMm, true));
        double[] net = Bookkeeper.NetOf(design, [.. list.Select(l => l.Piece)], stage);
        return [.. list.Select((l, i) => new Offer(l.Id, l.Piece, l.Cut, l.Count, l.Stock, l.IsStock, net[i])).Where(o => o.Net > 0 && o.Net <= most)];
    }

    private static IEnumerable<BallastPiece> Cuts(BoxStock stock, double most, LureDesign design, PlanLimits limits)
    {
        if (stock.Kind != StockKind.Sheet && (stock.DiameterMm ?? 0) < ThinnestRod) yield break;
        double longest = Math.Min(limits.AnyCount ? double.PositiveInfinity : stock.LengthMm ?? double.PositiveInfinity, design.Body.LengthMm / 2);
        double[] widths = stock.Kind == StockKind.Sheet ? [.. new[] { 8.0, 12, 16 }.Where(w => w <= stock.WidthMm)] : [0];
        foreach (double width in widths)
            for (double length = stock.StepMm * Math.Ceiling(Math.Max(ShortestCut, stock.Kind == StockKind.Sheet ? width : 0) / stock.StepMm); length <= longest; length += stock.StepMm)
            {
                BallastPiece piece = stock.Cut(length, Axis.X, [0, 0, 0], width);
                // Wood cut away lightens a piece's share, by less than half for any metal.
                if (piece.Mass > 2 * most) break;
                yield return piece;
            }
    }

    private static IEnumerable<(BallastPiece, PocketTool)> Ways(BallastPiece piece, WireDesign? wire, ImmutableArray<BoxCutter> cutters, bool any)
    {
        if (piece.Shape == PieceShape.Flat)
        {
            yield return (piece with { Axis = Axis.X }, new PocketTool(null, null, piece.ThicknessMm, 0, HardByHand: true));
            yield break;
        }
        if (Along(piece, cutters, any) is { } along)
        {
            BallastPiece lying = piece with { Axis = Axis.X, ClearanceMm = Play(piece, along) };
            yield return (lying, along);
            if (wire is not null && piece.Shape != PieceShape.Ball && piece.BoreMm >= wire.DiameterMm + LeastBorePlay)
                yield return (lying with { OnWire = true }, along);
        }
        if (piece.Shape != PieceShape.Ball && Across(piece, cutters, any) is { } across)
            yield return (piece with { Axis = Axis.Y, ClearanceMm = Play(piece, across) }, across);
    }

    private static double Play(BallastPiece piece, PocketTool cut) => Math.Clamp(cut.DiameterMm - piece.DiameterMm, Allowances.Tight, Loosest);

    private static PocketTool? Across(BallastPiece piece, ImmutableArray<BoxCutter> cutters, bool any) =>
        Fitting(piece, cutters, piece.LengthMm / 2, CutterKind.FlatBit, CutterKind.Twist) is var (cutter, diameter)
            ? new PocketTool(cutter.Name, cutter.Kind, diameter, cutter.BeyondMm(diameter), false)
            : any ? new PocketTool(null, CutterKind.FlatBit, piece.DiameterMm, 3, false) : null;

    private static PocketTool? Along(BallastPiece piece, ImmutableArray<BoxCutter> cutters, bool any)
    {
        if (Fitting(piece, cutters, piece.DiameterMm / 2, CutterKind.RoundNose) is var (round, diameter))
            return new PocketTool(round.Name, round.Kind, diameter, 0, false);
        // A gouge cuts any trough that is not narrower than itself by much.
        foreach (BoxCutter gouge in cutters.Where(c => c.Kind == CutterKind.Gouge))
            if (gouge.DiametersMm.Any(d => d <= piece.DiameterMm + Loosest))
                return new PocketTool(gouge.Name, gouge.Kind, piece.DiameterMm + Allowances.Pocket, 0, HardByHand: true);
        return any ? new PocketTool(null, CutterKind.RoundNose, piece.DiameterMm, 0, false) : null;
    }

    /// <summary>The cutter whose size is the least that takes the piece, deep enough.</summary>
    private static (BoxCutter Cutter, double Diameter)? Fitting(BallastPiece piece, ImmutableArray<BoxCutter> cutters, double deep, params CutterKind[] kinds)
    {
        (BoxCutter, double)? best = null;
        foreach (CutterKind kind in kinds)
        {
            foreach (BoxCutter cutter in cutters.Where(c => c.Kind == kind && (c.ReachMm is not { } reach || reach >= deep)))
                foreach (double d in cutter.DiametersMm)
                    if (d >= piece.DiameterMm && d <= piece.DiameterMm + Loosest && (best is not { } other || d < other.Item2)) best = (cutter, d);
            if (best is not null) return best;
        }
        return best;
    }
}
