using Trimwright.Frozen;

namespace Trimwright.Tests.Frozen;

/// <summary>The comparer sees every difference and where it is, and a finding lets change what it names and nothing else.</summary>
public class ComparisonTests
{
    private static readonly Ask Asked = new("predict/random-017/usual-json", [["predict"]]);

    private static Answer Saying(string output, int exit = 0, string error = "", params (string Path, string Text)[] files) =>
        new([new Said(["predict"], exit, output, error, new(files.ToDictionary(f => f.Path, f => f.Text)))]);

    private static Difference[] Between(string old, string now) => [.. Differences.Of(Asked, Saying(old), Saying(now))];

    [Fact]
    public void A_number_in_JSON_is_named_by_its_path_as_it_was_printed()
    {
        Difference d = Assert.Single(Between("""{"parts":[{"name":"wire","mass_g":5.30}]}""", """{"parts":[{"name":"wire","mass_g":5.3}]}"""));
        Assert.Equal(("out", PlaceKind.Json, "$.parts[0].mass_g", "5.30", "5.3"), (d.Part, d.Kind, d.Place, d.Old, d.New));
    }

    [Fact]
    public void A_part_put_in_between_is_one_difference_and_not_one_for_each_that_follows()
    {
        Difference[] all = Between("""{"parts":[{"n":"a","g":1},{"n":"b","g":2},{"n":"c","g":3}]}""", """{"parts":[{"n":"a","g":1},{"n":"new","g":9},{"n":"b","g":2},{"n":"c","g":4}]}""");
        Assert.Equal([("$.parts[1]", null, """{"n":"new","g":9}"""), ("$.parts[2].g", "3", "4")], all.Select(d => (d.Place, d.Old, d.New!)));
    }

    [Fact]
    public void Keys_that_come_and_go_differ_and_so_does_another_order()
    {
        Assert.Equal([("$.a", "1", null), ("$.c", null, "1")], Between("""{"a":1,"b":2}""", """{"b":2,"c":1}""").Select(d => (d.Place, d.Old, d.New)));
        Assert.Equal(PlaceKind.Whole, Assert.Single(Between("""{"a":1,"b":2}""", """{"b":2,"a":1}""")).Kind);
    }

    [Fact]
    public void A_line_is_named_by_its_number_and_its_numbers_are_told_one_by_one()
    {
        Difference d = Assert.Single(Between("Lure\n  wire      5.3 g    0.1 cm³\nIn all −4.8 g\n", "Lure\n  wire     15.3 g    0.1 cm³\nIn all −4.8 g\n"));
        Assert.Equal("line 2", d.Place);
        Assert.Equal([("5.3", "15.3")], d.Numbers);
        Assert.Equal([("−4.8", "4.8")], Assert.Single(Between("x −4.8 g", "x 4.8 g")).Numbers);
        Assert.Empty(Assert.Single(Between("stands at 70°", "lies at 70°")).Numbers);
    }

    [Fact]
    public void Lines_that_move_down_are_found_again()
    {
        Assert.Equal([("line 2", null, "new"), ("line 4", "c 3", "c 4")], Between("a\nb\nb2\nc 3\nd", "a\nnew\nb\nb2\nc 4\nd").Select(d => (d.Place, d.Old, d.New)));
    }

    [Fact]
    public void Exit_status_standard_error_and_files_are_held_too()
    {
        Difference[] all = [.. Differences.Of(Asked, Saying("", 0, "note: a", ("out/a.svg", "<a 1>"), ("out/b.svg", "x")), Saying("", 3, "note: b", ("out/a.svg", "<a 2>"), ("out/c.svg", "x")))];
        Assert.Equal(["exit", "error", "file out/a.svg", "file out/b.svg", "file out/c.svg"], all.Select(d => d.Part));
        Assert.Equal([PlaceKind.Whole, PlaceKind.Line, PlaceKind.Line, PlaceKind.Whole, PlaceKind.Whole], all.Select(d => d.Kind));
    }

    [Fact]
    public void A_note_on_standard_error_is_one_line_however_it_is_wrapped()
    {
        Difference d = Assert.Single(Differences.Of(Asked, Saying("", error: "note: a\n"), Saying("", error: "note: a\nnote: one that goes\n  on and on\n")));
        Assert.Equal((null, "note: one that goes on and on"), (d.Old, d.New));
    }

    private static Findings One(string change) => Findings.Read($$"""[{"id":"13-1","why":"it was counted twice","changes":[{{change}}]}]""");

