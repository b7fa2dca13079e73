using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;

namespace Trimwright.Tests.Sinking;

/// <summary>Added mass, Munk's moment and drag curves against published values.</summary>
public class PublishedTests
{
    [Fact]
    public void Added_mass_of_spheroids_is_Lambs()
    {
        foreach (var row in ReferenceTable.Rows("lamb_spheroid_added_mass.csv"))
        {
            double a = row.Number("a_over_b");
            AddedMass added = AddedMass.Of(a, 1, 1);
            string at = $"a/b {a}";
            Tolerances.Check("added mass of a spheroid, along", added.Along.X, row.Number("k1_axial"), at);
            Tolerances.Check("added mass of a spheroid, across", added.Along.Z, row.Number("k2_transverse"), at);
            // Added inertia = k'·ρV(a² + b²)/5.
            Tolerances.Check("added mass of a spheroid, turning", added.About.Y / ((a * a + 1) / 5), row.Number("kprime_rotation"), at);
            Assert.Equal(0, added.About.X, 1e-12);
        }
    }

    [Fact]
    public void Added_mass_of_the_general_ellipsoid_is_the_worked_example()
    {
        AddedMass added = AddedMass.Of(75, 20, 12);
        Tolerances.Check("added mass of an ellipsoid, along", added.Along.X);
        Tolerances.Check("added mass of an ellipsoid, broad side leading edge", added.Along.Y);
        Tolerances.Check("added mass of an ellipsoid, broadside", added.Along.Z);
    }

    [Fact]
    public void Munks_moment_is_the_worked_value()
    {
        // Spheroid a = 75, b = 15 mm, 1000 kg/m³, 1 m/s, 10° of incidence: 0.0100952 N·m, nose up.
        FallingBody body = Spheroid.Of(1e-3, 1e-3, weight: 70, ahead: 0) with { Model = new DragModel { Wake = 1 } };
        double alpha = 10 * Math.PI / 180;
        Vec3 moment = Flow.Munk(body, new Vec3(-Math.Cos(alpha), 0, -Math.Sin(alpha)));
        Tolerances.Check("Munk's moment, N·mm", moment.Y);
        Assert.Equal(0, moment.X, 1e-9);
        Assert.Equal(0, moment.Z, 1e-9);
    }

    [Fact]
    public void Nineteen_spheres_fall_at_their_published_speeds()
    {
        var rows = ReferenceTable.Rows("sphere_terminal_velocity.csv");
        Assert.Equal(19, rows.Count);
        foreach (var row in rows)
        {
            double water = row.Number("rho_water") * 1e-6, viscosity = row.Number("nu_water") * 1e3;
            double v = SphereDrag.TerminalSpeed(row.Number("D_mm"), row.Number("rho_p") * 1e-6, water, viscosity);
            string which = $"{row["material"]} {row["D_mm"]} mm";
            Tolerances.Check("sphere's terminal speed by its own correlation", v, row.Number("v_CGW_m_s"), which);
            Tolerances.Check("sphere's terminal speed, other correlations", v, row.Number("v_BrownLawler_m_s"), which + ", Brown & Lawler");
            Tolerances.Check("sphere's terminal speed, other correlations", v, row.Number("v_HaiderLevenspiel_m_s"), which + ", Haider & Levenspiel");
        }
    }

    [Fact]
    public void Coal_in_water_falls_as_in_the_problem_set()
    {
        // Cutlip & Shacham, problem set for the ASEE 1997, problem 5a, with its own drag correlation.
        double v = SphereDrag.TerminalSpeed(0.208, 1800e-6, 994.6e-6, 8.931e-4 / 994.6 * 1e3, re => 24 / re * (1 + 0.14 * Math.Pow(re, 0.7)));
        Tolerances.Check("coal in water, m/s", v);
    }

    [Fact]
    public void Drag_across_a_cylinder_is_Wieselsbergers()
    {
        foreach (var row in ReferenceTable.Rows("cylinder_crossflow_drag.csv"))
            Tolerances.Check("cylinder across the flow", CrossFlow.OfCylinder(Math.Log(row.Number("Re"))),
                row.Number("Cd_interp_Wieselsberger1922_digitised"), $"Re {row["Re"]}");
    }

    [Theory]
    // Aeronautical Engineer's Data Book, fig. 5.13b, and Wieselsberger's data digitised.
    [InlineData(1, 0.525)]
    [InlineData(2, 0.567)]
    [InlineData(5, 0.617)]
    [InlineData(10, 0.683)]
    [InlineData(20, 0.778)]
    [InlineData(40, 0.817)]
    public void A_short_cylinders_share_of_drag(double slenderness, double share) =>
        Tolerances.Check("finite length's share of drag", CrossFlow.FiniteLength(slenderness), share, $"L/D {slenderness}");

    [Fact]
    public void Sections_drag_as_measured()
    {
        // Delany & Sorensen 1953: square about 2.1, diamond 1.6, round 1.2.
        Assert.Equal(1, SectionCurve.Superellipse.Drag(2), 1e-12);
        Assert.Equal(1.6 / 1.2, SectionCurve.Superellipse.Drag(1), 1e-12);
        Assert.InRange(SectionCurve.Superellipse.Drag(20), 1.55, 2.1 / 1.2);
    }
}
