using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Core;

/// <summary>Under which circumstances to predict.</summary>
/// <param name="Stage">How far the build is.</param>
/// <param name="Rig">What hangs on it.</param>
/// <param name="Water">The water it is put into.</param>
public sealed record Circumstances(Stage Stage, Rig Rig, WaterState Water)
{
    public static readonly Circumstances InTheSea = new(Stage.Finished, Rig.Rigged, WaterState.Ocean);

    public MeshSize Mesh { get; init; } = MeshSize.Live;
}

/// <summary>
/// What a lure will weigh, how it will sit and how it will fall. Masses g as weighed in air, lengths mm, volumes mm³, angles radians,
/// body axes (x aft from the nose, y to starboard, z up).
/// </summary>
/// <param name="Circumstances">What was asked.</param>
/// <param name="Ledger">Its parts at that stage.</param>
/// <param name="Body">As the water sees it.</param>
/// <param name="Verdict">Floats, suspends or sinks, and how fast.</param>
/// <param name="Postures">Every stable posture, lowest energy first; sunk: the one free posture at rest.</param>
/// <param name="Tipping">How it answers when tipped from the first posture; null when sunk, and in a preview.</param>
/// <param name="Descent">Every steady fall of a lure that sinks; null when it floats, or sinks by its leader only.</param>
public sealed record Prediction(
    Circumstances Circumstances,
    WeightLedger Ledger,
    FloatingBody Body,
    Verdict Verdict,
    ImmutableArray<Posture> Postures,
    Tipping? Tipping,
    Descent? Descent)
{
    /// <summary>Predicts; the design must be sound (<see cref="LureFile.Read"/> says so).</summary>
    public static Prediction Of(LureDesign design, Circumstances circumstances)
    {
        double water = circumstances.Water.Density - Units.AirDensity;
        WeightLedger ledger = Bookkeeper.Of(design, circumstances.Stage, circumstances.Rig, water, circumstances.Mesh);
        var body = new FloatingBody(ledger, water);
        if (body.SpareBuoyancy <= 0)
        {
            Descent? descent = Falls.Of(FallingBody.Of(design, ledger, circumstances.Water));
            return new(circumstances, ledger, body, Verdicts.Of(body, descent), [Posture.Sunk(body)], null, descent);
        }
        ImmutableArray<Rest> rests = RestSearch.All(body).All;
        ImmutableArray<Posture> postures = [.. rests.Select(rest => Posture.Afloat(body, rest, rests[0].Balance.Energy))];
        return new(circumstances, ledger, body, Verdicts.Of(body, null), postures, Tipping.Of(body, ledger, rests[0].Balance), null);
    }

    /// <summary>
    /// A preview while a shape changes bit by bit: of a lure that floats only the first posture before is followed to its rest, and
    /// <see cref="Tipping"/> is null. Where following says nothing sure, it is <see cref="Of"/> in the same circumstances.
    /// </summary>
    public static Prediction Following(LureDesign design, Prediction before)
    {
        if (before.SpareBuoyancy <= 0) return Of(design, before.Circumstances);
        double water = before.Circumstances.Water.Density - Units.AirDensity;
        WeightLedger ledger = Bookkeeper.Of(design, before.Circumstances.Stage, before.Circumstances.Rig, water, before.Circumstances.Mesh);
        var body = new FloatingBody(ledger, water);
        if (body.SpareBuoyancy <= 0 || RestSearch.Follow(body, before.Posture) is not { } rest) return Of(design, before.Circumstances);
        return new(before.Circumstances, ledger, body, Verdicts.Of(body, null), [Posture.Afloat(body, rest, rest.Balance.Energy)], null, null);
    }

    /// <summary>Displacement less weight when pushed fully under, g.</summary>
    public double SpareBuoyancy => Body.SpareBuoyancy;

    /// <summary>The posture it takes first.</summary>
    public Posture Posture => Postures[0];
}
