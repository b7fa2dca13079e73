using Trimwright.Core.Finish;

namespace Trimwright.Tests.Finish;

public class DewPointTests
{
    [Fact]
    public void The_dew_point_is_that_of_two_published_sets_of_Magnus_coefficients()
    {
        var rows = ReferenceTable.Rows("dew_point.csv");
        Assert.True(rows.Count > 50);
        foreach (IReadOnlyDictionary<string, string> row in rows)
        {
            double dew = DewPoint.Of(row.Number("t_C"), row.Number("RH_pct") / 100);
            string at = $"{row["t_C"]} °C, {row["RH_pct"]} %";
            Tolerances.Check("dew point against Alduchov & Eskridge", dew, row.Number("dew_point_C_Alduchov1996"), at);
            Tolerances.Check("dew point against Sonntag", dew, row.Number("dew_point_C_Sonntag1990"), at);
        }
    }

    [Fact]
    public void Saturated_air_is_at_its_dew_point_and_the_most_humidity_leaves_just_the_margin()
    {
        for (double t = -10; t <= 45; t += 2.5)
        {
            Assert.Equal(t, DewPoint.Of(t, 1), 1e-9);
            Assert.Equal(DewPoint.Margin, t - DewPoint.Of(t, DewPoint.MostHumidity(t)), 1e-9);
            Assert.True(DewPoint.Of(t, 0.5) < DewPoint.Of(t, 0.6));
        }
    }
}
