using System.Numerics;
using System.Runtime.InteropServices;

namespace Trimwright.Core.Ballast;

/// <summary>
/// What of a height over a grid is left when a solid has to fit under it everywhere: at each cell the least of the heights
/// round it, each less what the solid needs there (erosion of a grey image by a structuring function).
/// </summary>
internal static class Erosion
{
    /// <summary>
    /// Over every cell (i, k) the least of <c>from[i + I, k + K] − Less</c>; outside the grid nothing is left. Where that is below
    /// nothing it is −1.
    /// </summary>
    /// <param name="from">Heights, a column of <paramref name="rows"/> after the other; −∞ where there is nothing to fit into.</param>
    /// <param name="columns">Of the grid.</param>
    /// <param name="rows">Of the grid.</param>
    /// <param name="solid">Its cells from the middle one, and what it needs at each, in the unit of the heights.</param>
    public static double[] Of(double[] from, int columns, int rows, IReadOnlyList<(int I, int K, double Less)> solid)
    {
        // A margin of nothing all round, as wide as the solid, so that no cell has to be asked whether it lies on the grid.
        int rim = solid.Max(s => Math.Max(Math.Abs(s.I), Math.Abs(s.K))), tall = rows + 2 * rim;
        var wide = new double[(columns + 2 * rim) * tall];
        Array.Fill(wide, double.NegativeInfinity);
        for (int i = 0; i < columns; i++) from.AsSpan(i * rows, rows).CopyTo(wide.AsSpan((i + rim) * tall + rim));
        // Far ones first: where nothing is left for a whole column, few of them say so.
        (int Step, double Less)[] steps =
            [.. solid.Select(s => (Step: s.I * tall + s.K, s.Less)).OrderByDescending(s => Math.Abs(s.Step)).ThenBy(s => s.Step)];

        var left = new double[from.Length];
        for (int i = 0; i < columns; i++)
        {
            Span<double> column = left.AsSpan(i * rows, rows);
            column.Fill(double.PositiveInfinity);
            int origin = (i + rim) * tall + rim;
            for (int k = 0; k < steps.Length; k++)
            {
                Lower(column, wide.AsSpan(origin + steps[k].Step, rows), steps[k].Less);
                if (k % Asked == Asked - 1 && Most(column) < 0) break;
            }
            foreach (ref double cell in column)
                if (cell < 0) cell = -1;
        }
        return left;
    }

    private const int Asked = 16;

    private static double Most(ReadOnlySpan<double> cells)
    {
        double most = double.NegativeInfinity;
        foreach (double cell in cells) most = Math.Max(most, cell);
        return most;
    }

    private static void Lower(Span<double> cells, ReadOnlySpan<double> to, double less)
    {
        ref double cell = ref MemoryMarshal.GetReference(cells);
        ref double there = ref MemoryMarshal.GetReference(to);
        int at = 0, whole = cells.Length - Vector<double>.Count;
        var lesses = new Vector<double>(less);
        for (; at <= whole; at += Vector<double>.Count)
            Vector.Min(Vector.LoadUnsafe(ref cell, (nuint)at), Vector.LoadUnsafe(ref there, (nuint)at) - lesses).StoreUnsafe(ref cell, (nuint)at);
        for (; at < cells.Length; at++) cells[at] = Math.Min(cells[at], to[at] - less);
    }
}