    [Theory]
    [InlineData("""{"asks":["predict/random-*/usual-json"],"json":["$.parts[*].mass_g"]}""", true)]
    [InlineData("""{"asks":["predict/**"],"json":["$.**"]}""", true)]
    [InlineData("""{"asks":["predict/*"],"json":["$.**"]}""", false)]
    [InlineData("""{"asks":["swap/**"],"json":["$.**"]}""", false)]
    [InlineData("""{"asks":["**"],"json":["$.parts[*]"]}""", false)]
    [InlineData("""{"asks":["**"],"json":["$.parts[*].*"]}""", true)]
    [InlineData("""{"asks":["**"],"json":["$.*.mass_g"]}""", false)]
    [InlineData("""{"asks":["**"],"in":"error","json":["$.**"]}""", false)]
    [InlineData("""{"asks":["**"],"line":"."}""", false)]
    [InlineData("""{"asks":["**"],"whole":true}""", false)]
    [InlineData("""{"asks":["**"],"json":["$.**"],"old":"^5","new":"^7"}""", true)]
    [InlineData("""{"asks":["**"],"json":["$.**"],"new":"^8"}""", false)]
    [InlineData("""{"asks":["**"],"json":["$.**"],"at_most":1.8}""", true)]
    [InlineData("""{"asks":["**"],"json":["$.**"],"at_most":1.7}""", false)]
    public void A_finding_lets_change_what_it_names(string change, bool lets)
    {
        Findings findings = One(change);
        Difference d = Assert.Single(Between("""{"parts":[{"mass_g":5.3}]}""", """{"parts":[{"mass_g":7.1}]}"""));
        Assert.Equal(lets ? "13-1" : null, findings.Of(d)?.Id);
        Assert.Equal(lets ? 0 : 1, findings.Unused.Count());
    }

    [Fact]
    public void A_line_may_change_only_from_and_to_what_is_named()
    {
        Findings findings = One("""{"asks":["**"],"line":"^  wire +[0-9.]+ g"}""");
        Assert.NotNull(findings.Of(Assert.Single(Between("  wire 5.3 g", "  wire 7.1 g"))));
        Assert.Null(findings.Of(Assert.Single(Between("  wire 5.3 g", "  wood 7.1 g"))));
        Assert.NotNull(findings.Of(Assert.Single(Between("a\nb", "a\n  wire 5.3 g\nb"))));
    }

    [Fact]
    public void What_no_finding_lets_change_and_a_finding_that_nothing_needs_both_fail()
    {
        var written = new StringWriter();
        Answer old = Saying("""{"a":1,"b":1}"""), now = Saying("""{"a":2,"b":1}""");
        bool Holds(string change, Answer answer, bool all)
        {
            var comparison = new Comparison(One(change), written, table: false);
            comparison.Hold(Asked, old, answer);
            return comparison.Close(all);
        }
        const string A = """{"asks":["**"],"json":["$.a"]}""", B = """{"asks":["**"],"json":["$.b"]}""";
        Assert.True(Holds(A, now, all: true));
        Assert.False(Holds(B, now, all: false));
        Assert.False(Holds(A, old, all: true));
        // A share alone can't know what the rest needs.
        Assert.True(Holds(A, old, all: false));
    }

    [Fact]
    public void The_table_has_a_row_for_each_number_with_its_finding()
    {
        var written = new StringWriter { NewLine = "\n" };
        var comparison = new Comparison(One("""{"asks":["**"],"line":"wire"}"""), written, table: true);
        comparison.Hold(Asked, Saying("wire 5.3 g  0.1 cm³\nwood 3 g"), Saying("wire 7.1 g  0.2 cm³\nwood 4 g"));
        Assert.Equal(
            "predict/random-017/usual-json\tout line 1: wire # g # cm³\t5.3\t7.1\t13-1\n" +
            "predict/random-017/usual-json\tout line 1: wire # g # cm³\t0.1\t0.2\t13-1\n" +
            "predict/random-017/usual-json\tout line 2: wood # g\t3\t4\tnone\n", written.ToString());
    }

    [Theory]
    [InlineData("""[{"id":"swivels","why":"x","changes":[{"asks":["*"],"whole":true}]}]""", "issue and a number")]
    [InlineData("""[{"id":"13-1","why":" ","changes":[{"asks":["*"],"whole":true}]}]""", "why")]
    [InlineData("""[{"id":"13-1","why":"x","changes":[]}]""", "nothing change")]
    [InlineData("""[{"id":"13-1","why":"x","changes":[{"asks":["*"]}]}]""", "not exactly one")]
    [InlineData("""[{"id":"13-1","why":"x","changes":[{"asks":["*"],"line":".","whole":true}]}]""", "not exactly one")]
    [InlineData("""[{"id":"13-1","why":"x","changes":[{"asks":["*"],"lines":"."}]}]""", "lines")]
    [InlineData("""[{"id":"13-1","why":"x","changes":[{"asks":["*"],"whole":true}]},{"id":"13-1","why":"y","changes":[{"asks":["*"],"whole":true}]}]""", "twice")]
    public void A_list_that_is_not_sound_is_refused(string json, string says) =>
        Assert.Contains(says, Assert.ThrowsAny<Exception>(() => Findings.Read(json)).Message);
}
