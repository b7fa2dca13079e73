using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Ballast;

/// <summary>Plans for the demo lures and for random ones: near enough, sound, from what the box has, and held by the whole prediction.</summary>
public class PlannerTests
{
    /// <summary>What no plan may break, asked by other means than the planner's own.</summary>
    internal static void Holds(LureDesign design, MakersBox box, PlanAnswer answer, BallastPlan plan, string what)
    {
        // It reads as a sound file, and predicts as promised from that file.
        Reading<LureDesign> read = LureFile.Read(LureFile.Write(plan.Design));
        Assert.True(read.IsSound, $"{what}: {string.Join("; ", read.Faults)}");
        Prediction p = Prediction.Of(read.Value!, answer.Want.Circumstances);
        Assert.True(BallastPlan.Does(p, answer.Want), what);
        Assert.True(Math.Abs(BallastPlan.TrimOf(p) - answer.Want.Trim) <= Units.FromDegrees(3), $"{what}: trim {Units.ToDegrees(BallastPlan.TrimOf(p)):F2}°");
        if (answer.Want.Spare is { } spare) Assert.True(Math.Abs(p.SpareBuoyancy - spare) <= 0.3, $"{what}: {p.SpareBuoyancy} g for {spare}");
        if (answer.Want.Manner == Manner.Falls)
        {
            double rate = p.Descent!.First!.Rate, heavy = -p.SpareBuoyancy;
            // Grams from rates: drag is nearly quadratic.
            double grams = heavy * (Math.Pow(answer.Want.Rate / rate, 2) - 1);
            Assert.True(Math.Abs(grams) <= 0.3 + 0.15 * heavy * Math.Abs(BallastPlan.TrimOf(p) - answer.Want.Trim), $"{what}: falls at {rate} for {answer.Want.Rate}, {grams:F2} g");
        }
        foreach (IGrouping<string, PlannedPiece> kind in plan.Pieces.GroupBy(x => x.BoxId))
        {
            BoxItem? item = box.Find(kind.Key);
            Assert.NotNull(item);
            if (item is CountedItem { Count: { } count }) Assert.True(kind.Count() <= count, $"{what}: {kind.Count()} of {count} {item.Name}");
            if (item is BoxStock { LengthMm: { } length }) Assert.True(kind.Sum(x => x.CutLengthMm ?? 0) <= length, $"{what}: more {item.Name} than there is");
            Assert.False(box.NoLead && item is BoxWeight { IsLead: true } or BoxStock { IsLead: true } && box.NoLead, $"{what}: lead");
        }
        InSoundWood(design, plan, what);
    }

    /// <summary>Points of each pocket's skin, pushed outward by the wall less the grid's cell, lie in the wood; no two pockets and no wire come near.</summary>
    private static void InSoundWood(LureDesign design, BallastPlan plan, string what)
    {
        Body body = design.Body.Surface();
        var wire = design.Wire is { } w ? new Core.Ledger.WireShape(w, body) : null;
        for (int i = 0; i < plan.Pieces.Length; i++)
        {
            PlannedPiece piece = plan.Pieces[i];
            Vec3 middle = piece.Piece.Middle;
            foreach (Vec3 point in piece.Piece.Points())
            {
                Vec3 outward = (point - middle).Unit();
                Assert.True(body.Contains(point + 2.2 * outward), $"{what}: {piece.Piece.Name} at {middle} comes within 2.2 mm of the outside at {point}");
            }
            Vec3 half = piece.Piece.Box / 2;
            for (int k = i + 1; k < plan.Pieces.Length; k++)
            {
                Vec3 other = plan.Pieces[k].Piece.Middle - middle, both = half + plan.Pieces[k].Piece.Box / 2;
                Assert.True(Math.Abs(other.X) >= both.X + 2 - 1e-6 || Math.Abs(other.Z) >= both.Z + 2 - 1e-6, $"{what}: two pockets overlap");
            }
            if (wire is null || piece.Piece.OnWire) continue;
            for (int s = 1; s < wire.Path.Count; s++)
                for (int t = 0; t <= 40; t++)
                {
                    Vec3 at = wire.Path[s - 1] + t / 40.0 * (wire.Path[s] - wire.Path[s - 1]) - middle;
                    Assert.False(Math.Abs(at.X) < half.X + 1 && Math.Abs(at.Z) < half.Z + 1, $"{what}: {piece.Piece.Name} at {middle} meets the wire at {at + middle}");
                }
        }
    }

