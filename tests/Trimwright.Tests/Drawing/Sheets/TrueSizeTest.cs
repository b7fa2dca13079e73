using Trimwright.Core.Design;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Trimwright.Tests.Drawing.Sheets;

/// <summary>Check 25: true size on paper, read back by a PDF reader that this project did not make.</summary>
public sealed class TrueSizeTest
{
    private const double PointsPerMm = 72 / 25.4;

    public static TheoryData<string, string> Papers => new()
    {
        { "tidegate-185", "A4" }, { "tidegate-185", "Letter" }, { "mooring-post-210", "A4" }, { "slipway-150", "Letter" },
    };

    [Theory]
    [MemberData(nameof(Papers))]
    public void Check_lines_stand_on_every_page_at_their_length(string lure, string paper)
    {
        using PdfDocument pdf = Open(Lures.Demo(lure), paper);
        foreach (Page page in pdf.GetPages())
        {
            double[] lengths = [.. Lines(page)];
            Near(100, lengths, page);
            Near(4 * 25.4, lengths, page);
        }
    }

    private static void Near(double wanted, double[] lengths, Page page)
    {
        double best = lengths.MinBy(l => Math.Abs(l - wanted));
        Assert.True(Math.Abs(best - wanted) < 0.05, $"page {page.Number}: nearest to {wanted} mm is {best} mm");
    }

    private static PdfDocument Open(LureDesign design, string paper)
    {
        var options = new SheetOptions(paper == "A4" ? PaperSize.A4 : PaperSize.Letter, Notation.Metric);
        Picture[] pages = [.. Pager.Pages(SheetSet.Of(design, options, []), design.Name, options).Select(p => p.Page)];
        return PdfDocument.Open(Pdf.Write(pages, "sheets"));
    }

    private static IEnumerable<double> Lines(Page page) => page.Paths
        .SelectMany(p => p).SelectMany(s => s.Commands).OfType<PdfSubpath.Line>()
        .Where(l => Math.Abs(l.From.Y - l.To.Y) < 1e-3)
        .Select(l => Math.Abs(l.To.X - l.From.X) / PointsPerMm);
}
