namespace Trimwright.Core.Numerics;

/// <summary>Integrals of smooth functions over an interval.</summary>
public static class Quadrature
{
    // Abscissae and weights of the eight-point Gauss–Legendre rule on [−1, 1] (Abramowitz & Stegun, table 25.4).
    private static readonly double[] Nodes =
        [0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363];

    private static readonly double[] Weights =
        [0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];

    /// <summary>∫f from <paramref name="from"/> to <paramref name="to"/> by eight points.</summary>
    public static double Eight(Func<double, double> f, double from, double to)
    {
        double middle = 0.5 * (from + to), half = 0.5 * (to - from), sum = 0;
        for (int i = 0; i < 4; i++)
            sum += Weights[i] * (f(middle - half * Nodes[i]) + f(middle + half * Nodes[i]));
        return sum * half;
    }

    /// <summary>∫f over <paramref name="pieces"/> equal pieces, eight points each.</summary>
    public static double Over(Func<double, double> f, double from, double to, int pieces)
    {
        double sum = 0, step = (to - from) / pieces;
        for (int i = 0; i < pieces; i++) sum += Eight(f, from + i * step, from + (i + 1) * step);
        return sum;
    }
}
