using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Water;

namespace Trimwright.Core.Ballast;

/// <summary>A case of the swap table: hooks, water and leader.</summary>
/// <param name="Hooks">What hangs on it.</param>
/// <param name="WaterName">tap, lake, brackish, ocean or reef.</param>
/// <param name="Water">The water.</param>
/// <param name="Leader">What it carries at rest.</param>
public sealed record SwapCase(HookSet Hooks, string WaterName, WaterState Water, LeaderChoice Leader)
{
    /// <summary>The lure of this case.</summary>
    public LureDesign Design => Hooks.Design with { Leader = Leader.Leader };
}

/// <summary>A case and what the lure does in it.</summary>
/// <param name="Case">Hooks, water and leader.</param>
/// <param name="Prediction">Finished and rigged.</param>
/// <param name="Effect">Against the own hooks and a slack leader in the same water.</param>
public sealed record SwapRow(SwapCase Case, Prediction Prediction, SwapEffect Effect);

/// <summary>Hooks × water × leader for a finished lure.</summary>
public static class SwapTable
{
    /// <summary>Every case, hooks first, then water, then leader; the first of each water is the own hooks and a slack leader.</summary>
    public static ImmutableArray<SwapCase> Cases(LureDesign design, MakersBox box)
    {
        ImmutableArray<LeaderChoice> leaders = LeaderChoice.All(design, box);
        return
        [
            .. HookSet.All(design, box).SelectMany(hooks => WaterState.Named.SelectMany(water =>
                leaders.Select(leader => new SwapCase(hooks, water.Name, water.Water, leader)))),
        ];
    }

    /// <summary>The rows of cases that were predicted, each against its water's first.</summary>
    public static ImmutableArray<SwapRow> Rows(IReadOnlyList<(SwapCase Case, Prediction Prediction)> predicted)
    {
        var own = new Dictionary<WaterState, Prediction>();
        foreach ((SwapCase one, Prediction prediction) in predicted) own.TryAdd(one.Water, prediction);
        return [.. predicted.Select(p => new SwapRow(p.Case, p.Prediction, SwapEffect.Of(own[p.Case.Water], p.Prediction)))];
    }
}