    public static TheoryData<string, string> Demos => new()
    {
        { "tidegate-185", "sinks slowly, level" },
        { "mooring-post-210", "stands at 72 deg, 37 mm of nose out" },
        { "slipway-150", "floats, 50 deg tail down, 20 g to spare" },
    };

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_demo_lure_without_its_weights_gets_a_plan_from_a_box_without_those_pieces(string name, string words)
    {
        LureDesign demo = Lures.Demo(name), design = PlanCases.Stripped(demo);
        MakersBox box = PlanCases.Without(PlanCases.Kitchen, demo);
        int kinds = box.Weights.Length + box.Stock.Length;
        Assert.True(kinds >= 25, $"{kinds} kinds");
        Want want = WantWords.Parse(words).Want!;
        PlanAnswer answer = Planner.Of(design, box, want, PlanLimits.Usual);
        Assert.NotEmpty(answer.Plans);
        Console.WriteLine($"{name}, {words}: {kinds} kinds, {answer.Offers} ways, {answer.Seats} places 1 mm apart, {answer.Plans.Length} plans; "
            + $"first {PlanWords.Name(answer.Plans[0])}: {answer.Plans[0].SpareMiss:F2} g, {Units.ToDegrees(answer.Plans[0].TrimMiss):F2}°, proved {answer.Proved}, gap {answer.Gap:F3}");
        Assert.True(answer.Proved || answer.Gap > 0);
        foreach (BallastPlan plan in answer.Plans) Holds(design, box, answer, plan, name);
        for (int i = 0; i < answer.Plans.Length; i++)
            for (int k = 0; k < i; k++)
                Assert.True(ReallyDiffer(answer.Plans[i], answer.Plans[k]), $"{name}: plans {k + 1} and {i + 1} are alike");
    }

    private static bool ReallyDiffer(BallastPlan a, BallastPlan b) => a.Pieces.Length != b.Pieces.Length
        || a.Pieces.Zip(b.Pieces).Any(p => p.First.Piece.Form != p.Second.Piece.Form || p.First.Piece.Axis != p.Second.Piece.Axis
            || p.First.Piece.OnWire != p.Second.Piece.OnWire || Math.Abs(p.First.Piece.AtMm[0] - p.Second.Piece.AtMm[0]) >= 15);

    [Fact]
    public void A_cancelled_search_ends_before_its_next_step()
    {
        // Many pockets of small pieces, a want that they hardly meet: minutes of search.
        LureDesign design = PlanCases.Stripped(Lures.Demo("tidegate-185"));
        MakersBox box = Catalogue.Starter with { Stock = [], Weights = [.. Catalogue.Starter.Weights.Where(w => w.Mass.Value < 3.3)] };
        using var stop = new CancellationTokenSource();
        int steps = 0, after = 0;
        var pace = new Pace(stop.Token, turn: () =>
        {
            if (stop.IsCancellationRequested) Interlocked.Increment(ref after);
            else if (Interlocked.Increment(ref steps) == 2000) stop.Cancel();
        });
        PlanLimits limits = PlanLimits.Usual with { MostPockets = 8, LooksForMore = 1_000_000_000_000 };
        Assert.ThrowsAny<OperationCanceledException>(() => Planner.Of(design, box, WantWords.Parse("sinks slowly, level").Want!, limits, pace));
        // On each core a step may have been under way.
        Assert.InRange(after, 0, Environment.ProcessorCount);
    }

