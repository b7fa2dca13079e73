using System.Globalization;
using System.Text;

namespace Trimwright.Drawing;

/// <summary>
/// A picture as DXF for cutters and other people's programs: the text form of release 12, in millimetres, y up, a layer for
/// each ink that has a name. Curves become lines no further than a hundredth of a millimetre from them.
/// </summary>
public static class Dxf
{
    private const double Flatness = 0.01;

    /// <summary>Layer names by ink; those without a mark of their own are left out.</summary>
    private static string Layer(Ink ink) => ink switch
    {
        Ink.Cut or Ink.Wood or Ink.Steel or Ink.Lead => "CUT",
        Ink.Later => "LATER",
        Ink.Grid or Ink.Grain => "STATIONS",
        Ink.Wire => "WIRE",
        Ink.Paper or Ink.Water or Ink.Surface or Ink.Veil or Ink.Line or Ink.Pencil or Ink.Bob or Ink.Bubble or Ink.Measure or Ink.Mark or Ink.Axis
            or Ink.Past => "MARKS",
    };

    private static readonly string[] Layers = ["CUT", "MARKS", "LATER", "STATIONS", "WIRE", "TEXT"];

    public static string Write(Picture picture)
    {
        var file = new Writer(picture.Height);
        file.Pairs((0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009"), (9, "$INSUNITS"), (70, "4"), (9, "$MEASUREMENT"), (70, "1"),
            (9, "$EXTMIN"), (10, "0.0"), (20, "0.0"), (9, "$EXTMAX"), (10, Writer.N(picture.Width)), (20, Writer.N(picture.Height)), (0, "ENDSEC"));
        AddTables(file);
        file.Pairs((0, "SECTION"), (2, "ENTITIES"));
        foreach (Mark mark in picture.Marks) mark.Draw(file);
        file.Pairs((0, "ENDSEC"), (0, "EOF"));
        return file.ToString();
    }

    private static void AddTables(Writer file)
    {
        file.Pairs((0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, "1"),
            (0, "LTYPE"), (2, "CONTINUOUS"), (70, "0"), (3, "Solid line"), (72, "65"), (73, "0"), (40, "0.0"), (0, "ENDTAB"));
        file.Pairs((0, "TABLE"), (2, "LAYER"), (70, Layers.Length.ToString(CultureInfo.InvariantCulture)));
        foreach (string layer in Layers) file.Pairs((0, "LAYER"), (2, layer), (70, "0"), (62, "7"), (6, "CONTINUOUS"));
        file.Pairs((0, "ENDTAB"), (0, "ENDSEC"));
    }

    private sealed class Writer(double height) : IPen
    {
        private readonly StringBuilder text = new();

        public override string ToString() => text.ToString();

        public void Pairs(params ReadOnlySpan<(int Code, string Value)> pairs)
        {
            foreach ((int code, string value) in pairs)
                text.Append(code.ToString(CultureInfo.InvariantCulture).PadLeft(3)).Append('\n').Append(value).Append('\n');
        }

        public static string N(double value) => (Math.Round(value, 4) + 0.0).ToString("0.0###", CultureInfo.InvariantCulture);

        private string Y(double y) => N(height - y);

        public void Draw(Stroke stroke)
        {
            foreach (Contour contour in stroke.Contours) Polyline(Layer(stroke.Ink), [.. Flattened(contour)], contour.Closed);
        }

        public void Draw(Circle circle) =>
            Pairs((0, "CIRCLE"), (8, Layer(circle.Ink)), (10, N(circle.Centre.X)), (20, Y(circle.Centre.Y)), (40, N(circle.Radius)));

        public void Draw(Box box)
        {
            PagePoint c = box.Corner;
            Polyline(Layer(box.Ink), [c, c + new PagePoint(box.Width, 0), c + new PagePoint(box.Width, box.Height), c + new PagePoint(0, box.Height)], closed: true);
        }

        public void Draw(Label label) => Text(label);

        public void Draw(Inset inset) => throw new ArgumentException("no way to write a window as DXF", nameof(inset));

        public void Draw(Tap tap) => throw new ArgumentException("no way to write what is tapped as DXF", nameof(tap));

        private void Polyline(string layer, PagePoint[] points, bool closed)
        {
            Pairs((0, "POLYLINE"), (8, layer), (66, "1"), (10, "0.0"), (20, "0.0"), (30, "0.0"), (70, closed ? "1" : "0"));
            foreach (PagePoint p in points) Pairs((0, "VERTEX"), (8, layer), (10, N(p.X)), (20, Y(p.Y)));
            Pairs((0, "SEQEND"), (8, layer));
        }

        // Release 12 holds plain ASCII; everything else goes in as the code that later readers understand.
        private void Text(Label label)
        {
            string at = label.Anchor switch { Anchor.Middle => "1", Anchor.End => "2", Anchor.Start => "0" };
            var plain = new StringBuilder();
            foreach (char c in Svg.Clean(label.Text)) plain.Append(c == '\u00A0' ? " " : c is >= ' ' and <= '~' ? c.ToString() : $"\\U+{(int)c:X4}");
            Pairs((0, "TEXT"), (8, "TEXT"), (10, N(label.At.X)), (20, Y(label.At.Y)), (40, N(0.73 * label.Size)), (1, plain.ToString()),
                (72, at), (11, N(label.At.X)), (21, Y(label.At.Y)));
        }

        private static IEnumerable<PagePoint> Flattened(Contour contour)
        {
            yield return contour.Start;
            PagePoint at = contour.Start;
            foreach ((PagePoint c1, PagePoint c2, PagePoint end) in contour.Steps)
            {
                // n chords of a cubic stray by at most max|B''|/(8n²), and |B''| is at most 6 times the larger second difference.
                double bend = Math.Max(double.Hypot(at.X - 2 * c1.X + c2.X, at.Y - 2 * c1.Y + c2.Y), double.Hypot(c1.X - 2 * c2.X + end.X, c1.Y - 2 * c2.Y + end.Y));
                int steps = c1 == at && c2 == end ? 1 : Math.Max(1, (int)Math.Ceiling(Math.Sqrt(0.75 * bend / Flatness)));
                for (int i = 1; i <= steps; i++) yield return i == steps ? end : Cubic(at, c1, c2, end, (double)i / steps);
                at = end;
            }
        }

        private static PagePoint Cubic(PagePoint a, PagePoint b, PagePoint c, PagePoint d, double t)
        {
            double s = 1 - t, p = s * s * s, q = 3 * s * s * t, r = 3 * s * t * t, u = t * t * t;
            return new(p * a.X + q * b.X + r * c.X + u * d.X, p * a.Y + q * b.Y + r * c.Y + u * d.Y);
        }
    }
}
