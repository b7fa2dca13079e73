using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>
/// Where in the glue face each offer's pocket leaves sound wood all round and clear of every cut. A pocket fits where, over
/// its whole outline, the glue face's depth is at least the pocket's own, and at its middle enough for the spur of its bit.
/// <para>
/// Troughs of one section and any length share one map: the row of a trough is sound from column i on for so many columns.
/// Round pockets share one by their diameter: the least depth under their outline.
/// </para>
/// </summary>
public sealed class Seating(LureDesign design, FaceRoom face)
{
    private readonly Body body = design.Body.Surface();
    private readonly double[] uncut = face.Uncut();
    private readonly Dictionary<(double HalfZ, double Depth, bool Strip, bool OnWire), int[]> runs = [];
    private readonly Dictionary<(double Radius, double Depth), double[]> rounds = [];

    // On a run that slopes more than this (mm over its length) a threaded piece would not lie along the lure.
    private const double MostSlope = 1;

    // A lure that is to sit steeper than this feels a weight's height in its trim: then every second millimetre of height is tried.
    private static readonly double Steep = Quantities.Units.FromDegrees(15);
    private const int RowsApart = 4;

    /// <summary>Every seat of an offer, places at most <paramref name="step"/> mm apart, the lowest sound height of each; steep lures: all heights.</summary>
    /// <param name="offer">What is to be seated.</param>
    /// <param name="trim">At which the lure is to sit, radians.</param>
    /// <param name="step">mm.</param>
    public List<(double X, double Z)> Of(Offer offer, double trim, double step)
    {
        var list = new List<(double X, double Z)>();
        Room room = RoomFor(offer);
        for (double x = step * Math.Ceiling(offer.HalfX / step); x <= body.Length - offer.HalfX; x += step)
        {
            if (offer.Piece.OnWire)
            {
                if (WireHeight(offer, x) is { } z && Fits(offer, room, x, face.RowOf(z))) list.Add((x, z));
                continue;
            }
            int next = 0;
            for (int row = 0; row < face.Rows; row++)
            {
                if (row < next || !Fits(offer, room, x, row)) continue;
                list.Add((x, face.HeightOf(row)));
                if (Math.Abs(trim) < Steep) break;
                next = row + RowsApart;
            }
        }
        return list;
    }

    // The map that this offer's pocket reads: of round outlines or of troughs.
    private readonly record struct Room(double[]? Round, int[]? Run);

    private Room RoomFor(Offer offer) => offer.Piece.Shape == PieceShape.Ball ? new(Round(offer.HalfX, offer.Depth), null)
        : offer.IsAcross ? new(Round(offer.HalfX, 0), null)
        : new(null, Run(offer));

    private double? WireHeight(Offer offer, double x)
    {
        WireDesign wire = design.Wire!;
        double end = wire.TailLoop is null ? (wire.RunMm.IsEmpty ? wire.Hangers.Select(h => h.XMm).DefaultIfEmpty(0).Max() : wire.RunMm[^1].X) : body.Length;
        if (x + offer.HalfX > end) return null;
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int i = 0; i <= 4; i++)
        {
            double z = WireRun.Height(wire, body, x + (i / 2.0 - 1) * offer.HalfX);
            (low, high) = (Math.Min(low, z), Math.Max(high, z));
        }
        return high - low <= MostSlope ? WireRun.Height(wire, body, x) : null;
    }

    /// <summary>Whether a pocket at (x, z) is sound.</summary>
    public bool Fits(Offer offer, double x, double z) => Fits(offer, RoomFor(offer), x, face.RowOf(z));

    private bool Fits(Offer offer, Room room, double x, int row)
    {
        if (room.Round is { } round)
        {
            int column = FaceRoom.ColumnOf(x);
            if (column >= face.Columns) return false;
            double least = round[column * face.Rows + row];
            return offer.IsAcross ? least >= offer.Depth && face.DepthAt(column, row) >= offer.Depth + offer.Cut.Beyond : least >= 0;
        }
        int from = (int)Math.Floor((x - offer.HalfX) / FaceRoom.Cell), to = (int)Math.Ceiling((x + offer.HalfX) / FaceRoom.Cell);
        return from >= 0 && to < face.Columns && room.Run![from * face.Rows + row] > to - from;
    }

    /// <summary>For a trough of this section: how many columns from each one on are sound, by row of its middle.</summary>
    private int[] Run(Offer offer)
    {
        bool strip = offer.Piece.Shape == PieceShape.Flat;
        var key = (offer.HalfZ, offer.Depth, strip, offer.Piece.OnWire);
        if (runs.TryGetValue(key, out int[]? map)) return map;
        int reach = (int)Math.Ceiling(offer.HalfZ / FaceRoom.Cell), rows = face.Rows;
        double[] needed = [.. Enumerable.Range(-reach, 2 * reach + 1).Select(k => offer.DepthAt(0, Inner(k, offer.HalfZ)))];
        map = new int[face.Columns * rows];
        for (int i = face.Columns - 1; i >= 0; i--)
            for (int row = 0; row < rows; row++)
                if (IsSound(i, row)) map[i * rows + row] = 1 + (i + 1 < face.Columns ? map[(i + 1) * rows + row] : 0);
        runs[key] = map;
        return map;

        bool IsSound(int column, int row)
        {
            if (row - reach < 0 || row + reach >= rows) return false;
            for (int k = -reach; k <= reach; k++)
                if (face.DepthAt(column, row + k) < needed[k + reach] || face.IsCut(column, row + k, offer.Piece.OnWire)) return false;
            return true;
        }
    }

    // Where a cell's nearer edge lies in the pocket, so that the whole cell is counted with its deepest.
    private static double Inner(int k, double half) => Math.Min(Math.Max(Math.Abs(k) * FaceRoom.Cell - FaceRoom.Cell / 2, 0), half);

    /// <summary>Over a round outline: the least depth of sound wood less the pocket's own (a ball's; 0 for a hole's), −1 where anything is cut.</summary>
    private double[] Round(double radius, double depth)
    {
        if (rounds.TryGetValue((radius, depth), out double[]? map)) return map;
        int reach = (int)Math.Ceiling(radius / FaceRoom.Cell);
        List<(int I, int K, double Deep)> disc = [];
        for (int i = -reach; i <= reach; i++)
            for (int k = -reach; k <= reach; k++)
            {
                double di = Inner(i, radius), dk = Inner(k, radius), square = di * di + dk * dk;
                if (square > radius * radius) continue;
                disc.Add((i, k, depth > 0 ? Math.Sqrt(Math.Max(depth * depth - square, 0)) : 0));
            }
        map = Erosion.Of(uncut, face.Columns, face.Rows, disc);
        rounds[(radius, depth)] = map;
        return map;
    }
}
