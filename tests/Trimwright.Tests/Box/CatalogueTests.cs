using Trimwright.Core.Box;

namespace Trimwright.Tests.Box;

/// <summary>The catalogue against the published tables, and against the ranges that makers name.</summary>
public class CatalogueTests
{
    [Fact]
    public void Woods_are_the_wood_handbooks_at_twelve_per_cent()
    {
        // USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), tables 4-3, 5-3, 5-5, eqs. 4-13 and 4-14.
        int rows = 0;
        foreach (IReadOnlyDictionary<string, string> row in ReferenceTable.Rows("wood_density.csv"))
        {
            BoxWood wood = Assert.Single(Catalogue.Woods, w => w.Name == row["species"]);
            Tolerances.Check("catalogue, wood density", wood.DensityGPerCm3!.Value * 1000, row.Number("rho12_kg_m3_from_table_or_eq4-13"), wood.Name);
            // Two basic gravities are from memory, and say so.
            bool remembered = row["flag"].Contains("MEMORY", StringComparison.Ordinal);
            Assert.True(remembered == (wood.Source == Source.Typical), $"{wood.Name} is {wood.Source}, the table says {row["flag"]}");
            rows++;
        }
        Assert.Equal(22, rows);
    }

    [Theory]
    [InlineData("maple, sugar", 0.63)]
    [InlineData("maple, black", 0.57)]
    [InlineData("maple, red", 0.54)]
    [InlineData("maple, bigleaf", 0.48)]
    [InlineData("maple, silver", 0.47)]
    public void Maples_are_their_gravity_at_twelve_per_cent_with_its_water(string name, double gravity)
    {
        // Wood Handbook, table 5-3, and eq. 4-14: ρ = G(1 + x/100).
        BoxWood wood = Assert.Single(Catalogue.Woods, w => w.Name == name);
        Tolerances.Check("catalogue, wood density", wood.DensityGPerCm3!.Value * 1000, gravity * 1120, name);
        Assert.Equal(Source.Published, wood.Source);
    }

    [Fact]
    public void Metals_have_the_densities_of_the_tables_and_lead_is_called_lead()
    {
        // metal_density.csv: handbook values as public tables restate them.
        var rows = ReferenceTable.Rows("metal_density.csv");
        Assert.Equal(rows.Select(r => r["material"]).Order(), Catalogue.Metals.Select(m => m.Id).Order());
        foreach (IReadOnlyDictionary<string, string> row in rows)
        {
            Material metal = Catalogue.Metal(row["material"]);
            Assert.InRange(metal.DensityGPerCm3 * 1000, row.Number("low_kg_m3") - 1e-6, row.Number("high_kg_m3") + 1e-6);
            Assert.Equal(metal.Name.Contains("lead", StringComparison.Ordinal), metal.IsLead);
        }
    }

    [Theory]
    [InlineData("lead-antimony-2", 0.02, 6690)]
    [InlineData("lead-antimony-5", 0.05, 6690)]
    [InlineData("lead-antimony-10", 0.10, 6690)]
    [InlineData("solder-60-40", 0.60, 7290)] // Tin of 7290 is from memory; the 7280 of other tables makes 8497, a thousandth less.
    public void Alloys_of_lead_follow_ideal_mixing(string id, double share, double other)
    {
        // 1/ρ = Σ w/ρ, exact where volumes add; closed form.
        Tolerances.Check("catalogue, alloy by ideal mixing", Catalogue.Metal(id).DensityGPerCm3 * 1000, 1 / (share / other + (1 - share) / 11340), id);
    }

