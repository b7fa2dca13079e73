using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Ballast;

/// <summary>Plans for a want, best first, or why there is none.</summary>
/// <param name="Want">What was wanted.</param>
/// <param name="Target">What the weights must add up to; null when no weights could do it.</param>
/// <param name="Plans">Plans that really differ, best first, those on a cliff last; empty when there is none.</param>
/// <param name="Proved">Of the first plan: that no other costs less.</param>
/// <param name="Gap">Else by how many pockets' worth one might.</param>
/// <param name="Offers">Ways to make a weight that fit somewhere.</param>
/// <param name="Seats">Candidate places in all.</param>
/// <param name="WhyNot">Without plans, why.</param>
public sealed record PlanAnswer(
    Want Want, Target? Target, ImmutableArray<BallastPlan> Plans, bool Proved, double Gap, int Offers, int Seats, WhyNot? WhyNot);

/// <summary>
/// From a want to plans.
/// <para>
/// Pose the lure as wanted and read off what weights must add up to (<see cref="Ballast.Target"/>); find every sound seat of
/// everything in the box (<see cref="Seating"/>); search (<see cref="PlanSearch"/>); verify what is found by the whole prediction
/// (<see cref="BallastPlan.Of"/>); keep plans that really differ, none of them worse than another in every respect.
/// </para>
/// </summary>
public static class Planner
{
    private const int MostPlans = 5;

    // So many choices are tried for the plans that are kept; most pass.
    private const int MostTried = 40;

    // Pieces this far apart make plans that really differ, mm.
    private const double Apart = 15;

    /// <summary>Plans for a want.</summary>
    /// <param name="design">A sound lure, with the pieces that stay, and no others.</param>
    /// <param name="box">What there is.</param>
    /// <param name="want">What is wanted.</param>
    /// <param name="limits">What to keep to.</param>
    /// <param name="pace">How to go about it; asked every few milliseconds.</param>
    /// <exception cref="OperationCanceledException">When cancelled.</exception>
    public static PlanAnswer Of(LureDesign design, MakersBox box, Want want, PlanLimits limits, Pace? pace = null)
    {
        pace ??= Pace.Free;
        // A lure that gets weights is split and glued, whether or not its file says how.
        design = design with { Joint = design.Joint ?? new JointDesign() };
        (Target? target, NoTarget reason, double amount) = Target.Of(design, want);
        if (target is null)
            return new(want, null, [], true, 0, 0, 0, new WhyNot(reason == NoTarget.TooHeavy ? Limit.Weight : Limit.Posture, Amount: amount));
        var asked = new Asked(design, box, want, target, pace);
        (BallastModel model, Found found) = asked.Search(limits);
        ImmutableArray<BallastPlan> plans = Verified(design, model, found, MostPlans, pace);
        WhyNot? whyNot = plans.IsEmpty ? asked.Why(model, limits, found.Proved) : null;
        // The first plan may be dearer than the cheapest choice: for that one stood on a cliff, or did not hold.
        double bound = found.Bound, gap = plans.IsEmpty ? 0 : Math.Max(plans[0].Choice.Cost - bound, 0);
        return new(want, target, plans, gap < 1e-9, gap, model.Offers.Length, model.SeatCount, whyNot);
    }

    /// <summary>The model of a question: every offer that the box makes, in every sound seat.</summary>
    internal static BallastModel Model(LureDesign design, MakersBox box, Want want, Target target, PlanLimits limits, Pace? pace = null)
    {
        var seating = new Seating(design, new FaceRoom(design, limits.Sound));
        ImmutableArray<Offer> offers = Ballast.Offers.Of(design, box, limits, want.Circumstances.Stage, Math.Max(target.Weight, 0) + want.WeightWithin);
        return new BallastModel(target, want, limits, offers, offer =>
        {
            pace?.Step();
            return seating.Of(offer, want.Trim, limits.Step);
        }) { Outside = new WoodOutside(design) };
    }

