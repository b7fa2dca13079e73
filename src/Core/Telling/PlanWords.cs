using System.Collections.Immutable;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;

namespace Trimwright.Core.Telling;

/// <summary>What is said of plans: their names, what a change does, why there is none.</summary>
public static class PlanWords
{
    /// <summary>The usual cautions where weights are cut and pockets drilled.</summary>
    public const string Caution =
        "Lead: wash hands, no food, no dust, collect drillings wet; its use for fishing is limited in some places. Hold the half in a vice or its offcut, never in the hand, under a drill; no gloves at the drill press.";

    /// <summary>"two cuts of bar", "one barrel on the wire and one cut of sheet".</summary>
    public static string Name(BallastPlan plan)
    {
        if (plan.Pieces.IsEmpty) return "no weight at all";
        string[] parts = [.. plan.Pieces.GroupBy(Kind).Select(g => $"{Count(g.Count())} {(g.Count() == 1 ? g.Key.One : g.Key.Many)}")];
        return parts.Length == 1 ? parts[0] : string.Join(", ", parts[..^1]) + " and " + parts[^1];
    }

    /// <summary>What sets a plan apart from the others, or "".</summary>
    public static string Mark(BallastPlan plan, ImmutableArray<BallastPlan> all)
    {
        if (plan.OnCliff) return "on a cliff";
        if (all.Length < 2) return "";
        if (all.All(p => p == plan || Touchy(plan) < Touchy(p) - 1e-9)) return "most forgiving";
        if (all.All(p => p == plan || plan.Pieces.Length < p.Pieces.Length)) return "fewest pockets";
        return all.All(p => p == plan || Wall(plan) > Wall(p)) ? "most wood left" : "";
    }

    private static double Touchy(BallastPlan plan) => Math.Abs(plan.Aft.Trim) + plan.Lighter;

    private static double Wall(BallastPlan plan) => plan.Pieces.Select(p => p.WallMm).DefaultIfEmpty(99).Min();

    private static (string One, string Many) Kind(PlannedPiece piece)
    {
        string on = piece.Piece.OnWire ? " on the wire" : piece.Piece.Axis == Shape.Axis.Y && piece.Piece.Shape != PieceShape.Ball ? " across" : "";
        if (piece.CutLengthMm is not null) return piece.Piece.Shape == PieceShape.Flat ? ("cut of sheet", "cuts of sheet") : ("cut of bar" + on, "cuts of bar" + on);
        string word = piece.Piece.Form.Word;
        return (word + on, word + "s" + on);
    }

    private static string Count(int n) => n switch { 1 => "one", 2 => "two", 3 => "three", 4 => "four", 5 => "five", 6 => "six", 7 => "seven", _ => "eight" };

    /// <summary>"poured lead bar 8, cut 29.5 mm, trim to 16.6 g" or the piece's name and weight.</summary>
    public static string Take(PlannedPiece piece, Notation notation) => piece.CutLengthMm is { } length
        ? $"{piece.Piece.Name}, cut {notation.Caliper(length)}{(piece.Piece.Shape == PieceShape.Flat ? $" of {notation.Length(piece.Piece.WidthMm)} width" : "")}, trim to {notation.Weight(piece.Piece.Mass)}"
        : $"{piece.Piece.Name}, {notation.Weight(piece.Piece.Mass)}";

    /// <summary>How its pocket is cut, and how much wood is left.</summary>
    public static string Pocket(PlannedPiece piece, Notation notation)
    {
        Numerics.Vec3 room = piece.Piece.Box + piece.Piece.Clearance * new Numerics.Vec3(1, 1, 1);
        string deep = $"{notation.Caliper(piece.DepthMm)} deep in each half";
        string with = piece.Cut is { Cutter: { } cutter, Kind: { } kind } ? $" with {cutter}{(kind == CutterKind.Gouge ? "" : $", {Size(piece.Cut.DiameterMm, notation)}")}" : piece.Cut.Kind is null ? " with knife and chisel" : "";
        string what = piece.Piece switch
        {
            { Form.Shape: PieceShape.Flat } => $"slot {notation.Across(room.X, room.Z)}",
            { Form.Shape: PieceShape.Ball } => $"round pocket {notation.Caliper(room.X)}",
            { Form.Shape: PieceShape.Round, Axis: Shape.Axis.Y } => $"hole {notation.Caliper(room.X)}",
            { Form.Shape: PieceShape.Round } => $"trough {notation.Across(room.X, room.Z)}",
        };
        string spur = piece.WallMm < piece.LeftMm - 0.05 ? $", {notation.Caliper(piece.WallMm)} at the point of the bit" : "";
        return $"{what}, {deep}{with}{(piece.Cut.HardByHand ? ", hard to cut by hand" : "")}{(piece.Piece.OnWire ? "; thread it before the wire's last eye is closed" : "")}; {notation.Caliper(piece.LeftMm)} of wood left{spur}";
    }

