using System.Globalization;
using Trimwright.App.Edits;
using Trimwright.Core.Shape;
using Trimwright.Drawing;

namespace Trimwright.App.Pages;

/// <summary>A point of an outline as the page shows it, to be dragged.</summary>
internal sealed record Knob(Line Line, int Index)
{
    public string Key => $"{Reshape.Word(Line)}-{Index.ToString(CultureInfo.InvariantCulture)}";

    public static Knob? Of(string? key)
    {
        if (key?.Split('-') is not [var word, var number] || !int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int index)) return null;
        foreach (Line line in Enum.GetValues<Line>())
            if (Reshape.Word(line) == word) return new Knob(line, index);
        return null;
    }

    /// <summary>Which way its value is measured, in a maker's words.</summary>
    public static string Across(Line line) => line switch
    {
        Line.Back => "above the axis",
        Line.Belly => "below the axis",
        Line.Plan => "from the seam",
    };

    /// <summary>Where a point of an outline lies on the sheet.</summary>
    public static (double X, double Y) On(OutlineSheet sheet, Line line, OutlinePoint point)
    {
        PagePoint at = line == Line.Plan ? sheet.Half(point.X, point.Value) : sheet.Side(point.X, point.Value);
        return (at.X, at.Y);
    }

    /// <summary>What a place of the sheet means for an outline: station and value, mm.</summary>
    public static (double X, double Value) Place(OutlineSheet sheet, Line line, double x, double y) =>
        (sheet.Station(x), (line == Line.Plan ? sheet.Seam : sheet.Axis) - y);
}
