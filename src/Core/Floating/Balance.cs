using Trimwright.Core.Numerics;

namespace Trimwright.Core.Floating;

/// <summary>
/// Energy of a floating body at a water plane, with its derivatives. Unknowns: the plane's offset d and the unit
/// vector n; derivatives in n are in the plane's own axes E1, E2. Energies g·mm, forces g, lengths mm.
/// </summary>
public struct Balance
{
    public Vec3 N;
    public double Offset;
    public Vec3 E1;
    public Vec3 E2;

    /// <summary>Energy over all the body out of the water at height 0.</summary>
    public double Energy;

    /// <summary>∂E/∂d: lift less weight, g; 0 at equilibrium.</summary>
    public double ForceUp;

    /// <summary>∇E in n, g·mm: Σ weight × place − Σ lift × place, from the body's middle.</summary>
    public Vec3 Pull;

    /// <summary>∂²E/∂d², g/mm: water density times waterplane area, and dipping hardware.</summary>
    public double Kdd;
    public double Kd1;
    public double Kd2;
    public double K11;
    public double K12;
    public double K22;

    /// <summary>Submerged volume, hardware and leader included, mm³.</summary>
    public double Submerged;

    /// <summary>Submerged volume of the skin alone, mm³, its moment about the middle, mm⁴, and its waterplane, mm².</summary>
    public double SkinVolume;
    public Vec3 SkinMoment;
    public double Area;

    /// <summary>Adds a thing at a place (from the middle) by its energy and the two derivatives in its height.</summary>
    public void Add(Vec3 place, double energy, double force, double stiffness)
    {
        Energy += energy;
        ForceUp -= force;
        Pull += force * place;
        if (stiffness == 0) return;
        double p1 = Vec3.Dot(place, E1), p2 = Vec3.Dot(place, E2);
        Kdd += stiffness;
        Kd1 -= stiffness * p1;
        Kd2 -= stiffness * p2;
        K11 += stiffness * p1 * p1;
        K12 += stiffness * p1 * p2;
        K22 += stiffness * p2 * p2;
    }

    /// <summary>Gradient in the tangent plane of n (E1, E2), d being at its equilibrium.</summary>
    public readonly (double G1, double G2) Slope => (Vec3.Dot(Pull, E1), Vec3.Dot(Pull, E2));

    /// <summary>
    /// Curvature of the energy over the sphere of n with d following (Schur complement), the sphere's own bend
    /// −(n·∇E) included: in a floating body that is weight × (GM) in its two directions.
    /// </summary>
    public readonly (double H11, double H12, double H22) Curvature
    {
        get
        {
            double bend = Vec3.Dot(Pull, N);
            double a = Kdd > 0 ? 1 / Kdd : 0;
            return (K11 - a * Kd1 * Kd1 - bend, K12 - a * Kd1 * Kd2, K22 - a * Kd2 * Kd2 - bend);
        }
    }

    /// <summary>Curvature along a unit direction of the tangent plane, g·mm.</summary>
    public readonly double CurvatureAlong(Vec3 direction)
    {
        (double h11, double h12, double h22) = Curvature;
        double c1 = Vec3.Dot(direction, E1), c2 = Vec3.Dot(direction, E2);
        return h11 * c1 * c1 + 2 * h12 * c1 * c2 + h22 * c2 * c2;
    }
}
