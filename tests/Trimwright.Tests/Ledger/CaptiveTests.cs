using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;
using Trimwright.Tests.Finish;

namespace Trimwright.Tests.Ledger;

/// <summary>A swivel that is threaded on the wire before its last eye is closed is there from then on, whatever else hangs.</summary>
public class CaptiveTests
{
    private static readonly LureDesign Stickbait = Lures.Demo("tidegate-185");

    private static readonly int Swivel = Stickbait.Hardware.Index().Single(h => h.Item.Kind == HardwareKind.Swivel).Index;

    private static LureDesign Without(LureDesign design, int item) => design with { Hardware = design.Hardware.RemoveAt(item) };

    private static double Weight(LureDesign design, Stage stage, Rig rig) =>
        Bookkeeper.Of(design, stage, rig, WaterState.Tap.Density - Core.Quantities.Units.AirDensity, MeshSize.Coarse).Weight;

    [Fact]
    public void A_swivel_of_so_many_grams_adds_them_at_every_stage_and_in_every_rig()
    {
        Assert.Equal(1.8, Stickbait.Hardware[Swivel].MassG);
        Assert.True(Stickbait.IsCaptive(Swivel));
        foreach (Stage stage in Enum.GetValues<Stage>())
            foreach (Rig rig in Enum.GetValues<Rig>())
                Assert.Equal(stage == Stage.Blank ? 0 : 1.8, Weight(Stickbait, stage, rig) - Weight(Without(Stickbait, Swivel), stage, rig), 1e-9);
    }

    [Fact]
    public void Stand_ins_pull_in_the_tub_as_what_unhooks_does()
    {
        int captives = 0;
        foreach (LureDesign design in Lures.Demos.Concat(Enumerable.Range(0, Tier.Count(40, 200)).Select(seed => RandomLures.Of(seed).Design)))
        {
            if (design.Hardware.IsEmpty) continue;
            captives += design.Hardware.Index().Count(h => design.IsCaptive(h.Index));
            Circumstances tub = new(Stage.DryFit, Rig.StandIns, WaterState.Tap) { Mesh = MeshSize.Coarse };
            double standIns = Prediction.Of(design, tub).SpareBuoyancy, rigged = Prediction.Of(design, tub with { Rig = Rig.Rigged }).SpareBuoyancy;
            double floats = Bookkeeper.Of(design, Stage.DryFit, Rig.Rigged, 0, MeshSize.Coarse).Chains
                .Sum(c => Math.Max(0, -c.Unhooks.Sum(i => i.Mass - (WaterState.Tap.Density - Core.Quantities.Units.AirDensity) * i.Volume)));
            double leader = design.Leader is { CarriedMm: > 0 } l ? Solids.Cylinder(l.DiameterMm, l.CarriedMm)
                * (WaterState.Tap.Density - Core.Quantities.Units.AirDensity - l.DensityGPerCm3 * 1e-3) : 0;
            // A leader pulls at a rigged lure only, and no lead stands in for a float.
            Assert.Equal(rigged - leader - floats, standIns, 0.1);
        }
        Assert.True(captives > 5, $"{captives} captive swivels: too few to say anything");
    }

    [Fact]
    public void A_second_swivel_in_the_chain_and_one_at_a_loop_unhook()
    {
        LureDesign twice = Stickbait with { Hardware = Stickbait.Hardware.Insert(Swivel + 1, Stickbait.Hardware[Swivel] with { MassG = 2.5 }) };
        Assert.True(twice.IsCaptive(Swivel));
        Assert.False(twice.IsCaptive(Swivel + 1));
        LureDesign loop = Stickbait with { Wire = Stickbait.Wire! with { Hangers = [Stickbait.Wire.Hangers[0] with { Kind = HangerKind.Loop }] } };
        Assert.False(loop.IsCaptive(Swivel));
        Assert.Equal(0, Weight(loop, Stage.DryFit, Rig.Bare) - Weight(Without(loop, Swivel), Stage.DryFit, Rig.Bare), 1e-9);
    }

