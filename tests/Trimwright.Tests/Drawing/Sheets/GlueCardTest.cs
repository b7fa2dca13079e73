using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace Trimwright.Tests.Drawing.Sheets;

/// <summary>The glue card: one page, letters 6 mm high, and the build plan's numbers.</summary>
public sealed class GlueCardTest
{
    private const double PointsPerMm = 72 / 25.4;

    public GlueCardTest() => Outside.NeedType();

    public static TheoryData<string, string, bool, bool> All
    {
        get
        {
            var all = new TheoryData<string, string, bool, bool>();
            foreach (string lure in (string[])["tidegate-185", "mooring-post-210", "slipway-150"])
                foreach (string paper in Tier.IsCi ? (string[])["A4", "Letter"] : ["Letter"])
                    foreach (bool inches in (bool[])[false, true])
                        foreach (bool box in (bool[])[false, true]) all.Add(lure, paper, inches, box);
            return all;
        }
    }

    private static (SheetOptions Options, MakersBox? Box) Of(string paper, bool inches, bool withBox)
    {
        MakersBox? box = withBox ? Finish.Plans.Kitchen : null;
        return (new SheetOptions(paper == "A4" ? PaperSize.A4 : PaperSize.Letter, new Notation(Inches: inches), Box: box), box);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void It_says_what_the_build_plan_says_on_one_page(string lure, string paper, bool inches, bool withBox)
    {
        (SheetOptions options, MakersBox? box) = Of(paper, inches, withBox);
        LureDesign design = Lures.Demo(lure);
        Sheet card = Assert.Single(SheetSet.Of(design, options, ["glue-card"]));
        string told = string.Join(' ', Assert.Single(card.Fields).Marks.OfType<Label>().Select(l => l.Text));
        BuildPlan plan = BuildPlan.Of(design, box, new BuildConditions());
        GlueStep step = plan.Steps.OfType<GlueStep>().Single();
        foreach ((string _, string value) in MixWords.Rows(step.Mix, box, options.Notation)) Assert.Contains(value, told);
        foreach (BallastPiece piece in design.Ballast)
        {
            Assert.Contains(options.Notation.Weight(piece.Mass), told);
            Assert.Contains(options.Notation.Caliper(piece.AtMm[0]), told);
            if (Math.Abs(piece.AtMm[2]) >= 0.05) Assert.Contains($"{options.Notation.Caliper(Math.Abs(piece.AtMm[2]))} {(piece.AtMm[2] < 0 ? "under" : "over")}", told);
        }
        Assert.Contains("ten minutes", told);
        Assert.Contains(new BuildWords(plan, options.Notation).Span(step.Times.SandFrom), told);
        string[] cautions = [.. Assert.Single(card.Fields).Marks.OfType<Label>().Select(l => l.Text).Where(t => t.Contains("gloves", StringComparison.Ordinal))];
        Assert.EndsWith(".", Assert.Single(cautions));
        Assert.Equal(GlueUp.HoldsLead(design), cautions[0].Contains("lead", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Its_capitals_are_6_mm_high_on_paper(string lure, string paper, bool inches, bool withBox)
    {
        (SheetOptions options, _) = Of(paper, inches, withBox);
        Picture[] pages = [.. Pager.Pages(SheetSet.Of(Lures.Demo(lure), options, ["glue-card"]), "A lure", options).Select(p => p.Page)];
        using PdfDocument pdf = PdfDocument.Open(Pdf.Write(pages, "card"));
        Page page = Assert.Single(pdf.GetPages());
        double over = options.Room.Top, under = options.Room.Top + options.Room.Height;
        double[] capitals = [.. page.Letters.Where(l => l.Value is "F" or "B" or "L" or "M" or "A"
            && page.Height / PointsPerMm - l.BoundingBox.Bottom / PointsPerMm is var y && y > over && y < under).Select(l => l.BoundingBox.Height / PointsPerMm)];
        Assert.True(capitals.Length >= 4, $"{capitals.Length} capitals");
        Assert.All(capitals, c => Assert.InRange(c, 5.95, 6.5));
    }

    [Fact]
    public void It_is_of_the_first_evening_and_a_lure_of_one_piece_has_none()
    {
        var options = new SheetOptions(PaperSize.A4, Notation.Metric);
        Assert.Contains(SheetSet.Of(Lures.Demo("tidegate-185"), options, [SheetSet.FirstEvening]), s => s.Id == "glue-card");
        LureDesign whole = Lures.Demo("tidegate-185") with { Wire = null, Ballast = [], Joint = null, Halves = null, Hardware = [] };
        Assert.DoesNotContain(SheetSet.Of(whole, options, []), s => s.Id == "glue-card");
    }

    /// <summary>A box of as many weights as a maker could want: two abreast, no figure lost.</summary>
    [Fact]
    public void Ten_weights_still_stand_on_one_page()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        BallastPiece one = design.Ballast[0];
        design = design with { Ballast = [.. Enumerable.Range(0, 10).Select(i => one with { Name = $"piece {i}", AtMm = [40 + 9 * i, 0, -8] })] };
        foreach (bool inches in new[] { false, true })
        {
            (SheetOptions options, _) = Of("Letter", inches, withBox: true);
            Picture card = Assert.Single(Assert.Single(SheetSet.Of(design, options, ["glue-card"])).Fields);
            string told = string.Join(' ', card.Marks.OfType<Label>().Select(l => l.Text));
            foreach (BallastPiece piece in design.Ballast) Assert.Contains($"at {options.Notation.Caliper(piece.AtMm[0])}", told);
        }
    }
}
