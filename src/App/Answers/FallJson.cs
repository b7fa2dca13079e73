using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.App.Answers;

/// <summary>A steady fall.</summary>
/// <param name="RateMmS">Downward, mm/s.</param>
/// <param name="TrimDeg">Under way, degrees, positive tail down.</param>
/// <param name="GlideMmS">Along the level, mm/s, positive tail first.</param>
/// <param name="BellyUp">It falls belly up.</param>
internal sealed record FallJson(double RateMmS, double TrimDeg, double GlideMmS, bool BellyUp)
{
    public static FallJson Of(Fall fall) => new(1000 * fall.Rate, Units.ToDegrees(fall.Trim), 1000 * fall.Glide, fall.BellyUp);

    public static FallJson? OfFirst(Descent descent) => descent.First is { } fall ? Of(fall) : null;
}
