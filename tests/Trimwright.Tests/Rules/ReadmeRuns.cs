using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>What <see cref="DocsTests"/> leaves: pictures come with their command, links to headings find them, issue forms ask what a test needs.</summary>
public partial class ReadmeRuns
{
    private static IEnumerable<string> Pages => Sources.Files(".", ".md");

    [Fact]
    public void Every_picture_stands_in_a_page_with_the_command_that_draws_it()
    {
        string all = string.Concat(Pages.Select(Sources.Text));
        string[] pictures = [.. Sources.Files("docs/pictures", ".svg")];
        Assert.NotEmpty(pictures);
        foreach (string picture in pictures)
        {
            string lure = $"demo/{Path.GetFileNameWithoutExtension(picture)}.lure.json";
            Assert.True(all.Contains($"predict {lure} --picture {picture} --force", StringComparison.Ordinal),
                $"{picture}: no page shows the command that draws it; add `predict {lure} --picture {picture} --force` to one, or take the picture away.");
            Assert.True(all.Contains("](" + picture, StringComparison.Ordinal) || all.Contains("pictures/" + Path.GetFileName(picture) + ")", StringComparison.Ordinal),
                $"{picture}: no page shows it; show it, or take it away.");
        }
    }

    [Fact]
    public void A_link_to_a_heading_finds_it()
    {
        foreach (string page in Pages)
            foreach (Match link in Anchor().Matches(Sources.Text(page)))
            {
                string target = link.Groups[1].Value;
                if (target.Contains("://", StringComparison.Ordinal)) continue;
                string full = target.Length == 0 ? Path.Combine(Here.Root, page) : Path.Combine(Here.Root, Path.GetDirectoryName(page)!, target);
                Assert.True(File.Exists(full) && Headings(File.ReadAllText(full)).Contains(link.Groups[2].Value),
                    $"{page} links to {target}#{link.Groups[2].Value}; there is no such heading.");
            }
    }

    [Fact]
    public void The_readme_says_in_its_first_line_what_the_program_is_and_shows_both_commands_early()
    {
        string[] lines = Sources.Text("README.md").Split('\n');
        Assert.Matches("^# Trimwright\\b.*lure", lines[0]);
        Assert.Equal("dotnet run --project src/App", lines.SkipWhile(l => l != "```sh").ElementAt(1));
        int predict = Array.FindIndex(lines, l => l.StartsWith("dotnet run --project src/App -- predict demo/", StringComparison.Ordinal)), test = Array.IndexOf(lines, "dotnet test");
        Assert.True(predict is > 0 and < 40 && test == predict + 1, "README.md: the two commands stand together within the first forty lines, predict then dotnet test.");
    }

    [Fact]
    public void The_palette_in_the_look_is_the_one_that_pictures_use()
    {
        string style = Sources.Text("src/Drawing/Svg.cs");
        string[] colours = [.. Colour().Matches(Sources.Text("docs/look.md")).Select(m => m.Value)];
        Assert.NotEmpty(colours);
        foreach (string colour in colours)
            Assert.True(style.Contains(colour, StringComparison.Ordinal), $"docs/look.md names {colour}, which src/Drawing/Svg.cs does not use; correct the page.");
    }

    private static HashSet<string> Headings(string text) =>
        [.. text.Split('\n').Where(l => l.StartsWith('#')).Select(l => NotInSlugs().Replace(l.TrimStart('#').Trim().ToLowerInvariant(), "").Replace(' ', '-'))];

    [GeneratedRegex(@"\]\(([^)\s#]*)#([^)\s]+)\)")]
    private static partial Regex Anchor();

    [GeneratedRegex("#[0-9A-F]{6}")]
    private static partial Regex Colour();

    [GeneratedRegex(@"[^\p{L}\p{Nd} _-]")]
    private static partial Regex NotInSlugs();
}
