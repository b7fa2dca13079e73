using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Drawing;
using Trimwright.Drawing.Sheets;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Trimwright.Tests.Drawing.Sheets;

/// <summary>Check 25: true size on paper, read back by a PDF reader and a renderer that this project did not make.</summary>
public sealed class TrueSizeTest
{
    private const double PointsPerMm = 72 / 25.4;

    // What home printers leave white, a quarter inch; common practice, no source.
    private const double White = 6.35;

    public TrueSizeTest() => Outside.NeedType();

    public static TheoryData<string, string> Papers => new()
    {
        { "tidegate-185", "A4" }, { "tidegate-185", "Letter" }, { "mooring-post-210", "A4" }, { "slipway-150", "Letter" },
    };

    [Theory]
    [MemberData(nameof(Papers))]
    public void Check_lines_and_a_square_stand_on_every_page_at_their_size(string lure, string paper)
    {
        using PdfDocument pdf = Open(Lures.Demo(lure), paper, []);
        Assert.True(pdf.NumberOfPages >= 15);
        foreach (Page page in pdf.GetPages())
        {
            Assert.Equal(paper == "A4" ? 297 : 279.4, page.Width / PointsPerMm, 0.01);
            double[] lengths = [.. Segments(page).Where(s => Math.Abs(s.A.Y - s.B.Y) < 1e-3).Select(s => Math.Abs(s.B.X - s.A.X))];
            Near(100, lengths, page);
            Near(4 * 25.4, lengths, page);
            PdfRectangle square = Assert.Single(page.Paths, p => p.GetBoundingRectangle() is { } r && Math.Abs(r.Width / PointsPerMm - 20) < 0.01 && Math.Abs(r.Height / PointsPerMm - 20) < 0.01
                && r.Right / PointsPerMm > page.Width / PointsPerMm - 12).GetBoundingRectangle()!.Value;
            Assert.Equal(square.Width, square.Height, 1e-3);
        }
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void Outlines_have_the_length_and_width_of_the_lure(string lure, string paper)
    {
        LureDesign design = Lures.Demo(lure);
        Body body = design.Body.Surface();
        using PdfDocument pdf = Open(design, paper, ["side", "plan"]);
        double high = Fine(body).Max(body.BackAt) - Fine(body).Min(body.BellyAt), wide = 2 * Fine(body).Max(body.HalfBreadthAt);
        foreach ((int number, double across) in new[] { (1, high), (2, wide) })
        {
            PdfRectangle r = pdf.GetPage(number).Paths.Select(p => p.GetBoundingRectangle()).OfType<PdfRectangle>().MinBy(r => Math.Abs(r.Width / PointsPerMm - body.Length) + Math.Abs(r.Height / PointsPerMm - across));
            TestContext.Current.TestOutputHelper?.WriteLine($"{r.Width / PointsPerMm:F3} × {r.Height / PointsPerMm:F3} mm for {body.Length:F3} × {across:F3}");
            Assert.Equal(body.Length, r.Width / PointsPerMm, 0.05);
            Assert.Equal(across, r.Height / PointsPerMm, 0.05);
        }
    }

    // Finer than what is drawn, and not the drawing's own places.
    private static IEnumerable<double> Fine(Body body) => Enumerable.Range(0, 5001).Select(i => body.Length * i / 5000);

    [Fact]
    public void What_the_printer_makes_of_100_mm_is_made_up_for_within_the_same_paper()
    {
        using PdfDocument pdf = Open(Lures.Demo("tidegate-185"), "A4", ["side", "calipers"], measured: 98.4);
        foreach (Page page in pdf.GetPages())
        {
            Assert.Equal(297, page.Width / PointsPerMm, 0.01);
            Assert.Equal(210, page.Height / PointsPerMm, 0.01);
            double[] lengths = [.. Segments(page).Where(s => Math.Abs(s.A.Y - s.B.Y) < 1e-3).Select(s => Math.Abs(s.B.X - s.A.X) * 0.984)];
            Near(100, lengths, page);
            Near(4 * 25.4, lengths, page);
            if (page.Number == 1) Near(185, lengths, page);
            Assert.Contains("98.40", string.Concat(page.Letters.Select(l => l.Value)));
        }
    }

    [Fact]
    public void Text_can_be_selected_and_its_fonts_are_inside()
    {
        using PdfDocument pdf = Open(Lures.Demo("tidegate-185"), "A4", []);
        foreach (Page page in pdf.GetPages())
        {
            string text = string.Concat(page.Letters.Select(l => l.Value));
            Assert.Contains("Tidegate 185", text);
            Assert.Contains("100 mm", text.Replace('\u00A0', ' '));
            Assert.All(page.Letters, l => Assert.Contains("+DejaVu", l.FontName));
        }
        Outside.NeedProgram("pdffonts", "poppler-utils");
        using var file = new TemporaryFile(Bytes(Lures.Demo("tidegate-185"), "A4", []), ".pdf");
        string[] fonts = [.. Outside.Run("pdffonts", [file.Path]).Output.Split('\n').Skip(2).Where(l => l.Length > 0)];
        Assert.Equal(2, fonts.Length);
        Assert.All(fonts, f => Assert.Matches(@"\byes yes yes\b", f));
    }

    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public void Qpdf_finds_nothing_wrong(string paper)
    {
        Outside.NeedProgram("qpdf", "qpdf");
        using var file = new TemporaryFile(Bytes(Lures.Demo("slipway-150"), paper, []), ".pdf");
        (int exit, string said, string complaint) = Outside.Run("qpdf", ["--check", file.Path]);
        Assert.True(exit == 0 && complaint == "", said + complaint);
    }

    [Theory]
    [InlineData("A4", 297, 210)]
    [InlineData("Letter", 279.4, 215.9)]
    public void Ink_stays_within_what_printers_reach_and_lines_are_true_in_a_picture_of_600_dpi(string paper, double width, double height)
    {
        Outside.NeedProgram("pdftoppm", "poppler-utils");
        using var file = new TemporaryFile(Bytes(Lures.Demo("tidegate-185"), paper, ["plan"]), ".pdf");
        (bool[,] ink, double perMm) = Raster(file.Path, 1, 600);
        (int left, int right, int top, int bottom) = Bounds(ink);
        Assert.True(left / perMm > White && top / perMm > White && right / perMm < width - White && bottom / perMm < height - White,
            $"ink from {left / perMm:F2}, {top / perMm:F2} to {right / perMm:F2}, {bottom / perMm:F2} mm");
        // The 100 mm line's end ticks: two columns of ink over its height, the middles of which are 100 mm apart.
        double y = height - 10 - 0.3 - 13 + 1.2;
        double[] ticks = [.. Runs(Enumerable.Range(0, ink.GetLength(1)).Select(x => ink[(int)(y * perMm), x])).Select(m => m / perMm)];
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" ", ticks.Select(t => t.ToString("F3", CultureInfo.InvariantCulture))));
        Assert.Contains(ticks, t => ticks.Any(o => Math.Abs(o - t - 100) < 0.05));
        Body body = Lures.Demo("tidegate-185").Body.Surface();
        (double length, double across) = Outline(ink, perMm, body);
        TestContext.Current.TestOutputHelper?.WriteLine($"outline {length:F3} × {across:F3} mm");
        Assert.Equal(body.Length, length, 0.05);
        Assert.Equal(2 * body.HalfBreadthAt(85), across, 0.05);
    }

    /// <summary>Length from the outer edges of the outline's ends a quarter of a millimetre beside the seam's line; width at 85 mm.</summary>
    private static (double Length, double Across) Outline(bool[,] ink, double perMm, Body body)
    {
        // The seam is the longest line over the foot; it runs 9 mm out at both ends.
        int seam = Enumerable.Range((int)(40 * perMm), (int)(120 * perMm)).MaxBy(row => Enumerable.Range(0, ink.GetLength(1)).Count(x => ink[row, x]));
        const double beside = 0.3;
        int[] rows = [seam - (int)Math.Round(beside * perMm), seam + (int)Math.Round(beside * perMm)];
        double[] spans = [.. rows.Select(row =>
        {
            int[] black = [.. Enumerable.Range(0, ink.GetLength(1)).Where(x => ink[row, x])];
            return (black[^1] + 1 - black[0]) / perMm;
        })];
        // Half a line's 0.5 mm beyond each end, and a round end's edge falls back by z²/2R.
        double Back(double radius) => beside * beside / (2 * (radius + 0.25));
        double Radius(double end) => Math.Pow(body.HalfBreadthAt(Math.Abs(end - 0.02)), 2) / 0.04;
        double length = spans.Average() - 0.5 + Back(Radius(0)) + Back(Radius(body.Length));
        int left = Enumerable.Range(0, ink.GetLength(1)).First(x => ink[seam, x]);
        int column = left + (int)Math.Round((9 + 85) * perMm);
        double[] marks = [.. Runs(Enumerable.Range(0, ink.GetLength(0)).Select(y => ink[y, column])).Select(m => (m - seam) / perMm)];
        double half = body.HalfBreadthAt(85);
        return (length, marks.MinBy(m => Math.Abs(m - half)) - marks.MinBy(m => Math.Abs(m + half)));
    }

    private static IEnumerable<double> Runs(IEnumerable<bool> line)
    {
        int from = -1, at = 0;
        foreach (bool black in line)
        {
            if (black && from < 0) from = at;
            if (!black && from >= 0)
            {
                yield return (from + at) / 2.0;
                from = -1;
            }
            at++;
        }
    }

    [Fact]
    public void Ink_stays_within_what_printers_reach_on_every_page()
    {
        Outside.NeedProgram("pdftoppm", "poppler-utils");
        using var file = new TemporaryFile(Bytes(Longer(Lures.Demo("mooring-post-210"), 1.7), "Letter", []), ".pdf");
        using PdfDocument pdf = PdfDocument.Open(file.Path);
        for (int page = 1; page <= pdf.NumberOfPages; page++)
        {
            (bool[,] ink, double perMm) = Raster(file.Path, page, 72);
            (int left, int right, int top, int bottom) = Bounds(ink);
            Assert.True(left / perMm > White && top / perMm > White && right / perMm < 279.4 - White && bottom / perMm < 215.9 - White,
                $"page {page}: ink from {left / perMm:F2}, {top / perMm:F2} to {right / perMm:F2}, {bottom / perMm:F2} mm");
        }
    }

    /// <summary>A printer that makes 98 mm of 100: its line is measured, the number is passed on, and every mark then lies where it should.</summary>
    [Theory]
    [InlineData(98.0)]
    [InlineData(101.3)]
    public void What_a_printer_takes_off_the_next_sheets_bring_back_to_a_fifth_of_a_millimetre(double printer)
    {
        LureDesign design = Lures.Demo("tidegate-185");
        string[] sheets = ["side", "plan", "glue-right", "wire", "drill"];
        double worst = 0, before = 0;
        int marks = 0;
        using PdfDocument plain = Open(design, "A4", sheets), corrected = Open(design, "A4", sheets, measured: printer);
        // What a rule reads of the 100 mm line of the first print is the number that is passed on.
        Assert.Equal(printer, printer / 100 * Longest(plain.GetPage(1), 90, 100.5), 0.02);
        foreach ((Page meant, Page drawn) in plain.GetPages().Zip(corrected.GetPages()))
        {
            // The wire's second page is a table, as wide as the paper has room.
            if (meant.Number == 5) continue;
            // Every path by its size and by its distance from the first one, as both come out of that printer.
            (double X, double Y, double W, double H)[] Shapes(Page page, double scale) =>
                [.. page.Paths.Select(p => p.GetBoundingRectangle()).OfType<PdfRectangle>().Select(r => (r.Left / PointsPerMm * scale, r.Bottom / PointsPerMm * scale, r.Width / PointsPerMm * scale, r.Height / PointsPerMm * scale))];
            var wanted = Shapes(meant, 1);
            var printed = Shapes(drawn, printer / 100);
            // The head's wire runs over the whole page, whatever is drawn; what lies under it is the drawing.
            (double X, double Y, double W, double H)[] Drawing((double X, double Y, double W, double H)[] all, double scale) =>
                [.. all.Where(s => s.Y > 45 * scale && s.Y + s.H < 175 * scale && s.W < 250)];
            var a = Drawing(wanted, 1);
            (double dx, double dy) = Shift(wanted, printed);
            foreach (var shape in a)
            {
                var found = printed.MinBy(s => Off(shape, s, dx, dy));
                worst = Math.Max(worst, Off(shape, found, dx, dy));
                marks++;
            }
            before = Math.Max(before, a.Max(s => s.W) * Math.Abs(1 - printer / 100));
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{marks} marks, the worst {worst:F3} mm off; uncorrected the longest was {before:F2} mm off");
        Assert.True(marks > 100 && before > 2, $"{marks} marks, {before} mm");
        Assert.True(worst < 0.2, $"{worst} mm");

        static double Off((double X, double Y, double W, double H) a, (double X, double Y, double W, double H) b, double dx, double dy) =>
            new[] { Math.Abs(a.X + dx - b.X), Math.Abs(a.Y + dy - b.Y), Math.Abs(a.W - b.W), Math.Abs(a.H - b.H) }.Max();

        // The sheet lies a little elsewhere on the paper: by as much as its longest line within the drawing does.
        static (double, double) Shift((double X, double Y, double W, double H)[] a, (double X, double Y, double W, double H)[] b)
        {
            var one = a.Where(s => s.Y > 45 && s.W < 250).MaxBy(s => s.W + s.H);
            var other = b.MinBy(s => Math.Abs(s.W - one.W) + Math.Abs(s.H - one.H) + 0.01 * (Math.Abs(s.X - one.X) + Math.Abs(s.Y - one.Y)));
            return (other.X - one.X, other.Y - one.Y);
        }
    }

    private static double Longest(Page page, double from, double to) =>
        Segments(page).Where(s => Math.Abs(s.A.Y - s.B.Y) < 1e-3).Select(s => Math.Abs(s.B.X - s.A.X)).Where(l => l > from && l < to).Max();

    [Fact]
    public void Outlines_run_on_across_the_edges_of_tiles()
    {
        LureDesign design = Longer(Lures.Demo("mooring-post-210"), 1.9);
        using PdfDocument pdf = Open(design, "A4", ["side"]);
        Assert.Equal(2, pdf.NumberOfPages);
        // Both tiles hold the whole outline, seen through their windows; a registration cross says how they lie on each other.
        PdfRectangle[] outline = [.. pdf.GetPages().Select(p => p.Paths.Select(q => q.GetBoundingRectangle()).OfType<PdfRectangle>().MinBy(r => Math.Abs(r.Width / PointsPerMm - design.Body.LengthMm)))];
        (double X, double Y)[] cross = [.. pdf.GetPages().Select(Cross)];
        double dx = cross[0].X - cross[1].X, dy = cross[0].Y - cross[1].Y;
        TestContext.Current.TestOutputHelper?.WriteLine($"second tile lies {dx:F3}, {dy:F3} mm further");
        Assert.True(Math.Abs(dx) > 100);
        Assert.Equal(outline[0].Left / PointsPerMm, outline[1].Left / PointsPerMm + dx, 0.1);
        Assert.Equal(outline[0].Bottom / PointsPerMm, outline[1].Bottom / PointsPerMm + dy, 0.1);
        // And the windows meet: the cross lies in both.
        Assert.All(cross, c => Assert.InRange(c.X, 10, 287));
    }

    // The letter A of the first cross stands 2.6 mm right of it and 1.4 mm over it; its ring is the only circle of 2 mm radius near.
    private static (double X, double Y) Cross(Page page)
    {
        PdfRectangle ring = page.Paths.Select(p => p.GetBoundingRectangle()).OfType<PdfRectangle>()
            .Where(r => Math.Abs(r.Width / PointsPerMm - 4) < 0.02 && Math.Abs(r.Height / PointsPerMm - 4) < 0.02).MaxBy(r => r.Bottom);
        return ((ring.Left + ring.Right) / 2 / PointsPerMm, (ring.Bottom + ring.Top) / 2 / PointsPerMm);
    }

    [Fact]
    public void Pockets_and_slot_of_the_two_glue_faces_lie_on_each_other_face_to_face_and_depths_differ_off_the_plane()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        // The front rod 1.5 mm into the right half, the rear one across the seam, as a circle.
        design = design with { Ballast = [design.Ballast[0] with { AtMm = [44, 1.5, -8] }, design.Ballast[1] with { Axis = Axis.Y, LengthMm = 12 }] };
        using PdfDocument pdf = Open(design, "A4", ["glue-right", "glue-left"]);
        Page right = pdf.GetPage(1), left = pdf.GetPage(2);
        double width = right.Width;
        PdfRectangle[] Shapes(Page page) => [.. page.Paths.Select(p => p.GetBoundingRectangle()).OfType<PdfRectangle>()];
        PdfRectangle Find(Page page, double w, double h) => Shapes(page).MinBy(r => Math.Abs(r.Width / PointsPerMm - w) + Math.Abs(r.Height / PointsPerMm - h));
        double chord = 2 * Math.Sqrt(4.25 * 4.25 - 1.5 * 1.5);
        foreach (((double W, double H) a, (double W, double H) b) in new[] { ((8.5, 8.5), (8.5, 8.5)), ((16.5, 8.5), (16.5, chord)), ((185.0, 35.0), (185.0, 35.0)) })
        {
            PdfRectangle r = Find(right, a.W, a.H), l = Find(left, b.W, b.H);
            Assert.Equal(a.W, r.Width / PointsPerMm, 0.05);
            Assert.Equal(b.H, l.Height / PointsPerMm, 0.05);
            // Turned over its upright middle line the left page lies face to face on the right one.
            Assert.Equal((r.Left + r.Right) / 2, width - (l.Left + l.Right) / 2, 0.05 * PointsPerMm);
            Assert.Equal((r.Bottom + r.Top) / 2, (l.Bottom + l.Top) / 2, 0.05 * PointsPerMm);
        }
        // The slot's two edges, 2.0 mm apart, at the same heights on both.
        double[] Heights(Page page) => [.. Segments(page).Where(s => Math.Abs(s.A.Y - s.B.Y) < 1e-3 && Math.Abs(s.A.X - s.B.X) > 30 && Math.Abs(s.A.X - s.B.X) < 185 && s.A.Y > 40).Select(s => Math.Round(s.A.Y, 2)).Distinct().Order()];
        Assert.Equal(Heights(right), Heights(left));
        string Words(Page page) => string.Concat(page.Letters.Select(l => l.Value)).Replace('\u00A0', ' ');
        Assert.Contains("5.8 mm deep", Words(right));
        Assert.DoesNotContain("5.8 mm deep", Words(left));
        Assert.Contains("2.8 mm deep", Words(left));
        Assert.DoesNotContain("2.8 mm deep", Words(right));
    }

    [Fact]
    public void The_same_lure_makes_the_same_pages()
    {
        Assert.Equal(Contents(), Contents());
        static string Contents()
        {
            using PdfDocument pdf = Open(Lures.Demo("tidegate-185"), "A4", []);
            return string.Join("\n", pdf.GetPages().Select(p => string.Join(";", p.Operations.Select(o => Regex.Replace(o.ToString() ?? "", @"/F\d+", "/F")))));
        }
    }

    private static LureDesign Longer(LureDesign design, double factor)
    {
        Outline Of(Outline o) => o with { Points = [.. o.Points.Select(p => p with { X = p.X * factor })], Corners = [.. o.Corners.Select(c => c * factor)] };
        BodyDesign body = design.Body with { LengthMm = design.Body.LengthMm * factor, Back = Of(design.Body.Back), Belly = Of(design.Body.Belly), Plan = Of(design.Body.Plan) };
        return design with { Body = body };
    }

    private static void Near(double wanted, double[] lengths, Page page)
    {
        double best = lengths.MinBy(l => Math.Abs(l - wanted));
        Assert.True(Math.Abs(best - wanted) < 0.05, $"page {page.Number}: nearest to {wanted} mm is {best} mm");
    }

    private static byte[] Bytes(LureDesign design, string paper, string[] only, double measured = 100)
    {
        var options = new SheetOptions(paper == "A4" ? PaperSize.A4 : PaperSize.Letter, Notation.Metric, Measured100: measured);
        Picture[] pages = [.. Pager.Pages(SheetSet.Of(design, options, only), design.Name, options).Select(p => p.Page)];
        return Pdf.Write(pages, "sheets", options.Enlarge);
    }

    private static PdfDocument Open(LureDesign design, string paper, string[] only, double measured = 100) => PdfDocument.Open(Bytes(design, paper, only, measured));

    /// <summary>Every straight piece of every path, mm.</summary>
    private static IEnumerable<((double X, double Y) A, (double X, double Y) B)> Segments(Page page) => page.Paths
        .SelectMany(p => p).SelectMany(s => s.Commands).OfType<PdfSubpath.Line>()
        .Select(l => ((l.From.X / PointsPerMm, l.From.Y / PointsPerMm), (l.To.X / PointsPerMm, l.To.Y / PointsPerMm)));

    private static (bool[,] Ink, double PerMm) Raster(string pdf, int page, int dpi)
    {
        string stem = Path.Combine(Path.GetTempPath(), $"trimwright-{Guid.NewGuid():N}");
        string number = page.ToString(CultureInfo.InvariantCulture);
        Outside.Run("pdftoppm", ["-gray", "-singlefile", "-r", dpi.ToString(CultureInfo.InvariantCulture), "-f", number, "-l", number, pdf, stem]);
        byte[] bytes = File.ReadAllBytes(stem + ".pgm");
        File.Delete(stem + ".pgm");
        // P5, width, height, 255, one space, then a byte a pixel.
        Match head = Regex.Match(System.Text.Encoding.ASCII.GetString(bytes, 0, 40), @"^P5\s(\d+)\s(\d+)\s255\s");
        int w = int.Parse(head.Groups[1].Value, CultureInfo.InvariantCulture), h = int.Parse(head.Groups[2].Value, CultureInfo.InvariantCulture);
        var ink = new bool[h, w];
        for (int y = 0; y < h; y++)
            for (int x = 0; x < w; x++) ink[y, x] = bytes[head.Length + y * w + x] < 128;
        return (ink, dpi / 25.4);
    }

    private static (int Left, int Right, int Top, int Bottom) Bounds(bool[,] ink)
    {
        (int left, int right, int top, int bottom) = (int.MaxValue, -1, int.MaxValue, -1);
        for (int y = 0; y < ink.GetLength(0); y++)
            for (int x = 0; x < ink.GetLength(1); x++)
                if (ink[y, x]) (left, right, top, bottom) = (Math.Min(left, x), Math.Max(right, x), Math.Min(top, y), Math.Max(bottom, y));
        return (left, right, top, bottom);
    }
}
