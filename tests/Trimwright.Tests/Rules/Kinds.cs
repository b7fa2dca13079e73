using System.Text.RegularExpressions;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Rules;

/// <summary>A kind of ours answers for itself: a file of its own and a place in a list, and nobody asks what it is.</summary>
public class Kinds
{
    /// <summary>The folder of the kinds, the file with their list, and what their types are called.</summary>
    public static TheoryData<string, string> Families => new()
    {
        { "src/Core/Doubt/Readings", "src/Core/Doubt/ReadingKind.cs" },
        { "src/Core/Design/Closings", "src/Core/Design/EyeClosing.cs" },
        { "src/Core/Design/Forms", "src/Core/Design/BallastForm.cs" },
    };

    [Theory]
    [MemberData(nameof(Families))]
    public void The_type_of_a_kind_is_named_in_its_own_file_and_in_the_list_and_nowhere_else(string folder, string list)
    {
        string[] kinds = [.. Sources.Files(folder, ".cs")];
        Assert.True(kinds.Length >= 4, $"{folder} was not found");
        var named = new Regex($@"\b({string.Join('|', kinds.Select(Path.GetFileNameWithoutExtension))})\b");
        foreach (string file in Sources.Files("src", ".cs").Where(f => f != list))
            foreach ((int line, string code) in Sources.Code(file))
                foreach (Match match in named.Matches(code))
                    // What kinds have in common is a type beside them.
                    Assert.True(Path.GetFileNameWithoutExtension(file) == match.Value || (file.StartsWith(folder, StringComparison.Ordinal) && IsCommon(folder, match.Value)),
                        $"{file}:{line} names {match.Value}; ask what it answers for, by a member of the type in {list}.");
    }

    private static bool IsCommon(string folder, string type) =>
        Sources.Code($"{folder}/{type}.cs").Any(l => Regex.IsMatch(l.Code, $@"\babstract class {type}\b"));

    [Fact]
    public void Nobody_asks_whether_a_kind_is_this_one_or_that()
    {
        const string Kind = @"(ReadingKind|EyeClosing|BallastForm|SectionCurve)\.[A-Z]\w+";
        var asks = new Regex($@"(==|!=|\bis|\bnot|\bor|\bcase)\s+{Kind}|{Kind}\s*(=>|==|!=)");
        var member = new Regex(@"(ReadingKind|EyeClosing|BallastForm|SectionCurve) \w+ =>");
        int mentions = 0;
        foreach (string file in Sources.Files("src", ".cs").Concat(Sources.Files("src", ".razor")))
            foreach ((int line, string code) in Sources.Code(file))
            {
                mentions += Regex.Count(code, Kind);
                Assert.False(asks.IsMatch(member.Replace(code, "")), $"{file}:{line} asks which kind something is; let the kind answer by a member of its own.");
            }
        Assert.True(mentions > 20, "the scan sees too few mentions to mean anything; mend it");
    }

    /// <summary>The worked examples of CONTRIBUTING.md: everything of the program that knows of them.</summary>
    [Theory]
    [InlineData("whipp(ed|ing)", "src/Core/Design/Closings/WhippedClosing.cs", "src/Core/Design/EyeClosing.cs", "src/Core/Design/LureDesign.cs",
        "src/Core/Design/lure.schema.json")]
    [InlineData("halves_?cut|cut_?halves", "src/Core/Doubt/Readings/CutHalvesReading.cs", "src/Core/Doubt/ReadingKind.cs", "src/Core/Doubt/log.schema.json")]
    public void A_new_kind_is_known_in_no_more_files_than_CONTRIBUTING_says(string kind, params string[] files)
    {
        var named = new Regex(kind, RegexOptions.IgnoreCase);
        string[] found = [.. new[] { ".cs", ".razor", ".js", ".json", ".css" }.SelectMany(e => Sources.Files("src", e)).Where(f => named.IsMatch(Sources.Text(f)))];
        Assert.Equal(files.Order(StringComparer.Ordinal), found.Order(StringComparer.Ordinal));
        string contributing = Sources.Text("CONTRIBUTING.md");
        Assert.All(files, f => Assert.Contains($"]({f})", contributing, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_kind_is_in_its_list_by_a_word_of_its_own()
    {
        Holds<ReadingKind>([.. ReadingKind.All.Select(k => (k.Word, (object)k))]);
        Holds<EyeClosing>([.. EyeClosing.All.Select(k => (k.Word, (object)k))]);
        Holds<BallastForm>([.. BallastForm.All.Select(k => (k.Word, (object)k))]);
        Holds<SectionCurve>([.. SectionCurve.All.Select(k => (k.Word, (object)k))]);
        static void Holds<T>((string Word, object Kind)[] all)
        {
            Type[] types = [.. typeof(T).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(T)) && !t.IsAbstract)];
            Assert.Equal(types.ToHashSet(), all.Select(k => k.Kind.GetType()).ToHashSet());
            Assert.Equal(all.Length, all.Select(k => k.Word).Distinct().Count());
        }
    }
}