    internal static ImmutableArray<BallastPlan> Verified(LureDesign design, BallastModel model, Found found, int most, Pace pace)
    {
        var kept = new List<BallastPlan>();
        foreach (Choice choice in found.Pool.Take(MostTried))
        {
            pace.Step();
            if (kept.Any(k => !Differ(model, k.Choice, choice))) continue;
            if (BallastPlan.Of(design, model, choice, pace) is not { } plan || kept.Any(k => Dominates(k, plan))) continue;
            kept.Add(plan);
            if (kept.Count(k => !k.OnCliff) >= most) break;
        }
        return [.. kept.Where(p => !kept.Any(k => k != p && Dominates(k, p))).OrderBy(p => p.OnCliff).ThenBy(p => p.Choice.Cost).Take(most)];
    }

    /// <summary>Another number of pockets, another form, or a piece moved 15 mm or more.</summary>
    internal static bool Differ(BallastModel model, Choice a, Choice b)
    {
        if (a.Seats.Length != b.Seats.Length) return true;
        Seat[] p = [.. a.Seats.OrderBy(s => s.X)], q = [.. b.Seats.OrderBy(s => s.X)];
        for (int i = 0; i < p.Length; i++)
        {
            BallastPiece one = model.Offers[p[i].Offer].Piece, other = model.Offers[q[i].Offer].Piece;
            if (one.Form != other.Form || one.Axis != other.Axis || one.OnWire != other.OnWire || Math.Abs(p[i].X - q[i].X) >= Apart) return true;
        }
        return false;
    }

    // No worse in anything that a maker would ask, and better in something.
    private static bool Dominates(BallastPlan a, BallastPlan b)
    {
        (double, double)[] both =
        [
            (a.Pieces.Length, b.Pieces.Length), (a.Pieces.Count(p => p.Cut.HardByHand), b.Pieces.Count(p => p.Cut.HardByHand)),
            (Math.Abs(a.SpareMiss), Math.Abs(b.SpareMiss)), (Math.Abs(a.TrimMiss), Math.Abs(b.TrimMiss)),
            (Math.Abs(a.Aft.Trim), Math.Abs(b.Aft.Trim)), (a.Lighter, b.Lighter), (a.OnCliff ? 1 : 0, b.OnCliff ? 1 : 0),
            (-a.Pieces.Select(p => p.WallMm).DefaultIfEmpty(0).Min(), -b.Pieces.Select(p => p.WallMm).DefaultIfEmpty(0).Min()),
        ];
        return both.All(pair => pair.Item1 <= pair.Item2) && both.Any(pair => pair.Item1 < pair.Item2);
    }

    /// <summary>One question with everything that stays the same while limits are relaxed.</summary>
    private sealed record Asked(LureDesign Design, MakersBox Box, Want Want, Target Target, Pace Pace)
    {
        public (BallastModel Model, Found Found) Search(PlanLimits limits) => Search(limits, Want);

        private (BallastModel Model, Found Found) Search(PlanLimits limits, Want want)
        {
            BallastModel model = Model(Design, Box, want, Target, limits, Pace);
            return (model, PlanSearch.Of(model, Pace));
        }

        // A limit that frees a plan frees an easy one: what takes longer to find is no help at the bench.
        private const long LooksForRelaxed = 1_500_000;

        private static readonly double[] Bars = [6, 8, 10, 12, 5, 14, 16, 20];

        // Walls and webs are asked for in such steps, mm, down to the least that a maker may ask for.
        private const double WoodStep = 0.5;

