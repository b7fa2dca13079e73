using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Drawing;

/// <summary>
/// A lure as it lies in the water, in the round, for a view that turns. World axes: x to the right as the side view shows
/// it, y up from the water's surface, z towards the looker; mm.
/// </summary>
public static class InTheRound
{
    /// <summary>What a surface is of.</summary>
    public enum Stuff
    {
        Wood,
        Lead,
        Wire,
    }

    /// <summary>A closed surface: three numbers a vertex, three indices a triangle.</summary>
    public sealed record Surface(Stuff Stuff, float[] Places, int[] Triangles);

    /// <summary>The skin, each weight inside, the wire.</summary>
    public static IReadOnlyList<Surface> Of(LureDesign design, Prediction prediction, Nose nose = Nose.Left)
    {
        bool sunk = prediction.SpareBuoyancy <= 0;
        var view = new SideView(sunk ? LureInWater.Sink(prediction) : prediction.Posture.Plane, nose);
        ClosedMesh skin = prediction.Ledger.Skin;
        var all = new List<Surface> { new(Stuff.Wood, Places(Enumerable.Range(0, skin.VertexCount).Select(skin.Vertex), view), skin.Triangles) };
        if (prediction.Ledger.Stage == Stage.Blank) return all;
        foreach (BallastPiece piece in design.Ballast) all.Add(Piece(piece, view));
        if (design.Wire is { } wire) all.Add(Tube(new WireShape(wire, design.Body.Surface()), wire.DiameterMm, view));
        return all;
    }

    private static float[] Places(IEnumerable<Vec3> points, SideView view) =>
        [.. points.SelectMany(p =>
        {
            (double across, double up, double near) = view.InTheRound(p);
            return new[] { (float)across, (float)up, (float)near };
        })];

    // A piece as rings along its axis: two for a rod, many for a ball, square for a strip.
    private static Surface Piece(BallastPiece piece, SideView view)
    {
        Vec3 along = Solids.Direction(piece.Axis), half = 0.5 * piece.Box;
        double reach = Math.Abs(Vec3.Dot(half, along));
        bool ball = piece.Shape == PieceShape.Ball, strip = piece.Shape == PieceShape.Flat;
        Vec3 u = Math.Abs(along.Z) > 0.9 ? Vec3.UnitX : Vec3.UnitZ, v = Vec3.Cross(along, u);
        double a = Math.Abs(Vec3.Dot(half, u)), b = Math.Abs(Vec3.Dot(half, v));
        int sides = strip ? 4 : 24, rings = ball ? 13 : 2;
        var points = new List<Vec3>();
        for (int ring = 0; ring < rings; ring++)
        {
            double t = ball ? -Math.Cos(Math.PI * ring / (rings - 1)) : 2 * ring - 1, wide = ball ? Math.Sqrt(Math.Max(0, 1 - t * t)) : 1;
            for (int side = 0; side < sides; side++)
            {
                double turn = 2 * Math.PI * (side + (strip ? 0.5 : 0)) / sides, grow = strip ? Math.Sqrt(2) : 1;
                points.Add(piece.Middle + t * reach * along + wide * grow * (a * Math.Cos(turn) * u + b * Math.Sin(turn) * v));
            }
        }
        return new Surface(Stuff.Lead, Places(points, view), Rings(rings, sides));
    }

    private static Surface Tube(WireShape wire, double diameter, SideView view)
    {
        const int Sides = 8;
        Vec3[] path = [.. wire.Path.Where((_, i) => i % 3 == 0 || i == wire.Path.Count - 1)];
        var points = new List<Vec3>();
        for (int i = 0; i < path.Length; i++)
        {
            Vec3 along = (path[Math.Min(i + 1, path.Length - 1)] - path[Math.Max(i - 1, 0)]).Unit(), u = Vec3.Cross(Vec3.UnitY, along);
            for (int side = 0; side < Sides; side++)
            {
                (double sin, double cos) = Math.SinCos(2 * Math.PI * side / Sides);
                points.Add(path[i] + diameter / 2 * (cos * u + sin * Vec3.UnitY));
            }
        }
        return new Surface(Stuff.Wire, Places(points, view), Rings(path.Length, Sides));
    }

    private static int[] Rings(int rings, int sides)
    {
        var list = new List<int>();
        int At(int ring, int side) => ring * sides + side % sides;
        for (int ring = 0; ring + 1 < rings; ring++)
            for (int side = 0; side < sides; side++)
                list.AddRange([At(ring, side), At(ring, side + 1), At(ring + 1, side), At(ring + 1, side), At(ring, side + 1), At(ring + 1, side + 1)]);
        for (int side = 1; side + 1 < sides; side++)
            list.AddRange([At(0, 0), At(0, side + 1), At(0, side), At(rings - 1, 0), At(rings - 1, side), At(rings - 1, side + 1)]);
        return [.. list];
    }
}
