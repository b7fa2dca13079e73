using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing;

/// <summary>Numbers marked on the lure where a maker would measure them: what shows along the back, and the angle.</summary>
internal static class Readings
{
    private const double Away = 4.2;
    private const double LeastShown = 4;

    public static void AddTo(
        ImmutableArray<Mark>.Builder marks, Prediction prediction, SideView view, ClosedMesh skin, Notation notation)
    {
        Posture posture = prediction.Posture;
        if (skin.Sides == 0) return;
        if (posture.Trim > 0.17 && posture.NoseShowsAlong > LeastShown)
            AddLength(marks, view, Dry(Profile.Back(skin), posture.Plane), posture.NoseShowsAlong, notation);
        else if (posture.Trim < -0.17 && posture.TailShowsAlong > LeastShown)
            AddLength(marks, view, Dry([.. Profile.Back(skin).Reverse()], posture.Plane), posture.TailShowsAlong, notation);
        else if (posture.BackProud > 0.5)
            AddProud(marks, view, posture, skin, notation);
        AddAngle(marks, posture.Trim, view, skin, notation);
    }

    /// <summary>The axis against the level, when it isn't level.</summary>
    public static void AddAngle(
        ImmutableArray<Mark>.Builder marks, double trim, SideView view, ClosedMesh skin, Notation notation)
    {
        if (Math.Abs(trim) < Units.FromDegrees(10)) return;
        Vec3 nose = skin.Vertex(0), tail = skin.Vertex(skin.VertexCount - 1);
        // From the end that is down, where there is water to write on.
        (Vec3 low, Vec3 high) = trim > 0 ? (tail, nose) : (nose, tail);
        PagePoint at = view.Page(low), to = view.Page(high);
        double along = Math.Atan2(-(to.Y - at.Y), to.X - at.X), flat = Math.Cos(along) >= 0 ? 0 : Math.PI;
        double reach = 0.34 * Math.Sqrt((to.X - at.X) * (to.X - at.X) + (to.Y - at.Y) * (to.Y - at.Y)), r = 0.8 * reach;
        marks.Add(new Stroke(Ink.Measure, [Contour.Straight([at, At(flat, reach)])]));
        PagePoint[] arc = [.. Enumerable.Range(0, 13).Select(k => At(flat + (along - flat) * k / 12, r))];
        marks.Add(new Stroke(Ink.Measure, [Contour.Smooth(arc)]));
        PagePoint text = At(flat + (along - flat) * 0.42, r + 3.2);
        marks.Add(new Label(notation.Angle(Math.Abs(trim)), new PagePoint(text.X, text.Y + 1), 3.4, Voice.WetLabel, flat == 0 ? Anchor.Start : Anchor.End));

        PagePoint At(double angle, double radius) => new(at.X + radius * Math.Cos(angle), at.Y - radius * Math.Sin(angle));
    }

    private static List<Vec3> Dry(Vec3[] line, WaterPlane plane)
    {
        var dry = new List<Vec3>();
        for (int i = 0; i < line.Length; i++)
        {
            double h = plane.Height(line[i]);
            if (h <= 0)
            {
                double before = plane.Height(line[i - 1]);
                dry.Add(line[i - 1] + before / (before - h) * (line[i] - line[i - 1]));
                break;
            }
            dry.Add(line[i]);
        }
        return dry;
    }

    /// <summary>A measure beside the back, from the end of the lure to the water.</summary>
    private static void AddLength(
        ImmutableArray<Mark>.Builder marks, SideView view, List<Vec3> line, double length, Notation notation)
    {
        PagePoint a = view.Page(line[0]), b = view.Page(line[^1]);
        double dx = b.X - a.X, dy = b.Y - a.Y, size = Math.Sqrt(dx * dx + dy * dy);
        if (size < 1) return;
        // Square to the chord, on the side away from the body's middle: the back.
        double nx = dy / size, ny = -dx / size;
        double bulge = Math.Max(0, line.Select(view.Page).Max(p => (p.X - a.X) * nx + (p.Y - a.Y) * ny));
        double other = Math.Min(0, line.Select(view.Page).Min(p => (p.X - a.X) * nx + (p.Y - a.Y) * ny));
        (double side, double away) = bulge > -other ? (1.0, bulge + Away) : (-1.0, -other + Away);
        PagePoint Off(PagePoint p, double d) => new(p.X + side * nx * d, p.Y + side * ny * d);
        marks.Add(new Stroke(Ink.Measure,
        [
            Contour.Straight([Off(a, away), Off(b, away)]),
            Contour.Straight([Off(a, 1.2), Off(a, away + 1.4)]),
            Contour.Straight([Off(b, 1.2), Off(b, away + 1.4)]),
        ]));
        PagePoint text = Off(new PagePoint((a.X + b.X) / 2, (a.Y + b.Y) / 2), away + 2);
        bool toRight = side * nx > 0.3, toLeft = side * nx < -0.3;
        marks.Add(new Label(notation.Length(length), new PagePoint(text.X, text.Y + 1), 3.4, Voice.Label,
            toRight ? Anchor.Start : toLeft ? Anchor.End : Anchor.Middle));
    }

    private static void AddProud(ImmutableArray<Mark>.Builder marks, SideView view, Posture posture, ClosedMesh skin, Notation notation)
    {
        Vec3 top = Profile.Back(skin).MaxBy(posture.Plane.Height);
        PagePoint at = view.Page(top);
        marks.Add(new Stroke(Ink.Measure,
        [
            Contour.Straight([new(at.X, at.Y - 4.5), new(at.X, at.Y - 0.6)]),
            Contour.Straight([new(at.X - 1.4, at.Y - 0.3), new(at.X + 1.4, at.Y - 0.3)]),
        ]));
        marks.Add(new Label($"{notation.Length(posture.BackProud)} proud", new PagePoint(at.X, at.Y - 6), 3.4, Voice.Label, Anchor.Middle));
    }
}
