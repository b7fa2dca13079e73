using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>What can be changed now, by what the readings say.</summary>
/// <param name="Stage">How far the build is.</param>
/// <param name="Readings">How many readings that rests on.</param>
/// <param name="WantedSpareG">Spare buoyancy that is wanted, g.</param>
/// <param name="AsItIs">Odds with nothing changed.</param>
/// <param name="Plans">Odds of each plan, in their order; empty once it is glued.</param>
/// <param name="Remedies">What is left to do once it is glued, best odds first; empty before.</param>
internal sealed record NowJson(
    Stage Stage, int Readings, double WantedSpareG, OddsJson AsItIs, ImmutableArray<OddsJson> Plans, ImmutableArray<RemedyOddsJson> Remedies)
{
    public static NowJson? Of(Now? now) => now is null ? null : new(
        now.Stage, now.Readings, now.Wanted, OddsJson.Of(now.AsItIs), [.. now.Plans.Select(OddsJson.Of)],
        [.. now.Remedies.Select(RemedyOddsJson.Of)]);
}

/// <summary>How likely it comes out as wanted, over every build that agrees with the readings.</summary>
/// <param name="Chance">0 to 1.</param>
/// <param name="SpareLow95G">Low end of what 95 of 100 have to spare, g.</param>
/// <param name="SpareHigh95G">High end of it, g.</param>
/// <param name="TrimLow95Deg">Low end of the trim of 95 of 100, degrees, positive tail down.</param>
/// <param name="TrimHigh95Deg">High end of it, degrees.</param>
internal sealed record OddsJson(
    double Chance,
    [property: Key("spare_low_95_g")] double SpareLow95G,
    [property: Key("spare_high_95_g")] double SpareHigh95G,
    [property: Key("trim_low_95_deg")] double TrimLow95Deg,
    [property: Key("trim_high_95_deg")] double TrimHigh95Deg)
{
    public static OddsJson Of(Odds odds) => new(
        odds.Chance, odds.Spare.Low95, odds.Spare.High95, Units.ToDegrees(odds.Trim.Low95), Units.ToDegrees(odds.Trim.High95));
}

/// <summary>Something that is left to do once it is glued, with its odds.</summary>
/// <param name="Remedy">What is done, in words.</param>
/// <param name="SpareBuoyancyG">By how much more it has to spare in the water, g.</param>
/// <param name="TrimDeg">By how much more tail down, degrees; null where that can't be said.</param>
/// <param name="BreaksSeal">It goes through sealer and coats, and must be sealed again.</param>
/// <param name="Odds">With it done.</param>
internal sealed record RemedyOddsJson(string Remedy, double SpareBuoyancyG, double? TrimDeg, bool BreaksSeal, OddsJson Odds)
{
    public static RemedyOddsJson Of(RemedyOdds r) => new(
        SwapWords.Of(r.Remedy.Remedy, Notation.Metric), r.Remedy.Effect.Spare, r.Remedy.Effect.Trim is { } trim ? Units.ToDegrees(trim) : null,
        r.Remedy.Remedy.BreaksSeal, OddsJson.Of(r.Odds));
}
