using Trimwright.App.Questions;
using Trimwright.Core.Finish;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary>A build plan as plain text: what it will be, the steps by chapter, what to buy.</summary>
internal static class BuildPlanText
{
    private const string Indent = "    ";

    public static IEnumerable<string> Lines(BuildPlan plan, Notation notation, int width)
    {
        var words = new BuildWords(plan, notation);
        foreach (string line in Paper.Said($"{plan.Design.Name}: from boards to fishing", width)) yield return line;
        yield return "";
        foreach (string sentence in words.Opening())
            foreach (string line in Paper.Said(sentence, width)) yield return line;
        Phase? phase = null;
        for (int i = 0; i < plan.Steps.Length; i++)
        {
            BuildStep step = plan.Steps[i];
            yield return "";
            if (step.Phase != phase)
            {
                phase = step.Phase;
                yield return BuildWords.Of(step.Phase).ToUpperInvariant();
                yield return "";
            }
            foreach (string line in Step(i + 1, step, words, width)) yield return line;
        }
        yield return "";
        foreach (string line in Shopping(plan, words, notation, width)) yield return line;
        yield return "";
        foreach (string line in Paper.Said(CautionWords.Last, width)) yield return line;
    }

    private static IEnumerable<string> Step(int number, BuildStep step, BuildWords words, int width)
    {
        ToldStep told = words.Of(step);
        string when = words.Moment(step.Visit.From);
        foreach (string line in Paper.Row($"{number,2}  {Paper.Plain(told.Title)}", width, (when, when.Length + 2))) yield return line;
        foreach (string sentence in told.Do)
            foreach (string line in Paper.Said(sentence, width, Indent)) yield return line;
        foreach ((string name, string value) in told.Rows)
            foreach (string line in Paper.Row(Indent + "  " + Paper.Plain(name), width, (value, Math.Min(value.Length + 2, width)))) yield return line;
        foreach (string tick in told.Ticks)
            foreach (string line in Paper.Said("[ ] " + tick, width, Indent, "    ")) yield return line;
        foreach (string caution in told.Cautions)
            foreach (string line in Paper.Said("! " + caution, width, Indent, "  ")) yield return line;
    }

    private static IEnumerable<string> Shopping(BuildPlan plan, BuildWords words, Notation notation, int width)
    {
        yield return "WHAT IT TAKES";
        yield return "";
        bool box = plan.Box is not null;
        (string, int)[] heads = box ? [("takes", 12), ("to buy", 12), (plan.Shopping.Currency is { Length: <= 10 } c ? c : "cost", 11)] : [("takes", 12)];
        foreach (string line in Paper.Row("", width, Fitting(heads, width))) yield return line;
        foreach (Need need in plan.Shopping.Needs)
        {
            (string, int)[] cells = box
                ? [(words.Amount(need, need.Needed), 12), (need.ToBuy > 0 ? words.Amount(need, need.ToBuy) : "", 12), (need.Cost is { } cost ? notation.Number(cost, 2) : "", 11)]
                : [(words.Amount(need, need.Needed), 12)];
            foreach (string line in Paper.Row("  " + Paper.Plain(need.Name), width, Fitting(cells, width))) yield return line;
        }
        foreach (string sentence in words.Costs())
            foreach (string line in Paper.Said(sentence, width)) yield return line;
    }

    // Columns share a narrow terminal.
    private static (string, int)[] Fitting((string Text, int Width)[] cells, int width) =>
        [.. cells.Select(c => (c.Text, Math.Min(c.Width, width / cells.Length)))];
}
