using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Sinking;

/// <summary>
/// Drag and fall of a smooth sphere: loose shot and beads, and a check of everything else. Clift, Grace &amp; Weber 1978,
/// Bubbles, Drops and Particles, table 5.2, the drag crisis included.
/// </summary>
public static class SphereDrag
{
    /// <summary>Drag coefficient on the sphere's section by its Reynolds number, above 0.</summary>
    public static double Coefficient(double reynolds)
    {
        double w = Math.Log10(reynolds);
        return reynolds switch
        {
            < 0.01 => 3.0 / 16 + 24 / reynolds,
            < 20 => 24 / reynolds * (1 + 0.1315 * Math.Pow(reynolds, 0.82 - 0.05 * w)),
            < 260 => 24 / reynolds * (1 + 0.1935 * Math.Pow(reynolds, 0.6305)),
            < 1500 => Math.Pow(10, 1.6435 + w * (-1.1242 + w * 0.1558)),
            < 1.2e4 => Math.Pow(10, -2.4571 + w * (2.5558 + w * (-0.9295 + w * 0.1049))),
            < 4.4e4 => Math.Pow(10, -1.9181 + w * (0.6370 - w * 0.0636)),
            < Crisis => Math.Pow(10, -4.3390 + w * (1.5809 - w * 0.1546)),
            < 4e5 => 29.78 - 5.3 * w,
            < 1e6 => 0.1 * w - 0.49,
            _ => 0.19 - 8e4 / reynolds,
        };
    }

    private const double Crisis = 3.38e5;

    /// <summary>
    /// Terminal speed, mm/ms: v² = 4gD|ρ_s/ρ − 1|/(3C(Re)), by the given drag; where several balance in the drag crisis, the one
    /// below it.
    /// </summary>
    /// <param name="diameter">mm.</param>
    /// <param name="density">Of the sphere, g/mm³.</param>
    /// <param name="water">Density of the water, g/mm³.</param>
    /// <param name="viscosity">Kinematic, mm²/ms.</param>
    /// <param name="drag">Drag coefficient by Reynolds number; null: <see cref="Coefficient"/>.</param>
    public static double TerminalSpeed(double diameter, double density, double water, double viscosity, Func<double, double>? drag = null)
    {
        drag ??= Coefficient;
        double push = 4 * Units.Gravity * diameter * Math.Abs(density / water - 1) / 3;
        if (push == 0) return 0;
        double Excess(double logSpeed)
        {
            double v = Math.Exp(logSpeed);
            return v * v * drag(v * diameter / viscosity) - push;
        }
        // No sphere is faster than Stokes's. v²·C rises with v all the way to the drag crisis, where speed may jump.
        double stokes = Math.Log(push * diameter / (24 * viscosity)), crisis = Math.Log(Crisis * viscosity / diameter);
        double top = Excess(crisis) >= 0 ? crisis : Math.Log(1e10 * viscosity / diameter);
        return Math.Exp(Roots.Between(Excess, Math.Min(stokes, crisis) - 20, top, 1e-12));
    }
}
