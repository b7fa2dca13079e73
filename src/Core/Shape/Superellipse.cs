using MathNet.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>uⁿ + vⁿ = 1: a diamond at 1, an oval at 2, boxier beyond.</summary>
internal sealed class Superellipse : SectionCurve
{
    public override string Word => "superellipse";

    internal override bool Contains(double u, double v, double fullness) => Math.Pow(u, fullness) + Math.Pow(v, fullness) <= 1;

    internal override double Height(double u, double fullness) => Math.Pow(1 - Math.Pow(u, fullness), 1 / fullness);

    internal override double Breadth(double v, double fullness) => Math.Pow(1 - Math.Pow(v, fullness), 1 / fullness);

    internal override double Radius(double u, double v, double fullness) => Math.Pow(Math.Pow(u, fullness) + Math.Pow(v, fullness), -1 / fullness);

    // Γ(1+1/n)²/Γ(1+2/n): ½ at 1, π/4 at 2, 1 at ∞.
    internal override double Area(double fullness) => fullness == 1 ? 0.5 : fullness == 2 ? Math.PI / 4
        : Math.Exp(2 * SpecialFunctions.GammaLn(1 + 1 / fullness) - SpecialFunctions.GammaLn(1 + 2 / fullness));

    // ∫ (1 − uⁿ)^(1/n) du from c to 1, as an incomplete beta function (t = 1 − uⁿ): precise to the very tip, where the whole less the
    // strip before c would be rounding and nothing else.
    internal override double AreaBeyond(double c, double fullness)
    {
        if (c <= 0) return Area(fullness);
        if (c >= 1) return 0;
        // 1 − cⁿ without loss of digits near c = 1.
        double t = -double.ExpM1(fullness * Math.Log(c));
        return Area(fullness) * SpecialFunctions.BetaRegularized(1 + 1 / fullness, 1 / fullness, t);
    }

    // By Hölder's inequality H(a) = (cosᵐa + sinᵐa)^(1/m) with 1/n + 1/m = 1; for a diamond (n = 1) the larger of cosine and sine.
    internal override double Reach(double fullness, double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        double larger = Math.Max(sin, cos), smaller = Math.Min(sin, cos);
        if (fullness <= 1) return larger;
        double m = fullness / (fullness - 1);
        // The larger taken out, so that no power overflows near a diamond.
        return larger * Math.Pow(1 + Math.Pow(smaller / larger, m), 1 / m);
    }

    // H = 2^(1−1/n)·cos 45°: it crosses top and side of the square at u = v = 2^(1−1/n) − 1, √2 − 1 for an oval (the spar gauge's 7 : 10 : 7).
    internal override double Eight(double fullness) => Math.Max(Math.Pow(2, 1 - 1 / fullness) - 1, 0);

    // A parabola in 1/n through square 2.1, round 1.2 and diamond 1.6 (Delany & Sorensen 1953, NACA TN 3038).
    internal override double Drag(double fullness)
    {
        const double Square = 2.1 / 1.2, Diamond = 1.6 / 1.2;
        double t = 1 / fullness;
        double a = 2 * (Square + Diamond - 2), b = 4 - 3 * Square - Diamond;
        return Square + t * (b + a * t);
    }
}
