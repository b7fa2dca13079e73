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
        string deep = $"{notation.Caliper(piece.DepthMm)} deep in each half";
        string with = piece.Cut.Cutter is { } cutter ? $" with {cutter}" : piece.Cut.Kind is null ? " with knife and chisel" : "";
        string what = piece.Piece switch
        {
            { Form.Shape: PieceShape.Flat } => $"slot {notation.Across(piece.Piece.LengthMm, piece.Piece.ThicknessMm)}",
            { Form.Shape: PieceShape.Ball } => $"round pocket {notation.Caliper(piece.Cut.DiameterMm)}",
            { Form.Shape: PieceShape.Round, Axis: Shape.Axis.Y } => $"hole {notation.Caliper(piece.Cut.DiameterMm)}",
            { Form.Shape: PieceShape.Round } => $"trough {notation.Across(piece.Piece.LengthMm, piece.Cut.DiameterMm)}",
        };
        return $"{what}, {deep}{with}{(piece.Cut.HardByHand ? ", hard to cut by hand" : "")}{(piece.Piece.OnWire ? "; thread it before the wire's last eye is closed" : "")}; {notation.Caliper(piece.WallMm)} of wood left";
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

    /// <summary>Why there is no plan, and what would free it.</summary>
    public static string Of(WhyNot why, PlanAnswer answer, LureDesign design, Notation notation)
    {
        string none = why.Proved ? "No plan fits." : "No plan was found that fits, though not everything could be searched.";
        string free = why.Limit switch
        {
            Limit.Weight => $"Without any weight the lure is {notation.Weight(why.Amount)} too heavy for that already: lighter wood, hooks or wire, or a fuller body, would free it.",
            Limit.Posture when answer.Want.Manner == Manner.Falls => "At that trim no speed has the water's push straight up: a trim nearer level would free it.",
            Limit.Posture => "At that trim it can't show so much of its nose: less nose out, or another trim, would free it.",
            Limit.Pockets => $"{Count((int)why.Relaxed)} pockets would do it.",
            Limit.Counts => "The box has too few of a kind: with more of them it works.",
            Limit.Cutters => "No cutter in the box makes the pocket that is needed.",
            Limit.Wall => $"A pocket needs sound wood outside it; with a wall of {notation.Caliper(why.Relaxed)} instead there is a plan.",
            Limit.Web => $"Pockets must keep clear of wire, eyes, pins and each other; with {notation.Caliper(why.Relaxed)} between them there is a plan.",
            Limit.Lead => "The box bans lead; with lead there is a plan.",
            Limit.Kinds when why.Relaxed == 0 => "The box lacks the right weights; bars of several diameters to cut from would do it.",
            Limit.Kinds => $"The box lacks the right weight; a {notation.Length(why.Relaxed)} bar to cut from would do it.",
            Limit.Closeness => $"The nearest plan misses by more than is allowed; within {notation.Number(why.Relaxed, 0)} times as much there is one.",
            Limit.Several => "No single limit binds: several would have to give, or the wanted posture does not hold whatever the weights.",
        };
        string where = why.Arm is { } arm && answer.Target is { } target ? " " + Where(target, arm, why, design, notation) : "";
        string freed = why.Freed is { } plan ? $" It would be {Name(plan)}." : "";
        return $"{none} {free}{freed}{where}";
    }

    private static string Where(Target target, double arm, WhyNot why, LureDesign design, Notation notation)
    {
        string weights = $"It wants {notation.Weight(target.Weight)} of weights (less the wood they take the place of) with their common middle about ";
        if (arm < 0) return $"{weights}{notation.Length(-arm)} in front of the nose.";
        if (arm > design.Body.LengthMm) return $"{weights}{notation.Length(arm - design.Body.LengthMm)} behind the tail.";
        string heaviest = why.HeaviestThere > 0 ? $"no piece heavier than {notation.Weight(why.HeaviestThere)} fits near there" : "no piece fits near there";
        return $"{weights}{notation.Length(arm)} from the nose, where the wood is {notation.Length(why.WoodThere)} thick: {heaviest}.";
    }
}
