using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Water;

namespace Trimwright.Core.Doubt;

/// <summary>What was read.</summary>
public enum ReadingKind
{
    /// <summary>Boards of the wood, measured and weighed.</summary>
    Boards,

    /// <summary>One part by itself: a weight, a hook, the wire, the eyes.</summary>
    Part,

    /// <summary>Left and right half after splitting and cleaning, before anything is cut into them.</summary>
    Halves,

    /// <summary>The lure on the scale at a stage.</summary>
    Weight,

    /// <summary>Under water: what a hung sinker loses when the lure is tied to it, or what a jar of water gains.</summary>
    UnderWater,

    /// <summary>Where one needle holds it level under water, mm from the nose.</summary>
    Needle,

    /// <summary>Where a thread loop or a knife edge balances it in air, mm from the nose.</summary>
    Balance,

    /// <summary>Calipers at a station.</summary>
    Caliper,

    /// <summary>By how much a small weight taped on turns it.</summary>
    Inclining,

    /// <summary>How it sat in the tub.</summary>
    Tub,

    /// <summary>A timed drop.</summary>
    Drop,

    /// <summary>Weight before and after two days under water.</summary>
    Soak,
}

/// <summary>How a lure was weighed under water.</summary>
public enum UnderWaterWay
{
    Sinker,
    Jar,
}

/// <summary>How it sat, in one word.</summary>
public enum Sat
{
    Stands,
    Slanted,
    Level,
    OnSide,
    BellyUp,
    NoseDown,
}

/// <summary>A scale of the maker's: its last digit and the most that it takes, g.</summary>
public sealed record LogScale
{
    public required string Id { get; init; }

    public required double ResolutionG { get; init; }

    public required double CapacityG { get; init; }

    public Kept Kept { get; init; }
}

/// <summary>One reading, in the file's units. Which numbers belong to which kind, <see cref="LogSoundness"/> says.</summary>
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

    /// <summary>Its numbers by their keys, in the file's order.</summary>
    public IEnumerable<(string Key, double? Value)> Numbers =>
    [
        ("mass_g", MassG), ("right_g", RightG), ("left_g", LeftG), ("sinker_g", SinkerG), ("with_lure_g", WithLureG), ("reading_g", ReadingG),
        ("before_g", BeforeG), ("after_g", AfterG), ("x_mm", XMm), ("z_mm", ZMm), ("width_mm", WidthMm), ("height_mm", HeightMm),
        ("right_mm", RightMm), ("left_mm", LeftMm), ("turned_deg", TurnedDeg), ("trim_deg", TrimDeg), ("nose_out_mm", NoseOutMm),
        ("tail_out_mm", TailOutMm), ("waterline_back_mm", WaterlineBackMm), ("waterline_belly_mm", WaterlineBellyMm),
        ("back_proud_mm", BackProudMm), ("depth_mm", DepthMm), ("from_mm", FromMm), ("seconds", Seconds),
    ];
}

/// <summary>The readings of one lure, in the order in which they were made: what a <c>*.log.json</c> file holds.</summary>
public sealed record TubLog
{
    public required string Name { get; init; }

    /// <summary>The day the build was begun, like 2026-05-30; what finished builds taught by then is taken in. Null: not noted.</summary>
    public string? Begun { get; init; }

    /// <summary>The day it was finished; from then on it may teach. Null: not yet, or not noted.</summary>
    public string? Finished { get; init; }

    public ImmutableArray<LogScale> Scales { get; init; } = [];

    public ImmutableArray<LogReading> Readings { get; init; } = [];

    public Kept Kept { get; init; }

    /// <summary>The scale of a reading.</summary>
    public LogScale ScaleOf(LogReading reading) => Scales.FirstOrDefault(s => s.Id == reading.Scale) ?? UsualScale;

    /// <summary>A kitchen scale of tenths.</summary>
    public static readonly LogScale UsualScale = new() { Id = "", ResolutionG = 0.1, CapacityG = 500 };
}
