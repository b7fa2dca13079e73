using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Core.Ballast;

/// <summary>One piece of a plan: what it is, where its middle goes, how its pocket is cut and what wood that leaves.</summary>
/// <param name="BoxId">What to take from the box.</param>
/// <param name="Piece">As the design has it.</param>
/// <param name="Cut">How its pocket is cut.</param>
/// <param name="CutLengthMm">To be cut from stock: how long; null for a piece.</param>
/// <param name="DepthMm">Of the pocket in either half, mm.</param>
/// <param name="LeftMm">The least wood outside it, mm, as sheets tell it: they know no bit.</param>
/// <param name="WallMm">The least wood outside it and the spur or point of its bit, mm.</param>
public sealed record PlannedPiece(string BoxId, BallastPiece Piece, PocketTool Cut, double? CutLengthMm, double DepthMm, double LeftMm, double WallMm);

/// <summary>What a change does: by how much the weight in the water, the trim and, of a sinker, the rate change.</summary>
/// <param name="Spare">Of spare buoyancy, g.</param>
/// <param name="Trim">Radians.</param>
/// <param name="Rate">mm/ms; 0 for one that floats.</param>
/// <param name="Other">It then does something else: floats, sinks, falls no more steadily.</param>
public readonly record struct Answer(double Spare, double Trim, double Rate, bool Other);

/// <summary>What the body, dry-fitted or sealed, must show in the tub of tap water for the wanted result.</summary>
/// <param name="Prediction">In tap water, with stand-ins.</param>
public sealed record TubTarget(Prediction Prediction);

