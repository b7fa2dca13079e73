using Trimwright.Core.Carving;
using Trimwright.Core.Shape;

namespace Trimwright.Drawing.Sheets;

/// <summary>Half cards to hold against the blank while it is rounded.</summary>
internal static class GaugeSheet
{
    private const double Rim = 11;
    private const double Gap = 7;

    public static Sheet Draw(Drafting d)
    {
        Section[] sections = [.. Core.Shape.Stations.ForGauges(d.Body, d.Options.Step).Select(d.Body.SectionAt)];
        double[] stations = [.. Core.Shape.Stations.ForGauges(d.Body, d.Options.Step)];
        var fields = new List<Picture>();
        double room = d.Options.Room.Width, height = d.Options.Room.Height;
        var field = new Field(room, height);
        double x = 0, y = 0, row = 0, used = 0;
        for (int i = 0; i < stations.Length; i++)
        {
            double w = sections[i].HalfBreadth + Rim, h = sections[i].Back - sections[i].Belly + 2 * Rim;
            if (x > 0 && x + w > room) (x, y, row) = (0, y + row + Gap, 0);
            if (y > 0 && y + h > height)
            {
                fields.Add(Trimmed(field, used, y + row));
                field = new Field(room, height);
                (x, y, row, used) = (0, 0, 0, 0);
            }
            AddCard(field, d, stations[i], sections[i], new PagePoint(x, y));
            x += w + Gap;
            used = Math.Max(used, x - Gap);
            row = Math.Max(row, h);
        }
        fields.Add(Trimmed(field, used, y + row));
        return new Sheet("gauges", "Station gauges",
            "Glue on card, cut out. The straight edge goes on the seam, the fine line on the widest line; turned over, it is the other side.",
            [.. fields]);
    }

    // The cards then stand in the middle of the page.
    private static Picture Trimmed(Field field, double width, double height) =>
        field.Done("Station gauges") with { Width = width, Height = height };

    /// <summary>A card whose left edge is the seam and whose hollow is half the section.</summary>
    private static void AddCard(Field field, Drafting d, double station, Section s, PagePoint corner)
    {
        double w = s.HalfBreadth + Rim, h = s.Back - s.Belly + 2 * Rim;
        PagePoint At(double y, double z) => new(corner.X + y, corner.Y + Rim + s.Back - z);
        PagePoint[] outside = [At(0, s.Back), corner, new(corner.X + w, corner.Y), new(corner.X + w, corner.Y + h), new(corner.X, corner.Y + h)];
        field.Path(Ink.Cut, outside.Concat(StationGauge.Half(s).Reverse().Select(p => At(p.Y, p.Z))).SkipLast(1), closed: true);
        field.Line(Ink.Grid, At(s.HalfBreadth, s.Widest), At(w, s.Widest));
        field.Say(d.Station(station), new PagePoint(corner.X + w / 2, corner.Y + 5.4), Anchor.Middle, 4.6);
        field.Say("back", new PagePoint(corner.X + 1.2, corner.Y + 9.4), Anchor.Start, 2.4);
        field.Say("belly", new PagePoint(corner.X + 1.2, corner.Y + h - 7.4), Anchor.Start, 2.4);
    }
}
