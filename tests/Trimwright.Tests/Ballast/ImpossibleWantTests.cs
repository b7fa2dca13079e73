using System.Collections.Immutable;
using System.Diagnostics;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.Ballast;

/// <summary>Wants that one thing missing makes impossible: what is named is what frees them.</summary>
public class ImpossibleWantTests
{
    [Fact]
    public void Of_an_impossible_want_relaxing_the_named_limit_alone_makes_a_plan()
    {
        int wanted = Tier.Count(quick: 1, ci: 25, @long: 100), done = 0, none = 0;
        var named = new SortedDictionary<Limit, int>();
        for (int seed = 9000; done < wanted; seed++)
        {
            var random = new Random(seed);
            LureDesign design = PlanCases.Lure(seed);
            if (RandomWantTests.AnyWant(design, random, MeshSize.Coarse) is not { } want) continue;
            // Possible with everything in the box; then one thing is taken away.
            if (Planner.Of(design, PlanCases.Kitchen, want, PlanLimits.Usual).Plans.IsEmpty) continue;
            (MakersBox box, PlanLimits limits) = Impossible(random);
            PlanAnswer answer = Planner.Of(design, box, want, limits);
            if (answer.WhyNot is not { } why) continue;
            named[why.Limit] = named.GetValueOrDefault(why.Limit) + 1;
            done++;
            if (why.Limit is Limit.Several or Limit.Posture or Limit.Weight)
            {
                Assert.Null(why.Freed);
                none++;
                continue;
            }
            Assert.NotNull(why.Freed);
            (MakersBox relaxedBox, PlanLimits relaxed, Want wider) = Relax(why, box, limits, want);
            PlanAnswer again = Planner.Of(design, relaxedBox, wider, relaxed);
            Assert.True(!again.Plans.IsEmpty, $"{seed}: relaxing {why.Limit} to {why.Relaxed} makes no plan");
            Assert.Contains("No plan", PlanWords.Of(why, answer, design, Notation.Metric), StringComparison.Ordinal);
        }
        Console.WriteLine($"{done} impossible wants: {string.Join(", ", named.Select(n => $"{n.Key} {n.Value}"))}; {none} that no single limit frees");
        if (Tier.IsCi) Assert.True(none < done / 2);
    }

    // One thing missing: kinds, lead, cutters, pockets, wood, or pieces.
    private static (MakersBox, PlanLimits) Impossible(Random random) => random.Next(6) switch
    {
        0 => (PlanCases.Small(random, 3), PlanLimits.Usual),
        1 => (PlanCases.Kitchen with { NoLead = true }, PlanLimits.Usual),
        2 => (PlanCases.Kitchen with { Cutters = [.. PlanCases.Kitchen.Cutters.Select(c => c with { DiametersMm = [3] })] }, PlanLimits.Usual),
        3 => (PlanCases.Kitchen with { Stock = [] }, PlanLimits.Usual with { MostPockets = 1 }),
        4 => (PlanCases.Kitchen, PlanLimits.Usual with { Sound = new SoundWood(7, 2) }),
        _ => (PlanCases.Kitchen with { Weights = [.. PlanCases.Kitchen.Weights.Select(w => w with { Count = 0 })], Stock = [.. PlanCases.Kitchen.Stock.Select(s => s with { LengthMm = 4 })] }, PlanLimits.Usual),
    };

    private static (MakersBox, PlanLimits, Want) Relax(WhyNot why, MakersBox box, PlanLimits limits, Want want) => why.Limit switch
    {
        Limit.Pockets => (box, limits with { MostPockets = (int)why.Relaxed }, want),
        Limit.Counts => (box with { Weights = [.. box.Weights.Select(w => w with { Count = null })], }, limits with { AnyCount = true }, want),
        Limit.Cutters => (box with { Cutters = [] }, limits, want),
        Limit.Wall => (box, limits with { Sound = limits.Sound with { Wall = why.Relaxed } }, want),
        Limit.Web => (box, limits with { Sound = limits.Sound with { Web = why.Relaxed } }, want),
        Limit.Lead => (box with { NoLead = false }, limits, want),
        Limit.Kinds => (box with
        {
            Stock =
            [
                .. box.Stock,
                .. (why.Relaxed > 0 ? [why.Relaxed] : new double[] { 5, 6, 8, 10, 12, 14, 16, 20 }).Select(d => new BoxStock
                {
                    Id = $"bought-{d}", Name = "bought", Kind = StockKind.Rod, DiameterMm = d, DensityGPerCm3 = box.NoLead ? 7.28 : 11.34, IsLead = !box.NoLead,
                }),
            ],
        }, limits, want),
        _ => (box, limits, want with { WeightWithin = why.Relaxed * want.WeightWithin, TrimWithin = why.Relaxed * want.TrimWithin }),
    };
}
