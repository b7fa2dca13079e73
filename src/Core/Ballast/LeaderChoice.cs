using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Core.Ballast;

/// <summary>A leader that a lure may carry at rest.</summary>
/// <param name="Name">"fluorocarbon 150 lb", "nylon"; null: slack, so that it carries none.</param>
/// <param name="Leader">As a design takes it.</param>
public sealed record LeaderChoice(string? Name, LeaderDesign? Leader)
{
    /// <summary>The length that a lure at rest carries unless its design says, mm: a usual leader, let down whole.</summary>
    public const double UsuallyCarried = 1500;

    private const double Nylon = 1.14;

    // Between the leaders that medium and large lures are sold with: common practice, no source.
    private const double UsualDiameter = 1.1;

    /// <summary>Slack; fluorocarbon; nylon; and whatever else the box has: of each material the one nearest to the design's in diameter.</summary>
    public static ImmutableArray<LeaderChoice> All(LureDesign design, MakersBox box)
    {
        double diameter = design.Leader?.DiameterMm ?? UsualDiameter;
        double carried = design.Leader is { CarriedMm: > 0 } own ? own.CarriedMm : UsuallyCarried;
        var choices = ImmutableArray.CreateBuilder<LeaderChoice>();
        choices.Add(new(null, design.Leader is { } slack ? slack with { CarriedMm = 0 } : null));
        foreach (IGrouping<string?, BoxLeader> material in box.Leaders.GroupBy(l => l.Material))
            if (material.MinBy(l => (Math.Abs(l.DiameterMm - diameter), l.Id)) is { } leader)
                choices.Add(new(leader.Name, leader.ForDesign(carried)));
        if (!Has(choices, "fluoro")) choices.Add(Usual("fluorocarbon", BoxLeader.Fluorocarbon));
        if (!Has(choices, "nylon")) choices.Add(Usual("nylon", Nylon));
        return choices.ToImmutable();

        LeaderChoice Usual(string material, double density) =>
            new(material, new LeaderDesign { Material = material, DiameterMm = diameter, DensityGPerCm3 = density, CarriedMm = carried });
    }

    private static bool Has(IEnumerable<LeaderChoice> choices, string material) =>
        choices.Any(c => c.Leader?.Material?.Contains(material, StringComparison.OrdinalIgnoreCase) == true && c.Name is not null);
}
