using System.Reflection;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace Trimwright.Drawing;

/// <summary>The two voices in print: a serif for the maker and a sans for labels, out of this assembly and nowhere else.</summary>
public static class Typefaces
{
    private const string Sans = "DejaVuSans";
    private const string Serif = "DejaVuSerif";

    /// <summary>False when the program was built without Node, which brings the type.</summary>
    public static bool AreHere => typeof(Typefaces).Assembly.GetManifestResourceInfo(Resource(Sans)) is not null;

    /// <summary>Width of a text, mm.</summary>
    public static double WidthOf(string text, double size, Voice voice) => Measure.Value.WidthOf(text, size, voice);

    internal static XFont Font(Voice voice, double points)
    {
        _ = Registered.Value;
        string family = voice is Voice.Maker or Voice.Title ? Serif : Sans;
        return new XFont(family, points, XFontStyleEx.Regular, new XPdfFontOptions(PdfFontEncoding.Unicode));
    }

    private static string Resource(string face) => $"type/{face}.ttf";

    private static readonly Lazy<bool> Registered = new(() =>
    {
        GlobalFontSettings.FontResolver ??= new Resolver();
        return true;
    });

    private static readonly Lazy<Ruler> Measure = new(() => new Ruler());

    private sealed class Ruler
    {
        // Large, so that widths come out fine.
        private const double Points = 1000;

        private readonly Lock busy = new();
        private readonly XGraphics graphics = XGraphics.CreateMeasureContext(new XSize(1, 1), XGraphicsUnit.Point, XPageDirection.Downwards);
        private readonly XFont sans = Font(Voice.Label, Points);
        private readonly XFont serif = Font(Voice.Maker, Points);

        public double WidthOf(string text, double size, Voice voice)
        {
            lock (busy)
                return graphics.MeasureString(text, voice is Voice.Maker or Voice.Title ? serif : sans).Width / Points * size;
        }
    }

    private sealed class Resolver : IFontResolver
    {
        public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
            new(familyName == Serif ? Serif : Sans);

        public byte[]? GetFont(string faceName)
        {
            using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(Resource(faceName))
                ?? throw new InvalidOperationException("built without Node, so there is no type for paper");
            var bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            return bytes;
        }
    }
}
