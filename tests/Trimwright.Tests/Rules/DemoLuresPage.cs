using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Trimwright.App.Answers;
using Trimwright.App.Commands;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;

namespace Trimwright.Tests.Rules;

/// <summary>
/// Every row of docs/method/demo-lures.md is run: the change is made in the demo's file, the program asked, and the column
/// "ours" compared. A row that is further from the independent value than allowed must name the term that differs.
/// </summary>
public partial class DemoLuresPage
{
    private const string Page = "docs/method/demo-lures.md";

    private sealed record Row(int Line, string Lure, string Asked, string Changes, string What, string Independent, string Ours, string Term);

    [Fact]
    public void Every_row_says_what_the_program_predicts_now()
    {
        Row[] rows = [.. Rows()];
        Assert.True(rows.Length > 50, $"{Page}: only {rows.Length} rows were found");
        foreach (Row row in rows)
        {
            double now = Predicted(row);
            int decimals = row.Ours.Contains('.', StringComparison.Ordinal) ? row.Ours.Length - row.Ours.IndexOf('.', StringComparison.Ordinal) - 1 : 0;
            double rounding = 0.5 * Math.Pow(10, -decimals) + 1e-4;
            Assert.True(Math.Abs(now - Number(row.Ours)!.Value) <= rounding, string.Create(CultureInfo.InvariantCulture, $"{Page}:{row.Line} says {row.Ours}; the program says {now:F3} now"));
        }
    }

    [Fact]
    public void A_row_that_is_far_off_names_the_term_that_differs()
    {
        string text = Sources.Text(Page);
        foreach (Row row in Rows())
        {
            foreach (string term in row.Term.Split(", ", StringSplitOptions.RemoveEmptyEntries))
                Assert.Contains($"- **{term}. ", text);
            if (row.Term.Length > 0 || Number(row.Independent) is not { } independent) continue;
            double allowed = Allowed(row, independent), off = Math.Abs(Number(row.Ours)!.Value - independent);
            Assert.True(off <= allowed, $"{Page}:{row.Line} is {off:F1} off where {allowed:F1} is allowed, and names no term");
        }
    }

    // Grams and degrees as the page says; mm as a ruler reads; volumes 0.3 %, rates 15 %.
    private static double Allowed(Row row, double independent) => row.What switch
    {
        _ when row.What.EndsWith("_g", StringComparison.Ordinal) => 0.5,
        _ when row.What.EndsWith("_deg", StringComparison.Ordinal) => row.Lure == "slipway-150" ? 5 : 3,
        _ when row.What.EndsWith("_mm", StringComparison.Ordinal) => 2,
        _ when row.What.EndsWith("_cm3", StringComparison.Ordinal) => 0.003 * independent,
        _ => 0.15 * independent,
    } + 1e-9;

    private static double Predicted(Row row)
    {
        bool change = row.What.StartsWith("Δ ", StringComparison.Ordinal);
        string key = change ? row.What[2..] : row.What;
        double now = Read(row, key, row.Changes);
        return change ? now - Read(row, key, "") : now;
    }

    private static double Read(Row row, string key, string changes)
    {
        JsonNode lure = JsonNode.Parse(Sources.Text($"demo/{row.Lure}.lure.json"))!;
        foreach (Match edit in Edit().Matches(changes)) Change(lure, edit.Groups[1].Value, JsonNode.Parse(edit.Groups[2].Value)!);
        Reading<LureDesign> design = LureFile.Read(Encoding.UTF8.GetBytes(lure.ToJsonString()));
        string Option(string name, string usual) => Regex.Match(row.Asked, $"--{name} (\\S+)") is { Success: true } m ? m.Groups[1].Value : usual;
        PredictAnswer answer = new HowItSits(design.Value!, Options.Where(Option("stage", "finished"), Option("rig", "rigged"), Option("water", "ocean"))).Answer(Pace.Free);
        JsonNode? found = JsonNode.Parse(AnswerJson.Text(PredictJson.Of(answer, design.Warnings)));
        foreach (string step in key.Split('.')) found = found?[step];
        return found?.GetValue<double>() ?? throw new InvalidOperationException($"{Page}:{row.Line}: predict --json has no {key} here");
    }

    private static void Change(JsonNode lure, string path, JsonNode value)
    {
        if (path == "carved")
        {
            Carve(lure, value.GetValue<double>());
            return;
        }
        string[] steps = [.. Step().Matches(path).Select(m => m.Value)];
        JsonNode at = steps[..^1].Aggregate(lure, (node, step) => node is JsonArray list ? list[Index(step)]! : node[step]!);
        if (at is not JsonArray items) at[steps[^1]] = value;
        else if (Index(steps[^1]) == items.Count) items.Add(value);
        else items[Index(steps[^1])] = value;

        static int Index(string step) => int.Parse(step, CultureInfo.InvariantCulture);
    }

    // Fat or lean all round: every outline point moves away from the axis.
    private static void Carve(JsonNode lure, double by)
    {
        foreach (string outline in (string[])["back", "belly", "plan"])
            foreach (JsonNode? point in lure["body"]![outline]!["points_mm"]!.AsArray())
            {
                double value = point![1]!.GetValue<double>();
                point[1] = value + Math.Sign(value) * by;
            }
    }

    private static IEnumerable<Row> Rows()
    {
        string[] lines = Sources.Text(Page).Split('\n');
        string theirs = lines.Single(l => l.StartsWith("theirs: ", StringComparison.Ordinal))["theirs: ".Length..], lure = "";
        for (int i = 0; i < lines.Length; i++)
        {
            if (lines[i].StartsWith("## ", StringComparison.Ordinal)) lure = LureName().Match(lines[i]).Value;
            if (!lines[i].StartsWith("| ", StringComparison.Ordinal)) continue;
            string[] cells = [.. lines[i].Split('|')[1..^1].Select(c => c.Trim())];
            if (cells[0] == "asked" || cells[0].StartsWith("---", StringComparison.Ordinal)) continue;
            yield return new Row(i + 1, lure, cells[0].Trim('`'), cells[1].Replace("`theirs`", theirs, StringComparison.Ordinal), cells[2].Trim('`'), cells[3], cells[4], cells[5]);
        }
    }

    private static double? Number(string text) =>
        double.TryParse(text.Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : null;

    [GeneratedRegex("`([^ =`]+) = ([^`]+)`")]
    private static partial Regex Edit();

    [GeneratedRegex("[a-z_0-9]+")]
    private static partial Regex Step();

    [GeneratedRegex("[a-z-]+-[0-9]+")]
    private static partial Regex LureName();
}
