using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing;

/// <summary>
/// The lure in the water: side on, as it will sit, its hardware hanging, a few pencil strokes where it could also be.
/// What was chosen stands above the waterline, what follows below it.
/// </summary>
public static class LureInWater
{
    private const double Width = 270;
    private const double Height = 150;
    private const double Stage = 172;
    private const double Margin = 13;
    private const double Sky = 26;
    private const double Column = 190;

    /// <summary>Draws a prediction.</summary>
    public static Picture Draw(LureDesign design, Prediction prediction, Notation notation)
    {
        ClosedMesh skin = prediction.Ledger.Skin;
        bool sunk = prediction.SpareBuoyancy <= 0;
        WaterPlane plane = sunk ? Sink(prediction) : prediction.Posture.Plane;
        (SideView view, double surface) = Place(prediction, new SideView(plane, Nose.Left));
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.Add(new Box(Ink.Paper, new PagePoint(0, 0), Width, Height));
        marks.Add(new Box(Ink.Water, new PagePoint(0, surface), Width, Height - surface));
        if (!sunk) AddOthers(marks, prediction, view);
        var lure = new LureMarks(design, prediction, view);
        lure.AddTo(marks);
        marks.Add(new Box(Ink.Veil, new PagePoint(0, surface), Width, Height - surface));
        marks.Add(Waves(surface));
        lure.AddSigns(marks);
        if (!sunk) Readings.AddTo(marks, prediction, view, skin, notation);
        else AddFall(marks, prediction, view, notation);
        AddText(marks, design, prediction, notation, surface);
        return new Picture(Width, Height, design.Name, Sentence.Of(prediction, notation), marks.ToImmutable());
    }

    // A sinker is only ever seen falling; one without a steady fall is drawn as it hangs at rest.
    internal static Vec3 Up(Prediction prediction) => prediction.Descent?.First?.Up ?? prediction.Posture.Plane.N;

    // A sunk lure has no waterline of its own: it is drawn a little under the surface.
    internal static WaterPlane Sink(Prediction prediction)
    {
        Vec3 n = Up(prediction);
        ClosedMesh skin = prediction.Ledger.Skin;
        double top = double.MinValue;
        for (int i = 0; i < skin.VertexCount; i++) top = Math.Max(top, Vec3.Dot(n, skin.Vertex(i)));
        double size = prediction.Ledger.SkinProperties.Volume / prediction.Posture.WettedArea;
        return new WaterPlane(n, top + 4 * size);
    }

    /// <summary>The largest scale at which lure and hardware fit, and where the water's surface then lies.</summary>
    private static (SideView View, double Surface) Place(Prediction prediction, SideView plain)
    {
        double left = double.MaxValue, right = double.MinValue, top = 4, bottom = -20;
        void Take(Vec3 p, double below = 0, double side = 0)
        {
            (double across, double up) = plain.World(p);
            (left, right) = (Math.Min(left, across - side), Math.Max(right, across + side));
            (top, bottom) = (Math.Max(top, up), Math.Min(bottom, up - below));
        }
        ClosedMesh skin = prediction.Ledger.Skin;
        for (int i = 0; i < skin.VertexCount; i++) Take(skin.Vertex(i));
        foreach (Chain chain in prediction.Ledger.Chains) Take(chain.HangPoint, chain.Items.Sum(i => i.Length), 12);
        double scale = Math.Min((Stage - 2 * Margin) / (right - left), Math.Min((Height - Sky - Margin) / (top - bottom), 0.9));
        double surface = Math.Max(Sky + 4, Margin + scale * top + 6);
        // Deep enough for the hardware: the lure may push the surface up, not down.
        surface = Math.Min(surface, Math.Max(Sky, Height - Margin + scale * bottom));
        var zero = new PagePoint(Margin + (Stage - 2 * Margin - scale * (right - left)) / 2 - scale * left, surface);
        return (new SideView(PlaneOf(prediction, plain), plain.Nose) { Scale = scale, Zero = zero }, surface);
    }

    private static WaterPlane PlaneOf(Prediction prediction, SideView plain)
    {
        // The view's own plane: its up direction, and an offset that puts height 0 where the view has it.
        Vec3 n = Up(prediction);
        return new WaterPlane(n, -plain.World(Vec3.Zero).Up);
    }

    internal static void AddOthers(ImmutableArray<Mark>.Builder marks, Prediction prediction, SideView view)
    {
        ClosedMesh skin = prediction.Ledger.Skin;
        Vec3 middle = prediction.Ledger.SkinProperties.Centroid;
        foreach (Posture other in prediction.Postures.Skip(1).Take(2))
        {
            var there = new SideView(other.Plane, view.Nose) { Scale = view.Scale };
            double shift = view.Page(middle).X - there.Page(middle).X;
            there = new SideView(other.Plane, view.Nose) { Scale = view.Scale, Zero = new PagePoint(shift, view.Zero.Y) };
            marks.Add(new Stroke(Ink.Pencil, [LureMarks.Around(there, skin)]));
        }
    }

