using Trimwright.App.Questions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary>The answer to <c>swap</c> as lines for a terminal: a block for each hook set, the leaders, the remedies by what they are for.</summary>
internal static class SwapLines
{
    private const int Named = 11;
    private const int Grams = 10;
    private const int Falls = 10;
    private const int More = 9;
    private const int Turn = 6;

    // With less room than this for words the values go on lines of their own.
    private const int LeastWords = 16;

    // As many remedies as a maker weighs against each other.
    private const int Shown = 4;

    public static IEnumerable<string> Of(SwapAnswer answer, Notation notation, int width)
    {
        foreach (string line in Said($"{answer.Design.Name}: other hooks, other water, another leader (finished, rigged)", width)) yield return line;
        foreach (IGrouping<HookSet, SwapRow> block in answer.Rows.Where(r => r.Case.Leader.Name is null).GroupBy(r => r.Case.Hooks))
        {
            yield return "";
            foreach (string line in Block(block.Key, [.. block], notation, width)) yield return line;
            if (answer.Reach.GetValueOrDefault(block.Key) is { } reach)
                foreach (string sentence in StrengthWords.Of(reach, notation))
                    foreach (string line in Said(sentence, width, "  ")) yield return line;
        }
        // Without an eye to tie it to there is no leader.
        if (answer.Design.Wire is not null)
        {
            yield return "";
            foreach (string line in Leaders([.. answer.Rows.Where(r => r.Case.Hooks.Change == HookChange.Own)], notation, width)) yield return line;
        }
        yield return "";
        foreach (string line in Remedies(answer, notation, width)) yield return line;
        if (answer.IsOwnBox) yield break;
        yield return "";
        foreach (string line in Said("Hooks, rings, leaders, wire and drills are usual ones, from memory: name your own with --box.", width)) yield return line;
    }

    private static IEnumerable<string> Said(string text, int width, string indent = "") =>
        Paper.Said(text, width, indent, hang: indent.Length > 0 ? "  " : "");

    private static IEnumerable<string> Block(HookSet set, SwapRow[] rows, Notation notation, int width)
    {
        bool own = set.Change == HookChange.Own, falls = rows.Any(r => r.Prediction.Descent?.First is not null);
        string title = SwapWords.Of(set);
        List<(string, int)> heads = [("to spare", Grams)];
        if (falls) heads.Add(("falls", Falls));
        if (!own) heads.Add(("change", More + Turn));
        foreach (string line in Heads(char.ToUpperInvariant(title[0]) + title[1..], heads, width)) yield return line;
        var told = rows.Select(row =>
        {
            List<(string, int)> values = [(Signed(row.Prediction.SpareBuoyancy, notation, plus: false), Grams)];
            if (falls) values.Add((Rate(row.Prediction, notation), Falls));
            if (!own) values.AddRange([(Signed(row.Effect.Spare, notation), More), (Degrees(row.Effect.Trim, notation), Turn)]);
            return (row.Case.WaterName, SwapWords.Does(row.Prediction, notation), values);
        });
        foreach (string line in InEachWater(told, width)) yield return line;
        foreach (IGrouping<Turned, SwapRow> turned in rows.GroupBy(r => r.Effect.Turned))
            if (SwapWords.Plainly(turned.Key) is { } plainly)
                foreach (string line in Said($"{string.Join(", ", turned.Select(r => r.Case.WaterName))}: {plainly}", width, "  ")) yield return line;
    }

    // Waters in which a lure does the same, to the last digit shown, share a line: tap and lake mostly.
    private static IEnumerable<string> InEachWater(IEnumerable<(string Water, string Words, List<(string Text, int Width)> Values)> rows, int width)
    {
        var merged = new List<(string Waters, string Words, List<(string Text, int Width)> Values)>();
        foreach ((string water, string words, List<(string, int)> values) in rows)
            if (merged.Count > 0 && merged[^1].Words == words && merged[^1].Values.SequenceEqual(values)) merged[^1] = merged[^1] with { Waters = $"{merged[^1].Waters}, {water}" };
            else merged.Add((water, words, values));
        return merged.SelectMany(row => Line(row.Waters, row.Words, row.Values, width));
    }

    private static IEnumerable<string> Leaders(SwapRow[] own, Notation notation, int width)
    {
        foreach (string line in Heads("Own hooks, at rest with a leader let down", [("to spare", Grams), ("change", More + Turn)], width)) yield return line;
        foreach (IGrouping<LeaderChoice, SwapRow> leader in own.Where(r => r.Case.Leader.Name is not null).GroupBy(r => r.Case.Leader))
        {
            foreach (string line in Said(SwapWords.Of(leader.Key, notation), width, "  ")) yield return line;
            foreach (string line in InEachWater(leader.Select(row => (row.Case.WaterName,
                Words.Posture(row.Prediction.Posture, notation, row.Prediction.SpareBuoyancy > 0 ? "floats" : "hangs"),
                new List<(string, int)> { (Signed(row.Prediction.SpareBuoyancy, notation, plus: false), Grams), (Signed(row.Effect.Spare, notation), More), (Degrees(row.Effect.RestTrim, notation), Turn) })), width))
                yield return line;
            foreach (IGrouping<Turned, SwapRow> turned in leader.GroupBy(r => r.Effect.Turned))
                if (SwapWords.Plainly(turned.Key) is { } plainly)
                    foreach (string line in Said($"{string.Join(", ", turned.Select(r => r.Case.WaterName))}: {plainly}", width, "  ")) yield return line;
        }
    }

