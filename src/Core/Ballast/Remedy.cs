using Trimwright.Core.Design;

namespace Trimwright.Core.Ballast;

public enum RemedyKind
{
    /// <summary>Another hook in the place of one.</summary>
    Hook,

    /// <summary>A hook taken off.</summary>
    NoHook,

    /// <summary>One more ring, or another in the place of one.</summary>
    Ring,

    /// <summary>One more swivel.</summary>
    Swivel,

    /// <summary>Soft wire wound round a hook's shank.</summary>
    ShankWire,

    /// <summary>A hole from outside, filled with something heavy.</summary>
    HeavyPlug,

    /// <summary>A hole from outside, filled with cork.</summary>
    Cork,
}

/// <summary>Something that can still be done to a glued lure.</summary>
/// <param name="Kind">What.</param>
/// <param name="Place">Where it hangs, or the hook it is wound on hangs; null for a hole.</param>
/// <param name="Item">Name of what is put on or in; the hook's, where one is taken off.</param>
/// <param name="Instead">Name of what it takes the place of, or null.</param>
/// <param name="Design">The lure with it done.</param>
public sealed record Remedy(RemedyKind Kind, string? Place, string Item, string? Instead, LureDesign Design)
{
    /// <summary>Turns of shank wire, rounded up to a whole one.</summary>
    public int Turns { get; init; }

    /// <summary>The hole, and what goes into it below its stopper.</summary>
    public SafeSpot? Spot { get; init; }

    public BallastPiece? Filling { get; init; }

    /// <summary>How deep the hole is, mm, under the wood's surface.</summary>
    public double DrillDepth => Spot is { } spot && Filling is { } filling ? spot.FillingFrom + filling.LengthMm : 0;

    /// <summary>What the thing itself weighs, g: to be weighed out.</summary>
    public double Grams { get; init; }

    /// <summary>It goes through sealer and coats, and must be sealed again.</summary>
    public bool BreaksSeal => Spot is not null;
}

/// <summary>What a remedy is good for.</summary>
public enum RemedyUse
{
    Lighter,
    Heavier,
    NoseUp,
    NoseDown,
}

/// <summary>A remedy with what it does.</summary>
/// <param name="Remedy">What is done.</param>
/// <param name="Prediction">Of the lure with it done.</param>
/// <param name="Effect">Against the lure as it is.</param>
public sealed record RemedyEffect(Remedy Remedy, Prediction Prediction, SwapEffect Effect)
{
    /// <summary>What a plan is held to, g: a smaller change is no remedy.</summary>
    public const double Grams = 0.3;

    /// <summary>Likewise, radians.</summary>
    public static readonly double Angle = Quantities.Units.FromDegrees(3);

    // A remedy whose effect on the trim cannot be told, because it floats no longer, say, counts as turning it by so many of these.
    private const double Unknown = 20;

    private double InGrams => Effect.Spare / Grams;

    private double InTrim => (Effect.Trim ?? 0) / Angle;

    /// <summary>
    /// How purely it does what is wanted of it, 0 to 1: what it does in the wanted direction over that and what it does
    /// besides, 0.3 g counting as much as 3°. 0 when it does less than that, or the opposite.
    /// </summary>
    public double For(RemedyUse use)
    {
        (double wanted, double besides) = use switch
        {
            RemedyUse.Lighter => (InGrams, Effect.Trim is null ? Unknown : InTrim),
            RemedyUse.Heavier => (-InGrams, Effect.Trim is null ? Unknown : InTrim),
            RemedyUse.NoseUp => (InTrim, InGrams),
            RemedyUse.NoseDown => (-InTrim, InGrams),
        };
        return wanted < 1 ? 0 : wanted / (wanted + Math.Abs(besides));
    }
}