    [Fact]
    public void The_build_plan_weighs_it_with_the_wire_and_never_hangs_it_on_later()
    {
        BuildPlan plan = BuildPlan.Of(Stickbait, null, Plans.Quick);
        Weighing wire = plan.Steps.OfType<WireStep>().Single().Weighings.Single(), dry = plan.Steps.OfType<DryFitStep>().Single().Weighings.Single(w => w.Point == WeighPoint.DryFit);
        BuildPlan without = BuildPlan.Of(Without(Stickbait, Swivel), null, Plans.Quick);
        Assert.Equal(1.8, wire.Expected - without.Steps.OfType<WireStep>().Single().Weighings.Single().Expected, 1e-9);
        Assert.Equal(1.8, dry.Expected - without.Steps.OfType<DryFitStep>().Single().Weighings.Single(w => w.Point == WeighPoint.DryFit).Expected, 1e-9);
        Assert.DoesNotContain(plan.Steps.OfType<RigStep>().Single().Chains.SelectMany(c => c.Items), i => i.Kind == HardwareKind.Swivel);
        double belly = plan.Steps.OfType<DryFitStep>().Single().Weighings.Single(w => w is { Point: WeighPoint.StandIn, Name: "belly" }).Expected;
        Assert.Equal(belly, without.Steps.OfType<DryFitStep>().Single().Weighings.Single(w => w is { Point: WeighPoint.StandIn, Name: "belly" }).Expected, 1e-9);
    }

    [Fact]
    public void The_build_plan_s_weighings_add_up_to_the_ledger()
    {
        for (int seed = 0; seed < Tier.Count(30, 200); seed++)
        {
            LureDesign design = RandomLures.Of(seed).Design;
            BuildPlan plan = BuildPlan.Of(design, null, Plans.Quick);
            Weighing[] all = [.. plan.Steps.SelectMany(s => s.Weighings)];
            ImmutableArray<Part> parts = plan.InTheSea.Ledger.Parts;
            double Sum(params PartKind[] kinds) => parts.Where(p => kinds.Contains(p.Kind)).Sum(p => p.Mass);
            // Piece by piece as they are weighed in: boards' wood and what is cut from it, wire and all on it, weights, glue, sealer, coats, eyes, hooks.
            double pieces = all.Where(w => w.Point == WeighPoint.Piece).Sum(w => w.Expected);
            Assert.Equal(Sum(PartKind.Weight), pieces, 1e-6);
            Assert.Equal(design.Ballast.Select(p => p.Mass), all.Where(w => w.Point == WeighPoint.Piece).Select(w => w.Expected));
            double threaded = design.Ballast.Where(p => p.OnWire).Sum(p => p.Mass);
            double wire = all.Where(w => w.Point == WeighPoint.Wire).Sum(w => w.Expected);
            Assert.Equal(Sum(PartKind.Wire, PartKind.Captive), wire - (wire > 0 ? threaded : 0), 1e-6);
            double glued = all.Where(w => w.Point == WeighPoint.Glued).Sum(w => w.Gain ?? 0);
            if (all.Any(w => w.Point == WeighPoint.Glued)) Assert.Equal(Sum(PartKind.GlueLine, PartKind.Filler, PartKind.NoGlueInSlot), glued, 1e-6);
            Assert.Equal(Sum(PartKind.Coat), all.Where(w => w.Point == WeighPoint.Coat).Sum(w => w.Gain ?? 0), 1e-6);
            if (all.SingleOrDefault(w => w.Point == WeighPoint.DryFit) is { } dry)
                Assert.Equal(Sum(PartKind.CarvedWood, PartKind.PartedWood, PartKind.WoodForWeight, PartKind.WoodForWire, PartKind.WoodForScrew, PartKind.OpenSlot,
                    PartKind.Wire, PartKind.ScrewEye, PartKind.Captive, PartKind.Weight), dry.Expected, 1e-6);
            if (all.SingleOrDefault(w => w.Point == WeighPoint.Rigged) is { } rigged) Assert.Equal(parts.Sum(p => p.Mass), rigged.Expected, 1e-6);
        }
    }
}
