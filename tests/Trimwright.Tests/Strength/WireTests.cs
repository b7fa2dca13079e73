using Trimwright.Core.Strength;

namespace Trimwright.Tests.Strength;

/// <summary>
/// Check 17. Sources: EN 10270-3 and ASTM A313, restated in public tables; the power law, Shigley, Mechanical Engineering
/// Design, table 10-4. Soft and galvanised strengths are typical values, from memory: only their arithmetic is checked.
/// </summary>
public class WireTests
{
    [Fact]
    public void Strength_breaking_load_and_moments_of_nine_diameters_come_out_as_printed()
    {
        IReadOnlyList<IReadOnlyDictionary<string, string>> rows = ReferenceTable.Rows("wire_strength.csv");
        Assert.Equal(9, rows.Count);
        foreach (IReadOnlyDictionary<string, string> row in rows)
        {
            double d = row.Number("d_mm");
            string name = row["d_mm"] + " mm";
            WireStrength spring = WireStrength.Of(d, "1.4310 NS")!, soft = WireStrength.Of(d, "soft")!, galvanised = WireStrength.Of(d, "galvanised")!;
            Assert.Equal(Basis.Published, spring.TensileBasis);
            Tolerances.Check("wire, least strength, MPa", spring.Tensile, row.Number("EN10270-3_1.4310NS_Rm_min_MPa"), name);
            Tolerances.Check("wire, greatest strength, MPa", WireTable.En14310.RowOf(d)!.Value.Most!.Value, row.Number("page_Rm_max_MPa"), name);
            Tolerances.Check("wire, strength by the power law, MPa", WireTable.PowerLaw302(d)!.Value, row.Number("Rm_power_law_302_MPa"), name);
            Tolerances.Check("wire, area, mm²", spring.Area, row.Number("area_mm2"), name);
            Tolerances.Check("wire, breaking load, N", spring.Break, row.Number("break_N_at_Rm_min"), name);
            Tolerances.Check("wire, breaking load, N", soft.Break, row.Number("break_N_soft_600MPa"), name + " soft");
            Tolerances.Check("wire, breaking load, N", galvanised.Break, row.Number("break_N_galv_soft_400MPa"), name + " galvanised");
            double yield = 0.75 * row.Number("EN10270-3_1.4310NS_Rm_min_MPa");
            Tolerances.Check("wire, moments at first yield and fully plastic, N·mm", spring.PlasticMoment, row.Number("Mp_Nmm_at_0.75Rm_min"), name);
            Tolerances.Check("wire, moments at first yield and fully plastic, N·mm", Bending.YieldMoment(d, yield), row.Number("My_Nmm_at_0.75Rm_min"), name);
        }
    }

    // ASTM A313 as restated, thousands of pounds to the square inch converted; EN 10270-3 for 1.4401.
    [Theory]
    [InlineData("304", 1.0, 1896, 2096)]
    [InlineData("304", 1.2, 1841, 2034)]
    [InlineData("304", 1.6, 1779, 1965)]
    [InlineData("304", 1.8, 1724, 1917)]
    [InlineData("304", 2.0, 1696, 1896)]
    [InlineData("316", 0.8, 1620, 1825)]
    [InlineData("316", 1.25, 1550, 1760)]
    [InlineData("316", 1.6, 1480, 1690)]
    [InlineData("316", 2.0, 1450, 1655)]
    [InlineData("316", 2.2, 1415, 1620)]
    [InlineData("316", 2.5, 1380, 1585)]
    [InlineData("1.4401", 1.6, 1450, null)]
    [InlineData("1.4401", 2.0, 1400, null)]
    [InlineData("1.4401", 2.5, 1350, null)]
    [InlineData("1.4401", 3.0, 1300, null)]
    public void The_other_tables_hold_what_was_printed(string table, double diameter, int least, int? most)
    {
        WireTable of = table switch { "304" => WireTable.Astm304, "316" => WireTable.Astm316, _ => WireTable.En14401 };
        WireRow row = of.RowOf(diameter)!.Value;
        Assert.Equal(least, row.Least);
        Assert.Equal(most, row.Most is { } greatest ? (int)greatest : null);
        Assert.Contains(" mm", of.Cite(row), StringComparison.Ordinal);
    }

    [Fact]
    public void A_diameter_between_rows_takes_the_weaker_one_and_outside_the_table_there_is_none()
    {
        // ASTM A313 302/304 was seen to 1.04 mm and from 1.14 mm on.
        Assert.Equal(1841, WireTable.Astm304.RowOf(1.1)!.Value.Least);
        Assert.Null(WireTable.Astm304.RowOf(0.9));
        Assert.Null(WireTable.Astm304.RowOf(2.1));
        Assert.Null(WireTable.En14310.RowOf(3.1));
        foreach (WireTable table in new[] { WireTable.En14310, WireTable.En14401, WireTable.Astm304, WireTable.Astm316 })
            for (int i = 1; i < table.Rows.Length; i++)
            {
                Assert.True(table.Rows[i].From >= table.Rows[i - 1].UpTo);
                Assert.True(table.Rows[i].Least < table.Rows[i - 1].Least, "thicker wire is weaker, mm² for mm²");
            }
    }

