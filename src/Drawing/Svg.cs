using System.Globalization;
using System.Text;
using System.Xml;
using Trimwright.Core.Design;

namespace Trimwright.Drawing;

/// <summary>A picture as SVG: the same bytes for the same picture, in any culture; light and dark by its own style sheet.</summary>
public static class Svg
{
    // Screen pixels in a millimetre of the page, for viewers that ask for a size.
    private const double Scale = 4;

    private const string Style = """
        .paper{fill:#F5F0E6}.water{fill:#D9E6E4}.surface{fill:none;stroke:#2F6F73;stroke-width:.5}
        .veil{fill:#D9E6E4;fill-opacity:.42}.wood{fill:#D9B27C;stroke:#7B5A32;stroke-width:.5;stroke-linejoin:round}
        .grain{fill:none;stroke:#7B5A32;stroke-width:.15;stroke-opacity:.55;stroke-linecap:round}
        .wire{fill:none;stroke:#7D8A8C;stroke-width:.75;stroke-linecap:round}
        .steel{fill:none;stroke:#22302F;stroke-width:.5;stroke-linecap:round;stroke-linejoin:round}
        .lead{fill:#5F676B;stroke:#22302F;stroke-width:.3}
        .line{fill:none;stroke:#22302F;stroke-width:.25;stroke-linecap:round}
        .pencil{fill:none;stroke:#22302F;stroke-width:.25;stroke-opacity:.38;stroke-linejoin:round}
        .bob{fill:#22302F;stroke:#22302F;stroke-width:.35;stroke-linejoin:round}
        .bubble{fill:#F5F0E6;fill-opacity:.75;stroke:#2F6F73;stroke-width:.45}
        .measure{fill:none;stroke:#2F6F73;stroke-width:.3;stroke-linecap:round}
        text{font-variant-numeric:tabular-nums}
        .maker,.title{font-family:"DejaVu Serif",Georgia,"Times New Roman",serif;fill:#22302F}
        .label{font-family:"DejaVu Sans",Verdana,Arial,sans-serif;fill:#22302F}
        .wetlabel{font-family:"DejaVu Sans",Verdana,Arial,sans-serif;fill:#2A6468}
        @media (prefers-color-scheme:dark){
        .paper{fill:#12191D}.water{fill:#1B3236}.surface{stroke:#7FB7B5}.veil{fill:#1B3236;fill-opacity:.38}
        .wood{fill:#C9A067;stroke:#E3C394}.grain{stroke:#5A3F1E}.wire{stroke:#9AA6A7}.steel,.line,.pencil{stroke:#E9E2D3}
        .bob{fill:#12191D;stroke:#F5F0E6}.bubble{fill:#12191D;stroke:#8FD0CD}.measure{stroke:#8FC7C4}
        .maker,.title,.label{fill:#EFE8DA}.wetlabel{fill:#A5D3D0}.lead{fill:#8B9498;stroke:#E9E2D3}}
        """;

    // Inks that only a page uses, whose sheets are drawn anew at each move.
    private const string PageStyle = """
        .grid{fill:none;stroke:#7D8A8C;stroke-width:.15;stroke-opacity:.5}.axis{fill:none;stroke:#22302F;stroke-width:.2;stroke-dasharray:3 1 .6 1}
        .past{fill:none;stroke:#22302F;stroke-width:.3;stroke-opacity:.6;stroke-dasharray:1.4 .9}
        @media (prefers-color-scheme:dark){.axis,.past{stroke:#E9E2D3}}
        """;

    public static string Write(Picture picture) =>
        Write(picture, Style, N(picture.Width * Scale), N(picture.Height * Scale));

    /// <summary>A sheet at its true size: black, without fills, its width and height in mm.</summary>
    public static string WriteTrueSize(Picture picture) =>
        Write(picture, Pens.Style, N(picture.Width) + "mm", N(picture.Height) + "mm");

    private static string Write(Picture picture, string style, string width, string height)
    {
        var text = new StringBuilder();
        var settings = new XmlWriterSettings { Indent = true, IndentChars = " ", NewLineChars = "\n", OmitXmlDeclaration = true };
        using (var xml = XmlWriter.Create(text, settings))
        {
            xml.WriteStartElement("svg", "http://www.w3.org/2000/svg");
            xml.WriteAttributeString("viewBox", $"0 0 {N(picture.Width)} {N(picture.Height)}");
            xml.WriteAttributeString("width", width);
            xml.WriteAttributeString("height", height);
            xml.WriteAttributeString("role", "img");
            xml.WriteElementString("title", Clean(picture.Title));
            xml.WriteElementString("desc", Clean(picture.Description));
            xml.WriteElementString("style", style);
            foreach (Mark mark in picture.Marks) mark.Draw(new Pen(xml, Live: false));
            xml.WriteEndElement();
        }
        return text.Append('\n').ToString();
    }

    /// <summary>The style sheet of all pictures, to be laid under one selector of a page.</summary>
    public static string StyleUnder(string selector) => $"{selector} {{\n{Style}\n{PageStyle}\n}}\n";

