using System.Collections.Concurrent;
using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>How the glued body's width differs from the blank as drawn.</summary>
/// <param name="Lost">mm lost from each half at the seam: tack, kerf and cleaning take theirs.</param>
/// <param name="Gained">mm by which each half then moves out: half the glue.</param>
/// <param name="RightWider">mm by which the right half's greatest half-breadth exceeds the left's.</param>
public readonly record struct Seam(double Lost, double Gained, double RightWider)
{
    public static readonly Seam AsDrawn = new(0, 0, 0);
}

/// <summary>Number of rings along the body and of vertices around each.</summary>
/// <param name="Rings">At least 8.</param>
/// <param name="Sides">A multiple of 4, at least 8, at most 64.</param>
public readonly record struct MeshSize(int Rings, int Sides)
{
    /// <summary>The live mesh: about 20 000 triangles.</summary>
    public static readonly MeshSize Live = new(161, 64);

    /// <summary>About 2 000 triangles, for statistics over many lures.</summary>
    public static readonly MeshSize Coarse = new(33, 32);
}

/// <summary>
/// The body as a closed mesh of rings.
/// <para>
/// A polygon drawn through a section's own points loses 0.16 % of its area at 64 sides, as much as the whole answer
/// of a lure that hardly floats. So each ring is drawn a hair larger, such that its <em>area</em> is the section's,
/// exactly. Rings lie at x = ½L(1 − cos), which resolves round ends; diagonals are mirrored left to right, so that a
/// lure with equal halves has no heel, exactly.
/// </para>
/// </summary>
public static class BodyMesh
{
    private const int CupRings = 12;

    /// <summary>The mesh of a body whose halves meet as <paramref name="seam"/> says.</summary>
    public static ClosedMesh Of(Body body, MeshSize size, Seam seam = default)
    {
        var rings = new RingMaker(body, size.Sides, seam);
        var points = new List<Vec3>((size.Rings + CupRings) * size.Sides + 2);
        AddNose(body, rings, points, size);
        int faceRings = (points.Count - 1) / size.Sides;
        double[] stations = Stations(body, rings, size.Rings);
        double fade = FadeLength(body);
        for (int i = 0; i < stations.Length; i++)
        {
            bool closedEnd = (i == 0 && body.NoseCloses) || (i == stations.Length - 1 && body.TailCloses);
            if (!closedEnd) rings.Add(points, stations[i], fade);
        }
        double tail = stations[^1];
        points.Add(new Vec3(tail, 0, body.SectionAt(tail).Widest));
        int count = (points.Count - 2) / size.Sides;
        double[] growth = [.. Enumerable.Repeat(1.0, faceRings), .. rings.Growth];
        return new ClosedMesh(points, Triangles(count, size.Sides), count, size.Sides, faceRings, growth);
    }

    /// <summary>The pole, and for a cupped nose the rings from the cup's bottom to its rim.</summary>
    private static void AddNose(Body body, RingMaker rings, List<Vec3> points, MeshSize size)
    {
        if (body.NoseCloses || body.Face is not { } face)
        {
            points.Add(new Vec3(rings.From, 0, body.SectionAt(rings.From).Widest));
            return;
        }
        if (face.Kind != NoseFaceKind.Cupped)
        {
            double z = body.SectionAt(0).Widest;
            points.Add(new Vec3(body.FacePlaneAt(z), 0, z));
            return;
        }
        (double sin, double cos) = Math.SinCos(face.Slant);
        Vec3 up = new(-sin, 0, cos), inward = new(cos, 0, sin);
        Vec3 centre = new(body.FacePlaneAt(face.CupHeight), 0, face.CupHeight);
        double radius = face.CupDiameter / 2, depth = face.CupDepth;
        double sphere = (radius * radius + depth * depth) / (2 * depth);
        // A regular polygon of the circle's own area.
        double turn = 2 * Math.PI / size.Sides, grow = Math.Sqrt(turn / Math.Sin(turn));
        points.Add(centre + depth * inward);
        for (int k = 1; k <= CupRings; k++)
        {
            double r = radius * k / CupRings;
            double below = k == CupRings ? 0 : Math.Sqrt(sphere * sphere - r * r) - (sphere - depth);
            for (int j = 0; j < size.Sides; j++)
            {
                (double s, double c) = Math.SinCos(j * turn);
                points.Add(centre + below * inward + grow * r * (c * up + s * Vec3.UnitY));
            }
        }
    }

    private static double[] Stations(Body body, RingMaker rings, int count)
    {
        var x = new double[count];
        for (int i = 0; i < count; i++)
            x[i] = rings.From + (rings.To - rings.From) * 0.5 * (1 - Math.Cos(Math.PI * i / (count - 1)));
        x[^1] = rings.To;
        foreach (double corner in body.Corners)
        {
            // The nearest inner ring moves to the corner, so that no chord cuts it.
            int nearest = Enumerable.Range(1, count - 2).MinBy(i => Math.Abs(x[i] - corner));
            x[nearest] = corner;
        }
        return x;
    }

    /// <summary>The slant of the face dies out over this length, mm; 0: no slant.</summary>
    private static double FadeLength(Body body)
    {
        if (body.Face is not { } face || face.Slant == 0 || body.NoseCloses) return 0;
        double lean = Math.Abs(Math.Tan(face.Slant)) * (body.BackAt(0) - body.BellyAt(0));
        return Math.Min(3 * lean, 0.9 * body.Length);
    }

    // The same for every mesh of so many rings and sides, and nobody writes to it: a lure that is dragged makes thousands of meshes.
    private static readonly ConcurrentDictionary<(int Rings, int Sides), int[]> Known = [];

    private static int[] Triangles(int rings, int sides) => Known.GetOrAdd((rings, sides), _ => Made(rings, sides));

    private static int[] Made(int rings, int sides)
    {
        var list = new List<int>(6 * rings * sides);
        int Index(int ring, int side) => 1 + ring * sides + side % sides;
        int tail = 1 + rings * sides;
        for (int j = 0; j < sides; j++) list.AddRange([0, Index(0, j), Index(0, j + 1)]);
        for (int i = 0; i + 1 < rings; i++)
            for (int j = 0; j < sides; j++)
            {
                int a = Index(i, j), a1 = Index(i, j + 1), b = Index(i + 1, j), b1 = Index(i + 1, j + 1);
                if (2 * j < sides) list.AddRange([a, b, a1, a1, b, b1]);
                else list.AddRange([a, b, b1, a, b1, a1]);
            }
        for (int j = 0; j < sides; j++) list.AddRange([Index(rings - 1, j), tail, Index(rings - 1, j + 1)]);
        return [.. list];
    }
}
