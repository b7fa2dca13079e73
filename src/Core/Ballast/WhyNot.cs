using System.Collections.Immutable;
using Trimwright.Core.Box;

namespace Trimwright.Core.Ballast;

/// <summary>What stands between a want and a plan.</summary>
public enum Limit
{
    /// <summary>Without any weight the lure is too heavy already.</summary>
    Weight,

    /// <summary>No fall has that trim and rate, its grams fall at another, or no waterline shows so much nose at that trim.</summary>
    Posture,

    /// <summary>How many pockets are allowed.</summary>
    Pockets,

    /// <summary>How many of each kind the box has.</summary>
    Counts,

    /// <summary>Which cutters the box has.</summary>
    Cutters,

    /// <summary>The wood that a pocket must leave outside it.</summary>
    Wall,

    /// <summary>The wood between a pocket and wire, eyes, pins and other pockets.</summary>
    Web,

    /// <summary>The switch against lead.</summary>
    Lead,

    /// <summary>Which weights and stock the box has.</summary>
    Kinds,

    /// <summary>How near the want a plan must come.</summary>
    Closeness,

    /// <summary>No single limit: several bind together, or the wanted posture does not hold whatever the weights.</summary>
    Several,
}

/// <summary>Why there is no plan: the limit that binds, and what would free it.</summary>
/// <param name="Limit">Relaxing it, and nothing else, makes a plan (but for <see cref="Limit.Weight"/>, <see cref="Limit.Posture"/> and <see cref="Limit.Several"/>).</param>
/// <param name="Relaxed">To what: pockets; mm of wall or web; times the closeness; the diameter of bar to buy, mm; else 0.</param>
/// <param name="Freed">The plan that it makes, or of several limits that all of them make together; null where nothing does.</param>
/// <param name="Amount">Grams too heavy, where that is why; of a posture, the seconds for a metre that the wanted grams take, where they are not the wanted ones.</param>
/// <param name="Arm">Where along the lure the weights' common middle would have to lie, mm; null where there is no target.</param>
/// <param name="HeaviestThere">The heaviest piece of the box that has a sound seat within 5 mm of there, g; 0 for none.</param>
/// <param name="WoodThere">How thick the wood is there, mm, side to side.</param>
/// <param name="Proved">That there is no plan within the limits is proved, not only not found.</param>
public sealed record WhyNot(
    Limit Limit, double Relaxed = 0, BallastPlan? Freed = null, double Amount = 0, double? Arm = null, double HeaviestThere = 0, double WoodThere = 0, bool Proved = true)
{
    /// <summary>What of <see cref="Freed"/> the maker doesn't have, or doesn't allow: what to get, or where to give way.</summary>
    public ImmutableArray<Missing> Missing { get; init; } = [];
}

/// <summary>One thing that a plan needs beyond what there is.</summary>
/// <param name="Limit">Which limit it goes beyond.</param>
/// <param name="Name">Of the weight or the stock, as the box has it; else "".</param>
/// <param name="Amount">How many pockets; of a cutter, its diameter, mm; how many more of a kind; of a bar, its diameter, mm; how thick the wall, mm.</param>
/// <param name="Cutter">What kind of cutter.</param>
/// <param name="ReachMm">How deep it has to go, mm.</param>
/// <param name="IsMm">So many mm more of stock.</param>
public sealed record Missing(Limit Limit, string Name, double Amount, CutterKind? Cutter = null, double ReachMm = 0, bool IsMm = false);
