using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Drawing;

/// <summary>
/// Looks at a lure from the side as it lies in the water, up is up: at its left side with the nose to the left, at its right
/// side with the nose to the right. Turns body axes into page places at a scale; heights are over the water.
/// </summary>
internal sealed class SideView
{
    private readonly WaterPlane plane;
    private readonly Vec3 right;

    /// <summary>Page mm for one mm of lure.</summary>
    public double Scale { get; init; } = 1;

    /// <summary>Page place of the point at horizontal 0 on the water.</summary>
    public PagePoint Zero { get; init; }

    /// <summary>To which side the nose points.</summary>
    public Nose Nose { get; }

    public SideView(WaterPlane plane, Nose nose)
    {
        this.plane = plane;
        Nose = nose;
        Vec3 ahead = Vec3.UnitX - plane.N.X * plane.N;
        // A lure on end shows its back there where its tail would lie.
        Vec3 aft = ahead.Length > 1e-3 ? ahead.Unit() : (Vec3.UnitZ - plane.N.Z * plane.N).Unit();
        right = nose == Nose.Right ? -aft : aft;
    }

    /// <summary>Horizontal place and height over the water, mm.</summary>
    public (double Across, double Up) World(Vec3 p) => (Vec3.Dot(right, p), plane.Height(p));

    /// <summary>The same, and how near the looker it is.</summary>
    public (double Across, double Up, double Near) InTheRound(Vec3 p) =>
        (Vec3.Dot(right, p), plane.Height(p), Vec3.Dot(Vec3.Cross(right, plane.N), p));

    public PagePoint Page(Vec3 p)
    {
        (double across, double up) = World(p);
        return new PagePoint(Zero.X + Scale * across, Zero.Y - Scale * up);
    }

    /// <summary>
    /// The skin's outline as seen: for each ring its two outermost points square to the drawn axis, nose to tail along
    /// one side and back along the other.
    /// </summary>
    public (Vec3[] Upper, Vec3[] Lower) Outline(ClosedMesh skin)
    {
        Vec3 across = plane.N - Vec3.Dot(plane.N, Axis) * Axis;
        // Square to the axis within the picture's plane.
        Vec3 inPlane = Vec3.Dot(across, plane.N) * plane.N + Vec3.Dot(across, right) * right;
        if (inPlane.Length < 1e-6) inPlane = -Vec3.Dot(Vec3.UnitX, plane.N) * right;
        Vec3 nose = skin.Vertex(0), tail = skin.Vertex(skin.VertexCount - 1);
        var upper = new List<Vec3>();
        var lower = new List<Vec3>();
        for (int ring = skin.FaceRings; ring < skin.Rings; ring++)
        {
            Vec3 highest = skin.OnSection(ring, 0), lowest = highest;
            for (int side = 1; side < skin.Sides; side++)
            {
                Vec3 p = skin.OnSection(ring, side);
                if (Vec3.Dot(p, inPlane) > Vec3.Dot(highest, inPlane)) highest = p;
                if (Vec3.Dot(p, inPlane) < Vec3.Dot(lowest, inPlane)) lowest = p;
            }
            upper.Add(highest);
            lower.Add(lowest);
        }
        bool Close(Vec3 pole, Vec3 a, Vec3 b) => Math.Max((pole - a).Length, (pole - b).Length) < 0.02 * (tail - nose).Length;
        if (skin.FaceRings == 0 && Close(nose, upper[0], lower[0])) upper.Insert(0, nose);
        if (Close(tail, upper[^1], lower[^1])) upper.Add(tail);
        return ([.. upper], [.. lower]);
    }

    private static Vec3 Axis => Vec3.UnitX;
}
