using Trimwright.Core.Strength;

namespace Trimwright.Tests.Strength;

/// <summary>Check 19. Source: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), chapter 8, metric forms as restated.</summary>
public class WoodHoldTests
{
    // D 2 mm, L 20 mm; gravities of table 5-3, balsa's from memory.
    [Theory]
    [InlineData("western redcedar", 0.32, 443, 125, 186, 14.1)]
    [InlineData("basswood", 0.37, 593, 180, 249, 18.4)]
    [InlineData("yellow-poplar", 0.42, 764, 248, 321, 23.2)]
    [InlineData("black ash", 0.49, 1040, 364, 437, 30.8)]
    [InlineData("white ash", 0.60, 1559, 604, 655, 44.7)]
    [InlineData("balsa", 0.16, 111, 22, 47, 3.9)]
    public void Screw_nail_drift_pin_and_dowel_come_out_as_printed(string wood, double g, double screw, double nail, double pin, double bearing)
    {
        Tolerances.Check("wood, fasteners as printed, N", WoodHold.WoodScrew(g, 2, 20), screw, wood + ", screw");
        // Yellow-poplar's 248 comes of the inch form, 7850 lbf/in² (247.502 N); the metric 54.12 is that, rounded (247.481 N).
        Tolerances.Check("wood, nail as printed, N", WoodHold.Nail(g, 2, 20), nail, wood + ", nail");
        Tolerances.Check("wood, fasteners as printed, N", WoodHold.DriftPin(g, 2, 20), pin, wood + ", drift pin");
        Tolerances.Check("wood, dowel bearing as printed, MPa", WoodHold.DowelBearing(g), bearing, wood);
    }

    [Fact]
    public void The_other_two_fasteners_follow_their_equations()
    {
        // Eqs. 8-2a and 8-14 at G 0.25, D 16, L 1, where the powers are exact: 77.57/16·16 and 125.4·⅛·8.
        Assert.Equal(77.57, WoodHold.RingedNail(0.25, 16, 1), 1e-9);
        Assert.Equal(125.4, WoodHold.LagScrew(0.25, 16, 1), 1e-9);
    }

    [Fact]
    public void Hankinsons_load_runs_from_along_the_grain_to_across_it()
    {
        Assert.Equal(900, WoodHold.AtAngle(900, 400, 0), 1e-9);
        Assert.Equal(400, WoodHold.AtAngle(900, 400, Math.PI / 2), 1e-9);
        // Eq. 8-16 at 45° is the harmonic mean.
        Assert.Equal(2 / (1 / 900.0 + 1 / 400.0), WoodHold.AtAngle(900, 400, Math.PI / 4), 1e-9);
    }

    [Fact]
    public void Gravity_at_12_per_cent_is_read_back_from_the_density_that_eq_4_14_gives() =>
        Assert.Equal(0.42, WoodHold.Gravity(Trimwright.Core.Ledger.Timber.Density(0.42, 12)), 1e-12);

    [Fact]
    public void A_wire_cuts_in_where_the_woods_bearing_makes_its_hinge()
    {
        // Summed up from the surface: bearing on slices until their moment about the hinge is the plastic one.
        double moment = 614.4, bearing = 18.8, d = 1.6, force = 0, lever = 0, step = 1e-5;
        while (force * lever - bearing * d * lever * lever / 2 < moment)
        {
            force += bearing * d * step;
            lever += step;
        }
        Assert.Equal(force, WoodHold.UnderWire(moment, bearing, d), 1e-3);
    }
}
