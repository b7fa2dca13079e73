using System.Collections.Immutable;
using System.Globalization;
using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;

namespace Trimwright.App.Questions;

/// <summary>Which weights, and where, so that a lure does what is wanted?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Box">What there is.</param>
/// <param name="Want">What it is to do, and where.</param>
internal sealed record WhichWeights(LureDesign Design, MakersBox Box, Want Want) : IQuestion<Reply<PlanMade>>
{
    public const int MostPockets = 8;
    public const double ThinnestWall = 0.5;
    public const double ThickestWall = 10;

    /// <summary>With no plan, what its own record says of the limit is told in the maker's units.</summary>
    internal static readonly Fault NoPlan = new("want", "want", "what no weights of this box do within the limits", "what they can do", "Give way where the limit is told, or want less.");

    private static readonly Fault NoRemedy = new("want", "want", "a lure that is glued, and that no remedy brings nearer", "what a remedy can do", "Leave it as it is, or want less.");

    private static readonly Fault OutOfReach = new("want", "want", "a want that no weights could meet", "what this lure could do", "Ask for less.");

    /// <summary>At most so many pockets, 1 to <see cref="MostPockets"/>.</summary>
    public int Pockets { get; init; } = PlanLimits.Usual.MostPockets;

    /// <summary>Sound wood to leave outside a pocket, mm, <see cref="ThinnestWall"/> to <see cref="ThickestWall"/>; null: as usual.</summary>
    public double? WallMm { get; init; }

    /// <summary>Names of weights that stay where they are.</summary>
    public ImmutableArray<string> Keep { get; init; } = [];

    /// <summary>Its readings: plan for the lure as they have it, with odds; null: for the drawing.</summary>
    public TubLog? Log { get; init; }

    /// <summary>How far it is; null: as far as the log has come, and without one nothing is cut yet.</summary>
    public Stage? At { get; init; }

    /// <summary>The plan, from 1, of which to tell what a hole that stays reachable after gluing could do; null: of none.</summary>
    public int? TrimHoleOf { get; init; }

    public bool IsWide => true;

    /// <summary>What is wrong with the limits; null when they can be.</summary>
    public static Flaw? FlawIn(int pockets, double? wallMm)
    {
        if (pockets is < 1 or > MostPockets)
            return new Flaw(nameof(Pockets), new Fault("range", "pockets", $"{pockets}", $"1 to {MostPockets}", "Allow fewer pockets, or more."));
        if (wallMm is < ThinnestWall or > ThickestWall or double.NaN)
            return new Flaw(nameof(WallMm), new Fault("range", "wall", wallMm.Value.ToString(CultureInfo.InvariantCulture),
                string.Create(CultureInfo.InvariantCulture, $"{ThinnestWall} to {ThickestWall} mm"), "Leave more wood, or less."));
        return null;
    }

    /// <summary>What is wrong with the number of a plan that there is not; null when there is one, or there are no plans at all.</summary>
    public static Flaw? FlawInNumber(PlanAnswer answer, int number) => answer.Plans.IsEmpty || (number >= 1 && number <= answer.Plans.Length) ? null
        : new Flaw(nameof(TrimHoleOf), new Fault("range", "plan", $"{number}", $"1 to {answer.Plans.Length}, the plans there are", "Take one of the plans."));

    /// <summary>What is wrong with the want, for this lure; null when it can be asked.</summary>
    public Flaw? FlawInWant() => !Want.EyesAtWater || Design.Eyes is not null ? null
        : new Flaw(nameof(Want), new Fault("reference", "want", "eyes at the waterline, of a lure without eyes", "grams to spare, or mm of nose out", "Give the lure its eyes, or say how it is to sit without them."));

    /// <summary>What is wrong with the weights that are to stay; null when the lure has each of them once.</summary>
    public Flaw? FlawInKeep() => Kept(out _);

    /// <summary>What is wrong with a log of that lure; null when it will do.</summary>
    public Flaw? FlawInLog(TubLog log) => Parts.Fault(Design, log) is { } fault ? new Flaw(nameof(Log), fault) : null;

    public Reply<PlanMade> Answer(Pace pace)
    {
        if ((FlawIn(Pockets, WallMm) ?? FlawInWant()) is { } flaw) return flaw;
        // In the wood that it is cut from.
        return (this with { Design = Box.Cut(Design) }).Made(pace);
    }

    private Reply<PlanMade> Made(Pace pace)
    {
        if (Kept(out int[] keep) is { } unknown) return unknown;
        if (Log is null) return Plan(Design, keep, null, At ?? Stage.Blank, pace);
        if (FlawInLog(Log) is { } odd) return odd;
        Stage stage = Parts.StageOf(Log, At);
        Knowing knowing = Knowing.Of(new BuildModel(Design), Log, Want.Circumstances, Replan.Samples, pace: pace.Part(0, 0.5));
        // The lure as it is now believed to be; the design's own weights stay where they are named.
        LureDesign believed = knowing.Believed();
        return stage >= Stage.Glued ? Remedy(knowing, believed, stage, pace.Part(0.5, 1)) : Plan(believed, keep, knowing, stage, pace.Part(0.5, 1));
    }