    /// <summary>What a millimetre and a gram do.</summary>
    public static string Touch(BallastPlan plan, Notation notation)
    {
        if (plan.Pieces.IsEmpty) return "";
        string moved = $"A piece {notation.Length(1)} further aft: {Change(plan.Aft, notation)}; {(notation.Inches ? notation.Weight(1) : "a gram")} more in the heaviest: {Change(plan.Heavier, notation)}.";
        if (!plan.OnCliff) return moved;
        string why = plan.Aft.Other || Math.Abs(plan.Aft.Trim) > BallastPlan.Cliff ? "a millimetre" : "half a gram";
        return moved + $" It stands on a cliff: {why} and it sits another way. Choose another plan if there is one.";
    }

    private static string Change(Answer answer, Notation notation)
    {
        if (answer.Other) return "it does something else";
        string way = Math.Abs(answer.Trim) < Units.FromDegrees(0.05) ? "no change of trim"
            : $"{notation.Number(Units.ToDegrees(Math.Abs(answer.Trim)), 1)}° more {(answer.Trim > 0 ? "tail" : "nose")} down";
        return Math.Abs(answer.Rate) < 5e-4 ? way : $"{way}, {(answer.Rate > 0 ? "+" : "−")}{notation.Speed(Math.Abs(answer.Rate))}";
    }

    /// <summary>What is left to do at dry-fit with the fewest new cuts: "leave it as it is", or one weight.</summary>
    /// <param name="change">Null: no change of one weight does it.</param>
    /// <param name="lure">As it is.</param>
    /// <param name="notation">How numbers are shown.</param>
    public static string Of(SmallestChange? change, LureDesign lure, Notation notation)
    {
        if (change is null) return "As it is it does not do that, and no change of one weight does it.";
        string Old() => lure.Ballast[change.Own!.Value].Name;
        string At() => $"{notation.Length(change.New!.Piece.AtMm[0])} from the nose, {notation.Caliper(change.New.Piece.AtMm[2])} off the axis";
        return change.What switch
        {
            ChangeOf.Nothing => "Leave it as it is: it does what is wanted.",
            ChangeOf.TakenOut => $"The smallest change: take out {Old()} and plug its pocket with the same wood.",
            ChangeOf.Moved => $"The smallest change: move {Old()} {Way(change, lure, notation)}, to {At()}; plug what is left of its pocket with the same wood.",
            ChangeOf.Swapped => $"The smallest change: take {Take(change.New!, notation)} for {Old()}, {At()}; plug what is left of the old pocket with the same wood.",
            ChangeOf.Added => $"The smallest change: add {Take(change.New!, notation)}, {At()}.",
        };
    }

    private static string Way(SmallestChange change, LureDesign lure, Notation notation)
    {
        double aft = change.New!.Piece.AtMm[0] - lure.Ballast[change.Own!.Value].AtMm[0];
        return Math.Abs(aft) < 0.05 ? "up or down" : $"{notation.Caliper(Math.Abs(aft))} {(aft > 0 ? "aft" : "forward")}";
    }

