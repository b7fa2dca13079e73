namespace Trimwright.Core.Numerics;

/// <summary>
/// The C² piecewise cubic through given points, each end either free (second derivative zero, the natural end) or
/// held to a slope. Beyond its ends it goes on along its end tangents.
/// </summary>
public sealed class CubicSpline
{
    private readonly double[] x;
    private readonly double[] y;
    private readonly double[] curvature;

    /// <param name="x">Knots, strictly rising, at least one.</param>
    /// <param name="y">Values at the knots.</param>
    /// <param name="startSlope">Slope at the first knot, or null for a free end.</param>
    /// <param name="endSlope">Slope at the last knot, or null for a free end.</param>
    /// <exception cref="ArgumentException">The knots do not rise or the lengths differ: misuse.</exception>
    public CubicSpline(double[] x, double[] y, double? startSlope = null, double? endSlope = null)
    {
        if (x.Length == 0 || x.Length != y.Length)
            throw new ArgumentException("a spline needs as many values as knots, at least one", nameof(y));
        for (int i = 1; i < x.Length; i++)
            if (!(x[i] > x[i - 1]))
                throw new ArgumentException("the knots must rise", nameof(x));
        this.x = x;
        this.y = y;
        curvature = Solve(x, y, startSlope, endSlope);
        loneSlope = x.Length == 1 ? startSlope ?? endSlope ?? 0 : 0;
    }

    private readonly double loneSlope;

    /// <summary>The curve's height at <paramref name="at"/>.</summary>
    public double At(double at)
    {
        int n = x.Length;
        if (n == 1) return y[0] + loneSlope * (at - x[0]);
        if (at < x[0]) return y[0] + Slope(x[0]) * (at - x[0]);
        if (at > x[n - 1]) return y[n - 1] + Slope(x[n - 1]) * (at - x[n - 1]);
        int i = Interval(at);
        double h = x[i + 1] - x[i];
        double b = (at - x[i]) / h;
        double a = 1 - b;
        return a * y[i] + b * y[i + 1]
            - a * b * h * h / 6 * ((1 + a) * curvature[i] + (1 + b) * curvature[i + 1]);
    }

    /// <summary>The curve's slope at <paramref name="at"/>.</summary>
    public double Slope(double at)
    {
        int n = x.Length;
        if (n == 1) return loneSlope;
        at = Math.Clamp(at, x[0], x[n - 1]);
        int i = Interval(at);
        double h = x[i + 1] - x[i];
        double b = (at - x[i]) / h;
        double a = 1 - b;
        return (y[i + 1] - y[i]) / h
            + h / 6 * ((1 - 3 * a * a) * curvature[i] + (3 * b * b - 1) * curvature[i + 1]);
    }

    private int Interval(double at)
    {
        int found = Array.BinarySearch(x, at);
        if (found < 0) found = ~found - 1;
        return Math.Clamp(found, 0, x.Length - 2);
    }

    // The tridiagonal system of continuous slopes: h₋M₋ + 2(h₋+h₊)M + h₊M₊ = 6(Δ₊/h₊ − Δ₋/h₋), with an end row
    // M = 0 (free) or 2hM₀ + hM₁ = 6(Δ/h − slope) (held).
    private static double[] Solve(double[] x, double[] y, double? startSlope, double? endSlope)
    {
        int n = x.Length;
        var m = new double[n];
        if (n < 2 || (n == 2 && startSlope is null && endSlope is null)) return m;
        var diagonal = new double[n];
        var upper = new double[n];
        var lower = new double[n];
        double Chord(int i) => (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
        diagonal[0] = 1;
        if (startSlope is { } s)
        {
            diagonal[0] = 2 * (x[1] - x[0]);
            upper[0] = x[1] - x[0];
            m[0] = 6 * (Chord(0) - s);
        }
        for (int i = 1; i < n - 1; i++)
        {
            lower[i] = x[i] - x[i - 1];
            diagonal[i] = 2 * (x[i + 1] - x[i - 1]);
            upper[i] = x[i + 1] - x[i];
            m[i] = 6 * (Chord(i) - Chord(i - 1));
        }
        diagonal[n - 1] = 1;
        if (endSlope is { } e)
        {
            diagonal[n - 1] = 2 * (x[n - 1] - x[n - 2]);
            lower[n - 1] = x[n - 1] - x[n - 2];
            m[n - 1] = 6 * (e - Chord(n - 2));
        }
        for (int i = 1; i < n; i++)
        {
            double w = lower[i] / diagonal[i - 1];
            diagonal[i] -= w * upper[i - 1];
            m[i] -= w * m[i - 1];
        }
        m[n - 1] /= diagonal[n - 1];
        for (int i = n - 2; i >= 0; i--)
            m[i] = (m[i] - upper[i] * m[i + 1]) / diagonal[i];
        return m;
    }
}
