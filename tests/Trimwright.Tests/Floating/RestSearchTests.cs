using System.Collections.Concurrent;
using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Tests.Floating;

/// <summary>The search for rests against brute force, which knows nothing of grids, Newton or symmetry.</summary>
public class RestSearchTests
{
    private const double LeastBasin = 0.01;

    private sealed record Tried(Draw Draw, FloatingBody Body, Rests Rests, List<string> Misses);

    [Fact]
    public void The_search_misses_no_rest_that_plain_descents_find()
    {
        int most = Tier.Count(quick: 12, ci: 60, @long: 200), starts = Tier.Count(quick: 250, ci: 1000, @long: 2000);
        var tried = new ConcurrentBag<Tried>();
        Parallel.ForEach(Floaters(most, severalAtLeast: most / 5), item => tried.Add(Try(item.Draw, item.Body, starts)));
        int several = tried.Count(t => t.Rests.All.Length > 1);
        string[] misses = [.. tried.SelectMany(t => t.Misses)];
        Console.WriteLine(FormattableString.Invariant(
            $"{tried.Count} lures, {several} with several rests, {starts} descents each, {misses.Length} misses"));
        foreach (string miss in misses.Take(30)) Console.WriteLine(miss);
        if (Tier.IsLong) PrintCritical(tried);
        Assert.True(several >= most / 5, $"only {several} lures with several rests");
        Assert.Empty(misses);
    }

    // For reading, not for passing: small ripples of the mesh show on a grid, and the search counts passes, not all saddles.
    private static void PrintCritical(IEnumerable<Tried> tried)
    {
        foreach (Tried t in tried.OrderBy(t => t.Draw.Seed))
        {
            (int minima, int saddles, int maxima) = new Landscape(t.Body).Critical(5);
            Console.WriteLine($"{t.Draw}: grid {minima} − {saddles} + {maxima} = {minima - saddles + maxima}; search: {t.Rests.Minima} minima, {t.Rests.Passes} passes, {t.Rests.All.Length} rests");
        }
    }

    /// <summary>Floating random lures, of which at least so many have several rests.</summary>
    private static List<(Draw Draw, FloatingBody Body)> Floaters(int count, int severalAtLeast)
    {
        var list = new List<(Draw, FloatingBody)>();
        for (int seed = 100_000; list.Count < count; seed++)
        {
            Draw draw = RandomLures.Of(seed);
            double water = draw.Circumstances.Water.Density - Units.AirDensity;
            var body = new FloatingBody(
                Bookkeeper.Of(draw.Design, draw.Circumstances.Stage, draw.Circumstances.Rig, water, draw.Circumstances.Mesh), water);
            if (body.SpareBuoyancy <= 1e-3 * body.Weight) continue;
            bool several = RestSearch.All(body).All.Length > 1;
            if (several) severalAtLeast--;
            else if (count - list.Count <= severalAtLeast) continue;
            list.Add((draw, body));
        }
        return list;
    }

    private static Tried Try(Draw draw, FloatingBody body, int starts)
    {
        Rests rests = RestSearch.All(body);
        var land = new Landscape(body);
        var random = new Random(draw.Seed);
        var strays = new List<(Vec3 N, int Count)>();
        for (int k = 0; k < starts; k++)
        {
            Vec3 end = land.Descend(Anywhere(random), (n, energy) => rests.All.Any(r => Is(body, r, n, energy)));
            if (rests.All.Any(r => Is(body, r, end, land.At(end).Energy))) continue;
            int known = strays.FindIndex(s => Vec3.Angle(s.N, end) < 0.03);
            if (known < 0) strays.Add((end, 1));
            else strays[known] = (strays[known].N, strays[known].Count + 1);
        }
        return new Tried(draw, body, rests, Misses(draw, land, rests, strays, starts));
    }

    private static Vec3 Anywhere(Random random)
    {
        double z = 2 * random.NextDouble() - 1, turn = 2 * Math.PI * random.NextDouble(), r = Math.Sqrt(1 - z * z);
        return new Vec3(r * Math.Cos(turn), r * Math.Sin(turn), z);
    }

    /// <summary>Whether a place is this rest, its twin, or on its ring.</summary>
    private static bool Is(FloatingBody body, Rest rest, Vec3 n, double energy)
    {
        double same = RestSearch.Indifferent * body.Weight;
        if (Math.Abs(energy - rest.Balance.Energy) > 2 * same) return false;
        return Images(rest).Any(m => Vec3.Angle(m, n) < 0.03)
            || (rest.HeelIsFree && Math.Abs((rest.HasMirror ? Math.Abs(n.X) : n.X) - (rest.HasMirror ? Math.Abs(rest.Balance.N.X) : rest.Balance.N.X)) < 0.03);
    }

    private static IEnumerable<Vec3> Images(Rest rest)
    {
        Vec3 n = rest.Balance.N;
        if (!rest.HasMirror) return [n];
        double[] signs = [1, -1];
        return signs.SelectMany(x => signs.SelectMany(y => signs.Select(z => new Vec3(x * n.X, y * n.Y, z * n.Z))));
    }

