using System.Text.RegularExpressions;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.App;

/// <summary>Whoever works in inches and ounces reads no millimetre and no gram, and ounces that are fine enough to weigh by.</summary>
public partial class InchesTests
{
    private static string File(string name) => Path.Combine(Here.Root, "demo", name);

    // A number with a unit of the other kind. Names are the maker's own, and a brass pin of 2 mm is called so.
    [GeneratedRegex(@"[0-9][ \u00A0](mm|g|cm²|cm³|kgf|kg|m|mm/s|m/s|g/cm³|°C)(?![a-zA-Z])|\b(millimetres?|metres?|grams?)\b")]
    private static partial Regex Metric { get; }

    private static readonly string[] Asks =
    [
        "predict tidegate-185.lure.json",
        "predict mooring-post-210.lure.json",
        "check tidegate-185.lure.json",
        // Without --why: the constants of its formulas belong to their units.
        "strength tidegate-185.lure.json --box kitchen.box.json",
        "swap slipway-150.lure.json",
        "swap tidegate-185.lure.json --box kitchen.box.json",
        "buildplan tidegate-185.lure.json --box kitchen.box.json",
        "buildplan slipway-150.lure.json",
        "plan tidegate-185.lure.json --want nonsense",
        "learn finished",
        "new TEMP.lure.json --length 7in --force",
        "sheets slipway-150.lure.json --out TEMP --force",
        // What takes longer: in CI.
        "plan tidegate-185.lure.json --want level --box kitchen.box.json --trim-hole",
        "plan tidegate-185.lure.json --want level --wall 9",
        "readings tidegate-185.lure.json --log tidegate-185.log.json",
        "next mooring-post-210.lure.json --log mooring-post-210.log.json",
        "copy old-pencil-210.lure.json --log old-pencil-210.log.json",
    ];

    public static TheoryData<string> Asked => [.. Asks.Take(Tier.Count(12, Asks.Length))];

    [Theory]
    [MemberData(nameof(Asked))]
    public void No_other_units_stand_in_what_is_said(string ask)
    {
        string[] asked = ask.Split(' ');
        using var temp = new TempStore();
        string[] typed = [.. asked.Select(word => word == "level" ? "sinks slowly, level" : word.StartsWith("TEMP", StringComparison.Ordinal) ? temp.In(word)
            : word.EndsWith(".json", StringComparison.Ordinal) || word == "finished" ? File(word) : word)];
        var inches = TheProgram.RunIn(Here.Root, 100, [.. typed, "--units", "in"]);
        if (inches.Exit == 0) Assert.Equal("", inches.Error);
        string[] names = asked[1].EndsWith("TEMP.lure.json", StringComparison.Ordinal) || asked[0] == "learn" ? [] : [.. Lures.Demo(asked[1].Split('.')[0]).Ballast.Select(b => b.Name)];
        foreach (string line in (inches.Out + inches.Error).Split('\n'))
        {
            string said = Reasons.Concat(names).Aggregate(line, (text, name) => text.Replace(name, "it"));
            Assert.False(Metric.IsMatch(Named().Replace(said, "")), line);
        }
        // And it is the same answer.
        Assert.Equal(inches.Exit, TheProgram.RunIn(Here.Root, 100, typed).Exit);
    }

    // The line on paper that a rule is laid on is 100 mm long, and so it is called; and what a want may say is said in both.
    private static readonly string[] Reasons = ["100 mm", "falls 5 s a metre", "6 g to spare", "30 mm of nose out"];

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
