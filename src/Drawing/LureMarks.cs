using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Drawing;

/// <summary>The marks of the lure itself: wood with its grain, the wire's eyes, hardware hanging, plumb bob and bubble.</summary>
internal sealed class LureMarks(LureDesign design, Prediction prediction, SideView view)
{
    private readonly (Vec3[] Upper, Vec3[] Lower) outline = view.Outline(prediction.Ledger.Skin);

    public void AddTo(ImmutableArray<Mark>.Builder marks)
    {
        if (prediction.Ledger.Stage >= Stage.DryFit && design.Wire is { } wire) AddEyes(marks, wire);
        foreach (Chain chain in prediction.Ledger.Chains) AddChain(marks, chain);
        marks.Add(new Stroke(Ink.Wood, [Around(view, outline)]));
        marks.Add(new Stroke(Ink.Grain, [.. Grain()]));
        if (design.Eyes is { } eyes && prediction.Ledger.Stage == Stage.Finished) AddLureEye(marks, eyes);
    }

    public void AddSigns(ImmutableArray<Mark>.Builder marks)
    {
        Signs.Bubble(marks, view.Page(prediction.Posture.CentreOfBuoyancy), 1);
        Signs.Bob(marks, view.Page(prediction.Body.Cg), 1);
    }

    /// <summary>The skin's outline as a closed smooth curve.</summary>
    public static Contour Around(SideView view, ClosedMesh skin) => Around(view, view.Outline(skin));

    private static Contour Around(SideView view, (Vec3[] Upper, Vec3[] Lower) outline)
    {
        (Vec3[] upper, Vec3[] lower) = outline;
        // Two smooth sides; a flat end between them keeps its corners.
        Contour up = Contour.Smooth(Spaced(upper.Select(view.Page))), down = Contour.Smooth(Spaced(lower.Reverse().Select(view.Page)));
        PagePoint tail = up.Steps[^1].End;
        return new Contour(up.Start, [.. up.Steps, (tail, down.Start, down.Start), .. down.Steps], Closed: true);
    }

    // Points nearer than half a millimetre of page say nothing; the last one stays.
    private static List<PagePoint> Spaced(IEnumerable<PagePoint> points)
    {
        var kept = new List<PagePoint>();
        PagePoint last = default;
        foreach (PagePoint p in points)
        {
            if (kept.Count == 0 || Math.Abs(p.X - kept[^1].X) + Math.Abs(p.Y - kept[^1].Y) > 0.5) kept.Add(p);
            last = p;
        }
        if (kept[^1] != last) kept.Add(last);
        return kept;
    }

    private IEnumerable<Contour> Grain()
    {
        (Vec3[] upper, Vec3[] lower) = outline;
        int n = Math.Min(upper.Length, lower.Length);
        double[] shares = [0.2, 0.36, 0.5, 0.63, 0.8];
        for (int k = 0; k < shares.Length; k++)
        {
            int from = n * (8 + 5 * ((k * 2) % 3)) / 100, to = n * (93 - 6 * ((k * 3) % 4)) / 100;
            var points = new List<PagePoint>();
            for (int i = from; i < to; i += 6)
            {
                // Grain runs almost with the outline, with the slow waver of wood.
                double share = shares[k] + 0.03 * Math.Sin(i * 0.06 + 2 * k);
                points.Add(view.Page(share * upper[i] + (1 - share) * lower[i]));
            }
            if (points.Count > 2) yield return Contour.Smooth(points);
        }
    }

    private void AddEyes(ImmutableArray<Mark>.Builder marks, WireDesign wire)
    {
        var shape = new WireShape(wire, design.Body.Surface());
        foreach (HangPlace place in shape.Places)
        {
            double radius = (place.Eye.InsideMm + wire.DiameterMm) / 2;
            Vec3 centre = place.At - place.Eye.InsideMm / 2 * place.Outward;
            marks.Add(new Circle(Ink.Wire, view.Page(centre), Math.Max(view.Scale * radius, 0.8)));
        }
    }

    // The ledger's chains hold what hangs there in the file's order; an item is known by its place in the file.
    private void AddChain(ImmutableArray<Mark>.Builder marks, Chain chain)
    {
        PagePoint at = view.Page(chain.HangPoint);
        foreach (HungItem item in chain.Items)
        {
            double length = view.Scale * item.Length;
            var drawn = ImmutableArray.CreateBuilder<Mark>();
            Hardware.Add(drawn, item.Item is { } own ? design.Hardware[own].Kind : null, at, length);
            if (item.Item is { } index)
                marks.Add(new Tap($"hardware-{index}", $"{item.Name} at the {chain.Place.Replace('_', ' ')}", drawn.ToImmutable(),
                    at + new PagePoint(-Math.Max(0.36 * length, 3), 0), Math.Max(0.72 * length, 6), length));
            else marks.AddRange(drawn);
            at = new PagePoint(at.X, at.Y + length);
        }
    }

    private void AddLureEye(ImmutableArray<Mark>.Builder marks, EyesDesign eyes)
    {
        double side = design.Body.Surface().SectionAt(eyes.XMm).BreadthAt(eyes.ZMm);
        PagePoint at = view.Page(new Vec3(eyes.XMm, -side, eyes.ZMm));
        marks.Add(new Circle(Ink.Bubble, at, view.Scale * eyes.DiameterMm / 2));
        marks.Add(new Circle(Ink.Bob, at, view.Scale * eyes.DiameterMm / 5));
    }
}
