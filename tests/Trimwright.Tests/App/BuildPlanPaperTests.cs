using Trimwright.Core.Finish;
using Trimwright.Core.Telling;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace Trimwright.Tests.App;

/// <summary>The build plan on paper, read back by a PDF reader that this project did not make.</summary>
public class BuildPlanPaperTests
{
    // What home printers leave white, a quarter inch, in points; common practice, no source.
    private const double White = 18;

    [Theory]
    [InlineData("tidegate-185", "a4", 595.28, 841.89)]
    [InlineData("slipway-150", "letter", 612, 792)]
    public void Every_step_stands_on_paper_inside_what_a_printer_can_print(string lure, string paper, double width, double height)
    {
        Outside.NeedType();
        string folder = Directory.CreateTempSubdirectory("trimwright-plan").FullName;
        try
        {
            string file = Path.Combine(folder, "plan.pdf");
            TheProgram.Ran ran = TheProgram.Run("buildplan", $"demo/{lure}.lure.json", "--box", "demo/kitchen.box.json", "--start", "2026-11-28T18:00+01:00", "--pdf", file, "--paper", paper);
            Assert.Equal(0, ran.Exit);
            Assert.Equal(1, TheProgram.Run("buildplan", $"demo/{lure}.lure.json", "--pdf", file).Exit);
            using PdfDocument pdf = PdfDocument.Open(file);
            var words = new HashSet<string>(StringComparer.Ordinal);
            foreach (Page page in pdf.GetPages())
            {
                Assert.Equal(width, page.Width, 0.5);
                Assert.Equal(height, page.Height, 0.5);
                foreach (Letter letter in page.Letters)
                    Assert.True(letter.BoundingBox.Left >= White && letter.BoundingBox.Right <= width - White && letter.BoundingBox.Bottom >= White && letter.BoundingBox.Top <= height - White,
                        $"page {page.Number}: \"{letter.Value}\" at {letter.BoundingBox}");
                foreach (Word word in page.GetWords()) words.Add(word.Text);
            }
            BuildPlan plan = BuildPlan.Of(Lures.Demo(lure), null, new BuildConditions());
            var told = new BuildWords(plan, Notation.Metric);
            foreach (BuildStep step in plan.Steps)
                foreach (string word in told.Title(step).Split(' ')) Assert.Contains(word, words);
            foreach (string caution in (string[])["Lead:", "Edge", "Epoxy:"]) Assert.Contains(caution, words);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void Its_file_is_sound()
    {
        Outside.NeedType();
        Outside.NeedProgram("qpdf", "qpdf");
        string file = Path.Combine(Path.GetTempPath(), $"trimwright-{Guid.NewGuid():N}.pdf");
        try
        {
            Assert.Equal(0, TheProgram.Run("buildplan", "demo/mooring-post-210.lure.json", "--box", "demo/kitchen.box.json", "--pdf", file).Exit);
            (int exit, string output, string complaint) = Outside.Run("qpdf", ["--check", file]);
            Assert.True(exit == 0, output + complaint);
        }
        finally
        {
            File.Delete(file);
        }
    }
}
