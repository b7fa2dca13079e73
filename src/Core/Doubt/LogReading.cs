using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>One reading, in the file's units. Which numbers belong to which kind, its <see cref="Kind"/> says.</summary>
public sealed record LogReading
{
    public required ReadingKind Kind { get; init; }

    public Stage Stage { get; init; } = Stage.Blank;

    public Rig Rig { get; init; } = Rig.Bare;

    /// <summary>Id of the scale; null: 0.1 g and 500 g.</summary>
    public string? Scale { get; init; }

    public double Salinity { get; init; }

    /// <summary>Null: not taken, which is a doubt of its own.</summary>
    public double? TemperatureC { get; init; }

    public UnderWaterWay Way { get; init; }

    /// <summary>Wrapped in film, which holds air.</summary>
    public bool Film { get; init; }

    /// <summary>A drop of washing-up liquid took the water's skin away.</summary>
    public bool Soap { get; init; }

    public Sat? Sat { get; init; }

    /// <summary>Name of the part that was weighed.</summary>
    public string? Part { get; init; }

    /// <summary>
    /// The thing that <see cref="Part"/> means, where the program knows it without a name; a file has the name alone, and null here.
    /// </summary>
    public Thing? Thing { get; init; }

    /// <summary>The thing that is weighed; null where no name of the lure's is written, or one that twins share.</summary>
    /// <param name="design">Whose.</param>
    public Thing? ThingOf(LureDesign design) => Thing ?? (Part is { } name && Design.Thing.Named(design, name) is [var one] ? one : null);

    public ImmutableArray<double>? SizeMm { get; init; }

    public double? MassG { get; init; }

    public double? RightG { get; init; }

    public double? LeftG { get; init; }

    public double? SinkerG { get; init; }

    public double? WithLureG { get; init; }

    public double? ReadingG { get; init; }

    public double? BeforeG { get; init; }

    public double? AfterG { get; init; }

    public double? XMm { get; init; }

    public double? ZMm { get; init; }

    public double? WidthMm { get; init; }

    public double? HeightMm { get; init; }

    public double? RightMm { get; init; }

    public double? LeftMm { get; init; }

    public double? TurnedDeg { get; init; }

    public double? TrimDeg { get; init; }

    public double? NoseOutMm { get; init; }

    public double? TailOutMm { get; init; }

    public double? WaterlineBackMm { get; init; }

    public double? WaterlineBellyMm { get; init; }

    public double? BackProudMm { get; init; }

    public double? DepthMm { get; init; }

    public double? FromMm { get; init; }

    public double? Seconds { get; init; }

    /// <summary>Keys kept of the reading, and of its water.</summary>
    public Kept Kept { get; init; }

    public Kept WaterKept { get; init; }

    /// <summary>The water, tap at 15 °C if nothing was noted.</summary>
    public WaterState Water => new(Salinity, TemperatureC ?? WaterState.Tap.TemperatureC);

    internal const double Heaviest = 100_000;
    private const double Longest = 2_000;

    /// <summary>Every number that a reading of some kind may have, in the file's order.</summary>
    internal static readonly ImmutableArray<NumberOrNone<LogReading>> Numbers =
    [
        new("mass_g", "A weight, g", 0, Heaviest, r => r.MassG, (r, v) => r with { MassG = v }),
        new("right_g", "Right half, g", 0, Heaviest, r => r.RightG, (r, v) => r with { RightG = v }),
        new("left_g", "Left half, g", 0, Heaviest, r => r.LeftG, (r, v) => r with { LeftG = v }),
        new("sinker_g", "Sinker alone, hung in the water, g", 0, Heaviest, r => r.SinkerG, (r, v) => r with { SinkerG = v }),
        new("with_lure_g", "Sinker with the lure, hung in the water, g", 0, Heaviest, r => r.WithLureG, (r, v) => r with { WithLureG = v }),
        new("reading_g", "What the tared jar gained with the lure pushed fully under, g", 0, Heaviest, r => r.ReadingG, (r, v) => r with { ReadingG = v }),
        new("before_g", "Weight in air just before it went under water, g", 0, Heaviest, r => r.BeforeG, (r, v) => r with { BeforeG = v }),
        new("after_g", "Weight in air just after, dabbed dry, g", 0, Heaviest, r => r.AfterG, (r, v) => r with { AfterG = v }),
        new("x_mm", "Distance from the nose, mm", 0, Longest, r => r.XMm, (r, v) => r with { XMm = v }),
        new("z_mm", "Height over the axis, mm", -Longest, Longest, r => r.ZMm, (r, v) => r with { ZMm = v }),
        new("width_mm", "Width over both sides, mm", 0, Longest, r => r.WidthMm, (r, v) => r with { WidthMm = v }),
        new("height_mm", "Back to belly, mm", 0, Longest, r => r.HeightMm, (r, v) => r with { HeightMm = v }),
        new("right_mm", "Seam to the right side, mm", 0, Longest, r => r.RightMm, (r, v) => r with { RightMm = v }),
        new("left_mm", "Seam to the left side, mm", 0, Longest, r => r.LeftMm, (r, v) => r with { LeftMm = v }),
        new("turned_deg", "How far the taped weight turned it, positive nose up, degrees", -180, 180, r => r.TurnedDeg, (r, v) => r with { TurnedDeg = v }),
        new("trim_deg", "Trim, positive nose up, degrees", -90, 90, r => r.TrimDeg, (r, v) => r with { TrimDeg = v }),
        new("nose_out_mm", "Nose out of the water, along the back, mm", 0, Longest, r => r.NoseOutMm, (r, v) => r with { NoseOutMm = v }),
        new("tail_out_mm", "Tail out of the water, along the back, mm", 0, Longest, r => r.TailOutMm, (r, v) => r with { TailOutMm = v }),
        new("waterline_back_mm", "Where the water crosses the back, mm from the nose", 0, Longest, r => r.WaterlineBackMm, (r, v) => r with { WaterlineBackMm = v }),
        new("waterline_belly_mm", "Where it crosses the belly, mm from the nose", 0, Longest, r => r.WaterlineBellyMm, (r, v) => r with { WaterlineBellyMm = v }),
        new("back_proud_mm", "How far the back stands out, mm", 0, Longest, r => r.BackProudMm, (r, v) => r with { BackProudMm = v }),
        new("depth_mm", "Depth at which the clock stopped, from where it was let go, mm", 1, 100_000, r => r.DepthMm, (r, v) => r with { DepthMm = v }),
        new("from_mm", "Depth at which the clock started, mm", 0, 100_000, r => r.FromMm, (r, v) => r with { FromMm = v }),
        new("seconds", "Time on the clock, s", 0.01, 100_000, r => r.Seconds, (r, v) => r with { Seconds = v }),
    ];

