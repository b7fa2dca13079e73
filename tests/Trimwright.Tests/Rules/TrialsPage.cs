using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>docs/trials/0.1.0.md: a line for each item of the trial, and each test that it names is there.</summary>
public partial class TrialsPage
{
    private const string Page = "docs/trials/0.1.0.md";

    private static readonly int[] Items = [.. Enumerable.Range(1, 16), .. Enumerable.Range(24, 16)];

    [Fact]
    public void Every_item_has_a_line_and_every_test_named_there_stands_in_the_file_linked()
    {
        string[] rows = [.. File.ReadAllLines(Path.Combine(Here.Root, Page)).Where(l => Row().IsMatch(l))];
        Assert.Equal(Items, rows.Select(r => int.Parse(Row().Match(r).Groups[1].Value)));
        int tests = 0;
        foreach (string row in rows)
        {
            string[] cells = row.Split(" | ");
            Assert.True(cells.Length == 4, $"four cells: {row}");
            MatchCollection files = Linked().Matches(cells[2]);
            if (files.Count == 0)
            {
                // No test holds it: then the line says plainly what does, or that it isn't met.
                Assert.Equal("none", cells[2]);
                Assert.Matches("Not met|not by a test", cells[3]);
                continue;
            }
            foreach (Match file in files)
            {
                string path = Path.Combine(Here.Root, "docs", "trials", file.Groups["path"].Value);
                Assert.True(File.Exists(path), $"{Page}: {file.Groups["path"].Value} is not there");
                string text = File.ReadAllText(path);
                MatchCollection named = Named().Matches(file.Groups["tests"].Value);
                Assert.True(named.Count > 0, $"{Page}: no test is named beside {file.Groups["path"].Value}");
                foreach (Match test in named)
                {
                    Assert.True(Regex.IsMatch(text, $@"\[(?:Fact|Theory)[^\]]*\](?:\s*(?:\[[^\n]*\]|//[^\n]*|///[^\n]*))*\s*public (?:async )?(?:void|Task) {test.Groups[1].Value}\("),
                        $"{Page}: {test.Groups[1].Value} is no test of {file.Groups["path"].Value}");
                    tests++;
                }
            }
        }
        Assert.True(tests > 40, $"{tests} tests are named");
    }

    [GeneratedRegex(@"^\| (\d+) \| ")]
    private static partial Regex Row();

    [GeneratedRegex(@"\[[^\]]+\]\((?<path>[^)]+)\): (?<tests>(?:`\w+`(?:, )?)+)")]
    private static partial Regex Linked();

    [GeneratedRegex(@"`(\w+)`")]
    private static partial Regex Named();
}