/// <summary>
/// A choice of weights verified by the whole prediction, coats and hardware in.
/// </summary>
/// <param name="Design">The lure with these weights.</param>
/// <param name="Pieces">Nose to tail.</param>
/// <param name="Prediction">Where it is wanted.</param>
/// <param name="Choice">As the model weighed it.</param>
/// <param name="SpareMiss">Spare buoyancy less the wanted one, g.</param>
/// <param name="TrimMiss">Trim less the wanted one, radians.</param>
/// <param name="Aft">Of each piece 1 mm further aft, the greatest change.</param>
/// <param name="Heavier">A gram more in the heaviest piece.</param>
/// <param name="Lighter">Half a gram less, half a gram more: by how much the trim turns at most, radians.</param>
/// <param name="OnCliff">Half a gram or a millimetre turns it by more than <see cref="Cliff"/>, or into something else.</param>
/// <param name="DryFit">Before gluing.</param>
/// <param name="Sealed">After.</param>
public sealed record BallastPlan(
    LureDesign Design, ImmutableArray<PlannedPiece> Pieces, Prediction Prediction, Choice Choice, double SpareMiss, double TrimMiss,
    Answer Aft, Answer Heavier, double Lighter, bool OnCliff, TubTarget DryFit, TubTarget Sealed)
{
    /// <summary>A plan that half a gram or a millimetre turns by more than this stands on a cliff; common practice, no source.</summary>
    public static readonly double Cliff = Units.FromDegrees(10);

    /// <summary>Verifies a choice; null when the whole prediction denies what the model promised.</summary>
    /// <param name="design">The lure with the pieces that stay, and no others.</param>
    /// <param name="model">The model that the choice answers.</param>
    /// <param name="choice">What was chosen.</param>
    /// <param name="pace">How to go about it.</param>
    public static BallastPlan? Of(LureDesign design, BallastModel model, Choice choice, Pace? pace = null)
    {
        pace ??= Pace.Free;
        Want want = model.Want;
        Seat[] seats = [.. choice.Seats.OrderBy(s => s.X)];
        LureDesign whole = design with { Ballast = [.. design.Ballast, .. seats.Select(s => model.Offers[s.Offer].At(s.X, s.Z))] };
        pace.Step();
        Prediction prediction = Prediction.Of(whole, want.Circumstances);
        if (!Does(prediction, want)) return null;
        double spare = model.Target.WholeWeight - prediction.Ledger.Weight, trim = Seen(prediction, want) - want.Trim;
        if (Math.Abs(spare) > want.WeightWithin || Math.Abs(trim) > want.TrimWithin) return null;
        WoodOutside outside = model.Outside ?? new WoodOutside(design);
        ImmutableArray<PlannedPiece> pieces = [.. seats.Select(s => Planned(outside, model.Offers[s.Offer], s))];
        // Differences of predictions of one coarse mesh: what a change does is the same on any.
        Circumstances coarse = want.Circumstances with { Mesh = MeshSize.Coarse };
        Prediction before = Prediction.Of(whole, coarse);
        Answer Changed(LureDesign changed)
        {
            pace.Step();
            return Compare(before, Prediction.Of(changed, coarse), want);
        }
        int first = design.Ballast.Length, heaviest = first;
        for (int i = first; i < whole.Ballast.Length; i++)
            if (whole.Ballast[i].Mass > whole.Ballast[heaviest].Mass) heaviest = i;
        Answer aft = default, heavier = default, half = default;
        for (int i = first; i < whole.Ballast.Length; i++) aft = Greater(aft, Changed(Moved(whole, i, 1)));
        if (pieces.Length > 0)
        {
            heavier = Changed(Weighing(whole, heaviest, 1));
            half = Greater(Changed(Weighing(whole, heaviest, 0.5)), Changed(Weighing(whole, heaviest, -0.5)));
        }
        bool cliff = Math.Max(Math.Abs(aft.Trim), Math.Abs(half.Trim)) > Cliff || aft.Other || half.Other;
        return new BallastPlan(whole, pieces, prediction, choice, spare, trim, aft, heavier, Math.Abs(half.Trim), cliff, Tub(whole, Stage.DryFit, want, pace), Tub(whole, Stage.Sealed, want, pace));
    }

    private static TubTarget Tub(LureDesign design, Stage stage, Want want, Pace pace)
    {
        pace.Step();
        return new(Prediction.Of(design, new Circumstances(stage, Rig.StandIns, WaterState.Tap) { Mesh = want.Circumstances.Mesh }));
    }

    /// <summary>The trim that the maker sees: of a sinker under way.</summary>
    public static double TrimOf(Prediction prediction) => prediction.Descent?.First?.Trim ?? prediction.Posture.Trim;

    /// <summary>Whether a lure does what is wanted at all, whatever its trim and rate: belly down, and steadily.</summary>
    public static bool Does(Prediction prediction, Want want)
    {
        if (want.Manner == Manner.Falls) return prediction.Descent?.First is { BellyUp: false };
        // Of a lure that stands upright nobody tells back from belly: heel means nothing there.
        bool upright = Math.Abs(prediction.Posture.Trim) > Floating.Posture.Upright || prediction.Posture.Heel is not { } heel || Math.Abs(heel) < Units.FromDegrees(10);
        return upright && (want.Manner == Manner.Suspends || prediction.SpareBuoyancy > 0);
    }

    /// <summary>What of a lure's trim a want speaks of: as it is told, of one that suspends as it hangs or lies, never as it drifts.</summary>
    internal static double Seen(Prediction prediction, Want want) => want.Manner == Manner.Suspends ? prediction.Posture.Trim : TrimOf(prediction);

    // A lure that suspends has nothing to spare to the last digit, and on which side of nothing it lies hangs on rounding; whether it then lies
    // at the surface or falls, it hangs in the water as its weight under its lift has it, on either side alike.
    private static double Hanging(Prediction prediction, Want want) =>
        want.Manner == Manner.Suspends ? Floating.Posture.Sunk(prediction.Body).Trim : TrimOf(prediction);

    private static Answer Compare(Prediction before, Prediction after, Want want) => new(
        after.SpareBuoyancy - before.SpareBuoyancy, Hanging(after, want) - Hanging(before, want),
        (after.Descent?.First?.Rate ?? 0) - (before.Descent?.First?.Rate ?? 0),
        // A suspending lure is on either side by its nature.
        want.Manner != Manner.Suspends && !Does(after, want));

    private static Answer Greater(Answer a, Answer b) => new(
        Math.Abs(a.Spare) > Math.Abs(b.Spare) ? a.Spare : b.Spare, Math.Abs(a.Trim) > Math.Abs(b.Trim) ? a.Trim : b.Trim,
        Math.Abs(a.Rate) > Math.Abs(b.Rate) ? a.Rate : b.Rate, a.Other || b.Other);

    private static LureDesign Moved(LureDesign design, int piece, double aft)
    {
        BallastPiece old = design.Ballast[piece];
        return design with { Ballast = design.Ballast.SetItem(piece, old with { AtMm = [old.AtMm[0] + aft, old.AtMm[1], old.AtMm[2]] }) };
    }

    private static LureDesign Weighing(LureDesign design, int piece, double more)
    {
        BallastPiece old = design.Ballast[piece];
        return design with { Ballast = design.Ballast.SetItem(piece, old with { MassG = old.Mass + more }) };
    }

    private static PlannedPiece Planned(WoodOutside outside, Offer offer, Seat seat)
    {
        BallastPiece piece = offer.At(seat.X, seat.Z);
        return new PlannedPiece(offer.BoxId, piece, offer.Cut, offer.IsStock ? piece.LengthMm : null, offer.Depth, outside.Of(piece), outside.Of(piece, offer.Cut.Beyond));
    }
}
