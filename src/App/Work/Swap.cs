using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Strength;
using Trimwright.Core.Water;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>swap</c>: other hooks, water and leader, and what is left to do once it is glued.</summary>
/// <param name="File">The lure.</param>
/// <param name="Box">The box whose hooks, rings, wire and drills are taken; null: usual ones.</param>
/// <param name="Water">In which remedies are told.</param>
/// <param name="Everything">Every hook set with every leader, not only the own hooks.</param>
internal sealed record SwapRequest(string File, string? Box, string Water, bool Everything);

/// <param name="Design">As read.</param>
/// <param name="Box">What there was to swap with.</param>
/// <param name="IsOwnBox">It is the maker's, not the catalogue.</param>
/// <param name="AsItIs">In the water asked for, its leader slack: what remedies are held against.</param>
/// <param name="Rows">Hooks × water × leader.</param>
/// <param name="Reach">Of hook sets that reach something which the own hooks do not.</param>
/// <param name="Remedies">With what each does in that water.</param>
/// <param name="Warnings">Of both files.</param>
internal sealed record SwapAnswer(
    LureDesign Design, MakersBox Box, bool IsOwnBox, Prediction AsItIs, ImmutableArray<SwapRow> Rows, IReadOnlyDictionary<HookSet, HookReach> Reach,
    ImmutableArray<RemedyEffect> Remedies, IReadOnlyList<Warning> Warnings);

internal static class Swap
{
    public static SwapAnswer Run(SwapRequest request, Pace pace)
    {
        WaterState water = Predict.ParseWater(request.Water);
        (LureDesign read, IReadOnlyList<Warning> warnings) = Files.LoadLure(request.File);
        (MakersBox box, IReadOnlyList<Warning> more) = request.Box is { } file ? Files.LoadBox(file) : (Catalogue.Starter, []);
        LureDesign design = read with { Leader = read.Leader is { } leader ? leader with { CarriedMm = 0 } : null };
        var lure = new GluedLure(design);
        SwapCase[] cases = [.. SwapTable.Cases(read, box).Where(c => request.Everything || c.Leader.Name is null || c.Hooks.Change == HookChange.Own)];
        Prediction[] predicted = pace.Each(cases, c => lure.Predict(c.Design, c.Water));
        Prediction asItIs = lure.Predict(design, water);
        LureStrength? own = LureStrength.Of(design);
        var reach = pace.Each(cases.Select(c => c.Hooks).Distinct(), set => (Set: set, Reach: set.ReachesAnew(own)))
            .Where(r => r.Reach is not null).ToDictionary(r => r.Set, r => r.Reach!);
        ImmutableArray<RemedyEffect> remedies =
        [
            .. pace.Each(new Remedies(design, box, pace).All(), r => (Remedy: r, Prediction: lure.Predict(r.Design, water)))
                .Select(r => new RemedyEffect(r.Remedy, r.Prediction, SwapEffect.Of(asItIs, r.Prediction))),
        ];
        return new(read, box, request.Box is not null, asItIs, SwapTable.Rows([.. cases.Zip(predicted)]), reach, remedies, [.. warnings, .. more]);
    }
}
