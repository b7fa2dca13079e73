using System.Diagnostics;
using System.Globalization;
using System.Text;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Ballast;

/// <summary>
/// The search against trying everything, and against the same model written as a linear programme and solved by COIN-OR CBC
/// (Debian package coinor-cbc).
/// </summary>
public class PlanSearchTests
{
    /// <summary>A small model whose want some of its own seats meet nearly, or nobody.</summary>
    private static BallastModel? Small(int seed, int kinds, double step, int pockets)
    {
        var random = new Random(seed);
        LureDesign design = PlanCases.Lure(seed);
        PlanLimits limits = PlanLimits.Usual with { Step = step, MostPockets = pockets, LooksForMore = 15_000_000 };
        MakersBox box = PlanCases.Small(random, kinds);
        BallastModel places = PlanCases.Places(design, box, 60, limits);
        if (PlanCases.Draw(places, random, random.Next(1, pockets + 1)) is not { } seats) return null;
        if (PlanCases.AsItIs(PlanCases.With(design, places, seats), Core.Circumstances.InTheSea with { Mesh = Core.Shape.MeshSize.Coarse }) is not { } want) return null;
        // Off by up to twice what is allowed: sometimes there is no answer, sometimes another than the one drawn.
        want = want.Manner == Manner.Falls ? want with { Rate = want.Rate * (1 + 0.1 * (random.NextDouble() - 0.5)) } : want with { Spare = Math.Max(want.Spare!.Value + random.NextDouble() - 0.5, 0) };
        want = want with { Trim = want.Trim + 0.1 * (random.NextDouble() - 0.5) };
        return Target.Of(design, want).Target is { } target ? Planner.Model(design, box, want, target, limits) : null;
    }

    /// <summary>The least cost over every set of up to three seats; infinite when none meets the want.</summary>
    private static double TryEverything(BallastModel model)
    {
        Seat[] all = [.. model.Seats.SelectMany(s => s)];
        double best = double.PositiveInfinity;
        void Weigh(params ReadOnlySpan<Seat> seats)
        {
            Sums sums = default;
            foreach (Seat seat in seats) sums += model.SumsOf(seat);
            if (model.Meets(sums)) best = Math.Min(best, model.Cost(sums));
        }
        Weigh();
        for (int i = 0; i < all.Length; i++)
        {
            if (model.InTheBox([all[i].Offer])) Weigh(all[i]);
            for (int j = i + 1; j < all.Length && model.Limits.MostPockets > 1; j++)
            {
                if (!model.Clear(all[i], all[j]) || !model.InTheBox([all[i].Offer, all[j].Offer])) continue;
                Weigh(all[i], all[j]);
                for (int k = j + 1; k < all.Length && model.Limits.MostPockets > 2; k++)
                    if (model.Clear(all[i], all[k]) && model.Clear(all[j], all[k]) && model.InTheBox([all[i].Offer, all[j].Offer, all[k].Offer])) Weigh(all[i], all[j], all[k]);
            }
        }
        return best;
    }

    [Fact]
    public void On_small_boxes_it_equals_trying_everything()
    {
        int wanted = Tier.Count(quick: 18, ci: 300, @long: 1000), done = 0, solved = 0;
        var pockets = new int[4];
        for (int seed = 0; done < wanted; seed++)
        {
            if (Small(seed, kinds: 4, step: 14, pockets: 3) is not { } model || model.SeatCount is 0 or > 260) continue;
            double best = TryEverything(model);
            Found found = PlanSearch.Of(model);
            Assert.True(found.Proved, $"case {seed}: not proved, gap {found.Gap}");
            Assert.Equal(double.IsPositiveInfinity(best), found.Best is null);
            if (found.Best is { } choice)
            {
                Assert.True(Math.Abs(choice.Cost - best) < 1e-9, $"case {seed}: {choice.Cost} for {best}");
                Assert.True(Math.Abs(model.Cost(model.SumsOf(choice.Seats)) - best) < 1e-9);
                pockets[choice.Seats.Length]++;
                solved++;
            }
            done++;
        }
        Console.WriteLine($"{done} cases, {solved} with a plan: of {string.Join(", ", pockets.Select((n, p) => $"{p} pockets {n}"))}");
        Assert.True(solved > wanted / 5 && solved < wanted, "both kinds of case must occur");
    }

    [Fact]
    public void On_larger_boxes_it_equals_another_solver_on_the_same_model()
    {
        Outside.NeedProgram("cbc", "coinor-cbc");
        int wanted = Tier.Count(quick: 1, ci: 12, @long: 60), done = 0;
        for (int seed = 5000; done < wanted; seed++)
        {
            if (Small(seed, kinds: 14, step: 4, pockets: 3) is not { } model || model.SeatCount is < 150 or > 900) continue;
            Found found = PlanSearch.Of(model);
            if (found.Best is null || found.Best.Seats.IsEmpty) continue;
            Assert.True(found.Proved);
            double other = ByCbc(model);
            Console.WriteLine($"case {seed}: {model.Offers.Length} ways, {model.SeatCount} places, {found.Best.Seats.Length} pockets, cost {found.Best.Cost:F6}; cbc {other:F6}");
            Assert.True(Math.Abs(other - found.Best.Cost) < 1e-5, $"case {seed}: {found.Best.Cost} here, {other} by cbc");
            done++;
        }
    }

