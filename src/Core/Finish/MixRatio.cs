using Trimwright.Core.Box;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Finish;

/// <summary>
/// Resin to hardener, by volume for syringes and by weight for a scale. With liquid densities ρ_r and ρ_h the ratio by
/// weight is ρ_r/ρ_h times that by volume: 2:1 by volume can be 100:47 by weight.
/// </summary>
/// <param name="ByVolume">Resin over hardener; null: not known.</param>
/// <param name="ByWeight">Resin over hardener; null: not known.</param>
/// <param name="Density">Of the mix, g/mm³.</param>
public sealed record MixRatio(double? ByVolume, double? ByWeight, double Density)
{
    /// <summary>A product's ratio, the missing one from the densities; null: nothing to mix, or nobody knows how.</summary>
    public static MixRatio? Of(BoxFinish product)
    {
        double? volume = Quotient(product.RatioByVolume), weight = Quotient(product.RatioByWeight);
        if (volume is null && weight is null) return null;
        if (product is not { ResinDensityGPerCm3: { } resin, HardenerDensityGPerCm3: { } hardener })
            // The mix of a resin without solvent sets to about its own volume, so the film's density serves.
            return new(volume, weight, Units.FromGramsPerCm3(product.DensityGPerCm3));
        double byVolume = volume ?? weight!.Value * hardener / resin;
        double mixed = (byVolume * resin + hardener) / (byVolume + 1);
        return new(byVolume, weight ?? byVolume * resin / hardener, Units.FromGramsPerCm3(mixed));
    }

    private static double? Quotient(IReadOnlyList<double>? parts) => parts is { Count: 2 } ? parts[0] / parts[1] : null;
}
