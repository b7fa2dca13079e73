using System.Collections.Immutable;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Ballast;

/// <summary>Chosen seats with what they add up to.</summary>
public sealed record Choice(ImmutableArray<Seat> Seats, Sums Sums, double Cost);

/// <summary>What a search found.</summary>
/// <param name="Best">The cheapest choice; null when there is none, or none was found.</param>
/// <param name="Pool">The cheapest of each way to choose: kinds, forms and rough places; cheapest first.</param>
/// <param name="Bound">No choice costs less than this.</param>
/// <param name="Looks">Pairs of places weighed against the want.</param>
public sealed record Found(Choice? Best, ImmutableArray<Choice> Pool, double Bound, long Looks)
{
    /// <summary>By how many pockets' worth the best might still be beaten; 0 when it is proved best.</summary>
    public double Gap => Best is null ? 0 : Math.Max(Best.Cost - Bound, 0);

    /// <summary>The best is proved best; without one, that there is none.</summary>
    public bool Proved => Best is null ? double.IsPositiveInfinity(Bound) : Gap < 1e-9;
}

/// <summary>
/// Searches the model exactly.
/// <para>
/// What a weight adds doesn't depend on where it goes, so the question falls in two. <b>Which pieces</b>: sets of p pieces,
/// heaviest first, whose weights add up within what is allowed; a slot whose rest can't be filled is left at once. <b>Where</b>:
/// all but two are seated in turn; the last two are met in the middle: for each seat of the one, seats of the other are looked up
/// by the moment that is still wanted, in a list sorted by moment.
/// </para>
/// <para>
/// p = 0, 1, 2 … pockets in turn; p pockets cost at least p times the cheapest seat, so the search ends, proved, when that is no
/// less than the best. One and two pockets are always searched whole. From three on there is a limit of looks (no clock: the
/// same answer on every machine); beyond it the bound, and so the gap, says what is not known.
/// </para>
/// </summary>
public sealed class PlanSearch
{
    private const long LooksForSet = 400_000;
    private const int LooksBetweenAsking = 1 << 14;

    // Choices dearer than the best by more than this are no plans worth showing.
    private const double Worth = 0.75;

    private readonly BallastModel model;
    private readonly Pace pace;
    private readonly int[] heaviestFirst;
    private readonly int[] kindOf;
    private readonly double lightest;
    private readonly double[] leastCost;
    private readonly double cheapest;
    private readonly Dictionary<Way, Choice> pool = [];
    private Choice? best;
    private long looks;
    private long looksAtSet;
    private long limit = long.MaxValue;
    private bool whole = true;

    private PlanSearch(BallastModel model, Pace pace)
    {
        (this.model, this.pace) = (model, pace);
        heaviestFirst = [.. Enumerable.Range(0, model.Offers.Length).OrderByDescending(i => model.Offers[i].Net).ThenBy(i => i)];
        lightest = model.Offers.IsEmpty ? 0 : model.Offers.Min(o => o.Net);
        leastCost = [.. model.Seats.Select(seats => seats.Min(s => s.Cost))];
        cheapest = leastCost.DefaultIfEmpty(double.PositiveInfinity).Min();
        var kinds = new Dictionary<(string, Shape.Axis, bool), int>();
        kindOf = [.. model.Offers.Select(o =>
        {
            var key = (o.BoxId, o.Piece.Axis, o.Piece.OnWire);
            if (!kinds.TryGetValue(key, out int kind)) kinds[key] = kind = kinds.Count;
            return kind;
        })];
    }

    /// <summary>The best choice of a model, and other ways.</summary>
    /// <exception cref="OperationCanceledException">When cancelled.</exception>
    public static Found Of(BallastModel model, Pace? pace = null) => new PlanSearch(model, pace ?? Pace.Free).Run();

    private Found Run()
    {
        if (model.Meets(default)) Keep(default, []);
        double bound = double.PositiveInfinity;
        long before = 0;
        for (int pockets = 1; pockets <= model.Limits.MostPockets && model.Offers.Length > 0; pockets++)
        {
            double least = pockets * cheapest;
            if (best is not null && least >= best.Cost) break;
            if (pockets <= 3) before = looks;
            if (!Reachable(pockets)) continue;
            whole = true;
            limit = pockets <= 2 ? long.MaxValue : before + model.Limits.LooksForMore;
            Choose(new int[pockets], 0, 0, model.Target.Weight, 0);
            if (!whole) bound = Math.Min(bound, least);
        }
        return new Found(best, [.. pool.Values.OrderBy(c => c.Cost)], Math.Min(bound, best?.Cost ?? double.PositiveInfinity), looks);
    }

