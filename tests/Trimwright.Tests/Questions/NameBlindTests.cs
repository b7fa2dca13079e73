using System.Collections.Immutable;
using Trimwright.App.Questions;
using Trimwright.Core.Box;
using Trimwright.Core.Telling;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;
using Trimwright.Core.Strength;
using Trimwright.Core.Water;
using Trimwright.Tests.Finish;

namespace Trimwright.Tests.Questions;

/// <summary>Names serve the eye only: a lure with clashing names, twins and belying words has every number that it has under plain ones.</summary>
public class NameBlindTests
{
    private static IEnumerable<double> Numbers(Prediction p)
    {
        foreach (Part part in p.Ledger.Parts) foreach (double n in new[] { part.Mass, part.Displaces, part.Centre.X, part.Centre.Z }) yield return n;
        yield return p.SpareBuoyancy;
        foreach (var posture in p.Postures) foreach (double n in new[] { posture.Trim, posture.Heel ?? -9, posture.NoseShowsAlong }) yield return n;
        foreach (Fall fall in p.Descent?.All ?? []) foreach (double n in new[] { fall.Rate, fall.Trim, fall.Glide }) yield return n;
    }

    /// <summary>What all commands say of a lure, as numbers; outside CI a lure is predicted at a third of stages and rigs, another third for the next, few are swapped and none searched.</summary>
    private static IEnumerable<double> Numbers(LureDesign design, int seed)
    {
        bool searches = Tier.IsCi && seed % 8 == 0, swaps = Tier.IsCi || seed % 4 == 1;
        foreach (Stage stage in Enum.GetValues<Stage>())
            foreach (Rig rig in Enum.GetValues<Rig>())
                if (Tier.IsCi || ((int)stage + (int)rig + seed) % 3 == 0)
                    foreach (double n in Numbers(Prediction.Of(design, new Circumstances(stage, rig, WaterState.Tap) { Mesh = MeshSize.Coarse }))) yield return n;
        Prediction sea = Prediction.Of(design, Circumstances.InTheSea with { Mesh = MeshSize.Coarse });
        foreach (Touch touch in sea.Descent?.First is { } fall ? Touch.Of(design, FallingBody.Of(design, sea.Ledger, WaterState.Ocean), fall) : [])
            foreach (double n in new[] { touch.Rate, touch.Trim }) yield return n;
        if (LureStrength.Of(design) is { } strength)
        {
            foreach (LoadPath path in strength.Paths)
                foreach (Link link in path.Links) foreach (double n in new[] { (double)link.Kind, link.LetsGo?.Newtons ?? -1 }) yield return n;
            foreach (Meeting meeting in strength.Reach.Hooks.Concat(strength.Reach.Back).Concat(strength.Reach.Leader)) yield return meeting.Room;
            yield return strength.CutLength;
        }
        foreach (Weighing weighing in BuildPlan.Of(design, Plans.Kitchen, Plans.Quick).Steps.SelectMany(s => s.Weighings))
            foreach (double n in new[] { weighing.Expected, weighing.Gain ?? -1 }) yield return n;
        if (swaps)
            foreach (HookSet set in HookSet.All(design, Catalogue.Starter)) foreach (HardwareItem item in set.Design.Hardware) yield return item.MassG;
        if (swaps)
            foreach (Remedy remedy in new Remedies(design, Catalogue.Starter).All()) foreach (double n in new[] { (double)remedy.Kind, remedy.Grams }) yield return n;
        if (!searches) yield break;
        foreach (Rung rung in Candidates.Ladder(new BuildModel(design, null, MeshSize.Coarse), new TubLog { Name = "" }, Circumstances.InTheSea)) yield return rung.Grams;
        PlanAnswer plans = Planner.Of(design with { Ballast = [] }, Plans.Kitchen, Core.Telling.WantWords.Parse("floats, level").Want!, PlanLimits.Usual with { MostPockets = 2 }, default);
        foreach (BallastPlan plan in plans.Plans) foreach (PlannedPiece piece in plan.Pieces) foreach (double n in new[] { piece.Piece.Mass, piece.Piece.AtMm[0] }) yield return n;
    }

