using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Trimwright.Core;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Tests.App;

namespace Trimwright.Tests.Rules;

/// <summary>Documentation runs: its commands, their printed output, its pictures and its links.</summary>
public partial class DocsTests
{
    private const string Call = "dotnet run --project src/App -- ";

    private static IEnumerable<string> Pages =>
        Directory.GetFiles(Here.Root, "*.md").Concat(Directory.GetFiles(Path.Combine(Here.Root, "docs"), "*.md", SearchOption.AllDirectories));

    [Fact]
    public void Every_command_in_the_docs_does_what_they_show()
    {
        int commands = 0, outputs = 0;
        // The quick tier reads what a newcomer reads first; CI all of it.
        foreach (string page in Pages.Where(p => Tier.IsCi || !p.Contains($"{Path.DirectorySeparatorChar}method{Path.DirectorySeparatorChar}", StringComparison.Ordinal)))
        {
            string[] lines = File.ReadAllLines(page);
            for (int i = 0; i < lines.Length; i++)
            {
                if (!lines[i].StartsWith(Call, StringComparison.Ordinal)) continue;
                commands++;
                TheProgram.Ran ran = RunAside([.. Word().Matches(lines[i][Call.Length..]).Select(m => m.Value.Replace("\"", ""))]);
                Assert.True(ran.Exit == 0, $"{page}: {lines[i]} ended with {ran.Exit}: {ran.Error}");
                // A block ```text after the command, before the next heading or command, is its output.
                int block = Array.FindIndex(lines, i, line => line == "```text" || line.StartsWith('#') || (line != lines[i] && line.StartsWith(Call, StringComparison.Ordinal)));
                if (block < 0 || lines[block] != "```text") continue;
                int end = Array.IndexOf(lines, "```", block);
                outputs++;
                Assert.Equal(string.Join('\n', lines[(block + 1)..end]), ran.Out.TrimEnd('\n'));
            }
        }
        Assert.True(commands > 0 && outputs > 0);
    }

    // Words as a shell parts them: what stands in double quotes is one.
    [GeneratedRegex("""(?:"[^"]*"|[^\s"])+""")]
    private static partial Regex Word();

    // A test does not draw over the pictures that it is to compare.
    private static TheProgram.Ran RunAside(string[] arguments)
    {
        if (Array.IndexOf(arguments, "--out") + 1 is var folder and > 0) return RunOut(arguments, folder);
        int picture = Array.IndexOf(arguments, "--picture") + 1;
        if (picture == 0) return TheProgram.Start(arguments);
        string aside = arguments[picture] = Path.Combine(Path.GetTempPath(), $"trimwright-{Guid.NewGuid():N}.svg");
        TheProgram.Ran ran = TheProgram.Start(arguments);
        Assert.True(File.Exists(aside), $"{string.Join(' ', arguments)} drew nothing");
        File.Delete(aside);
        return ran;
    }

    private static TheProgram.Ran RunOut(string[] arguments, int folder)
    {
        Outside.NeedType();
        string aside = arguments[folder] = Directory.CreateTempSubdirectory("trimwright-docs").FullName;
        TheProgram.Ran ran = TheProgram.Start(arguments);
        Assert.NotEmpty(Directory.GetFileSystemEntries(aside));
        Directory.Delete(aside, recursive: true);
        return ran;
    }

    [Fact]
    public void Pictures_in_the_docs_are_what_the_program_draws()
    {
        string[] pictures = Directory.GetFiles(Path.Combine(Here.Root, "docs", "pictures"), "*.svg");
        Assert.NotEmpty(pictures);
        foreach (string path in pictures)
        {
            var lure = Lures.Demo(Path.GetFileNameWithoutExtension(path));
            string drawn = Svg.Write(LureInWater.Draw(lure, Prediction.Of(lure, Circumstances.InTheSea), Notation.Metric));
            string kept = File.ReadAllText(path);
            Assert.Equal(Number().Replace(kept, "#"), Number().Replace(drawn, "#"));
            // Across machines, as numbers: within 0.02 mm of the page (two roundings to 0.01).
            foreach ((Match a, Match b) in Number().Matches(kept).Zip(Number().Matches(drawn)))
                Assert.Equal(double.Parse(a.Value, CultureInfo.InvariantCulture), double.Parse(b.Value, CultureInfo.InvariantCulture), 0.02);
        }
    }

    /// <summary>Cultures by their signs, made by hand: the program runs invariant and so do its tests.</summary>
    [Theory]
    [InlineData(",", ".", "-")]
    [InlineData("٫", "٬", "\u200E-")]
    [InlineData("/", ",", "−")]
    public void The_same_picture_and_sentence_come_out_in_any_culture(string mark, string group, string minus)
    {
        var lure = Lures.Demo("tidegate-185");
        Prediction prediction = Prediction.Of(lure, Circumstances.InTheSea);
        string Everything() => Svg.Write(LureInWater.Draw(lure, prediction, Notation.Metric)) + Sentence.Of(prediction, Notation.Metric)
            + Encoding.UTF8.GetString(Core.Design.LureFile.Write(lure));
        string here = Everything();
        var elsewhere = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        elsewhere.NumberFormat.NumberDecimalSeparator = mark;
        elsewhere.NumberFormat.NumberGroupSeparator = group;
        elsewhere.NumberFormat.NegativeSign = minus;
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = elsewhere;
            Assert.NotEqual("-1.5", (-1.5).ToString(CultureInfo.CurrentCulture));
            Assert.Equal(here, Everything());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Links_between_pages_lead_somewhere()
    {
        foreach (string page in Pages)
            foreach (Match link in Link().Matches(File.ReadAllText(page)))
            {
                string target = link.Groups[1].Value;
                if (target.Contains("://", StringComparison.Ordinal) || target.StartsWith('#')) continue;
                string path = Path.Combine(Path.GetDirectoryName(page)!, target.Split('#')[0]);
                Assert.True(File.Exists(path) || Directory.Exists(path), $"{Path.GetRelativePath(Here.Root, page)} links to {target}, which is not there");
            }
    }

    [GeneratedRegex(@"(?<![\w#.])-?\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();
}