        /// <summary>
        /// Relaxes one limit at a time, the one that costs a maker least first; the first that alone makes a plan binds, and gives no more
        /// than it must. Where none does, all give together, and what of that the plan needs is told.
        /// </summary>
        public WhyNot Why(BallastModel model, PlanLimits limits, bool proved)
        {
            (double heaviest, double thick) = There(model);
            limits = limits with { LooksForMore = LooksForRelaxed };
            foreach ((Limit limit, (double To, PlanLimits Limits, Want Want)[] steps) in Relaxations(limits))
            {
                // Only a limit that frees a plan when it gives all the way is asked how little is enough.
                if (steps.Length == 0 || Freed(steps[^1]) is not { } most) continue;
                (double to, BallastPlan plan) = limit is Limit.Wall or Limit.Web ? Thickest(steps, most) : Soonest(steps, most);
                return new WhyNot(limit, to, plan, 0, Arm(), heaviest, thick, proved) { Missing = Missing(limits, plan) };
            }
            PlanLimits all = limits with
            {
                MostPockets = 8, AnyCount = true, AnyCutter = true, LeadAllowed = true, Sound = new SoundWood(WoodStep, WoodStep),
                Extra = [.. Bars.Select(b => Bar(b, Box.NoLead && !limits.LeadAllowed))],
            };
            BallastPlan? together = Freed((0, all with { Sound = limits.Sound }, Want)) ?? Freed((0, all, Want));
            return new WhyNot(Limit.Several, 0, together, 0, Arm(), heaviest, thick, proved) { Missing = together is null ? [] : Missing(limits, together) };
        }

        // In turn, little first.
        private (double, BallastPlan) Soonest((double To, PlanLimits Limits, Want Want)[] steps, BallastPlan most)
        {
            foreach ((double To, PlanLimits Limits, Want Want) step in steps.SkipLast(1))
                if (Freed(step) is { } sooner) return (step.To, sooner);
            return (steps[^1].To, most);
        }

        // Many steps: wood that is thinner leaves every place that thicker wood left, so halves of what is in doubt are tried.
        private (double, BallastPlan) Thickest((double To, PlanLimits Limits, Want Want)[] steps, BallastPlan most)
        {
            (int thick, int thin, BallastPlan plan) = (-1, steps.Length - 1, most);
            while (thin - thick > 1)
            {
                int middle = (thick + thin) / 2;
                if (Freed(steps[middle]) is { } freed) (thin, plan) = (middle, freed);
                else thick = middle;
            }
            return (steps[thin].To, plan);
        }

        /// <summary>What of a plan the maker doesn't have, or doesn't allow.</summary>
        private ImmutableArray<Missing> Missing(PlanLimits limits, BallastPlan plan)
        {
            var missing = ImmutableArray.CreateBuilder<Missing>();
            if (plan.Pieces.Length > limits.MostPockets) missing.Add(new(Limit.Pockets, "", plan.Pieces.Length));
            foreach (PlannedPiece piece in plan.Pieces.Where(p => p.Cut is { Cutter: null, Kind: not null } && !Box.Cutters.IsEmpty).DistinctBy(p => (p.Cut.Kind, p.Cut.DiameterMm)))
                missing.Add(new(Limit.Cutters, "", piece.Cut.DiameterMm, piece.Cut.Kind, piece.DepthMm));
            foreach (IGrouping<string, PlannedPiece> of in plan.Pieces.GroupBy(p => p.BoxId))
            {
                BoxItem? found = Box.Find(of.Key);
                double cut = of.Sum(p => p.CutLengthMm ?? 0);
                if (found is null) missing.Add(new Missing(Limit.Kinds, of.First().Piece.Name, of.First().Piece.DiameterMm));
                else if (found is BoxWeight { Count: { } count } && of.Count() > count) missing.Add(new Missing(Limit.Counts, found.Name, of.Count() - count));
                else if (found is BoxStock { LengthMm: { } length } && cut > length) missing.Add(new Missing(Limit.Counts, found.Name, cut - length, IsMm: true));
            }
            bool IsLead(PlannedPiece p) => Box.Find(p.BoxId) is BoxWeight { IsLead: true } or BoxStock { IsLead: true };
            if (Box.NoLead && !limits.LeadAllowed && plan.Pieces.Any(IsLead)) missing.Add(new(Limit.Lead, "", 0));
            if (plan.Pieces.Select(p => p.WallMm).DefaultIfEmpty(double.MaxValue).Min() is var wall && wall < limits.Sound.Wall - 0.05)
                missing.Add(new(Limit.Wall, "", WoodStep * Math.Floor(wall / WoodStep)));
            return missing.ToImmutable();
        }