    [Fact]
    public void Of_two_tables_the_one_that_promises_less_counts()
    {
        Assert.Equal(1750, WireStrength.Of(1.6, "304 spring")!.Tensile);
        Assert.Contains("1.4310", WireStrength.Of(1.6, "304 spring")!.Source, StringComparison.Ordinal);
        // At 2.0 mm EN's least is 1700 and ASTM's 1696.
        Assert.Equal(1696, WireStrength.Of(2.0, "304 spring")!.Tensile);
        Assert.Equal(1450, WireStrength.Of(1.6, "316 spring")!.Tensile);
        Assert.Equal(1620, WireStrength.Of(0.7, "316 spring")!.Tensile);
        // Thinner than any row of 302/304: the power law.
        Assert.Equal(1867 / Math.Pow(0.5, 0.146), WireStrength.Of(0.5, "302 spring")!.Tensile, 1e-9);
        Assert.Null(WireStrength.Of(0.5, "316 spring"));
        Assert.Null(WireStrength.Of(5.5, "304 spring"));
    }

    [Theory]
    [InlineData("304 half-hard", WireAlloy.Stainless304, WireTemper.HalfHard, GradeDoubt.None)]
    [InlineData("304 1/2 hard", WireAlloy.Stainless304, WireTemper.HalfHard, GradeDoubt.None)]
    [InlineData("½ hard 316L", WireAlloy.Stainless316, WireTemper.HalfHard, GradeDoubt.None)]
    [InlineData("316 spring", WireAlloy.Stainless316, WireTemper.Spring, GradeDoubt.None)]
    [InlineData("302 Spring Temper", WireAlloy.Stainless304, WireTemper.Spring, GradeDoubt.None)]
    [InlineData("EN 10270-3 1.4310 NS", WireAlloy.Stainless304, WireTemper.Spring, GradeDoubt.None)]
    [InlineData("1.4401 spring", WireAlloy.Stainless316, WireTemper.Spring, GradeDoubt.None)]
    [InlineData("spring", WireAlloy.Stainless316, WireTemper.Spring, GradeDoubt.AlloyNotStated)]
    [InlineData("soft", WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.None)]
    [InlineData("304 annealed", WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.None)]
    [InlineData("316", WireAlloy.Stainless316, WireTemper.Soft, GradeDoubt.TemperNotStated)]
    [InlineData("308 1/4-hard", WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.TemperBetween)]
    [InlineData("304 hard", WireAlloy.Stainless304, WireTemper.HalfHard, GradeDoubt.TemperBetween)]
    [InlineData("stainless", WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.TemperNotStated)]
    [InlineData("galvanised fence wire", WireAlloy.Galvanised, WireTemper.Soft, GradeDoubt.None)]
    [InlineData("brass", WireAlloy.Other, WireTemper.Soft, GradeDoubt.NotKnown)]
    [InlineData("music wire, spring", WireAlloy.Other, WireTemper.Soft, GradeDoubt.NotKnown)]
    [InlineData("from the coil in the shed", WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.NotKnown)]
    [InlineData("", WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.NothingStated)]
    [InlineData(null, WireAlloy.Stainless304, WireTemper.Soft, GradeDoubt.NothingStated)]
    public void A_grade_is_recognised_in_the_makers_own_words_and_what_is_not_said_is_taken_as_weaker(
        string? text, WireAlloy alloy, WireTemper temper, GradeDoubt doubt) =>
        Assert.Equal(new WireGrade(alloy, temper, doubt), WireGrade.Recognise(text));

    [Fact]
    public void Harder_wire_is_stronger_whatever_its_diameter_and_its_figures_say_how_sure_they_are()
    {
        foreach (double d in new[] { 1.0, 1.3, 1.6, 2.0, 2.5 })
        {
            double[] breaks = [.. new[] { "galvanised", "soft", "304 half-hard", "316 spring", "304 spring" }.Select(g => WireStrength.Of(d, g)!.Break)];
            Assert.Equal(breaks.Order(), breaks);
        }
        Assert.Equal(Basis.FromMemory, WireStrength.Of(1.6, "soft")!.TensileBasis);
        Assert.Equal(Basis.FromMemory, WireStrength.Of(1.6, "304 half-hard")!.TensileBasis);
        Assert.Null(WireStrength.Of(1.6, "brass"));
    }
}
