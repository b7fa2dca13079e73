using System.Collections.Immutable;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing;

/// <summary>
/// The same lure in the same water as <see cref="LureInWater"/> draws, for a page that has a waterline of its own: without
/// paper, water and words, and with the surface at one height for every lure, so that they all lie in one line.
/// </summary>
public static class Afloat
{
    public const double Width = 200;
    public const double Height = 100;

    /// <summary>Where the page's waterline crosses the picture, from its top.</summary>
    public const double Surface = 26;

    private const double Margin = 9;
    private const double Largest = 0.88;

    /// <summary>Draws a prediction.</summary>
    /// <param name="design">The design.</param>
    /// <param name="prediction">Of that design.</param>
    /// <param name="notation">How numbers are shown.</param>
    /// <param name="bare">Without readings and signs, as on a small card.</param>
    /// <param name="couldBe">Up directions, in body axes, of builds that are as likely: a pencil stroke each. Of those that do as this one does, floating or falling.</param>
    /// <param name="nose">To which side it points.</param>
    public static Picture Draw(LureDesign design, Prediction prediction, Notation notation, bool bare = false, IReadOnlyList<Vec3>? couldBe = null, Nose nose = Nose.Left)
    {
        bool sunk = prediction.SpareBuoyancy <= 0;
        WaterPlane plane = sunk ? LureInWater.Sink(prediction) : prediction.Posture.Plane;
        SideView view = Place(prediction, new SideView(plane, nose));
        var marks = ImmutableArray.CreateBuilder<Mark>();
        if (!sunk) LureInWater.AddOthers(marks, prediction, view);
        foreach (Vec3 up in couldBe ?? []) marks.Add(Could(prediction, view, up, sunk));
        var lure = new LureMarks(design, prediction, view);
        lure.AddTo(marks);
        // What is under water is seen through it, and a finger goes through to the hook.
        marks.Add(new Box(Ink.Veil, new PagePoint(0, Surface), Width, Height - Surface));
        if (!bare)
        {
            lure.AddSigns(marks);
            if (sunk) LureInWater.AddFall(marks, prediction, view, notation);
            else Readings.AddTo(marks, prediction, view, prediction.Ledger.Skin, notation);
        }
        ImmutableArray<Mark> all = bare ? [.. marks.SelectMany(m => m is Tap tap ? tap.Marks : [m])] : marks.ToImmutable();
        return new Picture(Width, Height, design.Name, Sentence.Of(prediction, notation), all);
    }

    // Afloat it lies as deep as it must to carry itself; a falling one turns about its middle.
    private static Stroke Could(Prediction prediction, SideView view, Vec3 up, bool sunk)
    {
        Vec3 middle = prediction.Ledger.SkinProperties.Centroid;
        var plane = new WaterPlane(up, sunk ? 0 : Equilibrium.Afloat(prediction.Body, up).Offset);
        var there = new SideView(plane, view.Nose) { Scale = view.Scale };
        PagePoint at = view.Page(middle), turned = there.Page(middle);
        var zero = new PagePoint(at.X - turned.X, sunk ? at.Y - turned.Y : view.Zero.Y);
        return new Stroke(Ink.Pencil, [LureMarks.Around(new SideView(plane, view.Nose) { Scale = view.Scale, Zero = zero }, prediction.Ledger.Skin)]);
    }

    /// <summary>The largest scale at which lure and hardware fit over and under the surface.</summary>
    private static SideView Place(Prediction prediction, SideView plain)
    {
        double left = double.MaxValue, right = double.MinValue, top = 1, bottom = -20;
        void Take(Vec3 p, double below = 0, double side = 0)
        {
            (double across, double up) = plain.World(p);
            (left, right) = (Math.Min(left, across - side), Math.Max(right, across + side));
            (top, bottom) = (Math.Max(top, up), Math.Min(bottom, up - below));
        }
        ClosedMesh skin = prediction.Ledger.Skin;
        for (int i = 0; i < skin.VertexCount; i++) Take(skin.Vertex(i));
        foreach (Chain chain in prediction.Ledger.Chains) Take(chain.HangPoint, chain.Items.Sum(i => i.Length), 12);
        double scale = Math.Min(Math.Min((Width - 2 * Margin) / (right - left), (Surface - 8) / top), Math.Min((Height - Surface - 4) / -bottom, Largest));
        var zero = new PagePoint((Width - scale * (right + left)) / 2, Surface);
        Vec3 n = LureInWater.Up(prediction);
        return new SideView(new WaterPlane(n, -plain.World(Vec3.Zero).Up), plain.Nose) { Scale = scale, Zero = zero };
    }
}
