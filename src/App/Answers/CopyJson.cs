using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>What weights are in a lure that can't be opened, and how to make the like.</summary>
/// <param name="Name">The lure's own.</param>
/// <param name="LeadG">Lead that does what the unseen weights do, g.</param>
/// <param name="NetG">What they weigh beyond the wood whose place they take, g.</param>
/// <param name="XMm">Their common middle, from the nose, mm.</param>
/// <param name="ZMm">The same, above the axis, mm.</param>
/// <param name="Told">By how much the readings narrowed it.</param>
/// <param name="Says">All of that in words.</param>
/// <param name="ReadNext">What would tell most about them; null when nothing is left to read.</param>
/// <param name="Sentence">What a copy with that weight does.</param>
/// <param name="Plans">From the box, best first; empty without one, and when there is none.</param>
/// <param name="Warnings">Of the files.</param>
[Answer("copy")]
internal sealed record CopyJson(
    string Name, MedianJson LeadG, MedianJson NetG, MedianJson XMm, MedianJson ZMm, NarrowedJson Told, string Says, string? ReadNext, string Sentence,
    ImmutableArray<BallastPlanJson> Plans, ImmutableArray<WarningJson> Warnings)
{
    public static CopyJson Of(CopyMade made, IReadOnlyList<Warning> warnings)
    {
        Unseen u = made.Unseen;
        return new(
            made.Design.Name, MedianJson.Of(u.Lead), MedianJson.Of(u.Net), MedianJson.Of(u.X), MedianJson.Of(u.Z), new(u.Told.Grams, u.Told.X, u.Told.Z),
            UnseenWords.Of(u, Notation.Metric), made.Best is { } best ? DoubtWords.Of(best) : null, Core.Telling.Sentence.Of(made.Prediction, Notation.Metric),
            made.Plan is { } plan ? BallastPlanJson.Of(plan) : [], WarningJson.Of(warnings));
    }
}

/// <summary>A number with its give or take, in the unit that its key names.</summary>
/// <param name="Median">As many builds have less as have more.</param>
/// <param name="Low95">Low end of what 95 of 100 builds have.</param>
/// <param name="High95">High end of it.</param>
internal sealed record MedianJson(
    double Median, [property: Key("low_95")] double Low95, [property: Key("high_95")] double High95)
{
    public static MedianJson Of(Ranged r) => new(r.Median, r.Low95, r.High95);
}

/// <summary>Standard deviations after the readings over those before: 1 tells nothing, 0 everything.</summary>
/// <param name="Grams">Of the grams.</param>
/// <param name="X">Of how far from the nose.</param>
/// <param name="Z">Of how high.</param>
internal sealed record NarrowedJson(double Grams, double X, double Z);
