using Trimwright.Core.Numerics;

namespace Trimwright.Core.Floating;

/// <summary>A stable critical point that the search has found.</summary>
internal sealed record Minimum(Balance Balance, bool Free);

/// <summary>Two rests by their index and the energy of the pass between them, g·mm.</summary>
internal readonly record struct Pass(int A, int B, double Energy);

/// <summary>Where to look for the pass between two rests, and how high it is there.</summary>
internal readonly record struct Edge(int A, int B, Vec3 At, double Energy);

/// <summary>
/// The passes between rests: sought from the lowest place found between two basins, by the grid or by rolling round, up the
/// softest direction.
/// </summary>
internal static class PassSearch
{
    /// <summary>The lowest pass found between each two rests that border on each other.</summary>
    public static List<Pass> Between(
        FloatingBody body, SphereGrid grid, double[] energy, int[] nearest, List<Minimum> found, List<Edge> valleys)
    {
        // Each grid point belongs to the rest that the steepest way down the grid ends at.
        int Basin(int i)
        {
            while (true)
            {
                int lowest = grid.Neighbours[i].MinBy(j => energy[j]);
                if (energy[lowest] >= energy[i]) break;
                i = lowest;
            }
            return nearest[i];
        }
        // Newton may point from a place to a rest that lies higher: that place is not in its basin.
        double rounding = 1e-6 * body.Weight * body.Reach;
        for (int i = 0; i < nearest.Length; i++)
            if (nearest[i] >= 0 && energy[i] < found[nearest[i]].Balance.Energy - rounding) nearest[i] = -1;
        int[] basin = [.. Enumerable.Range(0, energy.Length).Select(Basin)];
        var lowestEdge = new Dictionary<(int, int), (Vec3 At, double Energy)>();
        void Offer(int a, int b, Vec3 at, double height)
        {
            if (a == b || a < 0 || b < 0) return;
            (int, int) key = a < b ? (a, b) : (b, a);
            if (!lowestEdge.TryGetValue(key, out var known) || height < known.Energy) lowestEdge[key] = (at, height);
        }
        for (int i = 0; i < energy.Length; i++)
            foreach (int j in grid.Neighbours[i])
                Offer(basin[i], basin[j], (grid.Directions[i] + grid.Directions[j]).Unit(), Math.Max(energy[i], energy[j]));
        foreach (Edge edge in valleys) Offer(edge.A, edge.B, edge.At, edge.Energy);
        // A rest that no lowest grid point led to has no basin: a point that leads down to it by one way and to another rest
        // by another is itself no lower than the pass between the two.
        for (int i = 0; i < energy.Length; i++) Offer(nearest[i], basin[i], grid.Directions[i], energy[i]);
        for (int a = 0; a < found.Count; a++)
            for (int b = a + 1; b < found.Count; b++)
                if (Vec3.Angle(found[a].Balance.N, found[b].Balance.N) < 1.2 * RestSearch.Spacing)
                    Offer(a, b, (found[a].Balance.N + found[b].Balance.N).Unit(), double.MaxValue);
        return [.. lowestEdge.Select(edge => Climb(body, found, edge.Key.Item1, edge.Key.Item2, edge.Value.At, edge.Value.Energy))];
    }

    /// <summary>
    /// To the pass between two rests: uphill along the softest direction, downhill along the other. Where that leads
    /// astray the grid's own height stands.
    /// </summary>
    private static Pass Climb(FloatingBody body, List<Minimum> found, int a, int b, Vec3 from, double height)
    {
        double scale = body.Weight * body.Reach;
        double floor = Math.Max(found[a].Balance.Energy, found[b].Balance.Energy);
        Balance here = Equilibrium.Afloat(body, from);
        // Both ends of a grid edge may lie lower than the ridge that it crosses.
        double grid = Math.Max(height == double.MaxValue ? here.Energy : Math.Max(height, here.Energy), floor);
        for (int i = 0; i < 40; i++)
        {
            (double g1, double g2) = here.Slope;
            (double h11, double h12, double h22) = here.Curvature;
            double mean = 0.5 * (h11 + h22), half = 0.5 * (h11 - h22), spread = Math.Sqrt(half * half + h12 * h12);
            (double sin, double cos) = Math.SinCos(0.5 * Math.Atan2(h12, half));
            if (Math.Sqrt(g1 * g1 + g2 * g2) < 1e-9 * scale)
            {
                bool pass = mean - spread < 0 && mean + spread > 0 && here.Energy >= floor && here.Energy <= grid + 1e-9 * scale;
                return new Pass(a, b, pass && (Vec3.Angle(here.N, from) < RestSearch.Spacing / 2 || Parts(body, found, a, b, here, -sin, cos)) ? here.Energy : grid);
            }
            double least = 1e-6 * scale;
            // The first eigenvector (cos, sin) is the stiff direction: down it; the soft one: up it.
            double stiff = -(cos * g1 + sin * g2) / Math.Max(Math.Abs(mean + spread), least);
            double soft = (-sin * g1 + cos * g2) / Math.Max(Math.Abs(mean - spread), least);
            double length = Math.Sqrt(stiff * stiff + soft * soft), part = Math.Min(1, 0.15 / length);
            here = Equilibrium.Afloat(body,
                Equilibrium.Turn(here, part * (cos * stiff - sin * soft), part * (sin * stiff + cos * soft)), here.Offset);
        }
        return new Pass(a, b, grid);
    }

    /// <summary>Whether the two sides of a pass, along its soft direction, lead down to these two rests.</summary>
    private static bool Parts(FloatingBody body, List<Minimum> found, int a, int b, in Balance pass, double soft1, double soft2)
    {
        int Below(in Balance top, double side)
        {
            Vec3 end = Equilibrium.Descend(body, Equilibrium.Turn(top, side * soft1, side * soft2), longest: 0.1).Balance.N;
            return found.FindIndex(m => Vec3.Angle(m.Balance.N, end) < RestSearch.Beside);
        }
        int left = Below(pass, RestSearch.Beside), right = Below(pass, -RestSearch.Beside);
        return (left == a && right == b) || (left == b && right == a);
    }
}
