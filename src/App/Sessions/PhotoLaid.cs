using System.Globalization;
using System.Text.Json;
using Trimwright.Core.Design;
using Trimwright.Drawing;
using Trimwright.Workshop;

namespace Trimwright.App.Sessions;

/// <summary>
/// How a photo lies behind an outline: two marks on it, in its own points, and what they are on the lure. The first mark lies at
/// a place of the lure, the distance to the second is a known length.
/// </summary>
/// <param name="AX">First mark, points from the photo's left.</param>
/// <param name="AY">And from its top.</param>
/// <param name="BX">Second mark.</param>
/// <param name="BY">And from its top.</param>
/// <param name="LengthMm">From mark to mark, mm.</param>
/// <param name="AlongMm">The first mark from the nose, mm.</param>
/// <param name="AcrossMm">The first mark above the axis, or from the seam, mm.</param>
/// <param name="Level">The marks lie along the lure: the photo is turned, and mirrored when its nose is to the right, so that they do.</param>
/// <param name="Strength">0 hidden, 1 faint, 2 clear.</param>
internal sealed record PhotoLaid(double AX, double AY, double BX, double BY, double LengthMm, double AlongMm, double AcrossMm, bool Level, int Strength)
{
    /// <summary>Nearer to each other than this the marks are one.</summary>
    public const double Apart = 2;

    /// <summary>The longest distance between the marks, and the farthest that a photo can be moved, mm; farther off it is never seen.</summary>
    public const double MostMm = 2000;

    /// <summary>As a photo lies when it has just come: across its middle, from nose to tail.</summary>
    public static PhotoLaid First(PhotoHeader header, LureDesign design) =>
        new(Math.Round(0.1 * header.Width), Math.Round(0.5 * header.Height), Math.Round(0.9 * header.Width), Math.Round(0.5 * header.Height), design.Body.LengthMm, 0, 0, Level: true, 1);

    /// <summary>As the store keeps it, JSON.</summary>
    public string Text() => JsonSerializer.Serialize(this);

    /// <summary>As it was kept; what an import brought and can't be meant lies across the middle, 100 mm long.</summary>
    public static PhotoLaid Of(Photo photo)
    {
        try
        {
            if (JsonSerializer.Deserialize<PhotoLaid>(photo.Place) is { } laid && laid.IsSound(photo)) return laid;
        }
        catch (JsonException)
        {
            // As said above.
        }
        return new PhotoLaid(0, 0.5 * photo.Height, photo.Width, 0.5 * photo.Height, 100, 0, 0, Level: true, 1);
    }

    /// <summary>Whether it can be drawn: marks on the photo and apart, lengths that a bench has.</summary>
    public bool IsSound(Photo photo) =>
        On(AX, photo.Width) && On(BX, photo.Width) && On(AY, photo.Height) && On(BY, photo.Height) && Gap >= Apart
        && LengthMm is > 0 and <= MostMm && AlongMm is >= -MostMm and <= MostMm && AcrossMm is >= -MostMm and <= MostMm && Strength is >= 0 and <= 2;

    private static bool On(double at, int side) => at >= 0 && at <= side;

    /// <summary>One mark elsewhere, inside the photo and not upon the other.</summary>
    public PhotoLaid Mark(Photo photo, bool first, double x, double y)
    {
        if (!double.IsFinite(x) || !double.IsFinite(y)) return this;
        (x, y) = (Math.Clamp(x, 0, photo.Width), Math.Clamp(y, 0, photo.Height));
        PhotoLaid next = first ? this with { AX = x, AY = y } : this with { BX = x, BY = y };
        return next.Gap < Apart ? this : next;
    }

    private double Gap => Math.Sqrt((BX - AX) * (BX - AX) + (BY - AY) * (BY - AY));

    /// <summary>
    /// From the photo's points to the sheet's millimetres, the six numbers of an SVG matrix. With m = −1 for a photo whose nose is
    /// to the other side than the sheet's, s the millimetres of a point and t the turn: p → P + s R(t) (m (u − a), v − b). A photo
    /// whose marks don't lie along the lure has its nose to the left.
    /// </summary>
    public (double A, double B, double C, double D, double E, double F) On(OutlineSheet sheet, string view)
    {
        PagePoint at = view == "side" ? sheet.Side(AlongMm, AcrossMm) : sheet.Half(AlongMm, AcrossMm);
        int aft = sheet.Nose == Nose.Right ? -1 : 1;
        double mirror = Level && BX < AX ? -aft : aft, s = LengthMm / Gap, turn = Level ? -aft * Math.Atan2(BY - AY, Math.Abs(BX - AX)) : 0;
        (double sin, double cos) = Math.SinCos(turn);
        (double a, double b, double c, double d) = (mirror * s * cos, mirror * s * sin, -s * sin, s * cos);
        return (a, b, c, d, at.X - a * AX - c * AY, at.Y - b * AX - d * AY);
    }

    /// <summary>The same as an attribute's text.</summary>
    public string Matrix(OutlineSheet sheet, string view)
    {
        var (a, b, c, d, e, f) = On(sheet, view);
        return string.Create(CultureInfo.InvariantCulture, $"matrix({a:0.######} {b:0.######} {c:0.######} {d:0.######} {e:0.####} {f:0.####})");
    }
}
