namespace Trimwright.Core.Sinking;

/// <summary>Drag of long bodies across the flow.</summary>
public static class CrossFlow
{
    // Circular cylinder: Reynolds number and drag coefficient, Wieselsberger 1922 (NACA TN 121), digitised.
    private static readonly (double Re, double Cd)[] Cylinder =
    [
        (10, 2.711), (50, 1.566), (100, 1.396), (200, 1.266), (300, 1.184), (500, 1.081), (1000, 0.954), (2000, 0.897),
        (3000, 0.906), (5000, 0.942), (10_000, 1.074), (20_000, 1.148), (50_000, 1.166), (100_000, 1.170),
        (150_000, 1.178), (200_000, 1.107), (300_000, 0.893), (400_000, 0.623),
    ];

    // Of a cylinder of finite length over its diameter, as a share of the endless one's drag: same source, digitised;
    // used with a body's sections as Allen & Perkins 1951 (NACA Report 1048) do.
    private static readonly (double Slenderness, double Share)[] Finite =
    [
        (1, 0.516), (2, 0.577), (3, 0.622), (5, 0.622), (10, 0.689), (20, 0.778), (40, 0.829), (400, 1),
    ];

    private const double Step = 0.05;
    private static readonly double Start = Math.Log(1);
    private static readonly double[] Table = [.. Enumerable.Range(0, 290).Select(i => Interpolated(Cylinder, Start + Step * i))];

    /// <summary>Drag coefficient of a circular cylinder by the logarithm of its Reynolds number; beyond the data its ends.</summary>
    public static double OfCylinder(double logReynolds)
    {
        double at = Math.Clamp((logReynolds - Start) / Step, 0, Table.Length - 1.001);
        int i = (int)at;
        double part = at - i;
        return (1 - part) * Table[i] + part * Table[i + 1];
    }

    /// <summary>Share of the endless cylinder's drag by length over breadth.</summary>
    public static double FiniteLength(double slenderness) => Interpolated(Finite, Math.Log(Math.Clamp(slenderness, 1, 400)));

    /// <summary>Straight pieces between the data in the logarithms of both; its end value beyond them.</summary>
    private static double Interpolated((double X, double Y)[] data, double logX)
    {
        double x = Math.Exp(logX);
        if (x <= data[0].X) return data[0].Y;
        for (int i = 1; i < data.Length; i++)
        {
            if (x > data[i].X) continue;
            double part = (logX - Math.Log(data[i - 1].X)) / Math.Log(data[i].X / data[i - 1].X);
            return data[i - 1].Y * Math.Pow(data[i].Y / data[i - 1].Y, part);
        }
        return data[^1].Y;
    }
}
