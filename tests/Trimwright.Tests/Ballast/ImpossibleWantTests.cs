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
        if (!Tier.IsCi) Assert.Skip("a quarter of a minute's work for one such want; runs in CI");
        int wanted = Tier.Count(quick: 0, ci: 25, @long: 100), done = 0, none = 0;
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
            if (why.Limit is Limit.Posture or Limit.Weight) Assert.Null(why.Freed);
            if (why.Freed is null)
            {
                none++;
                continue;
            }
            if (why.Limit == Limit.Several)
            {
                // What is told together frees it together.
                Assert.NotEmpty(why.Missing);
                Assert.False(Planner.Of(design, Given(box, why), want, Allowed(limits, why)).Plans.IsEmpty, $"{seed}: all of what is missing makes no plan");
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

    // The box with everything in it that is told to be missing.
    private static MakersBox Given(MakersBox box, WhyNot why)
    {
        foreach (Missing m in why.Missing)
            box = m.Limit switch
            {
                Limit.Cutters => box with { Cutters = box.Cutters.Add(new BoxCutter { Id = $"bought-{box.Cutters.Length}", Name = "bought", Kind = m.Cutter!.Value, DiametersMm = [m.Amount], ReachMm = m.ReachMm }) },
                Limit.Counts when m.IsMm => box with { Stock = [.. box.Stock.Select(s => s.Name == m.Name ? s with { LengthMm = s.LengthMm + m.Amount } : s)] },
                Limit.Counts => box with { Weights = [.. box.Weights.Select(w => w.Name == m.Name ? w with { Count = w.Count + (int)m.Amount } : w)] },
                Limit.Lead => box with { NoLead = false },
                Limit.Kinds => box with
                {
                    Stock = box.Stock.Add(new BoxStock
                    {
                        Id = $"bar-{box.Stock.Length}", Name = "bought", Kind = StockKind.Rod, DiameterMm = m.Amount, DensityGPerCm3 = box.NoLead ? 7.28 : 11.34, IsLead = !box.NoLead,
                    }),
                },
                _ => box,
            };
        return box;
    }

    private static PlanLimits Allowed(PlanLimits limits, WhyNot why)
    {
        foreach (Missing m in why.Missing)
            limits = m.Limit switch
            {
                Limit.Pockets => limits with { MostPockets = (int)m.Amount },
                Limit.Wall => limits with { Sound = limits.Sound with { Wall = m.Amount } },
                _ => limits,
            };
        return limits;
    }

    [Fact]
    public void The_thickest_wall_that_will_do_is_named_and_a_thinner_one_than_usual_is_called_so()
    {
        LureDesign lure = Lures.Demo("tidegate-185") with { Ballast = [] };
        Want want = WantWords.Parse("sinks slowly, level").Want!;
        PlanAnswer Asked(double wall) => Planner.Of(lure, PlanCases.Kitchen, want, PlanLimits.Usual with { Sound = new SoundWood(wall, 2), LooksForMore = 1_500_000 });
        PlanAnswer none = Asked(9);
        Assert.Equal(Limit.Wall, none.WhyNot!.Limit);
        double wall = none.WhyNot.Relaxed;
        Assert.InRange(wall, 3, 8.5);
        Assert.NotEmpty(Asked(wall).Plans);
        Assert.Empty(Asked(wall + 0.5).Plans);
        string said = PlanWords.Of(none.WhyNot, none, lure, Notation.Metric).Replace('\u00A0', ' ');
        Assert.Contains(System.FormattableString.Invariant($"A wall of {wall:F1} mm outside the pocket would do it: allow that."), said);
        // Thinner than the usual 3 mm is never passed over.
        string thin = PlanWords.Of(none.WhyNot with { Relaxed = 2.5 }, none, lure, Notation.Metric).Replace('\u00A0', ' ');
        Assert.Contains("thinner than the usual 3.0 mm", thin);
    }

    [Fact]
    public void A_cutter_that_is_missing_is_named_and_makes_the_plan()
    {
        LureDesign lure = Lures.Demo("tidegate-185") with { Ballast = [] };
        Want want = WantWords.Parse("sinks slowly, level").Want!;
        MakersBox blunt = PlanCases.Kitchen with { Cutters = [.. PlanCases.Kitchen.Cutters.Select(c => c with { DiametersMm = [2] }).Where(c => c.Kind != CutterKind.Gouge)] };
        // Strips are let in with a chisel: none here.
        blunt = blunt with { Weights = [.. blunt.Weights.Where(w => w.Kind != BallastForm.Strip)], Stock = [.. blunt.Stock.Where(s => s.Kind != StockKind.Sheet)] };
        PlanAnswer none = Planner.Of(lure, blunt, want, PlanLimits.Usual);
        Assert.Equal(Limit.Cutters, none.WhyNot!.Limit);
        Assert.NotEmpty(none.WhyNot.Missing);
        string said = PlanWords.Of(none.WhyNot, none, lure, Notation.Metric).Replace('\u00A0', ' ');
        Assert.Matches(@"\d+ mm (round-nose cutter|flat-bottomed bit) that reaches \d", said);
        Assert.NotEmpty(Planner.Of(lure, Given(blunt, none.WhyNot), want, PlanLimits.Usual).Plans);
    }

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
