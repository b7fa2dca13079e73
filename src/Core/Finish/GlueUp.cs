using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Core.Finish;

/// <summary>The half hour after which nothing inside can be reached: what is mixed, and what goes where.</summary>
/// <param name="Step">As the build plan has it.</param>
/// <param name="Pockets">What lies inside, in the order of the lure's weights, by which sheets number them.</param>
/// <param name="Box">What the maker has; null: nobody said.</param>
/// <param name="TemperatureC">In the shop, °C, where it sets.</param>
public sealed record GlueUp(GlueStep Step, ImmutableArray<Pocket> Pockets, MakersBox? Box, double TemperatureC)
{
    /// <summary>Two halves are glued to each other.</summary>
    public static bool IsOfHalves(LureDesign design) =>
        design.Wire is not null || !design.Ballast.IsEmpty || design.Joint is not null || design.Halves is not null;

    /// <summary>A weight of it is of lead, or may be.</summary>
    public static bool HoldsLead(LureDesign design) => design.Ballast.Any(p => p.DensityGPerCm3 is null or > 10.4 and < 11.6);

    /// <summary>For a sound design; null where no halves are glued. The same numbers as a whole build plan's.</summary>
    public static GlueUp? Of(LureDesign design, MakersBox? box, BuildConditions conditions)
    {
        if (!IsOfHalves(design)) return null;
        WeightLedger glued = Bookkeeper.Of(design, Stage.Glued, Rig.Bare, WaterState.Tap.Density - Units.AirDensity, conditions.Mesh);
        GlueStep step = StepOf(glued, box, conditions.TemperatureC);
        return new GlueUp(
            HoldsLead(design) ? step with { Cautions = [.. step.Cautions, Caution.Lead] } : step,
            [.. design.Ballast.Select(Pocket.Of)], box, conditions.TemperatureC);
    }

    /// <summary>The step, but for its weigh points, of the lure as weighed up when glued.</summary>
    internal static GlueStep StepOf(WeightLedger glued, MakersBox? box, double temperatureC)
    {
        double gap = glued.Of(PartKind.Filler).Sum(p => p.Mass);
        double line = glued.Parts.Where(p => p.Group == PartGroup.Glue).Sum(p => p.Mass) - gap;
        BoxFinish? product = Products.For(FinishUse.Glue, box);
        return new GlueStep
        {
            Phase = Phase.Gluing, Hands = TimeSpan.FromMinutes(40), LineMass = line, GapMass = gap, Mix = Mix.Of(line + gap, product),
            Times = CureTimes.Of(product, temperatureC), Cautions = [Caution.Epoxy, Caution.CupHeat],
        };
    }
}