    private Reply<PlanMade> Plan(LureDesign lure, int[] keep, Knowing? knowing, Stage stage, Pace pace)
    {
        LureDesign bare = lure with { Ballast = [.. keep.Select(i => lure.Ballast[i])] };
        SoundWood sound = WallMm is { } wall ? SoundWood.Usual with { Wall = wall } : SoundWood.Usual;
        PlanAnswer answer = Planner.Of(bare, Box, Want, PlanLimits.Usual with { MostPockets = Pockets, Sound = sound }, pace);
        if (TrimHoleOf is { } number && FlawInNumber(answer, number) is { } flaw) return flaw;
        IReadOnlyList<RemedyEffect> hole = TrimHoleOf is { } of && !answer.Plans.IsEmpty ? TrimHole(answer.Plans[of - 1], pace) : [];
        // Pockets are cut and nothing is glued: what is there is worth more than what could be.
        SmallestChange? smallest = stage == Stage.DryFit && !lure.Ballast.IsEmpty
            ? SmallestChange.Of(lure, Box, Want, PlanLimits.Usual with { Sound = sound }, keep, pace) : null;
        var made = new PlanMade(Design, Box, [.. Design.Ballast.Where((_, i) => !keep.Contains(i))], answer, hole,
            knowing is null ? null : Replan.Plans(knowing, bare, stage, answer, keep, pace))
        {
            Smallest = smallest,
            SmallestOdds = knowing is null || smallest is null or { What: ChangeOf.Nothing } ? null : Replan.Of(knowing, smallest, bare, Want, pace),
            IsDryFit = stage == Stage.DryFit && !lure.Ballast.IsEmpty,
        };
        return answer.Plans.IsEmpty && smallest is null ? new Reply<PlanMade>.Cannot(NoPlan, made) : made;
    }

    // It is glued: no weight can be moved any more.
    private Reply<PlanMade> Remedy(Knowing knowing, LureDesign believed, Stage stage, Pace pace)
    {
        if (Replan.Remedies(knowing, believed, stage, Box, Want, pace) is not { } now) return new Reply<PlanMade>.Cannot(OutOfReach);
        var made = new PlanMade(Design, Box, [], new PlanAnswer(Want, null, [], false, 0, 0, 0, null), [], now);
        return now.Remedies.IsEmpty ? new Reply<PlanMade>.Cannot(NoRemedy, made) : made;
    }

    /// <summary>The places in the design of the weights that are to stay, in its order; a flaw for a name that none has, or several.</summary>
    private Flaw? Kept(out int[] places)
    {
        var kept = new SortedSet<int>();
        places = [];
        foreach (string name in Keep)
        {
            int[] meant = [.. Design.Ballast.Index().Where(p => p.Item.Name == name).Select(p => p.Index)];
            if (meant.Length == 0)
                return new Flaw(nameof(Keep), new Fault("unknown", "keep", $"\"{name}\"",
                    Design.Ballast.IsEmpty ? "nothing: the lure has no weights" : string.Join(", ", Design.Ballast.Select(p => $"\"{p.Name}\"")), "Name a weight of the lure."));
            if (meant.Length > 1) return new Flaw(nameof(Keep), Parts.Twins("keep", name, meant.Select(i => new Thing(ThingKind.Weight, i))));
            kept.Add(meant[0]);
        }
        // What is lighter than its wood lifts, and no weight of a box takes its place.
        double[] net = Bookkeeper.NetOf(Design, Design.Ballast, Want.Circumstances.Stage);
        kept.UnionWith(net.Index().Where(n => n.Item <= 0).Select(n => n.Index));
        places = [.. kept];
        return null;
    }

    /// <summary>The spot under the belly that changes the weight most and the trim least for it, with every plug that goes there.</summary>
    private IReadOnlyList<RemedyEffect> TrimHole(BallastPlan plan, Pace pace)
    {
        var lure = new GluedLure(plan.Design);
        Remedy[] holes = [.. new Remedies(plan.Design, Box, pace).Holes().Where(r => r.Spot!.From == DrilledFrom.Belly)];
        if (holes.Length == 0) return [];
        double balance = plan.Prediction.Ledger.Cg.X;
        double at = holes.MinBy(r => Math.Abs(r.Spot!.Mouth.X - balance))!.Spot!.Mouth.X;
        Prediction before = lure.Predict(plan.Design, Want.Circumstances.Water);
        return [.. holes.Where(r => Math.Abs(r.Spot!.Mouth.X - at) < 0.5).Select(r => lure.Predict(r.Design, Want.Circumstances.Water) is var after ? new RemedyEffect(r, after, SwapEffect.Of(before, after)) : null!)];
    }
}

/// <param name="Design">As asked about.</param>
/// <param name="Box">What was planned from.</param>
/// <param name="Left">The design's own weights that the plans leave out.</param>
/// <param name="Answer">Plans or why there are none.</param>
/// <param name="TrimHole">Of the plan asked for: what each plug does in one hole that can be drilled after gluing; empty when not asked, or there is no sound spot.</param>
/// <param name="Now">By the readings, with odds; null without a log.</param>
internal sealed record PlanMade(
    LureDesign Design, MakersBox Box, IReadOnlyList<BallastPiece> Left, PlanAnswer Answer, IReadOnlyList<RemedyEffect> TrimHole, Now? Now)
{
    /// <summary>Its pockets are cut and its halves are open: a change of one weight was looked for.</summary>
    public bool IsDryFit { get; init; }

    /// <summary>The smallest change of one weight that does it; null when none does, or none was looked for.</summary>
    public SmallestChange? Smallest { get; init; }

    /// <summary>Its odds by the readings; null without a log, and when nothing needs to be changed.</summary>
    public Odds? SmallestOdds { get; init; }
}
