using Trimwright.Core.Water;

namespace Trimwright.Tests.Water;

/// <summary>
/// Check 2. Sources: Sharqawy, Lienhard &amp; Zubair 2010, Desalination and Water Treatment 16, 354; ITTC 7.5-02-01-03
/// (2011 rev 02, 2024 rev 03); Millero 1974 and a second fresh-water fit as the table's header names them.
/// </summary>
public class ViscosityTest
{
    // The table's sea water is SA 35.165 g/kg, which is practical salinity 35.
    private const double Sea = 35;

    [Fact]
    public void Viscosity_follows_sharqawy_fresh_and_salt()
    {
        foreach (IReadOnlyDictionary<string, string> row in ReferenceTable.Rows("viscosity.csv"))
        {
            double t = row.Number("t_C");
            WaterState fresh = new(0, t), sea = new(Sea, t);
            const string Name = "viscosity by Sharqawy";
            Tolerances.Check(Name, 1e3 * fresh.DynamicViscosity, row.Number("mu_fresh_Sharqawy_Pa_s"), $"fresh μ {t} °C");
            Tolerances.Check(Name, 1e-3 * fresh.KinematicViscosity, row.Number("nu_fresh_Sharqawy_m2_s"), $"fresh ν {t} °C");
            Tolerances.Check(Name, 1e3 * sea.DynamicViscosity, row.Number("mu_sea_Sharqawy_SA35.165"), $"sea μ {t} °C");
            Tolerances.Check(Name, 1e-3 * sea.KinematicViscosity, row.Number("nu_sea_Sharqawy"), $"sea ν {t} °C");
        }
    }

    [Fact]
    public void Viscosity_agrees_with_other_peoples_fits()
    {
        foreach (IReadOnlyDictionary<string, string> row in ReferenceTable.Rows("viscosity.csv"))
        {
            double t = row.Number("t_C");
            const string Name = "viscosity against other fits";
            Tolerances.Check(Name, 1e3 * new WaterState(0, t).DynamicViscosity, row.Number("mu_fresh_Korson_Pa_s"), $"fresh {t} °C");
        }
    }

    [Theory]
    [InlineData("fresh", 15)]
    [InlineData("fresh", 20)]
    [InlineData("sea", 15)]
    [InlineData("sea", 20)]
    public void Viscosity_agrees_with_the_towing_tanks_table(string water, double t) =>
        Tolerances.Check($"kinematic viscosity, ITTC, {water} {t} °C", 1e-3 * new WaterState(water == "sea" ? Sea : 0, t).KinematicViscosity);
}
