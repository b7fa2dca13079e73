using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;
using Trimwright.Core.Water;

namespace Trimwright.Core.Ballast;

/// <summary>
/// A finished lure that can be changed from outside only: other hardware, another leader, plugs in drilled holes. Its
/// predictions are those of <see cref="Prediction.Of"/>, by the same model on the same mesh, but its body is made and
/// weighed once; and its rests are first found on a coarse mesh, then followed down on the fine one, which gives the same
/// rests at a tenth of the cost. Safe to use from several threads.
/// </summary>
public sealed class GluedLure
{
    // Rests nearer than this on the fine mesh are one, radians.
    private const double Same = 0.02;

    private readonly WireShape? wire;
    private readonly WeightLedger fine;
    private readonly WeightLedger coarse;

    // Prepared for cutting, and never cut themselves.
    private readonly FloatingBody fineBody;
    private readonly FloatingBody coarseBody;

    public LureDesign Design { get; }

    /// <summary>Mean density of its wood, g/mm³.</summary>
    public double WoodDensity { get; }

    /// <param name="design">Sound, from <see cref="LureFile.Read"/>, and of two halves wherever plugs are to go into it.</param>
    public GluedLure(LureDesign design)
    {
        Design = design;
        wire = design.Wire is { } described ? new WireShape(described, design.Body.Surface()) : null;
        fine = Bookkeeper.Of(design, Stage.Finished, Rig.Bare, 0, MeshSize.Live);
        coarse = Bookkeeper.Of(design, Stage.Finished, Rig.Bare, 0, MeshSize.Coarse);
        (fineBody, coarseBody) = (new(fine, WaterState.Ocean.Density), new(coarse, WaterState.Ocean.Density));
        fineBody.PrepareCuts();
        coarseBody.PrepareCuts();
        WoodDensity = Bookkeeper.WoodDensity(design, MeshSize.Live);
    }

    /// <summary>
    /// What the changed lure does, rigged and finished, in a water. <see cref="Prediction.Tipping"/> is left out.
    /// </summary>
    /// <param name="changed">Differs from <see cref="Design"/> in hardware, leader and plugs added at the end of its ballast only.</param>
    /// <param name="water">The water.</param>
    public Prediction Predict(LureDesign changed, WaterState water)
    {
        var circumstances = new Circumstances(Stage.Finished, Rig.Rigged, water);
        double effective = water.Density - Units.AirDensity;
        WeightLedger ledger = Bookkeeper.Altered(fine, Design, changed, wire, WoodDensity);
        var body = new FloatingBody(ledger, effective, fineBody);
        if (body.SpareBuoyancy <= 0)
        {
            Descent? descent = Falls.Of(FallingBody.Of(changed, ledger, water));
            return new(circumstances, ledger, body, Verdicts.Of(body, descent), [Posture.Sunk(body)], null, descent);
        }
        var rough = new FloatingBody(Bookkeeper.Altered(coarse, Design, changed, wire, WoodDensity), effective, coarseBody);
        Rests rests = RestSearch.All(rough.SpareBuoyancy > 0 ? rough : body);
        ImmutableArray<Rest> all = Followed(body, rests);
        ImmutableArray<Posture> postures = [.. all.Select(rest => Posture.Afloat(body, rest, all[0].Balance.Energy))];
        return new(circumstances, ledger, body, Verdicts.Of(body, null), postures, null, null);
    }

    private static ImmutableArray<Rest> Followed(FloatingBody body, Rests rough)
    {
        var all = new List<Rest>();
        foreach (Rest rest in rough.All)
        {
            Balance balance = rest.HeelIsFree ? RestSearch.Upright(body, rest.Balance) : Equilibrium.Descend(body, rest.Balance.N).Balance;
            if (!all.Exists(r => Numerics.Vec3.Angle(r.Balance.N, balance.N) < Same)) all.Add(rest with { Balance = balance });
        }
        return [.. all.OrderBy(r => r.Balance.Energy)];
    }
}
