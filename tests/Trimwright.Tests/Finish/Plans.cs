using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Finish;

/// <summary>Build plans for tests.</summary>
internal static class Plans
{
    public static readonly DateTimeOffset Evening = new(2026, 11, 28, 18, 0, 0, TimeSpan.FromHours(1));

    /// <summary>A wall clock as in the middle of Europe: an hour ahead from the last Sunday of March to that of October.</summary>
    public static TimeZoneInfo WallClock { get; } = TimeZoneInfo.CreateCustomTimeZone("wall", TimeSpan.FromHours(1), "wall", "winter", "summer",
    [
        TimeZoneInfo.AdjustmentRule.CreateAdjustmentRule(new DateTime(2000, 1, 1), new DateTime(2100, 12, 31), TimeSpan.FromHours(1),
            TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 2, 0, 0), 3, 5, DayOfWeek.Sunday),
            TimeZoneInfo.TransitionTime.CreateFloatingDateRule(new DateTime(1, 1, 1, 3, 0, 0), 10, 5, DayOfWeek.Sunday)),
    ]);

    public static MakersBox Kitchen => BoxFile.Read(File.ReadAllBytes(Path.Combine(Here.Root, "demo", "kitchen.box.json"))).Value!;

    public static BuildConditions Quick => new() { Mesh = MeshSize.Coarse };

    /// <summary>Boxes of all kinds: none, the demo's, the catalogue.</summary>
    public static MakersBox? Box(Random random) => random.Next(3) switch { 0 => null, 1 => Kitchen, _ => Catalogue.Starter };

    /// <summary>A random lure whose coats and wood have the names of things in the box.</summary>
    public static LureDesign Named(LureDesign design, MakersBox? box, Random random) => box is null ? design : design with
    {
        Finish = [.. design.Finish.Select(c => random.Next(4) == 0 ? c : c with { Name = box.Finishes[random.Next(box.Finishes.Length)].Name })],
        Wood = design.Wood with { Name = box.Woods[random.Next(box.Woods.Length)].Name },
    };
}