    [Fact]
    public void Spring_wire_promises_the_least_strength_of_the_standard()
    {
        // EN 10270-3, grade 1.4310 NS, as restated in public tables (wire_strength.csv).
        foreach (IReadOnlyDictionary<string, string> row in ReferenceTable.Rows("wire_strength.csv"))
        {
            BoxWire wire = Assert.Single(Catalogue.Wires, w => w.Grade == "302 spring" && w.DiameterMm == row.Number("d_mm"));
            Assert.Equal(row.Number("EN10270-3_1.4310NS_Rm_min_MPa"), wire.TensileMpa);
            Assert.Equal(Source.Published, wire.SourceOf("tensile_mpa"));
        }
        // 316 is weaker than 302, and soft wire weaker than half-hard, at any diameter.
        foreach (BoxWire marine in Catalogue.Wires.Where(w => w.Grade == "316 spring"))
            Assert.True(marine.TensileMpa < Catalogue.Wires.First(w => w.Grade == "302 spring" && w.DiameterMm == marine.DiameterMm).TensileMpa);
        foreach (BoxWire soft in Catalogue.Wires.Where(w => w.Grade == "304 soft"))
            Assert.Equal(Source.Typical, soft.SourceOf("tensile_mpa"));
    }

    [Fact]
    public void Hardware_lies_in_the_ranges_that_makers_name()
    {
        // Common practice, no source: usual_hardware.csv.
        var rows = ReferenceTable.Rows("usual_hardware.csv");
        BoxHardware[] hardware = [.. Catalogue.Hooks, .. Catalogue.Rings, .. Catalogue.Swivels];
        Assert.Equal(rows.Select(r => r["id"]).Order(), hardware.Select(h => h.Id).Order());
        foreach (IReadOnlyDictionary<string, string> row in rows)
        {
            BoxHardware item = hardware.Single(h => h.Id == row["id"]);
            Assert.InRange(item.MassG, row.Number("low_g"), row.Number("high_g"));
            if (row["low_mm"].Length > 0) Assert.InRange(item.LengthMm, row.Number("low_mm"), row.Number("high_mm"));
            if (row["low_kg"].Length > 0) Assert.InRange(item.StrengthKg!.Value, row.Number("low_kg"), row.Number("high_kg"));
            Assert.All(item.Numbers, n => Assert.Equal(Source.Typical, item.SourceOf(n.Key)));
        }
    }

    [Fact]
    public void A_metre_of_leader_weighs_in_the_water_what_makers_reckon()
    {
        // Common practice, no source: nylon of 1.05, 1.22 and 1.37 mm pulls 0.10, 0.13, 0.17 g a metre in sea water of 1.025,
        // fluorocarbon 0.65, 0.88, 1.1 g.
        (string Material, double Diameter, double Grams)[] known =
            [("nylon", 1.05, 0.10), ("nylon", 1.22, 0.13), ("nylon", 1.37, 0.17), ("fluorocarbon", 1.05, 0.65), ("fluorocarbon", 1.22, 0.88), ("fluorocarbon", 1.37, 1.1)];
        foreach ((string material, double diameter, double grams) in known)
        {
            double density = Catalogue.Leaders.First(l => l.Material == material).DensityGPerCm3;
            Assert.Equal(grams, Math.PI / 4 * diameter * diameter * (density - 1.025), 0.015);
        }
    }

    [Fact]
    public void The_starter_is_a_sound_box_of_everything_without_a_note()
    {
        var reading = BoxFile.Read(BoxFile.Write(Catalogue.Starter));
        Assert.Empty(reading.Faults);
        Assert.Empty(reading.Warnings);
        MakersBox box = reading.Value!;
        TestContext.Current.TestOutputHelper?.WriteLine($"{box.Items.Count()} items, {box.Weights.Length} weights from {box.Weights.Min(w => w.Mass.Value):F2} to {box.Weights.Max(w => w.Mass.Value):F1} g");
        Assert.True(box.Woods.Length >= 30 && box.Weights.Length >= 50 && box.Stock.Length >= 15);
        Assert.Contains(box.Weights, w => !w.IsLead);
        Assert.All(box.Items, i => Assert.NotEqual(Source.Measured, i.Item.Source));
    }
}