    [Fact]
    public void Every_number_is_as_under_plain_names()
    {
        int clashing = 0, captive = 0, twins = 0;
        for (int seed = 0; seed < Tier.Count(quick: 24, ci: 80, @long: 200); seed++)
        {
            LureDesign design = RandomLures.Of(seed).Design, plain = RandomNames.Plain(design);
            string[] names = [.. design.Ballast.Select(p => p.Name), .. design.Hardware.Select(h => h.Name)];
            clashing += names.Any(n => n is "wire" or "eyes" or "glue and filler") ? 1 : 0;
            twins += names.Distinct().Count() < names.Length ? 1 : 0;
            captive += design.Hardware.Index().Count(h => design.IsCaptive(h.Index));
            Assert.Equal(Numbers(plain, seed), Numbers(design, seed));
        }
        Assert.True(clashing > 2 && captive > 2 && twins > 2, $"{clashing} clashing, {twins} twins, {captive} captive: too few");
    }

    [Fact]
    public void Three_pieces_of_one_name_at_one_hanger_each_have_their_own_drag()
    {
        LureDesign demo = Lures.Demo("tidegate-185");
        LureDesign Hung(string[] names, double[] areas) => demo with
        {
            Hardware = [.. demo.Hardware.Where(h => h.HangsFrom != "belly"), .. names.Zip(areas, (name, area) =>
                new HardwareItem { Name = name, Kind = HardwareKind.Treble, HangsFrom = "belly", MassG = 4, LengthMm = 40, DragAreaMm2 = area })],
        };
        Fall Falls(LureDesign design) => Prediction.Of(design, Circumstances.InTheSea with { Mesh = MeshSize.Coarse }).Descent!.First!;
        Fall apart = Falls(Hung(["a", "b", "c"], [100, 300, 900]));
        Assert.Equal(apart, Falls(Hung(["treble", "treble", "treble"], [100, 300, 900])));
        Fall swapped = Falls(Hung(["treble", "treble", "treble"], [900, 100, 300]));
        Assert.Equal((apart.Rate, apart.Trim), (swapped.Rate, swapped.Trim));
        // And the areas do count.
        Assert.NotEqual(apart.Rate, Falls(Hung(["treble", "treble", "treble"], [100, 100, 100])).Rate);
    }

    [Fact]
    public void A_name_that_several_weights_have_keeps_none_of_them()
    {
        LureDesign demo = Lures.Demo("tidegate-185");
        LureDesign twins = demo with { Ballast = [.. demo.Ballast.Select(p => p with { Name = "lead" })] };
        var question = new WhichWeights(twins, Catalogue.Starter, WantWords.Parse("sinks slowly, level").Want!) { Keep = ["lead"], Pockets = 2 };
        Flaw flaw = Assert.IsType<Reply<PlanMade>.Wrong>(question.Answer(Pace.Free)).Flaw;
        Assert.Equal(nameof(WhichWeights.Keep), flaw.Part);
        Assert.Contains("weight 1 of the file and weight 2 of the file", flaw.Fault.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_log_that_names_twins_is_refused_in_a_sentence_and_one_that_names_a_thing_is_not()
    {
        LureDesign demo = Lures.Demo("tidegate-185");
        LureDesign clash = demo with { Ballast = demo.Ballast.SetItem(0, demo.Ballast[0] with { Name = "wire" }) };
        TubLog Log(string part) => new() { Name = "x", Readings = [new LogReading { Kind = ReadingKind.Part, Part = part, MassG = 5 }] };
        Assert.Null(Parts.Fault(demo, Log("wire")));
        Assert.Null(Parts.Fault(clash, Log("rear lead rod")));
        Assert.Contains("weight 1 of the file and the wire itself", Parts.Fault(clash, Log("wire"))!.ToString(), StringComparison.Ordinal);
        // Two split rings hang there, one at the belly: with its place it is one thing, alone it is any of three.
        Assert.NotNull(Parts.Fault(demo, Log("split ring")));
        Assert.Null(Parts.Fault(demo, Log("split ring at belly")));
        Assert.NotNull(Parts.Fault(demo, Log("no such thing")));
    }
}
