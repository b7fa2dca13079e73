using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.App.Answers;

/// <summary>A water.</summary>
/// <param name="Salinity">Practical salinity.</param>
/// <param name="TemperatureC">Temperature, °C.</param>
/// <param name="DensityGCm3">Density, g/cm³.</param>
internal sealed record WaterJson(double Salinity, double TemperatureC, double DensityGCm3)
{
    public static WaterJson Of(WaterState water) => new(water.Salinity, water.TemperatureC, Units.ToGramsPerCm3(water.Density));
}
