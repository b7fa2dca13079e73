using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Strength;

/// <summary>What a link of the chain is.</summary>
public enum LinkKind
{
    Leader,
    Ring,
    Swivel,
    Hook,
    Fitting,
    LineTie,
    Wire,
    HangerLoop,
    WireAcrossSlot,
    ScrewEye,
    ScrewInWood,
    WireInWood,
    TailLoop,
}

/// <summary>Another figure that holds under a condition.</summary>
public sealed record Otherwise(Condition Condition, Figure Figure);

/// <summary>A link between the leader's knot and the hook's point.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Name">In the design's words; the place for eyes.</param>
/// <param name="Place">From the leader, 0 first.</param>
/// <param name="LetsGo">Where it parts or opens; null: not known.</param>
/// <param name="OutOfShape">Where it begins to bend for good while it still holds; null: not before it lets go, or not known.</param>
/// <param name="Otherwise">What it comes to if something else is so; null when nothing else is likely.</param>
public sealed record Link(LinkKind Kind, string Name, int Place, Figure? LetsGo, Figure? OutOfShape = null, Otherwise? Otherwise = null);

/// <summary>Where a wire begins to cut into the wood when it is pulled square to its run.</summary>
public sealed record WoodBearing(string Place, Figure Figure);

/// <summary>All that holds a fish on one hook.</summary>
/// <param name="HangsFrom">A hanger's name or <c>tail_loop</c>.</param>
/// <param name="Hook">The last thing of its chain; empty when nothing hangs there.</param>
/// <param name="Links">From the leader to the hook.</param>
/// <param name="Wood">At the line tie and at this hanger.</param>
public sealed record LoadPath(string HangsFrom, string Hook, ImmutableArray<Link> Links, ImmutableArray<WoodBearing> Wood)
{
    /// <summary>The links, the one that lets go first in front; those that are not known last.</summary>
    public ImmutableArray<Link> WeakestFirst => [.. Links.OrderBy(l => l.LetsGo?.Newtons ?? double.PositiveInfinity).ThenBy(l => l.Place)];

    /// <summary>The link that lets go first of those that are known.</summary>
    public Link? Weakest => WeakestFirst[0] is { LetsGo: not null } link ? link : null;
}
