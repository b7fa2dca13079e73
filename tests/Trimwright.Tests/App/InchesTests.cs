using System.Text.RegularExpressions;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.App;

/// <summary>Whoever works in inches and ounces reads no millimetre and no gram, and ounces that are fine enough to weigh by.</summary>
public partial class InchesTests
{
    private static string File(string name) => Path.Combine(Here.Root, "demo", name);

    // A number with a unit of the other kind. Names are the maker's own, and a brass pin of 2 mm is called so.
    [GeneratedRegex(@"[0-9][ \u00A0](mm|g|cm²|cm³|kgf|mm/s|g/cm³)(?![a-zA-Z])")]
    private static partial Regex Metric { get; }

    private static readonly string[] Asks =
    [
        "predict tidegate-185.lure.json",
        "predict mooring-post-210.lure.json",
        "swap slipway-150.lure.json",
        "buildplan tidegate-185.lure.json --box kitchen.box.json",
        // What takes longer: in CI.
        "plan tidegate-185.lure.json --want level --box kitchen.box.json --trim-hole",
        "plan tidegate-185.lure.json --want level --wall 9",
        "readings tidegate-185.lure.json --log tidegate-185.log.json",
        "next mooring-post-210.lure.json --log mooring-post-210.log.json",
        "copy old-pencil-210.lure.json --log old-pencil-210.log.json",
    ];

    public static TheoryData<string> Asked => [.. Asks.Take(Tier.Count(4, Asks.Length))];

    [Theory]
    [MemberData(nameof(Asked))]
    public void No_other_units_stand_in_what_is_said(string ask)
    {
        string[] asked = ask.Split(' ');
        string[] typed = [.. asked.Select(word => word == "level" ? "sinks slowly, level" : word.EndsWith(".json", StringComparison.Ordinal) ? File(word) : word)];
        var inches = TheProgram.RunIn(Here.Root, 100, [.. typed, "--units", "in"]);
        Assert.Equal("", inches.Error);
        string[] names = [.. Lures.Demo(asked[1].Split('.')[0]).Ballast.Select(b => b.Name)];
        foreach (string line in inches.Out.Split('\n'))
        {
            string said = names.Aggregate(line, (text, name) => text.Replace(name, "it"));
            Assert.False(Metric.IsMatch(Named().Replace(said, "")), line);
        }
        // And it is the same answer.
        Assert.Equal(inches.Exit, TheProgram.RunIn(Here.Root, 100, typed).Exit);
    }

    // Things of the box, by their names: "poured lead bar 6", "lead wire 1.6 mm", "cutter 8 mm".
    [GeneratedRegex(@"[a-z-]+ (bar|wire|pin|cutter|bit|drill|rod|ball)s? [0-9.]+ ?mm|[0-9.]+ mm (brass|steel)")]
    private static partial Regex Named();

    [Fact]
    public void Units_that_nobody_knows_are_refused_before_anything_is_written()
    {
        using var temp = new TempStore();
        var ran = TheProgram.Run("predict", File("tidegate-185.lure.json"), "--units", "ft", "--picture", temp.In("p.svg"), "--json");
        Assert.Equal(2, ran.Exit);
        Assert.Contains("mm or in", ran.Said);
        Assert.False(System.IO.File.Exists(temp.In("p.svg")));
    }

    [Fact]
    public void Ounces_are_as_fine_as_a_kitchen_scale()
    {
        var ran = TheProgram.Run("predict", File("tidegate-185.lure.json"), "--units", "in");
        // 0.1 g is 0.0035 oz: two decimals could not tell one from the next two.
        Assert.Matches(@"In all +[0-9]+\.[0-9]{3}\u00A0oz", ran.Out);
        Assert.Contains("in/s", ran.Out);
        Assert.Contains("--units: got \"ft\"; allowed: mm or in.", TheProgram.Run("predict", File("tidegate-185.lure.json"), "--units", "ft").Said);
    }
}