    private static IEnumerable<string> Remedies(SwapAnswer answer, Notation notation, int width)
    {
        string now = SwapWords.Does(answer.AsItIs, notation);
        foreach (string line in Said($"What is left once it is glued. Now it {now}, {Words.Spare(answer.AsItIs.SpareBuoyancy, notation)} {Words.In(answer.AsItIs.Circumstances.Water)}.", width)) yield return line;
        if (answer.Remedies.IsEmpty) yield return "Nothing is left to do from outside.";
        bool drills = false;
        foreach (RemedyUse use in Enum.GetValues<RemedyUse>())
            foreach (bool broken in (bool[])[false, true])
            {
                RemedyEffect[] best = [.. Best(answer.Remedies, use, broken)];
                if (best.Length == 0) continue;
                drills |= broken;
                yield return "";
                List<(string, int)> heads = [("to spare", Grams), ("trim", Turn + 1)];
                if (answer.AsItIs.Descent is not null) heads.Add(("falls", Falls + 2));
                string title = SwapWords.Of(use);
                foreach (string line in Heads($"{char.ToUpperInvariant(title[0])}{title[1..]}, the seal {(broken ? "broken" : "whole")}", heads, width)) yield return line;
                foreach (RemedyEffect remedy in best)
                    foreach (string line in OfRemedy(remedy, heads.Count > 2, notation, width)) yield return line;
            }
        if (Cork(answer.Remedies) is { } cork && cork.Effect.Spare < RemedyEffect.Grams)
        {
            yield return "";
            foreach (string line in Said($"Cork does little: the best hole there is makes it {notation.Weight(cork.Effect.Spare, 2)} lighter ({SwapWords.Of(cork.Remedy, notation)}).", width)) yield return line;
        }
        if (!drills) yield break;
        yield return "";
        foreach (string line in Said(SwapWords.DrillCaution, width)) yield return line;
        if (!answer.Box.NoLead) foreach (string line in Said(SwapWords.LeadCaution, width)) yield return line;
    }

    private static RemedyEffect? Cork(IEnumerable<RemedyEffect> all) => all.Where(r => r.Remedy.Kind == RemedyKind.Cork).MaxBy(r => r.Effect.Spare);

    /// <summary>The purest for a use; of one kind at one place, or of holes from one side, only the best.</summary>
    internal static IEnumerable<RemedyEffect> Best(IEnumerable<RemedyEffect> all, RemedyUse use, bool broken) => all
        .Where(r => r.Remedy.BreaksSeal == broken && r.For(use) > 0)
        .OrderByDescending(r => r.For(use))
        .DistinctBy(r => (r.Remedy.Kind, r.Remedy.Place, r.Remedy.Spot?.From, r.Remedy.Spot is { } spot ? Math.Floor(4 * spot.Mouth.X / r.Remedy.Design.Body.LengthMm) : 0))
        .Take(Shown);

    private static IEnumerable<string> OfRemedy(RemedyEffect remedy, bool falls, Notation notation, int width)
    {
        List<(string, int)> values = [(Signed(remedy.Effect.Spare, notation), Grams), (Degrees(remedy.Effect.Trim, notation), Turn + 1)];
        if (falls) values.Add((remedy.Effect.Rate is { } rate ? Plus(notation.Speed(rate)) : "", Falls + 2));
        foreach (string line in Line("", SwapWords.Of(remedy.Remedy, notation), values, width)) yield return line;
        if (SwapWords.Plainly(remedy.Effect.Turned) is { } plainly)
            foreach (string line in Said(plainly, width, "    ")) yield return line;
    }

    private static bool Beside(int values, int width, int named) => width - values - named >= LeastWords;

    private static IEnumerable<string> Heads(string title, List<(string Text, int Width)> heads, int width) =>
        Beside(heads.Sum(h => h.Width), width, Named + 2) ? Paper.Row(Paper.Plain(title), width, [.. heads]) : Said(title, width);

    /// <summary>A name in its column, words beside it, values at the right; in a narrow terminal the values follow on their own lines.</summary>
    private static IEnumerable<string> Line(string name, string words, List<(string Text, int Width)> values, int width)
    {
        int used = values.Sum(v => v.Width), column = name.Length > 0 ? Named : 0;
        if (!Beside(used, width, Named + 2))
        {
            foreach (string line in Said(name.Length > 0 ? $"{name}: {words}" : words, width, "  ")) yield return line;
            // The first column is what it has to spare, or the change of it; its head is not there to say so.
            string[] texts = [.. values.Select(v => v.Text).Where(t => t.Length > 0)];
            foreach (string line in Said(string.Join(", ", texts.Skip(1).Prepend($"{texts[0]} to spare")), width, "    ")) yield return line;
            yield break;
        }
        // Names of several waters may be longer than their column.
        if (name.Length > 0) column = Math.Max(column, name.Length + 1);
        string[] lines = [.. Paper.Wrap(Paper.Plain(words), width - used - 2 - column - 1, name.Length > 0 ? "" : "  ")];
        string right = string.Concat(values.Select(v => v.Text.PadLeft(v.Width)));
        for (int i = 0; i < lines.Length; i++)
        {
            string left = "  " + (i == 0 ? name : "").PadRight(column) + lines[i];
            yield return i == 0 ? (left.PadRight(width - used) + right).TrimEnd() : left;
        }
    }

    private static string Rate(Prediction p, Notation notation) =>
        p.Descent?.First is { } fall ? notation.Speed(fall.Rate) : "";

    private static string Signed(double grams, Notation notation, bool plus = true) => plus ? Plus(notation.Weight(grams)) : notation.Weight(grams);

    private static string Degrees(double? radians, Notation notation) => radians is { } r ? Plus(notation.Number(Units.ToDegrees(r), 0)) + "°" : "";

    // Nothing has no sign.
    private static string Plus(string number) => number[0] == '−' || Notation.Apart(number).Number.All(c => c is '0' or '.' or ',') ? number : "+" + number;
}
