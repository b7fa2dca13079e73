using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Floating;

/// <summary>
/// The energy of a floating body over all up directions, explored without any of the search's cleverness: plain
/// descent from random attitudes, and the lowest way between two places by flooding a fine grid.
/// </summary>
internal sealed class Landscape(FloatingBody body)
{
    private const double Tolerance = 1e-9;

    private double? guess;

    private readonly Dictionary<int, double[]> grids = [];

    public FloatingBody Body => body;

    /// <summary>Energy, g·mm, and its slope along the sphere, at an up direction.</summary>
    public (double Energy, Vec3 Slope) At(Vec3 n)
    {
        Balance b = Equilibrium.Afloat(body, n, guess, Tolerance);
        guess = b.Offset;
        return (b.Energy, b.Pull - Vec3.Dot(b.Pull, n) * n);
    }

    /// <summary>
    /// Downhill by the slope alone. The step's length is that of Barzilai &amp; Borwein 1988 (IMA J. Numer. Anal. 8, 141),
    /// at most 0.1 rad, halved until the energy falls; ends where it falls no more or where <paramref name="stop"/> says.
    /// </summary>
    public Vec3 Descend(Vec3 start, Func<Vec3, double, bool> stop)
    {
        double scale = body.Weight * body.Reach, step = 1 / scale;
        Vec3 n = start;
        (double energy, Vec3 slope) = At(n);
        for (int i = 0; i < 400 && slope.Length > 1e-8 * scale && !stop(n, energy); i++)
        {
            double part = Math.Min(step, 0.1 / slope.Length);
            Vec3 next = n, nextSlope = slope;
            double nextEnergy = energy;
            bool down = false;
            for (int halving = 0; halving < 30 && !down; halving++, part *= 0.4)
            {
                next = (n - part * slope).Unit();
                (nextEnergy, nextSlope) = At(next);
                down = nextEnergy < energy - 1e-4 * part * slope.LengthSquared;
            }
            if (!down) break;
            Vec3 moved = next - n, bent = nextSlope - slope;
            double along = Vec3.Dot(moved, bent);
            step = along > 0 ? moved.LengthSquared / along : 10 / scale;
            (n, energy, slope) = (next, nextEnergy, nextSlope);
        }
        return n;
    }

    public double[] Grid(int halvings)
    {
        if (grids.TryGetValue(halvings, out double[]? made)) return made;
        return grids[halvings] = [.. SphereGrid.Of(halvings).Directions.Select(n => At(n).Energy)];
    }

    /// <summary>
    /// Minima, saddles and maxima of the energy on a grid, by how often it rises and falls on the way round each point
    /// (Banchoff 1970, Am. Math. Monthly 77, 475): minima − saddles + maxima is 2 on a sphere.
    /// </summary>
    public (int Minima, int Saddles, int Maxima) Critical(int halvings)
    {
        SphereGrid grid = SphereGrid.Of(halvings);
        double[] energy = Grid(halvings);
        (int minima, int saddles, int maxima) = (0, 0, 0);
        for (int i = 0; i < energy.Length; i++)
        {
            (Vec3 e1, Vec3 e2) = grid.Directions[i].Frame();
            bool[] higher = [.. grid.Neighbours[i]
                .OrderBy(j => Math.Atan2(Vec3.Dot(grid.Directions[j], e2), Vec3.Dot(grid.Directions[j], e1)))
                .Select(j => energy[j] > energy[i] || (energy[j] == energy[i] && j > i))];
            int changes = Enumerable.Range(0, higher.Length).Count(k => higher[k] != higher[(k + 1) % higher.Length]);
            if (changes == 0 && higher[0]) minima++;
            else if (changes == 0) maxima++;
            else saddles += changes / 2 - 1;
        }
        return (minima, saddles, maxima);
    }

    public static int Nearest(SphereGrid grid, Vec3 n)
    {
        int best = 0;
        for (int i = 1; i < grid.Directions.Count; i++)
            if (Vec3.Dot(grid.Directions[i], n) > Vec3.Dot(grid.Directions[best], n)) best = i;
        return best;
    }