    /// <summary>Why there is no plan, and what would free it.</summary>
    public static string Of(WhyNot why, PlanAnswer answer, LureDesign design, Notation notation)
    {
        string none = why.Proved ? "No plan fits." : "No plan was found that fits, though not everything could be searched.";
        string free = why.Limit switch
        {
            Limit.Weight => $"Without any weight the lure is {notation.Weight(why.Amount)} too heavy for that already: lighter wood, hooks or wire, or a fuller body, would free it.",
            Limit.Posture when why.Amount > 0 => $"At that trim {Words.Spare(answer.Want.Spare ?? 0, notation)} takes {Sentence.WayIn(why.Amount, notation)}, not in {Sentence.WaySeconds(answer.Want.SecondsPerMetre, notation)}: ask for one of the two.",
            Limit.Posture when answer.Want.EyesAtWater => "At that trim its eyes can't lie at the waterline: another trim would free it.",
            Limit.Posture when answer.Want.Manner == Manner.Falls => "At that trim no speed has the water's push straight up: a trim nearer level would free it.",
            Limit.Posture => "At that trim it can't show so much of its nose: less nose out, or another trim, would free it.",
            Limit.Pockets => $"{Capital(Count((int)why.Relaxed))} pockets would do it: allow so many.",
            Limit.Counts when why.Missing.IsEmpty => "The box has too few of a kind: with more of them it works.",
            Limit.Counts or Limit.Cutters when !why.Missing.IsEmpty => $"{Capital(List(why.Missing, notation))} would do it.",
            Limit.Counts or Limit.Cutters => "No cutter in the box makes the pocket that is needed.",
            Limit.Wall => $"A wall of {notation.Caliper(why.Relaxed)} outside the pocket would do it{Thin(why.Relaxed, SoundWood.Usual.Wall, notation)}: allow that.",
            Limit.Web => $"Pockets {notation.Caliper(why.Relaxed)} clear of wire, eyes, pins and each other would do it{Thin(why.Relaxed, SoundWood.Usual.Web, notation)}.",
            Limit.Lead => "Lead would do it: lift the box's ban on it for this lure, or use lighter hooks and wood and want less.",
            Limit.Kinds when !why.Missing.IsEmpty => $"{Capital(List(why.Missing, notation))} would do it.",
            Limit.Kinds => "The box lacks the right weights; bars of several diameters to cut from would do it.",
            Limit.Closeness => $"The nearest plan misses by more than is allowed: ask for it within {notation.Number(why.Relaxed, 0)} times as much, and there is one.",
            Limit.Several when why.Freed is not null && !why.Missing.IsEmpty => $"Nothing alone would do it; these together would: {List(why.Missing, notation)}.",
            Limit.Several when why.Freed is not null => "With pockets closer to wire, eyes, pins and each other, and more of everything, there is a plan.",
            Limit.Several => "More weights, cutters, pockets or thinner walls don't free it: ask for another trim or fewer grams, or draw the lure fuller where the weights should lie.",
        };
        string where = why.Arm is { } arm && answer.Target is { } target ? " " + Where(target, arm, why, design, notation) : "";
        string freed = why.Freed is { } plan ? $" It would be {Name(plan)}." : "";
        return $"{none} {free}{freed}{where}";
    }

    private static string Thin(double mm, double usual, Notation notation) => mm >= usual ? "" : $", thinner than the usual {notation.Caliper(usual)}";

    // What to get and where to give way, in one breath.
    private static string List(ImmutableArray<Missing> missing, Notation notation)
    {
        string[] each = [.. missing.Select(m => m.Limit switch
        {
            Limit.Pockets => $"{Count((int)m.Amount)} pockets",
            Limit.Cutters => $"a {Size(m.Amount, notation)} {Cutter(m.Cutter!.Value)} that reaches {notation.Caliper(m.ReachMm)}",
            Limit.Counts when m.IsMm => $"{notation.Length(m.Amount)} more of {m.Name}",
            Limit.Counts => $"{Count((int)Math.Min(m.Amount, 8))} more of {m.Name}",
            Limit.Kinds => $"{m.Name}, {Size(m.Amount, notation)} thick, to cut from",
            Limit.Lead => "lead, which the box bans",
            Limit.Wall => $"a wall of {notation.Caliper(m.Amount)} outside the pockets{Thin(m.Amount, SoundWood.Usual.Wall, notation)}",
            Limit.Weight or Limit.Posture or Limit.Web or Limit.Closeness or Limit.Several => "",
        })];
        return each.Length == 1 ? each[0] : string.Join(", ", each[..^1]) + " and " + each[^1];
    }

    private static string Size(double mm, Notation notation) => notation.Inches ? notation.Caliper(mm) : notation.Number(mm, Math.Abs(mm - Math.Round(mm)) < 0.05 ? 0 : 1) + "\u00A0mm";

    private static string Cutter(CutterKind kind) => kind switch
    {
        CutterKind.Twist => "twist drill",
        CutterKind.FlatBit => "flat-bottomed bit",
        CutterKind.RoundNose => "round-nose cutter",
        CutterKind.Gouge => "gouge",
    };

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Where(Target target, double arm, WhyNot why, LureDesign design, Notation notation)
    {
        string weights = $"It wants {notation.Weight(target.Weight)} of weights (less the wood they take the place of) with their common middle about ";
        if (arm < 0) return $"{weights}{notation.Length(-arm)} in front of the nose.";
        if (arm > design.Body.LengthMm) return $"{weights}{notation.Length(arm - design.Body.LengthMm)} behind the tail.";
        string heaviest = why.HeaviestThere > 0 ? $"no piece heavier than {notation.Weight(why.HeaviestThere)} fits near there" : "no piece fits near there";
        return $"{weights}{notation.Length(arm)} from the nose, where the wood is {notation.Length(why.WoodThere)} thick: {heaviest}.";
    }
}
