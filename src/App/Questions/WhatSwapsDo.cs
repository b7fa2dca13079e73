using System.Collections.Immutable;
using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Strength;
using Trimwright.Core.Water;

namespace Trimwright.App.Questions;

/// <summary>What would other hooks, another water and another leader do, and what is left to do once it is glued?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Box">The box whose hooks, rings, wire and drills are taken; null: usual ones.</param>
/// <param name="Water">In which remedies are told.</param>
/// <param name="Everything">Every hook set with every leader, not only the own hooks.</param>
internal sealed record WhatSwapsDo(LureDesign Design, MakersBox? Box, WaterState Water, bool Everything) : IQuestion<SwapAnswer>
{
    public bool IsWide => true;

    public SwapAnswer Answer(Pace pace)
    {
        MakersBox box = Box ?? Catalogue.Starter;
        return (this with { Design = Box?.Cut(Design) ?? Design }).Of(box, pace);
    }

    private SwapAnswer Of(MakersBox box, Pace pace)
    {
        LureDesign slack = Design with { Leader = Design.Leader is { } leader ? leader with { CarriedMm = 0 } : null };
        var lure = new GluedLure(slack);
        SwapCase[] cases = [.. SwapTable.Cases(Design, box).Where(c => Everything || c.Leader.Name is null || c.Hooks.Change == HookChange.Own)];
        Prediction[] predicted = pace.Each(cases, c => lure.Predict(c.Design, c.Water));
        Prediction asItIs = lure.Predict(slack, Water);
        LureStrength? own = LureStrength.Of(slack);
        var reach = pace.Each(cases.Select(c => c.Hooks).Distinct(), set => (Set: set, Reach: set.ReachesAnew(own)))
            .Where(r => r.Reach is not null).ToDictionary(r => r.Set, r => r.Reach!);
        ImmutableArray<RemedyEffect> remedies =
        [
            .. pace.Each(new Remedies(slack, box, pace).All(), r => (Remedy: r, Prediction: lure.Predict(r.Design, Water)))
                .Select(r => new RemedyEffect(r.Remedy, r.Prediction, SwapEffect.Of(asItIs, r.Prediction))),
        ];
        return new(Design, box, Box is not null, asItIs, SwapTable.Rows([.. cases.Zip(predicted)]), reach, remedies);
    }
}

/// <param name="Design">As asked about.</param>
/// <param name="Box">What there was to swap with.</param>
/// <param name="IsOwnBox">It is the maker's, not the catalogue.</param>
/// <param name="AsItIs">In the water asked for, its leader slack: what remedies are held against.</param>
/// <param name="Rows">Hooks × water × leader.</param>
/// <param name="Reach">Of hook sets that reach something which the own hooks do not.</param>
/// <param name="Remedies">With what each does in that water.</param>
internal sealed record SwapAnswer(
    LureDesign Design, MakersBox Box, bool IsOwnBox, Prediction AsItIs, ImmutableArray<SwapRow> Rows, IReadOnlyDictionary<HookSet, HookReach> Reach,
    ImmutableArray<RemedyEffect> Remedies);
