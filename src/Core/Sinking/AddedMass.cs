using Trimwright.Core.Numerics;

namespace Trimwright.Core.Sinking;

/// <summary>
/// Added mass of the general ellipsoid with semi-axes a, b, c (along x, y, z), as shares of the displaced fluid.
/// <para>
/// α_i = abc∫₀^∞ dλ / ((a_i² + λ)√((a²+λ)(b²+λ)(c²+λ))), Σα_i = 2; k_i = α_i/(2 − α_i) for motion along axis i.
/// For rotation about x: k'_x = (b² − c²)²(γ − β) / (5[2(b² − c²) + (b² + c²)(β − γ)]) times ρV, with α, β, γ the
/// three integrals, and cyclically (Lamb 1932, Hydrodynamics, arts 114–115 and 373; Lamb 1918, R&amp;M 623).
/// </para>
/// </summary>
/// <param name="Along">k of motion along x, y and z.</param>
/// <param name="About">Added inertia about x, y and z per unit of displaced mass, length².</param>
public readonly record struct AddedMass(Vec3 Along, Vec3 About)
{
    /// <summary>Of the ellipsoid with these semi-axes, all positive, any unit of length.</summary>
    public static AddedMass Of(double a, double b, double c)
    {
        Vec3 alpha = new(Integral(a, b, c), Integral(b, c, a), Integral(c, a, b));
        return new AddedMass(
            new Vec3(Share(alpha.X), Share(alpha.Y), Share(alpha.Z)),
            new Vec3(Rotation(b, c, alpha.Y, alpha.Z), Rotation(c, a, alpha.Z, alpha.X), Rotation(a, b, alpha.X, alpha.Y)));
    }

    private static double Share(double alpha) => alpha / (2 - alpha);

    private static double Rotation(double b, double c, double beta, double gamma)
    {
        double difference = b * b - c * c, sum = b * b + c * c;
        double below = 2 * difference + sum * (beta - gamma);
        // A circle turning about its axis moves no ideal fluid.
        return Math.Abs(difference) < 1e-12 * sum ? 0 : difference * difference * (gamma - beta) / (5 * below);
    }

    // With λ = m²·t²/(1−t)², m a middling axis, the integrand is smooth on [0, 1].
    private static double Integral(double a, double b, double c)
    {
        double m = Math.Cbrt(a * b * c), product = a * b * c;
        return Quadrature.Over(t =>
        {
            double s = t / (1 - t), lambda = m * m * s * s;
            double a2 = a * a + lambda;
            double weight = 2 * m * m * s / ((1 - t) * (1 - t));
            return product * weight / (a2 * Math.Sqrt(a2 * (b * b + lambda) * (c * c + lambda)));
        }, 0, 1, 24);
    }
}
