using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.Drawing.Sheets;

/// <summary>What the blank is sawn to: its side, then its plan.</summary>
internal static class OutlineSheets
{

    public static Sheet SideOutline(Drafting d)
    {
        double above = 14, below = 30;
        var field = new Field(d.Wide, above + d.Top - d.Bottom + below);
        View view = d.View(d.Left, above + d.Top);
        AddStations(field, d, view, d.Top + 5, d.Bottom - 4);
        AddAxis(field, d, view, "axis");
        field.Path(Ink.Cut, d.Profile().Select(view.At), closed: true);
        AddFace(field, d, view);
        AddPricks(field, d, view, d.Bottom - 13);
        double foot = above + d.Top - d.Bottom + below - 3;
        field.Measure(view.At(0, 0) with { Y = foot }, view.At(d.Length, 0) with { Y = foot }, d.FineWithUnit(d.Length));
        return new Sheet("side", "Side outline",
            "Cut first. Stick it on the tacked boards, prick the rings through, saw to the line; tape the offcuts back on.",
            [field.Done("Side outline")]);
    }

    public static Sheet PlanOutline(Drafting d)
    {
        double above = 14, below = 18, half = d.HalfBreadth;
        var field = new Field(d.Wide, above + 2 * half + below);
        View view = d.View(d.Left, above + half);
        AddStations(field, d, view, half + 5, -half - 4);
        AddAxis(field, d, view, "seam");
        field.Path(Ink.Cut, d.Plan().Select(view.At), closed: true);
        (double a, double b) = d.Index;
        foreach ((double x, string name) in new[] { (a, "A"), (b, "B") })
        {
            field.Prick(view.At(x, 0));
            field.Say(name, view.At(x, 0) + new PagePoint(1.8, -1.4), Anchor.Start, Field.Small);
        }
        double foot = above + 2 * half + below - 3;
        field.Measure(view.At(0, 0) with { Y = foot }, view.At(d.Length, 0) with { Y = foot }, d.FineWithUnit(d.Length));
        return new Sheet("plan", "Plan outline",
            "Cut second. Stick it flat on the offcut taped back over the back, its middle line on the joint between the boards.",
            [field.Done("Plan outline")]);
    }

    internal static void AddStations(Field field, Drafting d, View view, double top, double bottom)
    {
        field.Lines(Ink.Grid, d.Stations.Select(x => (view.At(x, top), view.At(x, bottom))));
        foreach (double x in d.Stations)
            field.Say(d.Station(x), view.At(x, top) + new PagePoint(0, -1.4), Anchor.Middle);
    }

    internal static void AddAxis(Field field, Drafting d, View view, string name)
    {
        PagePoint nose = view.At(-9, 0), tail = view.At(d.Length + 9, 0);
        field.Line(Ink.Grid, nose, tail);
        bool left = nose.X < tail.X;
        field.Say("nose", nose + new PagePoint(0, -1.4), left ? Anchor.End : Anchor.Start, Field.Small);
        field.Say(name, nose + new PagePoint(0, 3.8), left ? Anchor.End : Anchor.Start, Field.Small);
        field.Say("tail", tail + new PagePoint(0, -1.4), left ? Anchor.Start : Anchor.End, Field.Small);
    }

    // A cup is carved while the blank is whole; its bottom is a later mark.
    internal static void AddFace(Field field, Drafting d, View view)
    {
        if (d.Body.Face is not { CupDepth: > 0 } face) return;
        double radius = face.CupDiameter / 2 * Math.Cos(face.Slant);
        field.Path(Ink.Later, Enumerable.Range(0, 41)
            .Select(i => face.CupHeight - radius + radius * i / 20)
            .Select(z => view.At(d.Body.FaceAt(0, z), z)));
    }

    private static void AddPricks(Field field, Drafting d, View view, double row)
    {
        var notes = new List<(PagePoint, string[])>();
        (double a, double b) = d.Index;
        foreach ((double x, string name) in new[] { (a, "A"), (b, "B") })
        {
            field.Prick(view.At(x, 0));
            // Under the axis where an eye stands over it.
            bool eye = d.Design.Eyes is { ZMm: >= 0 } e && Math.Abs(e.XMm - x) < e.DiameterMm / 2 + 5;
            field.Say(name, view.At(x, 0) + new PagePoint(1.8, eye ? 3.6 : -1.4), Anchor.Start, Field.Small);
        }
        if (d.Design.Wire is { } wire)
        {
            field.Prick(view.At(d.Body.FaceAt(0, wire.LineTie.ZMm), wire.LineTie.ZMm));
            if (wire.TailLoop is { } tail) field.Prick(view.At(d.Length, tail.ZMm));
            foreach (Hanger hanger in wire.Hangers)
            {
                PagePoint at = view.At(hanger.XMm, d.Body.BellyAt(hanger.XMm));
                field.Prick(at);
                notes.Add((at + new PagePoint(0, 1.1), [$"{Kind(hanger.Kind)}, {hanger.Name}", $"at {d.FineWithUnit(hanger.XMm)}"]));
            }
        }
        if (d.Design.Eyes is { } eyes)
        {
            PagePoint at = view.At(eyes.XMm, eyes.ZMm);
            field.Prick(at);
            field.Circle(Ink.Later, at, eyes.DiameterMm / 2);
        }
        if (d.Body.Face is { } face) notes.Add((view.At(d.Body.FaceAt(0, face.CupHeight - 0.3 * face.CupDiameter), face.CupHeight - 0.3 * face.CupDiameter), Face(d, face)));
        Callouts.Row(field, view.At(0, row).Y, notes);
    }

    private static string Kind(HangerKind kind) => kind switch
    {
        HangerKind.Swivel => "swivel slot",
        HangerKind.ScrewEye => "screw eye",
        HangerKind.Loop => "hanger",
    };

    private static string[] Face(Drafting d, NoseFace face) => face.CupDepth > 0
        ? [$"cup {d.Fine(face.CupDiameter)} across, {d.FineWithUnit(face.CupDepth)} deep", "carve it before splitting"]
        : [face.Slant == 0 ? "flat face" : $"face slants {d.Notation.Angle(Math.Abs(face.Slant))}", "saw it before splitting"];
}