    [Fact]
    public void A_lure_on_a_cliff_says_so_and_ranks_below_one_that_is_not()
    {
        // The pencil with weights of 13 or 14 g sits at 26 or 60°: common practice, tried on the starters.
        LureDesign design = PlanCases.Stripped(Lures.Demo("mooring-post-210"));
        PlanAnswer steep = Planner.Of(design, PlanCases.Kitchen, Want.Standing(Units.FromDegrees(45), 60), PlanLimits.Usual);
        bool cliff = false;
        foreach (BallastPlan plan in steep.Plans)
        {
            Assert.True(!cliff || plan.OnCliff, "a plan on a cliff stands before one that is not");
            cliff |= plan.OnCliff;
            if (plan.OnCliff) Assert.Contains("cliff", PlanWords.Touch(plan, Notation.Metric), StringComparison.Ordinal);
            Assert.Equal(plan.OnCliff, plan.Aft.Other || Math.Abs(plan.Aft.Trim) > BallastPlan.Cliff || plan.Lighter > BallastPlan.Cliff || PlanWords.Touch(plan, Notation.Metric).Contains("cliff", StringComparison.Ordinal));
        }
        Console.WriteLine(steep.Plans.IsEmpty ? PlanWords.Of(steep.WhyNot!, steep, design, Notation.Metric)
            : string.Join("; ", steep.Plans.Select(p => $"{PlanWords.Name(p)}: half a gram {Units.ToDegrees(p.Lighter):F1}°{(p.OnCliff ? " cliff" : "")}")));
    }

    /// <summary>Afloat by a billionth of a gram or sunk by one: the same places, and the same answer to a millimetre and a gram.</summary>
    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("mooring-post-210")]
    public void What_a_change_does_to_a_lure_that_suspends_hangs_on_no_rounding(string name)
    {
        LureDesign design = PlanCases.Stripped(Lures.Demo(name));
        PlanAnswer At(double spare) => Planner.Of(design, PlanCases.Kitchen, Want.Suspending() with { Spare = spare }, PlanLimits.Usual with { MostPockets = 2 });
        (PlanAnswer above, PlanAnswer below) = (At(1e-9), At(-1e-9));
        Assert.NotEmpty(above.Plans);
        Assert.Equal(above.Plans.Length, below.Plans.Length);
        foreach ((BallastPlan a, BallastPlan b) in above.Plans.Zip(below.Plans))
        {
            Assert.Equal(a.Pieces.Select(p => p.Piece.Middle), b.Pieces.Select(p => p.Piece.Middle));
            Assert.Equal(a.Aft.Trim, b.Aft.Trim, 1e-6);
            Assert.Equal(a.Heavier.Trim, b.Heavier.Trim, 1e-6);
            Assert.Equal(a.Lighter, b.Lighter, 1e-6);
            Assert.Equal(a.OnCliff, b.OnCliff);
            // A piece moved aft turns the tail down, by the moment over the height of the lift over the weight.
            Assert.True(a.Aft.Trim > 0, $"{Units.ToDegrees(a.Aft.Trim)}°");
            Assert.Equal(a.Heavier.Rate, b.Heavier.Rate, 5e-4);
        }
        Assert.Equal(PlanWords.Touch(above.Plans[0], Notation.Metric), PlanWords.Touch(below.Plans[0], Notation.Metric));
    }

    [Fact]
    public void A_piece_that_stays_stays()
    {
        LureDesign demo = Lures.Demo("tidegate-185");
        LureDesign design = demo with { Ballast = [demo.Ballast[0]], Joint = demo.Joint ?? new JointDesign() };
        PlanAnswer answer = Planner.Of(design, PlanCases.Kitchen, WantWords.Parse("sinks slowly, level").Want!, PlanLimits.Usual);
        Assert.NotEmpty(answer.Plans);
        foreach (BallastPlan plan in answer.Plans)
        {
            Assert.Equal(demo.Ballast[0], plan.Design.Ballast[0]);
            Holds(design, PlanCases.Kitchen, answer, plan, "pinned");
            Vec3 own = demo.Ballast[0].Box / 2, at = demo.Ballast[0].Middle;
            foreach (PlannedPiece piece in plan.Pieces)
                Assert.True(Math.Abs(piece.Piece.Middle.X - at.X) > own.X + piece.Piece.Box.X / 2 + 1 || Math.Abs(piece.Piece.Middle.Z - at.Z) > own.Z + piece.Piece.Box.Z / 2 + 1);
        }
    }
}