    /// <summary>
    /// Whether so many pieces could reach the moment at all: their points (μ, moment) lie under the upper hull of all seats' points
    /// and over the lower one, and so does their mean.
    /// </summary>
    private bool Reachable(int pockets)
    {
        double within = model.Want.WeightWithin, window = Window();
        double light = (model.Target.Weight - within) / pockets, heavy = (model.Target.Weight + within) / pockets;
        (double Weight, double Low, double High)[] points =
            [.. heaviestFirst.Reverse().Select(i => (model.Offers[i].Net, model.Seats[i][0].Moment, model.Seats[i][^1].Moment))];
        if (heavy < points[0].Weight || light > points[^1].Weight) return false;
        double slack = window + Math.Abs(model.Target.MomentPerGram) * within;
        return pockets * HullOver([.. points.Select(p => (p.Weight, p.High))], light, heavy) >= model.Target.Moment - slack
            && -pockets * HullOver([.. points.Select(p => (p.Weight, -p.Low))], light, heavy) <= model.Target.Moment + slack;
    }

    /// <summary>The greatest height of the upper hull of points, sorted by x, between two x: at an end or a corner between them.</summary>
    private static double HullOver((double X, double Y)[] points, double from, double to)
    {
        var hull = new List<(double X, double Y)>();
        foreach ((double x, double y) in points)
        {
            while (hull.Count > 0 && hull[^1].X == x && hull[^1].Y <= y) hull.RemoveAt(hull.Count - 1);
            if (hull.Count > 0 && hull[^1].X == x) continue;
            while (hull.Count > 1 && (hull[^1].Y - hull[^2].Y) * (x - hull[^2].X) <= (y - hull[^2].Y) * (hull[^1].X - hull[^2].X)) hull.RemoveAt(hull.Count - 1);
            hull.Add((x, y));
        }
        double At(double x)
        {
            int i = hull.FindIndex(p => p.X >= x);
            return i < 0 ? hull[^1].Y : i == 0 ? hull[0].Y : hull[i - 1].Y + (hull[i].Y - hull[i - 1].Y) * (x - hull[i - 1].X) / (hull[i].X - hull[i - 1].X);
        }
        return Math.Max(Math.Max(At(from), At(to)), hull.Where(p => p.X > from && p.X < to).Select(p => p.Y).DefaultIfEmpty(double.NegativeInfinity).Max());
    }

    private double Window() => model.Want.TrimWithin * model.Stiffest;

    /// <summary>Fills slot after slot, heaviest first, with offers whose weights can still add up.</summary>
    private void Choose(int[] set, int slot, int from, double wanted, double cost)
    {
        double within = model.Want.WeightWithin;
        int left = set.Length - slot;
        for (int order = Math.Max(from, FirstAtMost(wanted + within - (left - 1) * lightest)); order < heaviestFirst.Length; order++)
        {
            int offer = heaviestFirst[order];
            double net = model.Offers[offer].Net;
            if ((++looks & (LooksBetweenAsking - 1)) == 0) pace.Step();
            // The heaviest of what is left is at least their mean.
            if (left * net < wanted - within) break;
            set[slot] = offer;
            if (!model.InTheBox(set.AsSpan(0, slot + 1))) continue;
            double least = cost + leastCost[offer];
            if (least + (left - 1) * cheapest > Cutoff(set)) continue;
            if (looks > limit)
            {
                whole = false;
                return;
            }
            if (left > 1) Choose(set, slot + 1, order, wanted - net, least);
            else if (least + model.WeightCost(model.Target.Weight - wanted + net) is var all && all <= Cutoff(set)) SeatSet(set, all);
        }
    }