    /// <summary>
    /// A picture as a piece of a page: its style comes from the page's own sheets, and what can be tapped can be reached
    /// by keyboard too.
    /// </summary>
    public static string Piece(Picture picture)
    {
        var text = new StringBuilder();
        using (var xml = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true, NewLineChars = "\n" }))
        {
            xml.WriteStartElement("svg", "http://www.w3.org/2000/svg");
            xml.WriteAttributeString("viewBox", $"0 0 {N(picture.Width)} {N(picture.Height)}");
            bool taps = picture.Marks.Any(m => m is Tap);
            xml.WriteAttributeString("role", taps ? "group" : "img");
            xml.WriteAttributeString("aria-label", Clean(taps ? picture.Title : $"{picture.Title}. {picture.Description}"));
            foreach (Mark mark in picture.Marks) mark.Draw(new Pen(xml, Live: true));
            xml.WriteEndElement();
        }
        return text.ToString();
    }

    private static void WriteTap(XmlWriter xml, Tap tap, bool live)
    {
        if (live)
        {
            xml.WriteStartElement("g");
            xml.WriteAttributeString("class", "tap");
            xml.WriteAttributeString("data-key", tap.Key);
            xml.WriteAttributeString("role", "button");
            xml.WriteAttributeString("tabindex", "0");
            xml.WriteAttributeString("aria-label", Clean(tap.Name));
            xml.WriteStartElement("rect");
            xml.WriteAttributeString("class", "reach");
            xml.WriteAttributeString("x", N(tap.Corner.X));
            xml.WriteAttributeString("y", N(tap.Corner.Y));
            xml.WriteAttributeString("width", N(tap.Width));
            xml.WriteAttributeString("height", N(tap.Height));
            xml.WriteEndElement();
        }
        foreach (Mark mark in tap.Marks) mark.Draw(new Pen(xml, live));
        if (live) xml.WriteEndElement();
    }

    /// <param name="Xml">Where to.</param>
    /// <param name="Live">Whether things can be tapped.</param>
    private sealed record Pen(XmlWriter Xml, bool Live) : IPen
    {
        public void Draw(Stroke stroke)
        {
            Xml.WriteStartElement("path");
            Class(Xml, stroke.Ink);
            Xml.WriteAttributeString("d", string.Join(' ', stroke.Contours.Select(Path)));
            Xml.WriteEndElement();
        }

        public void Draw(Circle circle)
        {
            Xml.WriteStartElement("circle");
            Class(Xml, circle.Ink);
            Xml.WriteAttributeString("cx", N(circle.Centre.X));
            Xml.WriteAttributeString("cy", N(circle.Centre.Y));
            Xml.WriteAttributeString("r", N(circle.Radius));
            Xml.WriteEndElement();
        }

        public void Draw(Box box)
        {
            Xml.WriteStartElement("rect");
            Class(Xml, box.Ink);
            Xml.WriteAttributeString("x", N(box.Corner.X));
            Xml.WriteAttributeString("y", N(box.Corner.Y));
            Xml.WriteAttributeString("width", N(box.Width));
            Xml.WriteAttributeString("height", N(box.Height));
            Xml.WriteEndElement();
        }

        public void Draw(Label label)
        {
            Xml.WriteStartElement("text");
            Xml.WriteAttributeString("class", label.Voice.ToString().ToLowerInvariant());
            Xml.WriteAttributeString("x", N(label.At.X));
            Xml.WriteAttributeString("y", N(label.At.Y));
            Xml.WriteAttributeString("font-size", N(label.Size));
            if (label.Anchor != Anchor.Start) Xml.WriteAttributeString("text-anchor", label.Anchor.ToString().ToLowerInvariant());
            Xml.WriteString(Clean(label.Text));
            Xml.WriteEndElement();
        }

        public void Draw(Inset inset) => WriteInset(Xml, inset);

        public void Draw(Tap tap) => WriteTap(Xml, tap, Live);
    }

    private static void WriteInset(XmlWriter xml, Inset inset)
    {
        xml.WriteStartElement("svg");
        xml.WriteAttributeString("x", N(inset.Corner.X));
        xml.WriteAttributeString("y", N(inset.Corner.Y));
        xml.WriteAttributeString("width", N(inset.Width));
        xml.WriteAttributeString("height", N(inset.Height));
        xml.WriteAttributeString("viewBox", $"{N(inset.From.X)} {N(inset.From.Y)} {N(inset.Width / inset.Scale)} {N(inset.Height / inset.Scale)}");
        foreach (Mark mark in inset.Marks) mark.Draw(new Pen(xml, Live: false));
        xml.WriteEndElement();
    }

    private static void Class(XmlWriter xml, Ink ink) => xml.WriteAttributeString("class", ink.ToString().ToLowerInvariant());

    private static string Path(Contour contour)
    {
        var d = new StringBuilder($"M{N(contour.Start.X)} {N(contour.Start.Y)}");
        PagePoint at = contour.Start;
        foreach ((PagePoint c1, PagePoint c2, PagePoint end) in contour.Steps)
        {
            d.Append(c1 == at && c2 == end
                ? $"L{N(end.X)} {N(end.Y)}"
                : $"C{N(c1.X)} {N(c1.Y)} {N(c2.X)} {N(c2.Y)} {N(end.X)} {N(end.Y)}");
            at = end;
        }
        return (contour.Closed ? d.Append('Z') : d).ToString();
    }

    // A hundredth of a millimetre; "-0" would be another text for the same place.
    private static string N(double value) => (Math.Round(value, 2) + 0.0).ToString("0.##", CultureInfo.InvariantCulture);

    // XML 1.0 has no place for control characters and two more; bidirectional ones would reorder the text around them.
    internal static string Clean(string text) => PlainText.Instead(text, "\uFFFD").Replace('\uFFFE', '\uFFFD').Replace('\uFFFF', '\uFFFD');
}
