using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Tests.App;

namespace Trimwright.Tests.Rules;

/// <summary>
/// Documentation runs. Every command of ours in a <c>sh</c> block of README or docs is run from the root at 80 columns; the
/// <c>text</c> block after it is what it prints, to the letter. Pictures are what the program draws now. Links lead somewhere.
/// </summary>
public partial class ReadmeRuns
{
    private const string Ours = "dotnet run --project src/App -- ";

    // A number in a picture is a hundredth of a millimetre of the page; machines may round it to either side.
    private const double Hundredth = 0.01 + 1e-9;

    private sealed record Block(string Page, int Line, string Language, string Text, bool AfterHeading);

    private sealed record Command(string Page, int Line, string[] Arguments, int Exit);

    [Fact]
    public void Every_command_prints_what_stands_below_it()
    {
        int ran = 0, compared = 0;
        foreach (string page in Sources.Files(".", ".md"))
        {
            Block[] blocks = [.. Blocks(page)];
            for (int i = 0; i < blocks.Length; i++)
            {
                if (blocks[i].Language != "sh") continue;
                Command[] commands = [.. Commands(blocks[i])];
                string printed = string.Concat(commands.Select(Run));
                ran += commands.Length;
                if (commands.Length == 0 || i + 1 == blocks.Length || blocks[i + 1].Language != "text" || blocks[i + 1].AfterHeading) continue;
                compared++;
                string shown = blocks[i + 1].Text.TrimEnd(), now = printed.ReplaceLineEndings("\n").TrimEnd();
                Assert.True(shown == now, $"{page}:{blocks[i + 1].Line} shows what the command above it no longer prints. It prints now:\n{now}");
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{ran} commands run, {compared} outputs compared");
        Assert.True(ran >= 4 && compared >= 3, $"only {ran} commands and {compared} outputs were found; the scan is broken or the documents have lost theirs");
    }

    [Fact]
    public void Pictures_are_what_the_program_draws_now()
    {
        Command[] draws = [.. Sources.Files(".", ".md").SelectMany(Blocks).Where(b => b.Language == "sh").SelectMany(Commands).Where(c => c.Arguments.Contains("--picture"))];
        string folder = Directory.CreateTempSubdirectory("trimwright-pictures").FullName;
        try
        {
            foreach (string picture in Sources.Files("docs/pictures", ".svg"))
            {
                Command? command = draws.FirstOrDefault(c => c.Arguments.Contains(picture));
                Assert.True(command is not null, $"{picture}: no command in README or docs draws it; show the command, or take the picture away.");
                string fresh = Path.Combine(folder, Path.GetFileName(picture));
                Run(command with { Arguments = [.. command.Arguments.Select(a => a == picture ? fresh : a)] });
                string difference = Difference(Sources.Text(picture), File.ReadAllText(fresh).ReplaceLineEndings("\n"));
                Assert.True(difference.Length == 0, $"{picture} is not what the program draws now ({difference}); draw it again by {Ours}{string.Join(' ', command.Arguments)}");
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void Relative_links_lead_to_files_and_headings_that_are_there()
    {
        int links = 0;
        foreach (string page in Sources.Files(".", ".md"))
            foreach ((int line, string target) in Links(page))
            {
                links++;
                string[] parts = target.Split('#');
                string path = parts[0].Length == 0 ? page : Path.Combine(Path.GetDirectoryName(page)!, Uri.UnescapeDataString(parts[0]));
                string full = Path.GetFullPath(Path.Combine(Here.Root, path));
                Assert.True(File.Exists(full) || Directory.Exists(full), $"{page}:{line} links to {target}, which is not there.");
                if (parts.Length > 1 && full.EndsWith(".md", StringComparison.Ordinal))
                    Assert.True(Headings(File.ReadAllText(full)).Contains(parts[1]), $"{page}:{line} links to {target}; that page has no such heading.");
            }
        Assert.True(links > 20, $"only {links} links were found; the scan is broken");
    }

    private static string Run(Command command)
    {
        Assert.True(command.Arguments[0] is "predict" or "check", $"{command.Page}:{command.Line}: teach ReadmeRuns how to run \"{command.Arguments[0]}\" without touching the repository");
        string? spare = null;
        string[] arguments = [.. command.Arguments];
        int picture = Array.IndexOf(arguments, "--picture");
        if (picture >= 0 && !Path.IsPathRooted(arguments[picture + 1]))
            arguments[picture + 1] = spare = Path.Combine(Path.GetTempPath(), $"trimwright-{Guid.NewGuid():N}.svg");
        TheProgram.Ran ran = TheProgram.Run(arguments);
        if (spare is not null) File.Delete(spare);
        Assert.True(ran.Exit == command.Exit, $"{command.Page}:{command.Line}: {string.Join(' ', command.Arguments)} ended with {ran.Exit}, not {command.Exit}:\n{ran.Error}");
        return ran.Out + ran.Error;
    }

    // A command that is meant to be refused says so behind it: `# exit 1`.
    private static IEnumerable<Command> Commands(Block block)
    {
        string[] lines = block.Text.Split('\n');
        for (int i = 0; i < lines.Length; i++)
        {
            if (!lines[i].StartsWith(Ours, StringComparison.Ordinal)) continue;
            string[] parts = lines[i][Ours.Length..].Split(" # exit ");
            yield return new Command(block.Page, block.Line + i, parts[0].Split(' ', StringSplitOptions.RemoveEmptyEntries),
                parts.Length > 1 ? int.Parse(parts[1], CultureInfo.InvariantCulture) : 0);
        }
    }

    private static IEnumerable<Block> Blocks(string page)
    {
        string? language = null;
        var text = new List<string>();
        int number = 0, start = 0;
        bool heading = false;
        foreach (string line in Sources.Text(page).Split('\n'))
        {
            number++;
            if (language is null && line.StartsWith("```", StringComparison.Ordinal)) (language, start) = (line[3..].Trim(), number + 1);
            else if (language is not null && line == "```")
            {
                yield return new Block(page, start, language, string.Join('\n', text), heading);
                (language, heading) = (null, false);
                text.Clear();
            }
            else if (language is not null) text.Add(line);
            else heading |= line.StartsWith('#');
        }
    }

    private static IEnumerable<(int Line, string Target)> Links(string page)
    {
        bool code = false;
        int number = 0;
        foreach (string line in Sources.Text(page).Split('\n'))
        {
            number++;
            if (line.StartsWith("```", StringComparison.Ordinal)) code = !code;
            if (code) continue;
            foreach (Match link in Link().Matches(line))
                if (!link.Groups[1].Value.Contains(':', StringComparison.Ordinal)) yield return (number, link.Groups[1].Value);
        }
    }

    private static HashSet<string> Headings(string text) =>
        [.. text.Split('\n').Where(l => l.StartsWith('#')).Select(l => NotInSlugs().Replace(l.TrimStart('#').Trim().ToLowerInvariant(), "").Replace(' ', '-'))];

    /// <summary>Where two drawings first differ: any other text, or a number by more than a hundredth; empty when nowhere.</summary>
    private static string Difference(string a, string b)
    {
        string[] textA = Number().Split(a), textB = Number().Split(b);
        string[] numbersA = [.. Number().Matches(a).Select(m => m.Value)], numbersB = [.. Number().Matches(b).Select(m => m.Value)];
        for (int i = 0; i < Math.Min(textA.Length, textB.Length); i++)
        {
            if (textA[i] != textB[i]) return $"\"{textA[i].Trim()}\" is now \"{textB[i].Trim()}\"";
            if (i < numbersA.Length && i < numbersB.Length && Math.Abs(Value(numbersA[i]) - Value(numbersB[i])) > Hundredth) return $"{numbersA[i]} is now {numbersB[i]}";
        }
        return textA.Length == textB.Length ? "" : $"{textA.Length} pieces are now {textB.Length}";

        static double Value(string number) => double.Parse(number, CultureInfo.InvariantCulture);
    }

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"-?\d+(?:\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@"[^\p{L}\p{Nd} _-]")]
    private static partial Regex NotInSlugs();
}