        private BallastPlan? Freed((double To, PlanLimits Limits, Want Want) step)
        {
            (BallastModel model, Found found) = Search(step.Limits, step.Want);
            return Verified(Design, model, found, 1, Pace).FirstOrDefault();
        }

        // Each limit with how it may give, little first.
        private IEnumerable<(Limit, (double To, PlanLimits Limits, Want Want)[])> Relaxations(PlanLimits limits)
        {
            (double, PlanLimits, Want) Step(double to, PlanLimits relaxed) => (to, relaxed, Want);
            yield return (Limit.Pockets, [.. new[] { 2, 3, 4, 6, 8 }.Where(p => p > limits.MostPockets).Select(p => Step(p, limits with { MostPockets = p }))]);
            yield return (Limit.Counts, [Step(0, limits with { AnyCount = true })]);
            yield return (Limit.Cutters, [Step(0, limits with { AnyCutter = true })]);
            yield return (Limit.Wall, [.. Thinner(limits.Sound.Wall).Select(w => Step(w, limits with { Sound = limits.Sound with { Wall = w } }))]);
            yield return (Limit.Web, [.. Thinner(limits.Sound.Web).Select(w => Step(w, limits with { Sound = limits.Sound with { Web = w } }))]);
            if (Box.NoLead && !limits.LeadAllowed) yield return (Limit.Lead, [Step(0, limits with { LeadAllowed = true })]);
            bool tin = Box.NoLead && !limits.LeadAllowed;
            (double, PlanLimits, Want) all = Step(0, limits with { Extra = [.. Bars.Select(b => Bar(b, tin))] });
            yield return (Limit.Kinds, [.. Bars.Select(b => Step(b, limits with { Extra = [Bar(b, tin)] })), all]);
            yield return (Limit.Closeness, [.. new[] { 2.0, 4 }.Select(times => (times, limits, Want with { WeightWithin = times * Want.WeightWithin, TrimWithin = times * Want.TrimWithin }))]);
        }

        // Thick first, on whole steps.
        private static IEnumerable<double> Thinner(double than)
        {
            for (double w = WoodStep * (Math.Ceiling(than / WoodStep - 1e-9) - 1); w >= WoodStep - 1e-9; w -= WoodStep) yield return w;
        }

        private static BoxStock Bar(double diameter, bool noLead) => new()
        {
            Id = (noLead ? "a-bar-of-tin-" : "a-bar-of-lead-") + (int)diameter, Name = noLead ? "a bar of tin" : "a bar of lead", Kind = StockKind.Rod, DiameterMm = diameter,
            DensityGPerCm3 = Catalogue.Metal(noLead ? "tin" : "lead").DensityGPerCm3, IsLead = !noLead,
        };

        // The weights' common middle along the lure, if they lay at the origin's height.
        private double Arm() => Target.Weight <= 0 ? Target.Origin.X : Target.Origin.X + (Target.Trimming.X > 0.3 ? Target.Arm / Target.Trimming.X : Target.Arm * Target.Trimming.X);

        private (double Heaviest, double Thick) There(BallastModel model)
        {
            double arm = Math.Clamp(Arm(), 0, Design.Body.LengthMm), heaviest = 0;
            for (int i = 0; i < model.Offers.Length; i++)
                if (model.Seats[i].Any(s => Math.Abs(s.X - arm) <= 5)) heaviest = Math.Max(heaviest, model.Offers[i].Piece.Mass);
            return (heaviest, 2 * Math.Max(Design.Body.Surface().HalfBreadthAt(arm), 0));
        }
    }
}
