using System.Globalization;
using Trimwright.App.Scheduling;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Strength;

namespace Trimwright.App.Questions;

/// <summary>What holds a fish, and what lets go first?</summary>
/// <param name="Design">Sound.</param>
/// <param name="DragKgf">The reel's setting, kgf, <see cref="LeastDrag"/> to <see cref="MostDrag"/>; null: not said.</param>
internal sealed record WhatHolds(LureDesign Design, double? DragKgf) : IQuestion<Reply<StrengthAnswer>>
{
    /// <summary>What the maker has: what the lure says no strength of is taken to hold what the like of it in the box does; null: nobody said.</summary>
    public MakersBox? Box { get; init; }

    public const double LeastDrag = 0.1;
    public const double MostDrag = 200;

    /// <summary>What is wrong with a drag; null when it can be.</summary>
    public static Flaw? FlawIn(double? dragKgf) => dragKgf is null or (>= LeastDrag and <= MostDrag) ? null : new Flaw(nameof(DragKgf), new Fault(
        "range", "drag", string.Create(CultureInfo.InvariantCulture, $"{dragKgf} kgf"), string.Create(CultureInfo.InvariantCulture, $"{LeastDrag} to {MostDrag} kgf"),
        "Say what the reel is set to."));

    public Reply<StrengthAnswer> Answer(Pace pace)
    {
        if (FlawIn(DragKgf) is { } flaw) return flaw;
        if (LureStrength.Of(Box?.Strong(Design) ?? Design) is { } strength) return new StrengthAnswer(Design, strength, DragKgf * Units.KilogramForce);
        return new Reply<StrengthAnswer>.Cannot(new Fault("missing", "wire", "a lure without wire", "a lure with wire, whose eyes and hangers carry the hooks", "Add \"wire\" to the file."));
    }
}

/// <param name="Design">As asked about.</param>
/// <param name="Strength">Its chain.</param>
/// <param name="Drag">The reel's setting, N; null when none was given.</param>
internal sealed record StrengthAnswer(LureDesign Design, LureStrength Strength, double? Drag);
