using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Floating;

/// <summary>Reads a posture off the body's profile: what shows, where the water crosses back and belly.</summary>
public static class Profile
{
    internal static Posture Read(Posture posture, ClosedMesh skin) =>
        Marks(posture, skin) with { Draft = Draft(skin, posture.Plane), WettedArea = WettedArea(skin, posture.Plane) };

    /// <summary>Only what back and belly show, which is all that a maker reads in the tub.</summary>
    internal static Posture Marks(Posture posture, ClosedMesh skin)
    {
        WaterPlane plane = posture.Plane;
        if (skin.Sides == 0) return posture;
        Vec3[] back = Back(skin), belly = Belly(skin);
        Vec3 proud = back.MaxBy(plane.Height);
        return posture with
        {
            NoseShows = Math.Max(0, Math.Max(plane.Height(back[0]), plane.Height(belly[0]))),
            TailShows = Math.Max(0, Math.Max(plane.Height(back[^1]), plane.Height(belly[^1]))),
            NoseShowsAlong = DryLength(back, plane),
            TailShowsAlong = DryLength([.. back.Reverse()], plane),
            WaterlineBack = Crossing(back, plane),
            WaterlineBelly = Crossing(belly, plane),
            BackProud = Math.Max(0, plane.Height(proud)),
            BackProudAt = proud.X,
        };
    }

    /// <summary>How much of the nose stands out along the back, mm, of a meshed body cut by a water plane.</summary>
    public static double NoseAlong(ClosedMesh skin, WaterPlane plane) => DryLength(Back(skin), plane);

    private static double Draft(ClosedMesh skin, WaterPlane plane)
    {
        double deepest = 0;
        int loose = skin.Sides == 0 ? skin.VertexCount : 0;
        for (int i = 0; i < loose; i++) deepest = Math.Max(deepest, -plane.Height(skin.Vertex(i)));
        for (int ring = 0; ring < skin.Rings; ring++)
            for (int side = 0; side < skin.Sides; side++)
                deepest = Math.Max(deepest, -plane.Height(skin.OnSection(ring, side)));
        return deepest;
    }

    /// <summary>The skin's line along the back, nose to tail, mm.</summary>
    public static Vec3[] Back(ClosedMesh skin) => Line(skin, 0);

    /// <summary>The skin's line along the belly.</summary>
    public static Vec3[] Belly(ClosedMesh skin) => Line(skin, skin.Sides / 2);

    // Poles belong to the line where the end closes; a flat end's line begins at its rim.
    private static Vec3[] Line(ClosedMesh skin, int side)
    {
        var line = new List<Vec3>();
        Vec3 nose = skin.Vertex(0), tail = skin.Vertex(skin.VertexCount - 1);
        Vec3 At(int ring) => skin.OnSection(ring, side);
        Vec3 first = At(skin.FaceRings), last = At(skin.Rings - 1);
        bool closes = skin.FaceRings == 0 && (nose - first).Length < 0.02 * (tail - nose).Length;
        if (closes) line.Add(nose);
        for (int ring = skin.FaceRings; ring < skin.Rings; ring++) line.Add(At(ring));
        if ((tail - last).Length < 0.02 * (tail - nose).Length) line.Add(tail);
        return [.. line];
    }

    private static double DryLength(Vec3[] line, WaterPlane plane)
    {
        double length = 0;
        if (plane.Height(line[0]) <= 0) return 0;
        for (int i = 1; i < line.Length; i++)
        {
            double h0 = plane.Height(line[i - 1]), h1 = plane.Height(line[i]);
            double piece = (line[i] - line[i - 1]).Length;
            if (h1 <= 0) return length + piece * h0 / (h0 - h1);
            length += piece;
        }
        return length;
    }

    private static double? Crossing(Vec3[] line, WaterPlane plane)
    {
        for (int i = 1; i < line.Length; i++)
        {
            double h0 = plane.Height(line[i - 1]), h1 = plane.Height(line[i]);
            if (h0 > 0 != h1 > 0) return line[i - 1].X + (line[i].X - line[i - 1].X) * h0 / (h0 - h1);
        }
        return null;
    }

    /// <summary>Skin under the water, mm²: whole wet triangles and the wet parts of crossed ones.</summary>
    public static double WettedArea(ClosedMesh skin, WaterPlane plane)
    {
        double area = 0;
        for (int t = 0; t < skin.Triangles.Length; t += 3)
        {
            Vec3 a = skin.Vertex(skin.Triangles[t]), b = skin.Vertex(skin.Triangles[t + 1]), c = skin.Vertex(skin.Triangles[t + 2]);
            area += Vec3.Cross(b - a, c - a).Length / 2 * WetShare(plane.Height(a), plane.Height(b), plane.Height(c));
        }
        return area;
    }

    // Of a triangle, a corner of height h between others ha and hb is cut off as h²/((h − ha)(h − hb)) of the whole.
    private static double WetShare(double a, double b, double c)
    {
        int wet = (a < 0 ? 1 : 0) + (b < 0 ? 1 : 0) + (c < 0 ? 1 : 0);
        if (wet is 0 or 3) return wet / 3;
        bool lone = wet == 1;
        double corner = a < 0 == lone && b < 0 != lone && c < 0 != lone ? Corner(a, b, c)
            : b < 0 == lone && a < 0 != lone ? Corner(b, a, c) : Corner(c, a, b);
        return lone ? corner : 1 - corner;

        static double Corner(double h, double h1, double h2) => h / (h - h1) * (h / (h - h2));
    }
}
