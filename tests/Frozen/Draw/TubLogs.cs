using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Frozen.Draw;

/// <summary>What a maker could have read of a lure that came out a little otherwise than drawn. The noise is invented.</summary>
internal static class TubLogs
{
    private static readonly WaterState Tub = new(0, 16);

    public static byte[] Of(LureDesign design, int seed)
    {
        var random = new Random(seed + 1);
        // Another piece of the same wood.
        LureDesign built = design with { Wood = design.Wood with { DensityGPerCm3 = design.Wood.DensityGPerCm3 * (1 + 0.04 * Normal(random)) } };
        var readings = new List<LogReading>();
        readings.AddRange(design.Ballast.Take(1).Select(b => new LogReading { Kind = ReadingKind.Part, Scale = "kitchen", Part = b.Name, MassG = Grams(b.Mass) }));
        readings.Add(Weight(built, Stage.Blank, random));
        readings.Add(Weight(built, Stage.DryFit, random));
        if (TubTest(built, Stage.DryFit, Rig.StandIns, random) is { } dry) readings.Add(dry);
        if (seed % 3 != 0)
        {
            readings.Add(Weight(built, Stage.Sealed, random));
            Prediction bare = Prediction.Of(built, new Circumstances(Stage.Sealed, Rig.Bare, Tub));
            readings.Add(new LogReading { Kind = ReadingKind.UnderWater, Stage = Stage.Sealed, Scale = "kitchen", TemperatureC = Tub.TemperatureC, SinkerG = 210.4, WithLureG = Grams(210.4 - bare.SpareBuoyancy + 0.2 * Normal(random)) });
        }
        if (seed % 4 == 0)
        {
            readings.Add(Weight(built, Stage.Finished, random));
            if (TubTest(built, Stage.Finished, Rig.Rigged, random) is { } wet) readings.Add(wet);
        }
        return LogFile.Write(new TubLog
        {
            Name = design.Name,
            Scales = [new LogScale { Id = "kitchen", ResolutionG = 0.1, CapacityG = 500 }],
            Readings = [.. readings],
        });
    }

    private static LogReading Weight(LureDesign built, Stage stage, Random random) => new()
    {
        Kind = ReadingKind.Weight,
        Stage = stage,
        Scale = "kitchen",
        MassG = Grams(Prediction.Of(built, new Circumstances(stage, Rig.Bare, Tub)).Ledger.Weight + 0.1 * Normal(random)),
    };

    private static LogReading? TubTest(LureDesign built, Stage stage, Rig rig, Random random)
    {
        Prediction p = Prediction.Of(built, new Circumstances(stage, rig, Tub));
        if (p.SpareBuoyancy <= 0) return null;
        Posture way = p.Posture;
        return new LogReading
        {
            Kind = ReadingKind.Tub,
            Stage = stage,
            Rig = rig,
            TemperatureC = Tub.TemperatureC,
            Soap = true,
            Sat = Sits.Of(way.Plane.N),
            TrimDeg = Math.Round(Units.ToDegrees(way.Trim) + Normal(random)),
            NoseOutMm = way.NoseShowsAlong > 3 ? Math.Round(way.NoseShowsAlong + Normal(random)) : null,
        };
    }

    private static double Grams(double grams) => Math.Round(Math.Max(grams, 0.1), 1);

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
