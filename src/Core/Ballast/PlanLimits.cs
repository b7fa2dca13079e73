using System.Collections.Immutable;
using Trimwright.Core.Box;

namespace Trimwright.Core.Ballast;

/// <summary>What a plan has to keep to, beside the want. The usual ones are a maker's; the others ask what would free a plan.</summary>
public sealed record PlanLimits
{
    public static readonly PlanLimits Usual = new();

    /// <summary>How many pockets at most.</summary>
    public int MostPockets { get; init; } = 4;

    public SoundWood Sound { get; init; } = SoundWood.Usual;

    /// <summary>As if there were plenty of everything in the box.</summary>
    public bool AnyCount { get; init; }

    /// <summary>As if every cutter were in the box.</summary>
    public bool AnyCutter { get; init; }

    /// <summary>As if the box had no ban on lead.</summary>
    public bool LeadAllowed { get; init; }

    /// <summary>Stock that is not in the box.</summary>
    public ImmutableArray<BoxStock> Extra { get; init; } = [];

    /// <summary>How many looks the search may take for three pockets and more; one and two are always searched whole.</summary>
    public long LooksForMore { get; init; } = 4_000_000;

    /// <summary>How far apart places are tried along the lure, mm.</summary>
    public double Step { get; init; } = 1;
}
