using Trimwright.Core.Quantities;

namespace Trimwright.Core.Strength;

/// <summary>What a figure stands on, the surest first; a figure is no surer than the least sure thing in it.</summary>
public enum Basis
{
    /// <summary>Stated in the design.</summary>
    Given,

    /// <summary>From a published table or equation.</summary>
    Published,

    /// <summary>A typical value from memory: for comparing, never a limit.</summary>
    FromMemory,
}

/// <summary>A load with the formula that gave it and what it stands on.</summary>
/// <param name="Newtons">N.</param>
/// <param name="Formula">In the paper's symbols.</param>
/// <param name="Source">The publication, or "typical".</param>
/// <param name="Basis">How sure.</param>
public sealed record Figure(double Newtons, string Formula, string Source, Basis Basis)
{
    public double Kgf => Newtons / Units.KilogramForce;

    /// <summary>A load that the design states, kgf.</summary>
    public static Figure Stated(double kgf) => new(kgf * Units.KilogramForce, "strength_kgf", "the lure file", Basis.Given);
}