    /// <summary>
    /// Height, over the energy at <paramref name="from"/>, of the lowest way from there to any place that
    /// <paramref name="arrived"/> accepts (by direction and energy): a flood of the grid, whose way is then drawn tight in
    /// the valley. Infinite when there is no such place.
    /// </summary>
    public double Barrier(Vec3 from, Func<Vec3, double, bool> arrived, int halvings)
    {
        SphereGrid grid = SphereGrid.Of(halvings);
        double[] energy = Grid(halvings);
        int start = Nearest(grid, from);
        var cameFrom = new Dictionary<int, int> { [start] = -1 };
        var edge = new PriorityQueue<int, double>();
        edge.Enqueue(start, energy[start]);
        while (edge.TryDequeue(out int here, out _))
        {
            if (arrived(grid.Directions[here], energy[here]))
            {
                var way = new List<Vec3>();
                for (int i = here; i >= 0; i = cameFrom[i]) way.Add(grid.Directions[i]);
                way.Add(from);
                way.Reverse();
                return Tighten(way) - At(from).Energy;
            }
            foreach (int next in grid.Neighbours[here])
                if (cameFrom.TryAdd(next, here)) edge.Enqueue(next, energy[next]);
        }
        return double.PositiveInfinity;
    }

    /// <summary>Height over <paramref name="from"/> of the straight way to another place, drawn tight.</summary>
    public double BarrierBetween(Vec3 from, Vec3 to)
    {
        int pieces = Math.Max(4, (int)Math.Ceiling(Vec3.Angle(from, to) / 0.05));
        return Tighten([.. Enumerable.Range(0, pieces + 1).Select(k => (from + (double)k / pieces * (to - from)).Unit())]) - At(from).Energy;
    }

    // Each point slides down across the way (Newton on the slope's part across it), again and again, and points are spread
    // evenly; the highest energy met on the finest way is its height. An upper bound, whatever happens.
    private double Tighten(List<Vec3> way)
    {
        double best = Highest(way);
        for (int round = 0; round < 20; round++)
        {
            way = Spread(way, 0.03);
            for (int i = 1; i + 1 < way.Count; i++) way[i] = Slide(way[i], (way[i + 1] - way[i - 1]).Unit());
            best = Math.Min(best, Highest(Spread(way, 0.01)));
        }
        return best;
    }

    private Vec3 Slide(Vec3 n, Vec3 along)
    {
        Vec3 across = Vec3.Cross(n, along).Unit();
        for (int i = 0; i < 2; i++)
        {
            Balance b = Equilibrium.Afloat(body, n, guess, Tolerance);
            double slope = Vec3.Dot(b.Pull, across), curve = b.CurvatureAlong(across);
            double step = curve > 1e-6 * body.Weight ? -slope / curve : -slope / (body.Weight * body.Reach);
            n = (n + Math.Clamp(step, -0.02, 0.02) * across).Unit();
            across = (across - Vec3.Dot(across, n) * n).Unit();
        }
        return n;
    }

    private static List<Vec3> Spread(List<Vec3> way, double spacing)
    {
        var even = new List<Vec3> { way[0] };
        double length = 0, left = 0;
        for (int i = 1; i < way.Count; i++) length += Vec3.Angle(way[i - 1], way[i]);
        double step = length / Math.Max(2, Math.Ceiling(length / spacing));
        for (int i = 1; i < way.Count; i++)
        {
            double piece = Vec3.Angle(way[i - 1], way[i]), at = step - left;
            for (; at < piece - 1e-9; at += step) even.Add((way[i - 1] + at / piece * (way[i] - way[i - 1])).Unit());
            left = piece - (at - step);
        }
        even.Add(way[^1]);
        return even;
    }

    private double Highest(List<Vec3> way) => way.Max(n => At(n).Energy);
}