    /// <summary>
    /// Strays that are rests of their own: apart from the listed ones and from deeper strays by more than weight × 0.001 mm.
    /// </summary>
    private static List<string> Misses(Draw draw, Landscape land, Rests rests, List<(Vec3 N, int Count)> strays, int starts)
    {
        double same = RestSearch.Indifferent * land.Body.Weight;
        var own = new List<(Vec3 N, int Count)>();
        foreach ((Vec3 n, int count) in strays.OrderBy(s => land.At(s.N).Energy))
        {
            int deeper = own.FindIndex(o => land.BarrierBetween(n, o.N) < same);
            if (deeper >= 0) own[deeper] = (own[deeper].N, own[deeper].Count + count);
            else if (!Joined(land, rests, n, same)) own.Add((n, count));
        }
        return [.. own.Where(o => o.Count > LeastBasin * starts).Select(o =>
        {
            (double energy, Vec3 slope) = land.At(o.N);
            return FormattableString.Invariant($"{draw}: missed trim {Units.ToDegrees(WaterPlane.Trim(o.N)):F2}° heel {Units.ToDegrees(WaterPlane.Heel(o.N)):F2}°, basin {100.0 * o.Count / starts:F1} %, ")
                + FormattableString.Invariant($"{(energy - rests.All[0].Balance.Energy) / land.Body.Weight:F5} mm × weight over the first, slope {slope.Length / (land.Body.Weight * land.Body.Reach):E1}; listed: ")
                + string.Join("; ", rests.All.Select(r => FormattableString.Invariant(
                    $"trim {Units.ToDegrees(WaterPlane.Trim(r.Balance.N)):F2} heel {Units.ToDegrees(WaterPlane.Heel(r.Balance.N)):F2} +{(r.Balance.Energy - rests.All[0].Balance.Energy) / land.Body.Weight:F5} out {r.Escape / land.Body.Weight:F5}{(r.HasMirror ? " twin" : "")}{(r.HeelIsFree ? " free" : "")}")));
        })];
    }

    private static bool Joined(Landscape land, Rests rests, Vec3 n, double same)
    {
        double energy = land.At(n).Energy;
        foreach (Vec3 m in rests.All.SelectMany(Images))
            if (Vec3.Angle(n, m) < 1.5 && land.BarrierBetween(n, m) < same) return true;
        // Last, the lowest way of all to something as low.
        return land.Barrier(n, (m, e) => e < energy - same || rests.All.Any(r => Is(land.Body, r, m, e)), 5) < same;
    }

    /// <summary>
    /// The way out of each rest against a flood of 10 242 directions drawn tight: within 5 % or
    /// weight × 0.01 mm.
    /// </summary>
    [Fact]
    public void The_way_out_of_a_rest_is_as_high_as_a_flood_finds_it()
    {
        int most = Tier.Count(quick: 5, ci: 20, @long: 100), halvings = 5;
        var lines = new ConcurrentBag<(bool Wrong, string Text)>();
        Parallel.ForEach(Floaters(10 * most, severalAtLeast: most).Where(f => RestSearch.All(f.Body).All.Length > 1).Take(most), item =>
        {
            var land = new Landscape(item.Body);
            Rests rests = RestSearch.All(item.Body);
            double same = RestSearch.Indifferent * item.Body.Weight;
            IEnumerable<Vec3> Real(Rest r) => Images(r).Where(m => land.At(m) is var at
                && Math.Abs(at.Energy - r.Balance.Energy) < 2 * same && at.Slope.Length < 1e-4 * item.Body.Weight * item.Body.Reach);
            for (int i = 0; i < rests.All.Length; i++)
            {
                Rest rest = rests.All[i];
                double own = rest.Balance.Energy;
                IEnumerable<Vec3> others = i > 0 ? rests.All.Take(i).SelectMany(Real) : rests.All.SelectMany(Real).Where(n => Vec3.Angle(n, rest.Balance.N) > 0.1);
                double flood = land.Barrier(rest.Balance.N,
                    (n, e) => (i > 0 && e < own - same) || others.Any(m => Vec3.Angle(m, n) < 0.04), halvings);
                bool wrong = !(Math.Abs(flood - rest.Escape) <= Math.Max(0.05 * flood, 0.01 * item.Body.Weight));
                lines.Add((wrong, FormattableString.Invariant($"{item.Draw}: rest {i} trim {Units.ToDegrees(WaterPlane.Trim(rest.Balance.N)):F2}° heel {Units.ToDegrees(WaterPlane.Heel(rest.Balance.N)):F2}°: out over {rest.Escape / item.Body.Weight:F4}, flood {flood / item.Body.Weight:F4} mm × weight{(wrong ? "  <- wrong" : "")}")));
            }
        });
        foreach ((bool Wrong, string Text) line in lines.OrderByDescending(l => l.Wrong).Take(40)) Console.WriteLine(line.Text);
        Assert.True(lines.Count >= 2 * most, $"only {lines.Count} rests");
        Assert.DoesNotContain(lines, l => l.Wrong);
    }
}
