using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.RegularExpressions;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;

namespace Trimwright.Tests.App;

/// <summary>What several commands tell of one lure as drawn is one number, to the digit that is printed.</summary>
public class OneDoubtTests
{
    private static string Asked(params string[] arguments)
    {
        TheProgram.Ran ran = TheProgram.Run(arguments);
        Assert.True(ran.Exit == 0, ran.Error);
        return string.Join(' ', ran.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    private static string One(string text, [StringSyntax(StringSyntaxAttribute.Regex)] string pattern)
    {
        Match match = Regex.Match(text, pattern);
        Assert.True(match.Success, $"{pattern} in {text}");
        return match.Groups[1].Value;
    }

    private static void Agree(string file, bool next)
    {
        string predict = Asked("predict", file), readings = Asked("readings", file);
        Assert.Equal(One(predict, @" In all (\S+) g "), One(readings, @" weight (\S+) \("));
        string spare = One(predict, @" (\S+ g (?:heavy|to spare)) in the sea\.");
        Assert.Contains(spare + " as drawn, give or take ", readings, StringComparison.OrdinalIgnoreCase);
        if (next) Assert.Contains(spare + " as drawn, give or take ", Asked("next", file), StringComparison.OrdinalIgnoreCase);
        const string ByDrag = @" (\S+ mm/s, give or take \S+ % by its drag alone \(\S+ to \S+\))";
        if (predict.Contains("by its drag alone", StringComparison.Ordinal))
        {
            Assert.Equal(One(predict, ByDrag), One(readings, ByDrag));
            Assert.Equal(One(predict, @" exactly as drawn: (\S+) mm/s"), One(readings, @" fall, mm/s (\S+) \("));
        }
        else
        {
            Assert.DoesNotContain("by its drag alone", readings, StringComparison.Ordinal);
        }
        JsonElement one = JsonDocument.Parse(Asked("predict", file, "--json")).RootElement, other = JsonDocument.Parse(Asked("readings", file, "--json")).RootElement.GetProperty("drawn");
        foreach (string key in (string[])["weight_g", "spare_buoyancy_g"]) Assert.Equal(one.GetProperty(key).GetRawText(), other.GetProperty(key).GetRawText());
        bool falls = one.GetProperty("sink") is { ValueKind: JsonValueKind.Object } sink && sink.GetProperty("steady").GetBoolean();
        foreach (string key in (string[])["rate_mm_s", "rate_sd_mm_s"])
            Assert.Equal(falls ? one.GetProperty("sink").GetProperty(key).GetRawText() : "null", other.GetProperty(key).GetRawText());
        Assert.Equal((falls ? one.GetProperty("sink") : one.GetProperty("posture")).GetProperty("trim_deg").GetRawText(), other.GetProperty("trim_deg").GetRawText());
    }

    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("mooring-post-210")]
    [InlineData("slipway-150")]
    public void Predict_readings_and_next_tell_one_number_of_a_demo_as_drawn(string demo) => Agree(Path.Combine(Here.Root, "demo", demo + ".lure.json"), next: true);

    [Fact]
    public void So_they_do_of_any_lure()
    {
        int fell = 0;
        for (int seed = 0; seed < Tier.Count(quick: 2, ci: 40, @long: 400); seed++)
        {
            LureDesign design = RandomLures.Of(160_000 + seed).Design;
            if (Prediction.Of(design, Circumstances.InTheSea).Descent?.First is not null) fell++;
            using var file = new TemporaryFile(LureFile.Write(design), ".lure.json");
            Agree(file.Path, next: false);
        }
        Assert.True(fell > 0);
    }

    [Fact]
    public void A_plan_tells_of_its_lure_what_predict_tells_of_it()
    {
        foreach (string demo in (string[])["tidegate-185", "mooring-post-210", "slipway-150"])
        {
            LureDesign lure = Lures.Demo(demo);
            Want want = WantWords.Parse(Sentence.Of(Prediction.Of(lure, Circumstances.InTheSea), Notation.Metric)).Want!;
            PlanAnswer answer = Planner.Of(lure with { Ballast = [] }, Catalogue.Starter, want, PlanLimits.Usual with { MostPockets = 2 });
            Assert.NotEmpty(answer.Plans);
            foreach (BallastPlan plan in answer.Plans)
            {
                Prediction again = Prediction.Of(LureFile.Read(LureFile.Write(plan.Design)).Value!, Circumstances.InTheSea);
                Assert.Equal(Sentence.Of(plan.Prediction, Notation.Metric), Sentence.Of(again, Notation.Metric));
            }
        }
    }
}
