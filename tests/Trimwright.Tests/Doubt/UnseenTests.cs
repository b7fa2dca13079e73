using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;

namespace Trimwright.Tests.Doubt;

/// <summary>Weights that nobody sees, hidden in simulated lures and found again from their readings.</summary>
public class UnseenTests
{
    private static void Say(string line) => TestContext.Current.TestOutputHelper?.WriteLine(line);

    private static LogReading Of(ReadingKind kind, Rig rig = Rig.Bare) => new() { Kind = kind, Stage = Stage.Finished, Rig = rig, Scale = "s", TemperatureC = 15, Soap = true };

    private static LogReading[] Readings(bool floats, Sat sat) =>
    [
        Of(ReadingKind.Weight) with { MassG = 0 },
        Of(ReadingKind.UnderWater) with { SinkerG = 300, WithLureG = 0 },
        Of(ReadingKind.Balance) with { XMm = 0 },
        floats ? Of(ReadingKind.Tub) with { TrimDeg = 0, Sat = sat } : Of(ReadingKind.Needle) with { XMm = 0 },
    ];

    /// <summary>A truth's unseen weights as one point, its readings, and what is made of them.</summary>
    private static (double Net, Vec3 At, Unseen Found) Hidden(string name, int seed, int readings)
    {
        LureDesign design = Lures.Demo(name), stripped = design with { Ballast = [] };
        var truth = new BuildModel(design, mesh: Simulation.Mesh);
        double[] xi = Simulation.Truth(truth, seed, 1);
        Sitting sitting = truth.In(new Circumstances(Stage.Finished, Rig.Bare, Core.Water.WaterState.Tap));
        StageShape.Scratch scratch = sitting.Rent();
        Weighed whole = sitting.Model.Weigh(xi, scratch);
        bool floats = whole.Spare(sitting.Model.Water) > 0;
        Sat sat = floats ? Sits.Of(sitting.Posed(xi, scratch, default, null).Plane.N) : Sat.Level;
        sitting.Return(scratch);
        LogReading[] asked = [.. Readings(floats, sat).Take(readings)];
        TubLog log = Simulation.Log(truth, asked, xi, seed, 1);

        // The truth without its weights: the same carving, wood and coats.
        var without = new BuildModel(stripped, mesh: Simulation.Mesh);
        double[] bare = new double[without.Unknowns.Count];
        for (int i = 0; i < bare.Length; i++)
            if (truth.Unknowns.All.Index().FirstOrDefault(u => u.Item.Id == without.Unknowns[i].Id, (-1, default)) is (>= 0, _) found) bare[i] = xi[found.Item1];
        Sitting empty = without.In(new Circumstances(Stage.Finished, Rig.Bare, Core.Water.WaterState.Tap));
        scratch = empty.Rent();
        Weighed hollow = empty.Model.Weigh(bare, scratch);
        empty.Return(scratch);
        double net = whole.Weight - hollow.Weight;
        return (net, (whole.WeightMoment - hollow.WeightMoment) / net, Unseen.Of(stripped, log, Circumstances.InTheSea, 1000, seed, Simulation.Mesh));
    }

    [Fact]
    public void Hidden_weights_are_found_within_their_ranges()
    {
        int tried = 0, grams = 0, x = 0, z = 0;
        var sigmas = new List<double>();
        foreach (string name in Tier.IsCi ? ["tidegate-185", "mooring-post-210", "slipway-150"] : new[] { "mooring-post-210" })
            for (int seed = 0; seed < Tier.Count(1, 4, 30); seed++, tried++)
            {
                (double net, Vec3 at, Unseen found) = Hidden(name, 300 + seed, 4);
                Say($"{name} {seed}: {net:F1} g at {at.X:F1}, {at.Z:F1}; found {Show(found.Net)} at {Show(found.X)}, {Show(found.Z)}; told {found.Told}; {found.Knowing.Trust} {found.Knowing.Effective:F3}; {found.Log.Readings.Last().Sat} {string.Join(", ", LogReading.Numbers.Where(n => n.Of(found.Log.Readings.Last()) is not null).Select(n => $"{n.Name} {n.Of(found.Log.Readings.Last()):F1}"))} spare {found.Log.Readings[1].WithLureG - 300:F1}");
                if (Holds(found.Net, net)) grams++;
                if (Holds(found.X, at.X)) x++;
                if (Holds(found.Z, at.Z)) z++;
                sigmas.Add((found.Net.Median - net) / found.Net.GiveOrTake);
            }
        Say($"of {tried}: grams {grams}, x {x}, z {z} within 95 %; mean miss {sigmas.Average():F2} sigma");
        // Of 36, 95 % ranges hold 31 or more with a chance of 98 %.
        Assert.True(grams >= 0.86 * tried - 1 && x >= 0.86 * tried - 1 && z >= 0.86 * tried - 1);
    }

    private static string Show(Ranged r) => $"{r.Median:F1} ({r.Low95:F1} to {r.High95:F1})";

    private static bool Holds(Ranged r, double v) => v >= r.Low95 && v <= r.High95;

    [Fact]
    public void The_weight_in_air_alone_tells_grams_but_not_places()
    {
        Unseen found = Hidden("tidegate-185", 5, 1).Found;
        Assert.InRange(found.Told.Grams, 0, 0.7);
        Assert.InRange(found.Told.X, 0.9, 1.1);
        Assert.InRange(found.Told.Z, 0.9, 1.1);
    }
}
