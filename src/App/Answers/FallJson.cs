using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.App.Answers;

/// <summary>A steady fall.</summary>
/// <param name="RateMmS">Downward, mm/s.</param>
/// <param name="TrimDeg">Under way, degrees, positive tail down.</param>
/// <param name="GlideMmS">Level, mm/s, positive tail first.</param>
/// <param name="BellyUp">It falls belly up.</param>
internal abstract record FallJson(Rounded RateMmS, Rounded TrimDeg, Rounded GlideMmS, bool BellyUp)
{
    protected FallJson(Fall fall)
        : this(1000 * fall.Rate, Units.ToDegrees(fall.Trim), 1000 * fall.Glide, fall.BellyUp)
    {
    }
}

/// <summary>One of the ways in which it can fall.</summary>
internal sealed record KindOfFallJson : FallJson
{
    private KindOfFallJson(Fall fall)
        : base(fall) => Kind = AnswerWords.Of(fall.Kind);

    /// <summary>Whether it holds.</summary>
    [JsonPropertyOrder(1)]
    [WordOf<FallKind>]
    public string Kind { get; }

    public static ImmutableArray<KindOfFallJson> Of(Descent descent) => [.. descent.All.Select(fall => new KindOfFallJson(fall))];
}
