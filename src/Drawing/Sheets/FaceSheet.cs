using Trimwright.Core.Carving;

namespace Trimwright.Drawing.Sheets;

/// <summary>Eye, mouth and gill lines on both sides of the head: for looks only, and alike.</summary>
internal static class FaceSheet
{
    private const double Side = 14;

    // The sentence under the faces.
    private const double Least = 160;

    public static Sheet Draw(Drafting d)
    {
        FaceMarks marks = FaceMarks.Of(d.Design, d.Body);
        double end = Math.Min(Math.Max(marks.Gill.Max(p => p.X) + 14, 0.3 * d.Length), d.Length);
        double top = d.Along.Where(x => x <= end).Max(d.Body.BackAt), bottom = d.Along.Where(x => x <= end).Min(d.Body.BellyAt);
        const double above = 14, below = 24;
        double both = 2 * (end + 2 * Side), height = above + top - bottom + below;
        // Each side as it is seen from its own side; a long head has a page for each.
        (Field Left, Field Right) fields = both > d.Options.Room.Width
            ? (new Field(Math.Max(both / 2, Least), height), new Field(Math.Max(both / 2, Least), height))
            : new Field(Math.Max(both, Least), height) is var one ? (one, one) : default;
        AddSide(fields.Left, d, marks, new View(Side, above + top, end, false, false), end, "left side");
        AddSide(fields.Right, d, marks, new View(fields.Right.Width - Side - end, above + top, end, true, false), end, "right side");
        Field[] pages = fields.Left == fields.Right ? [fields.Left] : [fields.Left, fields.Right];
        string eye = marks.EyeGiven
            ? $"Eye {d.FineWithUnit(marks.EyeDiameter)}, let in {d.FineWithUnit(d.Design.Eyes!.ThicknessMm)} deep, {d.FineWithUnit(marks.EyeX)} from the nose, {d.FineWithUnit(marks.EyeZ)} over the axis."
            : $"Eye proposed: {d.FineWithUnit(marks.EyeDiameter)}, {d.FineWithUnit(marks.EyeX)} from the nose. Not in the prediction yet.";
        foreach (Field page in pages) page.Say(eye, new PagePoint(page.Width / 2, height - 3), Anchor.Middle, Field.Text, Voice.Maker);
        return new Sheet("face", "Face, both sides",
            "For looks only. Prick eye and lines through on one side, then on the other, and compare before you cut.",
            [.. pages.Select(p => p.Done("Face"))]);
    }

    private static void AddSide(Field field, Drafting d, FaceMarks marks, View view, double end, string name)
    {
        double[] along = [.. d.Along.Where(x => x < end), end];
        IEnumerable<(double X, double Z)> Line(IEnumerable<double> xs, Func<double, double> z) =>
            xs.Where(x => x >= d.Body.FacePlaneAt(z(x))).Select(x => (x, z(x)));
        field.Path(Ink.Cut, Line(along.Reverse(), d.Body.BackAt).Concat(Line(along, d.Body.BellyAt)).Select(view.At));
        // Broken off with a long wave.
        double top = d.Body.BackAt(end), bottom = d.Body.BellyAt(end);
        field.Path(Ink.Grid, Enumerable.Range(0, 25).Select(i => view.At(end + 1.2 * Math.Sin(i * Math.PI / 6), bottom + (top - bottom) * i / 24)));
        field.Line(Ink.Grid, view.At(0, 0), view.At(end, 0));
        OutlineSheets.AddFace(field, d, view);
        PagePoint eye = view.At(marks.EyeX, marks.EyeZ);
        field.Circle(Ink.Cut, eye, marks.EyeDiameter / 2);
        field.Prick(eye);
        foreach (IEnumerable<(double X, double Z)> line in new[] { marks.Gill, marks.GillInner, marks.Mouth })
            if (line.Any()) field.Path(Ink.Mark, line.Select(view.At));
        double over = d.Along.Where(x => x <= end).Max(d.Body.BackAt);
        foreach (double x in d.Stations.Where(x => x < end))
        {
            field.Line(Ink.Grid, view.At(x, d.Body.BackAt(x)), view.At(x, over + 3));
            field.Say(d.Station(x), view.At(x, over + 4.4), Anchor.Middle);
        }
        double low = d.Along.Where(x => x <= end).Min(d.Body.BellyAt);
        field.Say(name, view.At(end / 2, low - 7), Anchor.Middle, 4.4, Voice.Maker);
    }
}