    // The first of the offers, heaviest first, that weighs no more.
    private int FirstAtMost(double net)
    {
        int low = 0, high = heaviestFirst.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (model.Offers[heaviestFirst[middle]].Net > net) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    /// <summary>
    /// What a choice may cost to be looked at. Of one and two pockets all that are worth showing; of more only what beats the best.
    /// </summary>
    private double Cutoff(int[] set) => best is null ? double.PositiveInfinity : set.Length <= 2 ? best.Cost + Worth : best.Cost - 1e-12;

    private void SeatSet(int[] set, double least)
    {
        double weight = set.Sum(o => model.Offers[o].Net), window = Window();
        double wanted = model.Target.Moment + model.Target.MomentPerGram * (weight - model.Target.Weight);
        if (set.Sum(o => model.Seats[o][0].Moment) > wanted + window || set.Sum(o => model.Seats[o][^1].Moment) < wanted - window) return;
        looksAtSet = 0;
        SeatNext(set, new Seat[set.Length], 0, default, least, wanted, window);
    }

    // least: what the set costs at the least, with the seats that are chosen.
    private void SeatNext(int[] set, Seat[] seats, int slot, Sums sums, double least, double wanted, double window)
    {
        pace.Step();
        if (slot == set.Length - 1)
        {
            Last(set, seats, slot, sums, least, wanted, window);
            return;
        }
        ImmutableArray<Seat> of = model.Seats[set[slot]];
        // Many pieces: near the wanted common place first, so that a plan is found early.
        IEnumerable<Seat> order = set.Length - slot > 2 ? Nearest(of, wanted / Math.Max(model.Target.Weight, 1e-9) * model.Offers[set[slot]].Net) : of;
        foreach (Seat seat in order)
        {
            if (set.Length > 2 && (looksAtSet > LooksForSet * (set.Length > 3 ? 1 : 100) || looks > limit))
            {
                whole = false;
                return;
            }
            // A seat whose rest has no answer costs a look too.
            (looks, looksAtSet) = (looks + 1, looksAtSet + 1);
            double more = seat.Cost - leastCost[seat.Offer];
            if (least + more > Cutoff(set) || !IsClear(seats, slot, seat)) continue;
            seats[slot] = seat;
            SeatNext(set, seats, slot + 1, sums + model.SumsOf(seat), least + more, wanted, window);
        }
    }

    private static IEnumerable<Seat> Nearest(ImmutableArray<Seat> seats, double moment) => seats.OrderBy(s => Math.Abs(s.Moment - moment));

    private bool IsClear(Seat[] seats, int count, Seat seat)
    {
        for (int i = 0; i < count; i++)
            if (!model.Clear(seats[i], seat)) return false;
        return true;
    }

    /// <summary>The last piece's seats by the moment that is still wanted.</summary>
    private void Last(int[] set, Seat[] seats, int slot, Sums sums, double least, double wanted, double window)
    {
        int offer = set[slot];
        ReadOnlySpan<Seat> of = model.Seats[offer].AsSpan();
        double net = model.Offers[offer].Net, most = Cutoff(set) - least + leastCost[offer];
        double low = wanted - window - sums.Moment, high = wanted + window - sums.Moment;
        for (int i = First(of, low); i < of.Length && of[i].Moment <= high; i++)
        {
            looksAtSet++;
            if ((++looks & (LooksBetweenAsking - 1)) == 0) pace.Step();
            ref readonly Seat seat = ref of[i];
            if (seat.Cost > most) continue;
            Sums all = sums + new Sums(net, seat.Moment, seat.Height, seat.Cost);
            if (!model.Meets(all) || !IsClear(seats, slot, seat)) continue;
            seats[slot] = seat;
            Keep(all, seats.AsSpan(0, slot + 1));
        }
    }

    private static int First(ReadOnlySpan<Seat> seats, double moment)
    {
        int low = 0, high = seats.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (seats[middle].Moment < moment) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    private void Keep(Sums sums, ReadOnlySpan<Seat> seats)
    {
        double cost = model.Cost(sums);
        var pieces = new (int Kind, double X)[seats.Length];
        for (int i = 0; i < seats.Length; i++) pieces[i] = (kindOf[seats[i].Offer], seats[i].X);
        Way way = Way.Of(pieces);
        if (pool.TryGetValue(way, out Choice? known) && known.Cost <= cost) return;
        var choice = new Choice([.. seats], sums, cost);
        pool[way] = choice;
        if (best is null || cost < best.Cost) best = choice;
    }
}
