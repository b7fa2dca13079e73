using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Shape;

namespace Trimwright.App.Edits;

/// <summary>The three outlines of a lure.</summary>
internal enum Line
{
    Back,
    Belly,
    Plan,
}

/// <summary>What a maker does to a shape: each a design from a design. Whether the result is sound, its reader says.</summary>
internal static class Reshape
{
    // A tenth of a millimetre is what a pencil and a ruler hold.
    private const double Grain = 0.1;

    // Points nearer to each other than this can't be told apart on paper.
    private const double Apart = 1;

    public static Outline Of(BodyDesign body, Line line) => line switch
    {
        Line.Back => body.Back,
        Line.Belly => body.Belly,
        Line.Plan => body.Plan,
    };

    public static string Word(Line line) => line switch
    {
        Line.Back => "back",
        Line.Belly => "belly",
        Line.Plan => "plan",
    };

    /// <summary>Moves a point of an outline (mm), as far as its neighbours let it. Where back and belly meet they move together.</summary>
    public static LureDesign Move(LureDesign design, Line line, int index, double x, double value)
    {
        BodyDesign body = design.Body;
        Outline outline = Of(body, line);
        if (index < 0 || index >= outline.Points.Length) return design;
        bool end = index == 0 || index == outline.Points.Length - 1;
        OutlinePoint old = outline.Points[index];
        (double least, double most) = Room(outline, index);
        double to = end ? old.X : Math.Clamp(Round(x), least, most);
        var point = new OutlinePoint(to, line == Line.Plan ? Math.Max(0, Round(value)) : Round(value));
        BodyDesign moved = With(body, line, Replace(outline, index, point));
        if (!end || line == Line.Plan) return design with { Body = moved };
        Line other = line == Line.Back ? Line.Belly : Line.Back;
        Outline beside = Of(body, other);
        int its = index == 0 ? 0 : beside.Points.Length - 1;
        return design with { Body = beside.Points[its].Value == old.Value ? With(moved, other, Replace(beside, its, beside.Points[its] with { Value = point.Value })) : moved };
    }

    /// <summary>From where to where along the lure, mm, a point can be moved between its neighbours; an end stays where it is.</summary>
    public static (double Least, double Most) Room(Outline outline, int index) => index == 0 || index == outline.Points.Length - 1
        ? (outline.Points[index].X, outline.Points[index].X)
        : (outline.Points[index - 1].X + Apart, Math.Max(outline.Points[index - 1].X + Apart, outline.Points[index + 1].X - Apart));

    /// <summary>Whether a new point has room at a station, mm: on the lure, and a millimetre from every other.</summary>
    public static bool HasRoom(BodyDesign body, Line line, double x) =>
        Round(x) is var at && at >= Apart && at <= body.LengthMm - Apart && Of(body, line).Points.All(p => Math.Abs(p.X - at) >= Apart);

    /// <summary>A new point on the curve at a station, mm; none where one is already.</summary>
    public static LureDesign Add(LureDesign design, Line line, double x)
    {
        Outline outline = Of(design.Body, line);
        double at = Round(x);
        if (!HasRoom(design.Body, line, x)) return design;
        Body surface = design.Body.Surface();
        double value = line switch { Line.Back => surface.BackAt(at), Line.Belly => surface.BellyAt(at), Line.Plan => surface.HalfBreadthAt(at) };
        int index = outline.Points.Count(p => p.X < at);
        return design with { Body = With(design.Body, line, outline with { Points = outline.Points.Insert(index, new OutlinePoint(at, Round(value))) }) };
    }

    /// <summary>Takes a point out; the two ends stay.</summary>
    public static LureDesign Remove(LureDesign design, Line line, int index)
    {
        Outline outline = Of(design.Body, line);
        if (index <= 0 || index >= outline.Points.Length - 1) return design;
        double x = outline.Points[index].X;
        return design with { Body = With(design.Body, line, outline with { Points = outline.Points.RemoveAt(index), Corners = outline.Corners.Remove(x) }) };
    }

    /// <summary>Another length, mm: everything drawn in proportion, or stretched along only. Things with grams keep them.</summary>
    public static LureDesign Length(LureDesign design, double length, bool inProportion)
    {
        double k = length / design.Body.LengthMm, across = inProportion ? k : 1;
        BodyDesign body = design.Body;
        // No lure has that length; its reader says so.
        if (k <= 0) return design with { Body = body with { LengthMm = length } };
        return design with
        {
            Body = body with
            {
                LengthMm = length,
                Back = Scaled(body.Back, length, k, across),
                Belly = Scaled(body.Belly, length, k, across),
                Plan = Scaled(body.Plan, length, k, across),
                Section = [.. body.Section.Select(f => f with { X = f.X * k, Widest = f.Widest * across })],
                NoseFace = body.NoseFace is not { } face ? null : face with
                {
                    CupDiameterMm = face.CupDiameterMm * across, CupDepthMm = face.CupDepthMm * across, CupAtZMm = face.CupAtZMm * across,
                },
            },
            Wire = design.Wire is not { } wire ? null : Scaled(wire, k, across),
            Ballast = [.. design.Ballast.Select(piece => piece with { AtMm = [piece.AtMm[0] * k, piece.AtMm[1] * across, piece.AtMm[2] * across] })],
            Eyes = design.Eyes is not { } eyes ? null : eyes with { XMm = eyes.XMm * k, ZMm = eyes.ZMm * across },
            Joint = design.Joint is not { } joint ? null : joint with { PinsMm = [.. joint.PinsMm.Select(p => (p.X * k, p.Z * across))] },
        };
    }

    private static WireDesign Scaled(WireDesign wire, double k, double across) => wire with
    {
        LineTie = Scaled(wire.LineTie, k, across),
        TailLoop = wire.TailLoop is { } tail ? Scaled(tail, k, across) : null,
        Hangers = [.. wire.Hangers.Select(h => h with { XMm = h.XMm * k, Eye = Scaled(h.Eye, k, across) })],
        RunMm = [.. wire.RunMm.Select(p => (p.X * k, p.Z * across))],
    };

    private static EyeDesign Scaled(EyeDesign eye, double k, double across) => eye with
    {
        ZMm = eye.ZMm * across,
        HangAtMm = eye.HangAtMm is { } at ? [at[0] * k, .. at.Skip(1).Select(v => v * across)] : null,
    };

    private static Outline Scaled(Outline outline, double length, double k, double across)
    {
        // The last point is the length to the digit, whatever k rounds to.
        ImmutableArray<OutlinePoint> points = [.. outline.Points.Select((p, i) => new OutlinePoint(i == outline.Points.Length - 1 ? length : Fine(p.X * k), Fine(p.Value * across)))];
        return outline with { Points = points, Corners = [.. outline.Corners.Select(c => points[outline.Points.IndexOf(outline.Points.First(p => p.X == c))].X)] };
    }

    private static Outline Replace(Outline outline, int index, OutlinePoint point) => outline with
    {
        Points = outline.Points.SetItem(index, point),
        Corners = [.. outline.Corners.Select(c => c == outline.Points[index].X ? point.X : c)],
    };

    private static BodyDesign With(BodyDesign body, Line line, Outline outline) => line switch
    {
        Line.Back => body with { Back = outline },
        Line.Belly => body with { Belly = outline },
        Line.Plan => body with { Plan = outline },
    };

    private static double Round(double mm) => Math.Round(mm / Grain) / Math.Round(1 / Grain);

    private static double Fine(double mm) => Math.Round(mm, 3);
}
