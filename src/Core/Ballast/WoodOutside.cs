using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Ballast;

/// <summary>
/// How much wood stands between a pocket and the outside, mm: the distance from the pocket's own solid to the wood's skin, halves as they
/// are glued, and to the sockets of the eyes. Plans, sheets and warnings all read it here.
/// </summary>
/// <remarks>
/// The skin is looked at in the corners, edge middles and middles of its triangles, at most about 1 mm apart. Seen from 3 mm that is
/// 0.04 mm too far, and a flat triangle lies 0.03 mm too near: to a twentieth of a millimetre in all.
/// </remarks>
public sealed class WoodOutside
{
    private readonly Vec3[] skin;

    /// <param name="design">Sound; its weights don't matter.</param>
    public WoodOutside(LureDesign design)
    {
        JointDesign? joint = design.Joint;
        Body body = design.Body.Surface();
        ClosedMesh wood = BodyMesh.Of(body, MeshSize.Live, new Seam(joint?.LostPerHalf ?? 0, (joint?.GlueLineMm ?? 0) / 2, design.Halves?.RightWiderMm ?? 0));
        skin = [.. Looks(wood), .. design.Eyes is { } eyes ? Sockets(eyes, body) : []];
        Array.Sort(skin, (a, b) => a.X.CompareTo(b.X));
    }

    /// <summary>The least wood outside a weight's pocket, mm; 0 where it comes through.</summary>
    public double Of(BallastPiece piece)
    {
        RoomInWood[] rooms = [.. Cut(piece).Select(RoomInWood.Of)];
        (Vec3 middle, double radius) = rooms[0].Ball;
        double nearest = double.PositiveInfinity;
        foreach (Vec3 p in Between(middle.X - radius - Farthest, middle.X + radius + Farthest))
            foreach (RoomInWood room in rooms) nearest = Math.Min(nearest, room.DistanceTo(p));
        return nearest;
    }

    /// <summary>The least wood outside a pocket and the point of the bit that goes so far beyond its bottom in either half, mm.</summary>
    public double Of(BallastPiece piece, double beyond)
    {
        double nearest = Of(piece);
        if (beyond <= 0) return nearest;
        double deep = (piece.Box.Y + piece.Clearance) / 2 + beyond;
        Vec3 right = piece.Middle + deep * Vec3.UnitY, left = piece.Middle - deep * Vec3.UnitY;
        foreach (Vec3 p in Between(right.X - nearest, right.X + nearest))
            nearest = Math.Min(nearest, Math.Min((p - right).Length, (p - left).Length));
        return nearest;
    }

    // Farther off no wall is of interest.
    private const double Farthest = 40;

    // Walls stand square from the glue face down to a weight that lies off it: all of that is cut.
    private static IEnumerable<BallastPiece> Cut(BallastPiece piece)
    {
        yield return piece;
        double off = piece.Middle.Y;
        int steps = (int)Math.Ceiling(Math.Abs(off));
        for (int k = 1; k <= steps; k++) yield return piece with { AtMm = [piece.AtMm[0], off * (1 - (double)k / steps), piece.AtMm[2]] };
    }

    private ReadOnlySpan<Vec3> Between(double from, double to)
    {
        int First(double x)
        {
            int low = 0, high = skin.Length;
            while (low < high)
                if (skin[(low + high) / 2] is var middle && middle.X < x) low = (low + high) / 2 + 1;
                else high = (low + high) / 2;
            return low;
        }
        int start = First(from);
        return skin.AsSpan(start, First(to) - start);
    }

    private static IEnumerable<Vec3> Looks(ClosedMesh wood)
    {
        for (int i = 0; i < wood.VertexCount; i++) yield return wood.Vertex(i);
        for (int t = 0; t < wood.Triangles.Length; t += 3)
        {
            Vec3 a = wood.Vertex(wood.Triangles[t]), b = wood.Vertex(wood.Triangles[t + 1]), c = wood.Vertex(wood.Triangles[t + 2]);
            yield return 0.5 * (a + b);
            yield return 0.5 * (b + c);
            yield return 0.5 * (c + a);
            yield return 1.0 / 3 * (a + b + c);
        }
    }

    // The bottoms of both sockets: a disc square to y, its depth counted from the skin over each point.
    private static IEnumerable<Vec3> Sockets(EyesDesign eyes, Body body)
    {
        const int Rings = 4, Around = 16;
        for (int r = 0; r <= Rings; r++)
            for (int k = 0; k < (r == 0 ? 1 : Around); k++)
            {
                (double sin, double cos) = Math.SinCos(2 * Math.PI * k / Around);
                double x = eyes.XMm + eyes.DiameterMm / 2 * r / Rings * cos, z = eyes.ZMm + eyes.DiameterMm / 2 * r / Rings * sin;
                double y = body.SectionAt(Math.Clamp(x, 0, body.Length)).BreadthAt(z) - eyes.ThicknessMm;
                if (y <= 0) continue;
                yield return new Vec3(x, y, z);
                yield return new Vec3(x, -y, z);
            }
    }
}
