using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Doubt;

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

    /// <summary>A scale in the file.</summary>
    internal static readonly FileObject<LogScale> Form = new(new() { Id = "", ResolutionG = 0, CapacityG = 0 }, s => s.Kept, (s, kept) => s with { Kept = kept },
    [
        new NeededText<LogScale>("id", "A short name", "a short name", s => s.Id, (s, v) => s with { Id = v }),
        new NeededNumber<LogScale>("resolution_g", "Last digit, g", 0.001, 50, s => s.ResolutionG, (s, v) => s with { ResolutionG = v }),
        new NeededNumber<LogScale>("capacity_g", "The most that it takes, g", 0.1, LogReading.Heaviest, s => s.CapacityG, (s, v) => s with { CapacityG = v }),
    ]);
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

    /// <summary>The file's top object, but for its version.</summary>
    internal static readonly FileObject<TubLog> Form = new(new() { Name = "" }, l => l.Kept, (l, kept) => l with { Kept = kept },
    [
        new NeededText<TubLog>("name", "Which lure this is", "which lure this is", l => l.Name, (l, v) => l with { Name = v }),
        new TextOrNone<TubLog>("begun", "The day the build was begun", "the day it was begun, like 2026-05-30", l => l.Begun, (l, v) => l with { Begun = v })
            { More = "Like 2026-05-30. What finished builds taught by then is taken in." },
        new TextOrNone<TubLog>("finished", "The day it was finished", "the day it was finished, like 2026-05-30", l => l.Finished, (l, v) => l with { Finished = v })
            { More = "Like 2026-05-30. From then on it may teach." },
        new ObjectList<TubLog, LogScale>("scales", "Scales", MostScales, "a list of scales", LogScale.Form, l => l.Scales, (l, v) => l with { Scales = v }),
        new ObjectList<TubLog, LogReading>("readings", "Readings", MostReadings, "a list of readings", LogReading.Form, l => l.Readings, (l, v) => l with { Readings = v }),
    ]);

    internal const int MostReadings = 500;
    private const int MostScales = 20;
}
