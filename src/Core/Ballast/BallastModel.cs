using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Ballast;

/// <summary>What chosen seats add up to: Σμ (g), Σμ(p − O)·e and Σμ(p − O)·n (g·mm).</summary>
public readonly record struct Sums(double Weight, double Moment, double Height, double Cost)
{
    public static Sums operator +(Sums a, Sums b) => new(a.Weight + b.Weight, a.Moment + b.Moment, a.Height + b.Height, a.Cost + b.Cost);
}

/// <summary>
/// The integer programme: choose seats, so that
/// <para>
/// |Σμ − M*| ≤ within; |R| ≤ trim within × K, K = K₀ − H; K at least its least, in trim and in heel; of each kind no more than
/// the box has; no more pockets than allowed; no two pockets nearer than the web;
/// </para>
/// <para>
/// and so that the cost is least. The cost counts in pockets: each pocket 1; one that is hard to cut by hand ½ more; missing
/// the weight by all that is allowed 1, less in proportion; missing the trim likewise, at the stiffest that the lure can be
/// had; and 0.3 for each millimetre of BG that is lost against all weights at the lowest place in the lure. All of it is linear
/// in what is chosen, and all of it is at least 0: p pockets cost at least p.
/// </para>
/// </summary>
public sealed class BallastModel
{
    private const double HardCost = 0.5;
    private const double HeightCost = 0.3;

    public Target Target { get; }

    public Want Want { get; }

    public PlanLimits Limits { get; }

    public ImmutableArray<Offer> Offers { get; }

    /// <summary>Seats of each offer, by moment, rising.</summary>
    public ImmutableArray<ImmutableArray<Seat>> Seats { get; }

    /// <summary>What stands outside pockets in this lure; null: to be worked out by whoever asks.</summary>
    public WoodOutside? Outside { get; init; }

    /// <summary>How many places were looked at in all.</summary>
    public int SeatCount { get; }

    /// <summary>K in trim if all the weight lay lowest: the stiffest there is.</summary>
    public double Stiffest { get; }

    public BallastModel(Target target, Want want, PlanLimits limits, ImmutableArray<Offer> offers, Func<Offer, IReadOnlyList<(double X, double Z)>> seats)
    {
        (Target, Want, Limits) = (target, want, limits);
        var kept = ImmutableArray.CreateBuilder<Offer>();
        var places = new List<IReadOnlyList<(double X, double Z)>>();
        foreach (Offer offer in offers)
        {
            IReadOnlyList<(double X, double Z)> of = seats(offer);
            if (of.Count == 0) continue;
            kept.Add(offer);
            places.Add(of);
        }
        Offers = kept.ToImmutable();
        SeatCount = places.Sum(p => p.Count);
        double lowest = SeatCount == 0 ? 0 : places.Min(of => of.Min(p => Vec3.Dot(new Vec3(p.X, 0, p.Z) - target.Origin, target.Up)));
        Stiffest = Math.Max(target.TrimStiffness - target.Weight * lowest, target.LeastTrimStiffness);
        Seats = [.. Offers.Select((offer, i) => ByMoment(i, offer, places[i], lowest))];
    }

    private ImmutableArray<Seat> ByMoment(int index, Offer offer, IReadOnlyList<(double X, double Z)> places, double lowest)
    {
        var seats = new Seat[places.Count];
        var moments = new double[places.Count];
        for (int i = 0; i < seats.Length; i++)
        {
            seats[i] = SeatAt(index, offer, places[i].X, places[i].Z, lowest);
            moments[i] = seats[i].Moment;
        }
        Array.Sort(moments, seats);
        return ImmutableCollectionsMarshal.AsImmutableArray(seats);
    }

    private Seat SeatAt(int index, Offer offer, double x, double z, double lowest)
    {
        Vec3 arm = new Vec3(x, 0, z) - Target.Origin;
        double height = Vec3.Dot(arm, Target.Up);
        double cost = 1 + (offer.Cut.HardByHand ? HardCost : 0) + HeightCost * offer.Net * (height - lowest) / Target.WholeWeight;
        return new Seat(index, x, z, offer.Net * Vec3.Dot(arm, Target.Trimming), offer.Net * height, cost);
    }

    public Sums SumsOf(Seat seat) => new(Offers[seat.Offer].Net, seat.Moment, seat.Height, seat.Cost);

    public Sums SumsOf(IEnumerable<Seat> seats) => seats.Aggregate(default(Sums), (sum, seat) => sum + SumsOf(seat));

    /// <summary>R, g·mm: nose-up positive.</summary>
    public double MomentLeft(Sums sums) => sums.Moment - Target.Moment - Target.MomentPerGram * (sums.Weight - Target.Weight);

    public double TrimStiffness(Sums sums) => Target.TrimStiffness - sums.Height;

    /// <summary>By how much the lure would turn from the wanted trim, radians.</summary>
    public double TrimMiss(Sums sums) => MomentLeft(sums) / TrimStiffness(sums);

    /// <summary>Whether the sums meet the want: what no pair of seats can say of itself.</summary>
    public bool Meets(Sums sums)
    {
        double stiffness = TrimStiffness(sums);
        return Math.Abs(sums.Weight - Target.Weight) <= Want.WeightWithin
            && stiffness >= Target.LeastTrimStiffness
            && Target.HeelStiffness - sums.Height >= Target.LeastHeelStiffness
            && Math.Abs(MomentLeft(sums)) <= Want.TrimWithin * stiffness;
    }

    public double Cost(Sums sums) => sums.Cost + WeightCost(sums.Weight) + Math.Abs(MomentLeft(sums)) / (Want.TrimWithin * Stiffest);

    internal double WeightCost(double weight) => Math.Abs(weight - Target.Weight) / Want.WeightWithin;

    /// <summary>Whether two pockets leave the web between them.</summary>
    public bool Clear(Seat a, Seat b)
    {
        Offer p = Offers[a.Offer], q = Offers[b.Offer];
        double web = Limits.Sound.Web;
        return Math.Abs(a.X - b.X) >= p.HalfX + q.HalfX + web - 1e-9 || Math.Abs(a.Z - b.Z) >= p.HalfZ + q.HalfZ + web - 1e-9;
    }

    /// <summary>Whether the box has what these seats take together.</summary>
    public bool InTheBox(ReadOnlySpan<int> offers)
    {
        for (int i = 0; i < offers.Length; i++)
        {
            Offer of = Offers[offers[i]];
            int taken = 0;
            double length = 0;
            foreach (int other in offers)
                if (Offers[other].BoxId == of.BoxId) (taken, length) = (taken + 1, length + Offers[other].Piece.LengthMm);
            if (of.Count is { } count && taken > count || of.StockLeft is { } left && of.IsStock && length > left + 1e-9) return false;
        }
        return true;
    }
}
