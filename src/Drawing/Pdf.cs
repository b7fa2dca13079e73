using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Trimwright.Drawing;

/// <summary>
/// Pictures as the pages of a PDF: vector, at true size, black, without fills, type embedded. Content streams are left open, since
/// some checkers stumble over this library's compressed ones. The same pictures make the same page content; file ids and
/// the names of subset fonts differ from run to run.
/// </summary>
public static class Pdf
{
    private const double PointsPerMm = 72 / 25.4;

    // A document says when it was made; the same lure must not say something else tomorrow.
    private static readonly DateTime Fixed = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <param name="pages">One picture a page.</param>
    /// <param name="title">Of the document.</param>
    /// <param name="enlarge">1, or what makes up for a printer whose 100 mm are not 100 mm; pages keep their size on paper when they were made smaller by it.</param>
    public static byte[] Write(IReadOnlyList<Picture> pages, string title, double enlarge = 1)
    {
        using var document = new PdfDocument();
        document.Options.CompressContentStreams = false;
        document.Info.Title = Svg.Clean(title);
        document.Info.CreationDate = Fixed;
        document.Info.ModificationDate = Fixed;
        // A viewer that fits pages to its paper would shrink what must be true.
        document.ViewerPreferences.Elements.SetName("/PrintScaling", "/None");
        foreach (Picture picture in pages)
        {
            PdfPage page = document.AddPage();
            page.Width = XUnit.FromMillimeter(picture.Width * enlarge);
            page.Height = XUnit.FromMillimeter(picture.Height * enlarge);
            using XGraphics graphics = XGraphics.FromPdfPage(page);
            new Press(graphics, PointsPerMm * enlarge).Draw(picture.Marks);
        }
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        return stream.ToArray();
    }

    /// <summary>Draws marks at a scale (points for a mm) from an origin (points).</summary>
    private sealed class Press(XGraphics graphics, double scale, double originX = 0, double originY = 0, double shrink = 1) : IPen
    {
        private XPoint P(PagePoint p) => new(originX + scale * p.X, originY + scale * p.Y);

        private XPen Pen(Ink ink)
        {
            (double width, bool dashed) = Pens.Of(ink);
            // Seen small, lines thin out with the drawing, but not below what a printer shows.
            double unit = scale / shrink, points = unit * Math.Max(width * Math.Min(2 * shrink, 1), Math.Min(width, Pens.Grid));
            var pen = new XPen(XColors.Black, points) { LineCap = XLineCap.Round, LineJoin = XLineJoin.Round };
            if (dashed)
            {
                // In widths of the line.
                pen.DashPattern = [unit * Pens.Dash * shrink / points, unit * Pens.Gap * shrink / points];
                pen.LineCap = XLineCap.Flat;
            }
            return pen;
        }

        public void Draw(IEnumerable<Mark> marks)
        {
            foreach (Mark mark in marks) mark.Draw(this);
        }

        public void Draw(Stroke stroke)
        {
            XPen pen = Pen(stroke.Ink);
            // One path a contour: the library joins the figures of a path by lines.
            foreach (Contour contour in stroke.Contours) graphics.DrawPath(pen, Path(contour));
        }

        public void Draw(Circle circle)
        {
            XPoint centre = P(circle.Centre);
            double r = scale * circle.Radius;
            graphics.DrawEllipse(Pen(circle.Ink), centre.X - r, centre.Y - r, 2 * r, 2 * r);
        }

        public void Draw(Box box)
        {
            XPoint corner = P(box.Corner);
            graphics.DrawRectangle(Pen(box.Ink), corner.X, corner.Y, scale * box.Width, scale * box.Height);
        }

        public void Draw(Label label) => Write(label);

        public void Draw(Inset inset) => Show(inset);

        public void Draw(Tap tap) => throw new ArgumentException("no way to print what is tapped", nameof(tap));

        private XGraphicsPath Path(Contour contour)
        {
            var path = new XGraphicsPath();
            PagePoint at = contour.Start;
            foreach ((PagePoint c1, PagePoint c2, PagePoint end) in contour.Steps)
            {
                if (c1 == at && c2 == end) path.AddLine(P(at), P(end));
                else path.AddBezier(P(at), P(c1), P(c2), P(end));
                at = end;
            }
            if (contour.Closed) path.CloseFigure();
            return path;
        }

        private void Write(Label label)
        {
            XFont font = Typefaces.Font(label.Voice, scale * label.Size);
            string text = Svg.Clean(label.Text);
            XStringFormat format = label.Anchor switch
            {
                Anchor.Middle => XStringFormats.BaseLineCenter,
                Anchor.End => XStringFormats.BaseLineRight,
                Anchor.Start => XStringFormats.BaseLineLeft,
            };
            graphics.DrawString(text, font, XBrushes.Black, P(label.At), format);
        }

        private void Show(Inset inset)
        {
            XPoint corner = P(inset.Corner);
            XGraphicsState before = graphics.Save();
            graphics.IntersectClip(new XRect(corner.X, corner.Y, scale * inset.Width, scale * inset.Height));
            double inner = scale * inset.Scale;
            new Press(graphics, inner, corner.X - inner * inset.From.X, corner.Y - inner * inset.From.Y, shrink * inset.Scale).Draw(inset.Marks);
            graphics.Restore(before);
        }
    }
}