    private static Stroke Waves(double surface)
    {
        // Long and low at the edges of the page, still where the lure lies.
        var points = new List<PagePoint>();
        for (int i = 0; i <= 90; i++)
        {
            double x = Width * i / 90.0;
            points.Add(new PagePoint(x, surface + 0.35 * Math.Sin(x * 0.42) + 0.15 * Math.Sin(x * 0.17)));
        }
        return new Stroke(Ink.Surface, [Contour.Smooth(points)]);
    }

    /// <summary>The angle, and the streaks of a fall over the back: slower falls leave shorter ones.</summary>
    internal static void AddFall(ImmutableArray<Mark>.Builder marks, Prediction prediction, SideView view, Notation notation)
    {
        ClosedMesh skin = prediction.Ledger.Skin;
        Readings.AddAngle(marks, WaterPlane.Trim(Up(prediction)), view, skin, notation);
        if (prediction.Descent?.First is not { } fall) return;
        (Vec3[] upper, _) = view.Outline(skin);
        double length = Math.Clamp(30 * fall.Rate, 2.5, 10);
        marks.Add(new Stroke(Ink.Measure, [.. new[] { 0.22, 0.38, 0.6, 0.78 }.Select((share, i) =>
        {
            PagePoint at = view.Page(upper[(int)(share * upper.Length)]);
            double from = at.Y - 2.2 - 0.8 * (i % 2);
            return Contour.Straight([new(at.X, from), new(at.X, from - length)]);
        })]));
    }

    private static void AddText(
        ImmutableArray<Mark>.Builder marks, LureDesign design, Prediction p, Notation notation, double surface)
    {
        double width = Width - Column - 8;
        double y = surface - 11;
        marks.Add(new Label(Shorten(design.Name, 24), new PagePoint(Column, y), 5.2, Voice.Title));
        string chosen = $"{Words.Of(p.Ledger.Stage)}, {Words.Of(p.Ledger.Rig)}, {Words.In(p.Circumstances.Water)}, "
            + $"{notation.Number(p.Circumstances.Water.TemperatureC, 0)} °C";
        marks.Add(new Label(chosen, new PagePoint(Column, y + 6), 3.1, Voice.Label));
        y = surface + 11;
        foreach (string line in Wrap(Sentence.Of(p, notation), (int)(width / 2.72)))
        {
            marks.Add(new Label(line, new PagePoint(Column, y), 4.9, Voice.Maker));
            y += 6.9;
        }
        y += 3;
        foreach ((string name, string value) in Numbers(p, notation))
        {
            marks.Add(new Label(name, new PagePoint(Column, y), 3.1, Voice.WetLabel));
            marks.Add(new Label(value, new PagePoint(Width - 10, y), 3.6, Voice.Maker, Anchor.End));
            y += 6;
        }
        AddSigns(marks, y + 1.5);
    }

    private static IEnumerable<(string, string)> Numbers(Prediction p, Notation notation)
    {
        yield return ("weighs", notation.Weight(p.Ledger.Weight));
        yield return ("takes up", notation.Volume(p.Ledger.Volume));
        yield return (p.SpareBuoyancy >= 0 ? "to spare" : "heavy in the water", notation.Weight(Math.Abs(p.SpareBuoyancy)));
        if (p.Descent is { First: { } fall, RateDoubt: double doubt })
            yield return ($"falls a {notation.Way} in", $"{Sentence.WaySeconds(fall.SecondsPerMetre, notation)}, or {Sentence.WaySeconds(fall.SecondsPerMetre / (1 + doubt), notation)} to {Sentence.WaySeconds(fall.SecondsPerMetre / (1 - doubt), notation)}");
        if (p.SpareBuoyancy > 0) yield return ("draft", notation.Length(p.Posture.Draft));
        if (p.Tipping is { } tipping && !p.Posture.HeelIsFree)
            yield return ("metacentric height", notation.Caliper(tipping.HeelGm));
    }

    private static void AddSigns(ImmutableArray<Mark>.Builder marks, double y)
    {
        Signs.Bob(marks, new PagePoint(Column + 2, y - 2.4), 0.75);
        marks.Add(new Label("weight acts here", new PagePoint(Column + 6, y), 2.8, Voice.Label));
        Signs.Bubble(marks, new PagePoint(Column + 38, y - 0.9), 0.75);
        marks.Add(new Label("the water lifts here", new PagePoint(Column + 42, y), 2.8, Voice.Label));
    }

    internal static IEnumerable<string> Wrap(string text, int columns)
    {
        string line = "";
        foreach (string word in text.Split(' '))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > columns)
            {
                yield return line;
                line = "";
            }
            line = line.Length == 0 ? word : $"{line} {word}";
        }
        if (line.Length > 0) yield return line;
    }

    private static string Shorten(string text, int most) => text.Length <= most ? text : text[..(most - 1)] + "…";
}
