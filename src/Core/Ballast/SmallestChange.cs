using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Ballast;

/// <summary>What is done to one weight of a lure whose pockets are cut and whose halves are open.</summary>
public enum ChangeOf
{
    /// <summary>It does what is wanted as it is.</summary>
    Nothing,

    /// <summary>One weight is taken out.</summary>
    TakenOut,

    /// <summary>One weight goes elsewhere.</summary>
    Moved,

    /// <summary>Another of the box goes in for one.</summary>
    Swapped,

    /// <summary>One more of the box goes in.</summary>
    Added,
}

/// <summary>
/// The smallest change of one weight with which a lure at dry-fit does what is wanted: of all single changes the one for which the least wood
/// is cut. Each is a plan of one pocket beside the weights that stay, searched whole and held by the whole prediction, as any plan is. What is
/// left of a pocket is plugged with the lure's own wood, so the books are those of the new pocket alone.
/// </summary>
/// <param name="What">What is done.</param>
/// <param name="Own">Which weight of the lure; null where none is touched.</param>
/// <param name="New">What goes in, and where; null where nothing does.</param>
/// <param name="Design">The lure with it done.</param>
/// <param name="Prediction">Of that, where it is wanted.</param>
/// <param name="SpareMiss">Spare buoyancy less the wanted one, g.</param>
/// <param name="TrimMiss">Trim less the wanted one, radians.</param>
public sealed record SmallestChange(
    ChangeOf What, int? Own, PlannedPiece? New, LureDesign Design, Prediction Prediction, double SpareMiss, double TrimMiss)
{
    /// <summary>Wood to cut beyond the pockets that there are, mm³, as if pockets were square.</summary>
    public double NewWood { get; init; }

    // What the maker holds in hand already.
    private const string InHand = "in-hand";

    /// <summary>The smallest change, or null when no change of one weight does it.</summary>
    /// <param name="lure">As it is, its pockets cut.</param>
    /// <param name="box">What else there is.</param>
    /// <param name="want">What is wanted.</param>
    /// <param name="limits">What to keep to; one pocket is changed at most, whatever they say.</param>
    /// <param name="stays">Weights that stay whatever comes, by their place in the lure.</param>
    /// <param name="pace">How to go about it.</param>
    /// <exception cref="OperationCanceledException">When cancelled.</exception>
    public static SmallestChange? Of(LureDesign lure, MakersBox box, Want want, PlanLimits limits, IReadOnlyCollection<int> stays, Pace? pace = null)
    {
        pace ??= Pace.Free;
        lure = lure with { Joint = lure.Joint ?? new JointDesign() };
        limits = limits with { MostPockets = 1 };
        if (AsItIs(lure, want) is { } nothing) return nothing;
        SmallestChange? best = null;
        for (int i = 0; i < lure.Ballast.Length; i++)
            if (!stays.Contains(i) && Of(lure, i, box, want, limits, best, pace) is { } of) best = of;
        return Of(lure, null, box, want, limits, best, pace) ?? best;
    }

    // Wood within this, mm³, is none or the same.
    private const double Alike = 1e-6;

    // So many candidates are tried; most of the first pass.
    private const int MostTried = 40;

    // Beside where a weight lies, at its own height, places are tried up to so far away, mm.
    private const int Beside = 20;

    /// <summary>The smallest change of that weight, or with one more, that is smaller than what is known.</summary>
    private static SmallestChange? Of(LureDesign lure, int? own, MakersBox box, Want want, PlanLimits limits, SmallestChange? best, Pace pace)
    {
        BallastPiece? old = own is { } i ? lure.Ballast[i] : null;
        LureDesign rest = own is { } gone ? lure with { Ballast = lure.Ballast.RemoveAt(gone) } : lure;
        if (Target.Of(rest, want).Target is not { } target) return null;
        if (old is { Form.IsCast: false }) box = With(box, old);
        var seating = new Seating(rest, new FaceRoom(rest, limits.Sound));
        ImmutableArray<Offer> offers = Offers.Of(rest, box, limits, want.Circumstances.Stage, Math.Max(target.Weight, 0) + want.WeightWithin);
        var model = new BallastModel(target, want, limits, offers, offer =>
        {
            pace.Step();
            List<(double X, double Z)> places = seating.Of(offer, want.Trim, limits.Step);
            for (int k = -Beside; old is not null && !offer.Piece.OnWire && k <= Beside; k++)
                if (seating.Fits(offer, old.Middle.X + k, old.Middle.Z)) places.Add((old.Middle.X + k, old.Middle.Z));
            return places;
        }) { Outside = new WoodOutside(rest) };
        var choices = new List<(Choice Choice, double Wood)>();
        if (model.Meets(default)) choices.Add((new Choice([], default, model.Cost(default)), 0));
        foreach (ImmutableArray<Seat> seats in model.Seats)
        {
            pace.Step();
            foreach (Seat seat in seats)
                if (model.SumsOf(seat) is var sums && model.Meets(sums))
                    choices.Add((new Choice([seat], sums, model.Cost(sums)), Cut(model.Offers[seat.Offer].At(seat.X, seat.Z), old)));
        }
        // Of changes that cut nothing, to take one out is the least.
        bool Less(Choice choice, double wood) => best is null || wood < best.NewWood - Alike
            || (choice.Seats.IsEmpty && best.What != ChangeOf.TakenOut && wood < best.NewWood + Alike);
        foreach ((Choice choice, double wood) in choices.Where(c => Less(c.Choice, c.Wood)).OrderBy(c => c.Wood).ThenBy(c => c.Choice.Cost).Take(MostTried))
        {
            if (BallastPlan.Of(rest, model, choice, pace) is not { OnCliff: false } plan) continue;
            PlannedPiece? put = plan.Pieces.IsEmpty ? null : plan.Pieces[0];
            ChangeOf what = put is null ? ChangeOf.TakenOut : own is null ? ChangeOf.Added : put.BoxId == InHand ? ChangeOf.Moved : ChangeOf.Swapped;
            return new SmallestChange(what, own, put, plan.Design, plan.Prediction, plan.SpareMiss, plan.TrimMiss) { NewWood = wood };
        }
        return null;
    }

    private static SmallestChange? AsItIs(LureDesign lure, Want want)
    {
        if (Target.Of(lure with { Ballast = [] }, want).Target is not { } target) return null;
        Prediction now = Prediction.Of(lure, want.Circumstances);
        double spare = target.WholeWeight - now.Ledger.Weight, trim = BallastPlan.Seen(now, want) - want.Trim;
        return BallastPlan.Does(now, want) && Math.Abs(spare) <= want.WeightWithin && Math.Abs(trim) <= want.TrimWithin
            ? new SmallestChange(ChangeOf.Nothing, null, null, lure, now, spare, trim) : null;
    }

    // The piece that was taken out is there to go in again.
    private static MakersBox With(MakersBox box, BallastPiece piece) => box with
    {
        Weights =
        [
            .. box.Weights, new BoxWeight
            {
                Id = InHand, Name = piece.Name, Kind = piece.Form, IsLead = false, Count = 1, MassG = piece.Mass, DensityGPerCm3 = piece.DensityGPerCm3,
                DiameterMm = Size(piece.DiameterMm), LengthMm = Size(piece.LengthMm), WidthMm = Size(piece.WidthMm), ThicknessMm = Size(piece.ThicknessMm), BoreMm = Size(piece.BoreMm),
            },
        ],
    };

    private static double? Size(double mm) => mm > 0 ? mm : null;

    private static double Cut(BallastPiece piece, BallastPiece? old)
    {
        static Vec3 Half(BallastPiece p) => 0.5 * (p.Box + p.Clearance * new Vec3(1, 1, 1));
        static double Both(double at, double half, double other, double otherHalf) =>
            Math.Max(Math.Min(at + half, other + otherHalf) - Math.Max(at - half, other - otherHalf), 0);
        Vec3 a = Half(piece), m = piece.Middle;
        double whole = 8 * a.X * a.Y * a.Z;
        if (old is null) return whole;
        (Vec3 b, Vec3 n) = (Half(old), old.Middle);
        return whole - Both(m.X, a.X, n.X, b.X) * Both(m.Y, a.Y, n.Y, b.Y) * Both(m.Z, a.Z, n.Z, b.Z);
    }
}
