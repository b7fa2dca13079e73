using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Doubt;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary>A plan in lines of text, for every command that offers plans.</summary>
internal static class PlanLines
{
    private const int Column = 11;

    internal static IEnumerable<string> Of(PlanAnswer answer, int index, Notation notation, int width, Odds? odds = null)
    {
        BallastPlan plan = answer.Plans[index];
        string mark = PlanWords.Mark(plan, answer.Plans);
        foreach (string line in Paper.Said($"{index + 1}. {PlanWords.Name(plan)}{(mark.Length > 0 ? $" ({mark})" : "")}", width)) yield return line;
        foreach (string line in Paper.Said(Sentence.Of(plan.Prediction, notation), width, "   ")) yield return line;
        if (odds is not null)
            foreach (string line in Paper.Said(DoubtWords.Of(odds, notation), width, "   ")) yield return line;
        string miss = $"Off the want by {notation.Weight(Math.Abs(plan.SpareMiss), 2)} and {notation.Number(Math.Abs(Units.ToDegrees(plan.TrimMiss)), 1)}°. {PlanWords.Touch(plan, notation)}";
        foreach (string line in Paper.Said(miss, width, "   ")) yield return line;
        foreach (string line in Paper.Row("   Take", width, ("from nose", Column), ("off axis", Column))) yield return line;
        foreach (PlannedPiece piece in plan.Pieces)
        {
            foreach (string line in Paper.Row("   " + Paper.Plain(PlanWords.Take(piece, notation)), width,
                (notation.Length(piece.Piece.AtMm[0]), Column), (notation.Caliper(piece.Piece.AtMm[2]), Column))) yield return line;
            foreach (string line in Paper.Said(PlanWords.Pocket(piece, notation), width, "     ")) yield return line;
        }
        foreach ((string when, TubTarget tub) in new[] { ("dry-fit", plan.DryFit), ("sealed", plan.Sealed) })
        {
            Prediction p = tub.Prediction;
            foreach (string line in Paper.Said($"Tub, {when}, with stand-ins: weighs {notation.Weight(p.Ledger.Weight)}. {Sentence.Of(p, notation)}", width, "   ")) yield return line;
        }
    }
}
