using Trimwright.Core.Numerics;

namespace Trimwright.Core.Strength;

/// <summary>
/// Limit analysis of bent round wire: loads at which enough plastic hinges have formed for it to bend without more load.
/// Thin rings: R is the mean radius of the eye. The steeper stress inside a tight bend (R/d of 2) starts the yielding
/// earlier and leaves these loads as they are.
/// </summary>
public static class Bending
{
    /// <summary>Moment at which the outermost fibre yields, N·mm: M_y = σ_y·π·d³/32.</summary>
    public static double YieldMoment(double diameter, double yield) => yield * Math.PI * Math.Pow(diameter, 3) / 32;

    /// <summary>Moment at which the whole section yields, N·mm: M_p = σ_y·d³/6; 16/(3π) of M_y.</summary>
    public static double PlasticMoment(double diameter, double yield) => yield * Math.Pow(diameter, 3) / 6;

    /// <summary>
    /// Load, N, at which an open eye begins to unbend: one leg carries it all through the eye's centre, so the moment is
    /// greatest a quarter turn on, M = F·R, and one hinge there is enough: F = M_p/R.
    /// </summary>
    public static double Opens(double plasticMoment, double radius) => plasticMoment / radius;

    /// <summary>
    /// The same with the leg's own pull taken off the hinge. A round section that carries N beside M has its neutral line
    /// moved to the angle t: N/N_p = 1 − 2(t − sin t·cos t)/π, M/M_p = sin³t, with N_p = σ_y·π·d²/4 and here N = F = M/R.
    /// </summary>
    public static double OpensWithPull(double diameter, double yield, double radius)
    {
        double moment = PlasticMoment(diameter, yield), pull = yield * Math.PI * diameter * diameter / 4;
        double Excess(double t)
        {
            (double sin, double cos) = Math.SinCos(t);
            return moment * sin * sin * sin / radius - pull * (1 - 2 * (t - sin * cos) / Math.PI);
        }
        double at = Roots.Between(Excess, 0, Math.PI / 2, 1e-14);
        return moment * Math.Pow(Math.Sin(at), 3) / radius;
    }

    /// <summary>
    /// Load, N, at which a closed eye begins to go oval: hinges under both loads and at both sides. Each quarter turns by
    /// φ while the load moves R·φ a side, so 2·W·R·φ = 8·M_p·φ: W = 4·M_p/R, four times the open eye's.
    /// </summary>
    public static double PullsOval(double plasticMoment, double radius) => 4 * plasticMoment / radius;

    /// <summary>
    /// Load, N, at which a wire held fast on both sides of an open slot bends into it under a swivel at its middle: hinges
    /// at both ends and under the load, W = 8·M_p/s.
    /// </summary>
    public static double BendsAcross(double plasticMoment, double span) => 8 * plasticMoment / span;
}

/// <summary>
/// A closed thin ring pulled by two opposite loads, while it is elastic (Roark's Formulas for Stress and Strain, table of
/// circular rings, case 1). Angles from the load's line; a moment that flattens the bend is positive.
/// </summary>
public static class ElasticRing
{
    /// <summary>Moment at an angle from the load, N·mm: W·R·(1/π − ½·sin θ) for θ from 0 to π.</summary>
    public static double MomentAt(double load, double radius, double angle) =>
        load * radius * (1 / Math.PI - Math.Abs(Math.Sin(angle)) / 2);

    /// <summary>By how much the diameter along the load grows, mm: (π/4 − 2/π)·W·R³/EI.</summary>
    /// <param name="load">W, N.</param>
    /// <param name="radius">R, mm.</param>
    /// <param name="stiffness">E·I, N·mm².</param>
    public static double GrowsAlong(double load, double radius, double stiffness) =>
        (Math.PI / 4 - 2 / Math.PI) * load * Math.Pow(radius, 3) / stiffness;

    /// <summary>By how much the diameter across the load shrinks, mm: (2/π − ½)·W·R³/EI.</summary>
    public static double ShrinksAcross(double load, double radius, double stiffness) =>
        (2 / Math.PI - 0.5) * load * Math.Pow(radius, 3) / stiffness;

    /// <summary>E·I of round wire, N·mm².</summary>
    /// <param name="diameter">mm.</param>
    /// <param name="modulus">E, MPa: 185 000 for 1.4310, 180 000 for 1.4401 (EN 10270-3).</param>
    public static double Stiffness(double diameter, double modulus) => modulus * Math.PI * Math.Pow(diameter, 4) / 64;
}
