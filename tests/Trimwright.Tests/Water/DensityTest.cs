using System.Globalization;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Water;

/// <summary>
/// Check 1. Sources: UNESCO Technical Papers in Marine Science 44 (Fofonoff &amp; Millard 1983) for EOS-80's check values;
/// IOC, SCOR &amp; IAPSO 2010 (TEOS-10) for the grid.
/// </summary>
public class DensityTest
{
    [Theory]
    [InlineData(0, 5)]
    [InlineData(0, 25)]
    [InlineData(35, 5)]
    [InlineData(35, 25)]
    public void Density_gives_the_unesco_check_values(double salinity, double t68) =>
        Tolerances.Check($"water density, S {salinity}, t68 {t68}", WaterState.AtScale68(salinity, t68));

    [Fact]
    public void Density_takes_temperatures_on_the_1990_scale_and_gives_grams_per_cubic_millimetre()
    {
        // The UNESCO value at t68 = 25 seen from the 1990 scale: t90 = t68/1.00024.
        Tolerances.Check("water density through the 1990 scale", 1e6 * new WaterState(35, 25 / 1.00024).Density);
    }

    [Fact]
    public void Density_agrees_with_teos10_over_the_grid()
    {
        IReadOnlyList<IReadOnlyDictionary<string, string>> rows = ReferenceTable.Rows("eos80_vs_teos10.csv");
        Assert.Equal(49, rows.Count);
        foreach (IReadOnlyDictionary<string, string> row in rows)
        {
            var water = new WaterState(row.Number("S_psu"), row.Number("t_ITS90_C"));
            Tolerances.Check("water density against the TEOS-10 grid", 1e6 * water.Density, row.Number("rho_TEOS10_exact"), water.ToString());
            Tolerances.Check("water density against EOS-80 in the grid", 1e6 * water.Density, row.Number("rho_EOS80_t68conv"), water.ToString());
        }
    }

    [Fact]
    public void Density_agrees_with_the_teos10_library_itself()
    {
        Outside.NeedPython("gsw", "python3-gsw");
        string printed = Outside.RunPython("""
            import gsw
            for s in range(0, 41, 4):
                for t in range(0, 31, 3):
                    print(s, t, repr(float(gsw.rho_t_exact(35.16504 / 35 * s, t, 0))))
            """);
        string[] lines = printed.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(11 * 11, lines.Length);
        foreach (string line in lines)
        {
            double[] v = [.. line.Split(' ').Select(cell => double.Parse(cell, CultureInfo.InvariantCulture))];
            Tolerances.Check("water density against the TEOS-10 library", 1e6 * new WaterState(v[0], v[1]).Density, v[2], $"S {v[0]}, {v[1]} °C");
        }
    }
}
