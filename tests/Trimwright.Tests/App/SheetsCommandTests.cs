using System.Globalization;
using System.Text;
using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;

namespace Trimwright.Tests.App;

/// <summary>The contract of <c>sheets</c>.</summary>
public sealed class SheetsCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("trimwright-sheets").FullName;

    public SheetsCommandTests() => Outside.NeedType();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static string Demo(string name) => Path.Combine(Here.Root, "demo", name + ".lure.json");

    private TheProgram.Ran Run(params string[] more) => TheProgram.Run(["sheets", Demo("tidegate-185"), "--out", folder, .. more]);

    private string[] Written => [.. Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(folder, f).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    [Fact]
    public void All_sheets_of_a_demo_are_written_in_every_form()
    {
        Assert.Equal(0, Run("--force").Exit);
        Assert.Contains("tidegate-185.pdf", Written);
        Assert.Contains("svg/tidegate-185-glue-left.svg", Written);
        Assert.Contains("dxf/tidegate-185-side.dxf", Written);
        foreach (string solid in new[] { "body.stl", "body.3mf", "right-half.stl", "right-half.3mf" }) Assert.Contains($"solid/tidegate-185-{solid}", Written);
    }

    [Fact]
    public void Nothing_is_overwritten_without_force_and_then_nothing_is_written_at_all()
    {
        Assert.Equal(0, Run("--only", "side").Exit);
        string mine = Path.Combine(folder, "svg", "tidegate-185-side.svg");
        File.WriteAllText(mine, "mine");
        File.Delete(Path.Combine(folder, "tidegate-185.pdf"));
        TheProgram.Ran again = Run("--only", "side");
        Assert.Equal(1, again.Exit);
        Assert.Contains("--force", again.Error);
        Assert.Equal("mine", File.ReadAllText(mine));
        Assert.DoesNotContain("tidegate-185.pdf", Written);
        Assert.Equal(0, Run("--only", "side", "--force").Exit);
        Assert.NotEqual("mine", File.ReadAllText(mine));
    }

    [Fact]
    public void The_first_evening_holds_what_sawing_and_carving_need_and_the_glue_card()
    {
        TheProgram.Ran ran = Run("--only", "first-evening");
        Assert.Equal(0, ran.Exit);
        foreach (string word in new[] { "contact", "side", "plan", "flats", "gauges", "calipers", "glue-card" }) Assert.Contains(word, ran.Out);
        Assert.DoesNotContain("glue-right", ran.Out);
    }

    [Theory]
    [InlineData("--paper", "a3")]
    [InlineData("--units", "cubits")]
    [InlineData("--only", "lid")]
    [InlineData("--only", ",")]
    [InlineData("--nose", "up")]
    [InlineData("--measured-100", "80")]
    [InlineData("--measured-100", "99,5")]
    [InlineData("--measured-100", "99.2,99.8")]
    [InlineData("--trial-loop", "5")]
    [InlineData("--trial-loop", "5,4")]
    public void A_wrong_option_names_itself_and_writes_nothing(string option, string value)
    {
        TheProgram.Ran ran = Run(option, value);
        Assert.Equal(2, ran.Exit);
        Assert.Contains(option, ran.Error);
        Assert.Contains(value, ran.Error);
        Assert.Empty(Written);
    }

    [Fact]
    public void A_pocket_that_comes_out_of_the_wood_is_refused_by_name_and_other_sheets_are_still_to_be_had()
    {
        string lure = Path.Combine(folder, "thick.lure.json");
        File.WriteAllText(lure, File.ReadAllText(Demo("slipway-150")).Replace("\"bore_mm\": 2,", "\"bore_mm\": 2, \"clearance_mm\": 30,"));
        TheProgram.Ran ran = TheProgram.Run("sheets", lure, "--out", Path.Combine(folder, "out"));
        Assert.True(ran.Exit is 1 or 3, ran.Error);
        Assert.Contains("ballast[0]", ran.Error);
        Assert.False(Directory.Exists(Path.Combine(folder, "out")));
        if (ran.Exit == 3) Assert.Equal(0, TheProgram.Run("sheets", lure, "--out", Path.Combine(folder, "out"), "--only", "side").Exit);
    }

    [Fact]
    public void Where_a_lure_has_nothing_for_the_sheets_asked_for_that_is_said()
    {
        string lure = Path.Combine(folder, "bare.lure.json");
        File.WriteAllBytes(lure, LureFile.Write(Lures.Demo("tidegate-185") with { Ballast = [], Hardware = [] }));
        TheProgram.Ran ran = TheProgram.Run("sheets", lure, "--out", Path.Combine(folder, "out"), "--only", "pockets,stand-ins");
        Assert.InRange(ran.Exit, 1, 9);
        Assert.Contains("got pockets, stand-ins, with nothing on this lure to draw there", ran.Said);
        Assert.False(Directory.Exists(Path.Combine(folder, "out")));
    }

    /// <summary>Printed as 99.2, measured on that sheet as 99.8: the printer's 100 mm are 99.0, and the sheet says so beforehand.</summary>
    [Fact]
    public void A_second_correction_goes_on_from_the_first_and_the_sheet_says_what_to_give_next()
    {
        Assert.Equal(0, Run("--only", "calipers", "--measured-100", "99.2").Exit);
        string first = Foot();
        Assert.Contains("Printer's 100 mm: 99.20.", first);
        Assert.Contains("make these again with 0.9920 × what it measures (99.8 makes 99.00).", first);
        TheProgram.Ran ran = Run("--only", "calipers", "--measured-100", "99.2", "--measured-100", "99.8", "--force");
        Assert.Equal(0, ran.Exit);
        string second = Foot();
        Assert.Contains("Printer's 100 mm: 99.00.", second);
        Assert.Contains("--measured-100 99.2 --measured-100 99.8 --measured-100 MM", ran.Out.ReplaceLineEndings(" ").Replace("  ", " "));
        Assert.Equal(0, Run("--only", "calipers", "--measured-100", "99.00", "--force").Exit);
        Assert.Equal(second, Foot());
        Assert.Equal(0, Run("--only", "calipers", "--force").Exit);
        Assert.Contains("Printer's 100 mm: 100. If the 100 mm line isn't that long, cut nothing: make these again with what it measures.", Foot());

        string Foot()
        {
            using var pdf = UglyToad.PdfPig.PdfDocument.Open(Path.Combine(folder, "tidegate-185.pdf"));
            return string.Concat(pdf.GetPages().First().Letters.Select(l => l.Value)).Replace('\u00A0', ' ') is var text && text.IndexOf("Printer's", StringComparison.Ordinal) is >= 0 and var at
                ? text[at..(text.IndexOf("Print at", at, StringComparison.Ordinal) is var to && to > at ? to : text.Length)] : "";
        }
    }

    [Fact]
    public void The_glue_card_mixes_by_the_syringe_of_the_box()
    {
        Assert.Equal(0, Run("--only", "glue-card", "--box", Path.Combine(Here.Root, "demo", "kitchen.box.json")).Exit);
        string card = File.ReadAllText(Path.Combine(folder, "svg", "tidegate-185-glue-card.svg")).Replace('\u00A0', ' ');
        string plan = TheProgram.Run("buildplan", Demo("tidegate-185"), "--box", Path.Combine(Here.Root, "demo", "kitchen.box.json")).Out.Replace('\u00A0', ' ');
        string glue = plan[plan.IndexOf("Glue the halves", StringComparison.Ordinal)..];
        string drawn = System.Text.RegularExpressions.Regex.Match(glue, @"[\d.]+ ml resin \+ [\d.]+ ml hardener").Value;
        Assert.NotEmpty(drawn);
        Assert.Contains(drawn, card);
        Assert.Equal(1, Run("--only", "glue-card", "--box", Path.Combine(folder, "no.box.json"), "--force").Exit);
    }

    [Fact]
    public void Stand_ins_weigh_what_predict_prints()
    {
        string said = TheProgram.Run("predict", Demo("tidegate-185"), "--stage", "dry-fit", "--rig", "standins", "--water", "tap").Out;
        Picture sheet = SheetSet.Of(Lures.Demo("tidegate-185"), new SheetOptions(PaperSize.A4, Notation.Metric), ["stand-ins"])[0].Fields[0];
        string[] grams = [.. sheet.Marks.OfType<Label>().Select(l => l.Text).Where(t => t.EndsWith("\u00A0g", StringComparison.Ordinal))];
        Assert.Equal(3, grams.Length);
        foreach (string gram in grams) Assert.Contains(gram, said);
    }

    /// <summary>Cultures by their signs, made by hand: the program runs invariant and so do its tests.</summary>
    [Theory]
    [InlineData(",", "-")]
    [InlineData("٫", "\u200E-")]
    public void Drawings_and_solids_are_the_same_bytes_in_any_culture(string mark, string minus)
    {
        string here = Everything();
        var elsewhere = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        elsewhere.NumberFormat.NumberDecimalSeparator = mark;
        elsewhere.NumberFormat.NegativeSign = minus;
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = elsewhere;
            Assert.Equal(here, Everything());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static string Everything()
    {
        var text = new StringBuilder();
        foreach (Notation notation in new[] { Notation.Metric, new Notation(Inches: true) })
            foreach (Sheet sheet in SheetSet.Of(Lures.Demo("mooring-post-210"), new SheetOptions(PaperSize.Letter, notation), []))
                foreach (Picture field in sheet.Fields)
                {
                    text.Append(Svg.WriteTrueSize(field));
                    if (sheet.Drawn) text.Append(Dxf.Write(field));
                }
        return text.ToString();
    }

    [Fact]
    public void Every_random_lure_gets_its_sheets_and_no_text_stands_off_the_page()
    {
        int pages = 0;
        for (int seed = 0; seed < Tier.Count(12, 150); seed++)
        {
            var options = new SheetOptions(seed % 2 == 0 ? PaperSize.A4 : PaperSize.Letter, new Notation(Inches: seed % 3 == 0), seed % 4 == 0 ? Nose.Left : seed % 4 == 1 ? Nose.Right : null);
            var design = RandomLures.Of(seed).Design;
            foreach (Sheet sheet in SheetSet.Of(design, options, []))
                foreach (Picture field in sheet.Fields)
                {
                    pages++;
                    (Label Label, double Left, double Right)[] texts = [.. field.Marks.OfType<Label>().Select(Extent)];
                    foreach ((Label label, double left, double right) in texts)
                        Assert.True(left > -2 && right < field.Width + 2 && label.At.Y > 0 && label.At.Y < field.Height + 1,
                            $"{design.Name}, {sheet.Id}: \"{label.Text}\" from {left:F1} to {right:F1} at {label.At.Y:F1} of {field.Width:F1} × {field.Height:F1}");
                }
        }
        Assert.True(pages > 100, $"{pages}");
    }

    private static (Label Label, double Left, double Right) Extent(Label label)
    {
        double wide = Typefaces.WidthOf(label.Text, label.Size, label.Voice);
        double left = label.At.X - (label.Anchor == Anchor.End ? wide : label.Anchor == Anchor.Middle ? wide / 2 : 0);
        return (label, left, left + wide);
    }

    [Theory]
    [InlineData("tidegate-185")]
    [InlineData("mooring-post-210")]
    [InlineData("slipway-150")]
    public void No_text_stands_on_another_on_any_page_of_a_demo(string lure)
    {
        var over = new List<string>();
        foreach (Notation notation in new[] { Notation.Metric, new Notation(Inches: true) })
            foreach (PaperSize paper in new[] { PaperSize.A4, PaperSize.Letter })
            {
                var options = new SheetOptions(paper, notation, Nose.Right);
                foreach ((Sheet sheet, Picture page) in Pager.Pages(SheetSet.Of(Lures.Demo(lure), options, []), "A name of some length 185", options))
                {
                    Label[] labels = [.. page.Marks.OfType<Label>(), .. page.Marks.OfType<Inset>().Where(i => i.Scale == 1).SelectMany(i => i.Marks.OfType<Label>()
                        .Select(l => l with { At = new PagePoint(l.At.X - i.From.X + i.Corner.X, l.At.Y - i.From.Y + i.Corner.Y) }))];
                    (Label Label, double Left, double Right)[] texts = [.. labels.Select(Extent)];
                    for (int i = 0; i < texts.Length; i++)
                        for (int j = i + 1; j < texts.Length; j++)
                            if (Math.Min(texts[i].Right, texts[j].Right) - Math.Max(texts[i].Left, texts[j].Left) > 0.1 && Apart(texts[i].Label, texts[j].Label) < 0)
                                over.Add($"{sheet.Id} ({paper.Name}): \"{texts[i].Label.Text}\" and \"{texts[j].Label.Text}\"");
                }
            }
        Assert.True(over.Count == 0, string.Join("\n", over.Distinct()));
    }

    // Letters stand from their baseline up by 0.73 of their size; tails reach 0.15 under it.
    private static double Apart(Label a, Label b) => a.At.Y > b.At.Y ? a.At.Y - 0.73 * a.Size - b.At.Y - 0.15 * b.Size : b.At.Y - 0.73 * b.Size - a.At.Y - 0.15 * a.Size;
}
