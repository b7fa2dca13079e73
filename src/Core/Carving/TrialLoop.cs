using Trimwright.Core.Strength;

namespace Trimwright.Core.Carving;

/// <summary>
/// How far a coil springs open when an eye comes off its pin.
/// <para>
/// On the pin the wire's middle line has the curvature 1/r_p, r_p = (pin + d)/2, and carries the plastic moment M_p. Let go, it
/// unbends elastically by κ = M_p/(E·I), I = πd⁴/64, to 1/r = 1/r_p − κ. M_p hardly depends on the pin, so κ is the coil's own:
/// one trial loop gives it, and with it the pin for any eye. Plastic bending with elastic recovery, as in texts on bending of
/// bars; here for full plasticity, which tight eyes (r of 2 d) have reached.
/// </para>
/// </summary>
/// <param name="Diameter">d, mm.</param>
/// <param name="Recovery">κ, 1/mm.</param>
public readonly record struct TrialLoop(double Diameter, double Recovery)
{
    // Stainless wire, EN 10270-3 (1.4310); for other metals the trial decides.
    private const double Modulus = 185_000;

    /// <summary>What a loop that was bent round a pin and then measured inside tells of its coil.</summary>
    public static TrialLoop Measured(double diameter, double pin, double inside) =>
        new(diameter, 2 / (pin + diameter) - 2 / (inside + diameter));

    /// <summary>What to expect before a trial, from the wire's yield strength (a typical value, from memory).</summary>
    public static TrialLoop Expected(WireStrength wire) =>
        new(wire.Diameter, wire.PlasticMoment / ElasticRing.Stiffness(wire.Diameter, Modulus));

    /// <summary>The pin, mm, that leaves an eye of this inside diameter.</summary>
    public double PinFor(double inside) => 2 / (2 / (inside + Diameter) + Recovery) - Diameter;

    /// <summary>The inside diameter, mm, that a pin leaves; infinite where the wire springs straight again.</summary>
    public double EyeFrom(double pin) => 2 / (pin + Diameter) <= Recovery ? double.PositiveInfinity : 2 / (2 / (pin + Diameter) - Recovery) - Diameter;
}
