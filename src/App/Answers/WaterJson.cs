using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.App.Answers;

/// <summary>A water.</summary>
/// <param name="Salinity">Practical salinity.</param>
/// <param name="TemperatureC">°C.</param>
/// <param name="DensityGCm3">g/cm³.</param>
internal sealed record WaterJson(Rounded Salinity, Rounded TemperatureC, Rounded DensityGCm3)
{
    public static WaterJson Of(WaterState water) => new(water.Salinity, water.TemperatureC, Units.ToGramsPerCm3(water.Density));
}
