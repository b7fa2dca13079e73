using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Doubt;

/// <summary>
/// Builds that never were: a truth is drawn, its readings are made up by the truth's own model with the instruments' noise,
/// and the forecast from them is held against what the truth does in the sea.
/// </summary>
internal static class Simulation
{
    /// <summary>Coarser than the sampling mesh, for truth and forecast alike: what is tried here is the inference.</summary>
    public static readonly MeshSize Mesh = new(17, 16);

    public static readonly string[] Stages = ["drawing board", "blank", "dry-fit", "finished"];

    private static readonly LogScale Scale = new() { Id = "s", ResolutionG = 0.1, CapacityG = 500 };

    /// <summary>The readings of the first stages, their numbers still empty.</summary>
    public static LogReading[] Readings(LureDesign design, int stages)
    {
        LogReading Of(ReadingKind kind, Stage stage, Rig rig = Rig.Bare) => new() { Kind = kind, Stage = stage, Rig = rig, Scale = "s", TemperatureC = 15, Soap = true };
        var list = new List<LogReading>();
        if (stages >= 1)
            list.AddRange([
                .. design.Hardware.Where(h => h.MassG > 2).Select(h => Of(ReadingKind.Part, Stage.Blank) with { Part = $"{h.Name} at {h.HangsFrom}", MassG = 0 }),
                Of(ReadingKind.Weight, Stage.Blank) with { MassG = 0 },
                Of(ReadingKind.UnderWater, Stage.Blank) with { SinkerG = 300, WithLureG = 0 },
                Of(ReadingKind.Needle, Stage.Blank) with { XMm = 0 },
            ]);
        if (stages >= 2)
            list.AddRange([
                Of(ReadingKind.Weight, Stage.DryFit) with { MassG = 0 },
                Of(ReadingKind.Tub, Stage.DryFit, Rig.StandIns) with { TrimDeg = 0 },
            ]);
        if (stages >= 3)
            list.AddRange([
                Of(ReadingKind.Weight, Stage.Finished) with { MassG = 0 },
                Of(ReadingKind.UnderWater, Stage.Finished) with { SinkerG = 300, WithLureG = 0 },
            ]);
        return [.. list];
    }

    /// <summary>The log of a truth: each empty number filled with what it would have shown, and noise.</summary>
    public static TubLog Log(BuildModel truth, LogReading[] readings, double[] xi, int seed, double width)
    {
        var empty = new TubLog { Name = "simulated", Scales = [Scale], Readings = [.. readings.Select(r => r.TrimDeg is null ? r : r with { TrimDeg = Lowest(truth, r, xi) })] };
        var observations = new Observations(truth, empty);
        var noise = new NormalDraws(seed, 999);
        // Instruments have their own truth too.
        var x = new double[observations.Unknowns.Length];
        xi.CopyTo(x, 0);
        for (int i = xi.Length; i < x.Length; i++) x[i] = width * noise.Normal();
        LogReading[] read = [.. readings];
        foreach (Observation o in observations.All)
        {
            double shown = o.Shows(x) + width * o.Sd * noise.Normal();
            read[o.Reading] = Filled(read[o.Reading], o.Key, shown);
        }
        return empty with { Readings = [.. read] };
    }

    private static LogReading Filled(LogReading r, string key, double value) => key switch
    {
        "with_lure_g" => r with { WithLureG = r.SinkerG - value },
        "reading_g" => r with { ReadingG = value },
        "mass_g" => r with { MassG = value },
        "right_g" => r with { RightG = value },
        "left_g" => r with { LeftG = value },
        "x_mm" => r with { XMm = value },
        "width_mm" => r with { WidthMm = value },
        "height_mm" => r with { HeightMm = value },
        "right_mm" => r with { RightMm = value },
        "left_mm" => r with { LeftMm = value },
        "turned_deg" => r with { TurnedDeg = value },
        "sat" => r,
        "trim_deg" => r with { TrimDeg = Math.Clamp(value, -90, 90) },
        "nose_out_mm" => r with { NoseOutMm = value },
        "tail_out_mm" => r with { TailOutMm = value },
        "waterline_back_mm" => r with { WaterlineBackMm = value },
        "waterline_belly_mm" => r with { WaterlineBellyMm = value },
        "back_proud_mm" => r with { BackProudMm = value },
        "seconds" => r with { Seconds = value },
        _ => throw new InvalidOperationException(key),
    };

    // Let go in the tub, it comes to the lowest of its rests: that is the one whose marks are read.
    private static double Lowest(BuildModel truth, LogReading reading, double[] xi)
    {
        Sitting sitting = truth.In(new Circumstances(reading.Stage, reading.Rig, reading.Water));
        StageShape.Scratch scratch = sitting.Rent();
        double trim = Units.ToDegrees(sitting.Posed(xi, scratch, default, null).Trim);
        sitting.Return(scratch);
        return trim;
    }

    public static double[] Truth(BuildModel build, int seed, double width)
    {
        var xi = new double[build.Unknowns.Count];
        new NormalDraws(seed, 1).Fill(xi);
        for (int i = 0; i < xi.Length; i++) xi[i] *= width;
        return xi;
    }

    public static Outcome Sea(BuildModel build, double[] xi)
    {
        Sitting sitting = build.In(Circumstances.InTheSea);
        StageShape.Scratch scratch = sitting.Rent();
        Outcome outcome = sitting.Of(xi, scratch);
        sitting.Return(scratch);
        return outcome;
    }
}