    /// <summary>The number of that key.</summary>
    internal static NumberOrNone<LogReading> Number(string key) => Numbers.First(n => n.Name == key);

    /// <summary>A reading in the file.</summary>
    internal static readonly FileObject<LogReading> Form = new(new() { Kind = ReadingKind.Weight }, r => r.Kept, (r, kept) => r with { Kept = kept },
    [
        new NeededChoice<LogReading, ReadingKind>("kind", "What was read", ReadingKind.Weight, [.. ReadingKind.All.Select(k => (k.Word, k))], r => r.Kind, (r, v) => r with { Kind = v }),
        new Choice<LogReading, Stage>("stage", "How far the build was", Stage.Blank,
            [("blank", Stage.Blank), ("dry-fit", Stage.DryFit), ("glued", Stage.Glued), ("sealed", Stage.Sealed), ("finished", Stage.Finished)],
            r => r.Stage, (r, v) => r with { Stage = v }),
        new Choice<LogReading, Rig>("rig", "What hung on it", Rig.Bare, [("bare", Rig.Bare), ("standins", Rig.StandIns), ("rigged", Rig.Rigged)],
            r => r.Rig, (r, v) => r with { Rig = v }),
        new TextOrNone<LogReading>("scale", "Id of the scale", "the id of one of the scales", r => r.Scale, (r, v) => r with { Scale = v }),
        new OwnObject<LogReading>("water", "The water; left out, tap water whose temperature nobody took",
            new(new() { Kind = ReadingKind.Weight }, r => r.WaterKept, (r, kept) => r with { WaterKept = kept },
            [
                new UsualNumber<LogReading>("salinity", "Practical salinity", 0, WaterState.SaltiestAllowed, 0, r => r.Salinity, (r, v) => r with { Salinity = v }),
                new NumberOrNone<LogReading>("temperature_c", "°C", WaterState.ColdestAllowed, WaterState.WarmestAllowed, r => r.TemperatureC, (r, v) => r with { TemperatureC = v }),
            ]),
            r => r.Salinity != 0 || r.TemperatureC is not null || r.WaterKept.Count > 0),
        new Choice<LogReading, UnderWaterWay>("way", "How it was weighed under water", UnderWaterWay.Sinker, FileWords.Of<UnderWaterWay>(), r => r.Way, (r, v) => r with { Way = v }),
        new YesOrNo<LogReading>("film", "Wrapped in film", r => r.Film, (r, v) => r with { Film = v }),
        new YesOrNo<LogReading>("soap", "A drop of washing-up liquid in the water", r => r.Soap, (r, v) => r with { Soap = v }),
        new ChoiceOrNone<LogReading, Sat>("sat", "How it sat, in one word", FileWords.Of<Sat>(), r => r.Sat, (r, v) => r with { Sat = v }),
        new TextOrNone<LogReading>("part", "Name of the part, as in the lure file; hooks and rings as \"name at place\"", "the name of the part", r => r.Part, (r, v) => r with { Part = v }),
        new NumbersOrNone<LogReading>("size_mm", "Length, width, thickness of all the boards laid on one another", 3, 0.1, Longest, r => r.SizeMm, (r, v) => r with { SizeMm = v }),
        .. Numbers,
    ]);
}
