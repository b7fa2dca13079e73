namespace Trimwright.Core.Numerics;

/// <summary>Roots of one function of one number.</summary>
public static class Roots
{
    /// <summary>
    /// A root between two ends of opposite sign by Brent's method (Brent 1973, Algorithms for Minimization without
    /// Derivatives, ch. 4): bisection's certainty, nearly the secant's speed.
    /// </summary>
    /// <exception cref="ArgumentException">The ends have the same sign: misuse.</exception>
    public static double Between(Func<double, double> f, double low, double high, double tolerance)
    {
        double a = low, b = high, fa = f(a), fb = f(b);
        if (fa == 0) return a;
        if (fb == 0) return b;
        if (Math.Sign(fa) == Math.Sign(fb)) throw new ArgumentException("no change of sign between the ends");
        double c = a, fc = fa, step = b - a, previous = step;
        for (int i = 0; i < 200; i++)
        {
            if (Math.Sign(fb) == Math.Sign(fc))
            {
                (c, fc) = (a, fa);
                step = previous = b - a;
            }
            if (Math.Abs(fc) < Math.Abs(fb))
                (a, fa, b, fb, c, fc) = (b, fb, c, fc, b, fb);
            double allowed = 2 * double.Epsilon + 1e-16 * Math.Abs(b) + 0.5 * tolerance;
            double half = 0.5 * (c - b);
            if (Math.Abs(half) <= allowed || fb == 0) return b;
            if (Math.Abs(previous) >= allowed && Math.Abs(fa) > Math.Abs(fb))
            {
                double s = fb / fa, p, q;
                if (a == c)
                {
                    p = 2 * half * s;
                    q = 1 - s;
                }
                else
                {
                    double u = fa / fc, v = fb / fc;
                    p = s * (2 * half * u * (u - v) - (b - a) * (v - 1));
                    q = (u - 1) * (v - 1) * (s - 1);
                }
                if (p > 0) q = -q;
                p = Math.Abs(p);
                bool keep = 2 * p < Math.Min(3 * half * q - Math.Abs(allowed * q), Math.Abs(previous * q));
                (previous, step) = keep ? (step, p / q) : (half, half);
            }
            else
            {
                step = previous = half;
            }
            (a, fa) = (b, fb);
            b += Math.Abs(step) > allowed ? step : Math.CopySign(allowed, half);
            fb = f(b);
        }
        return b;
    }
}
