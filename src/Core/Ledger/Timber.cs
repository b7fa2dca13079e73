using Trimwright.Core.Quantities;

namespace Trimwright.Core.Ledger;

/// <summary>
/// How wood's weight and size follow its moisture. Equations of USDA Forest Products Laboratory, Wood Handbook
/// (FPL-GTR-282, 2021), chapter 4, numbered as there. Moisture is per cent of the oven-dry mass; specific gravity is
/// oven-dry mass over volume, relative to water. The <em>basic</em> gravity takes the green volume, the handbook's
/// table values at 12 % take the volume at 12 %: mixing the two costs 5 to 15 % of density.
/// </summary>
public static class Timber
{
    /// <summary>Moisture at which the cell walls are full, %: above it wood gets heavier but no larger.</summary>
    public const double FibreSaturation = 30;

    /// <summary>Specific gravity of the cell wall itself.</summary>
    public const double CellWall = 1.54;

    /// <summary>Shrinkage in volume from green to oven-dry, %, of wood of that basic gravity (eq. 4-12, Stamm).</summary>
    /// <param name="basic">Basic gravity, 0.05 to 1.2. A table's own shrinkage, where there is one, is better.</param>
    public static double VolumeShrinkage(double basic) => 26.5 * basic;

    /// <summary>Shrinkage from green to a moisture, % of the green size (eq. 4-9); none above fibre saturation.</summary>
    /// <param name="whole">Shrinkage from green to oven-dry, %: in volume, or along one direction of the grain.</param>
    /// <param name="moisture">%, 0 and more.</param>
    public static double ShrinkageAt(double whole, double moisture) => whole * Math.Max(0, 1 - moisture / FibreSaturation);

    /// <summary>Specific gravity on the volume at a moisture (eq. 4-11).</summary>
    /// <param name="basic">Basic gravity.</param>
    /// <param name="volumeShrinkage">From green to oven-dry, %, by table 4-3.</param>
    /// <param name="moisture">%, 0 and more.</param>
    public static double GravityAt(double basic, double volumeShrinkage, double moisture) =>
        basic / (1 - ShrinkageAt(volumeShrinkage, moisture) / 100);

    /// <summary>
    /// Specific gravity on the volume at a moisture, from the basic gravity alone (eq. 4-13). Up to 9 % low for woods
    /// that shrink much (basswood): prefer a table's value at 12 %.
    /// </summary>
    public static double GravityAt(double basic, double moisture) => GravityAt(basic, VolumeShrinkage(basic), moisture);

    /// <summary>Density, g/mm³, of wood with its water (eq. 4-14).</summary>
    /// <param name="gravity">Specific gravity on the volume at that moisture: a table's at 12 %, or by <see cref="GravityAt(double, double)"/>.</param>
    /// <param name="moisture">%, 0 and more.</param>
    public static double Density(double gravity, double moisture) =>
        Units.FromGramsPerCm3(gravity * (1 + moisture / 100));

    /// <summary>The most water that wood can hold, % (eq. 4-3): every cavity full.</summary>
    public static double MostMoisture(double basic) => 100 * (CellWall - basic) / (CellWall * basic);

    /// <summary>Moisture at which wood sinks in fresh water, % (eq. 4-4).</summary>
    public static double SinkMoisture(double basic) => 100 * (1 - basic) / basic;

    /// <summary>
    /// Moisture, %, that wood comes to in air (eq. 4-5, a fit of the table for Sitka spruce and near enough for others).
    /// </summary>
    /// <param name="temperatureC">°C, 0 to 55.</param>
    /// <param name="humidity">Relative humidity as a fraction, 0 to 0.95.</param>
    public static double EquilibriumMoisture(double temperatureC, double humidity)
    {
        double t = temperatureC;
        double w = 349 + t * (1.29 + t * 0.0135);
        double k = 0.805 + t * (0.000736 - t * 0.00000273);
        double k1 = 6.27 - t * (0.00938 + t * 0.000303);
        double k2 = 1.91 + t * (0.0407 - t * 0.000293);
        double kh = k * humidity, first = k1 * kh, second = k1 * k2 * kh * kh;
        return 1800 / w * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second));
    }
}