    /// <summary>Solves the model as a linear programme; conflicts between pockets are added as they are met, until there is none.</summary>
    private static double ByCbc(BallastModel model)
    {
        Seat[] all = [.. model.Seats.SelectMany(s => s)];
        var conflicts = new List<int[]>();
        string folder = Directory.CreateTempSubdirectory("trimwright-cbc").FullName;
        try
        {
            while (true)
            {
                string file = Path.Combine(folder, "model.lp"), solution = Path.Combine(folder, "solution.txt");
                File.WriteAllText(file, Lp(model, all, conflicts));
                (int exit, string output, string complaint) = Outside.Run("cbc", [file, "ratioGap", "0", "allowableGap", "0", "solve", "solution", solution]);
                Assert.True(exit == 0 && File.Exists(solution), output + complaint);
                string[] lines = File.ReadAllLines(solution);
                Assert.StartsWith("Optimal", lines[0], StringComparison.Ordinal);
                int[] chosen = [.. lines.Skip(1).Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Where(f => f[1].StartsWith('x') && double.Parse(f[2], CultureInfo.InvariantCulture) > 0.5).Select(f => int.Parse(f[1][1..], CultureInfo.InvariantCulture))];
                int before = conflicts.Count;
                foreach (int a in chosen)
                    foreach (int b in chosen)
                        if (a < b && !model.Clear(all[a], all[b]))
                            // All that are as near to both at once share the conflict: one row for the whole crowd about the place where they meet.
                            conflicts.Add(Crowd(model, all, a, b));
                if (conflicts.Count == before) return model.Cost(model.SumsOf(chosen.Select(i => all[i])));
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int[] Crowd(BallastModel model, Seat[] all, int a, int b)
    {
        List<int> crowd = [a, b];
        for (int i = 0; i < all.Length; i++)
            if (i != a && i != b && crowd.All(c => !model.Clear(all[c], all[i]))) crowd.Add(i);
        return [.. crowd];
    }

    private static string Lp(BallastModel model, Seat[] all, List<int[]> conflicts)
    {
        var lp = new StringBuilder();
        string N(double value) => value.ToString("+0.#############;-0.#############", CultureInfo.InvariantCulture);
        string Sum(Func<int, double> of) => string.Concat(Enumerable.Range(0, all.Length).Select(i => of(i) is var v && v != 0 ? $" {N(v)} x{i}\n" : ""));
        double Mu(int i) => model.Offers[all[i].Offer].Net;
        Target t = model.Target;
        Want w = model.Want;
        double left = t.Moment - t.MomentPerGram * t.Weight;
        double R(int i) => all[i].Moment - t.MomentPerGram * Mu(i);
        lp.Append($"Minimize\n cost: {Sum(i => all[i].Cost)} {N(1 / w.WeightWithin)} dm {N(1 / (w.TrimWithin * model.Stiffest))} dt\nSubject To\n");
        lp.Append($" m1: dm {Sum(i => -Mu(i))} >= {N(-t.Weight)}\n m2: dm {Sum(Mu)} >= {N(t.Weight)}\n m3: dm <= {N(w.WeightWithin)}\n");
        lp.Append($" t1: dt {Sum(i => -R(i))} >= {N(-left)}\n t2: dt {Sum(R)} >= {N(left)}\n");
        lp.Append($" t3: dt {Sum(i => w.TrimWithin * all[i].Height)} <= {N(w.TrimWithin * t.TrimStiffness)}\n");
        lp.Append($" k1: {Sum(i => all[i].Height)} <= {N(t.TrimStiffness - t.LeastTrimStiffness)}\n k2: {Sum(i => all[i].Height)} <= {N(t.HeelStiffness - t.LeastHeelStiffness)}\n");
        lp.Append($" p: {Sum(_ => 1)} <= {model.Limits.MostPockets}\n");
        int row = 0;
        foreach (IGrouping<string, int> kind in Enumerable.Range(0, all.Length).GroupBy(i => model.Offers[all[i].Offer].BoxId))
            if (model.Offers[all[kind.First()].Offer].Count is { } count) lp.Append($" c{row++}: {string.Concat(kind.Select(i => $" + x{i}\n"))} <= {count}\n");
        foreach (int[] conflict in conflicts) lp.Append($" c{row++}: {string.Concat(conflict.Select(i => $" + x{i}\n"))} <= 1\n");
        lp.Append($"Binaries\n{string.Concat(Enumerable.Range(0, all.Length).Select(i => $" x{i}\n"))}End\n");
        return lp.ToString();
    }
}
