using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Forces on a lure at a water plane, summed anew from its ledger: every triangle is clipped to a polygon, every hung
/// thing cut by the water along its length. A second opinion on what the search calls a rest.
/// </summary>
internal static class Statics
{
    /// <summary>Lift less weight, g; its moment about a point, across the vertical, g·mm; the volume under water, mm³.</summary>
    public readonly record struct Sum(double Lift, Vec3 Moment, double Displaced, double Weight);

    public static Sum Of(WeightLedger ledger, double water, WaterPlane plane, Vec3 about)
    {
        double lift = 0, displaced = 0, weight = 0;
        Vec3 first = Vec3.Zero;
        void Add(Vec3 at, double volume, double mass)
        {
            displaced += volume;
            weight += mass;
            lift += water * volume - mass;
            first += (water * volume - mass) * (at - about);
        }
        (double skin, Vec3 centre) = Under(ledger.Skin, plane);
        Add(centre, skin, 0);
        double hung = ledger.Chains.Sum(c => c.Mass);
        Vec3 hungMoment = ledger.Chains.Aggregate(Vec3.Zero, (sum, c) => sum + c.Mass * c.HangPoint);
        double fixed_ = ledger.Weight - hung;
        Add((ledger.Weight * ledger.Cg - hungMoment) / fixed_, 0, fixed_);
        foreach (Lump lump in ledger.Lumps) Add(lump.At, lump.Volume * BallUnder(plane.Height(lump.At), lump.Extent), 0);
        foreach (Chain chain in ledger.Chains)
        {
            double top = plane.Height(chain.HangPoint);
            foreach (HungItem item in chain.Items)
            {
                double wet = Math.Clamp(-(top - item.Length) / item.Length, 0, 1);
                Add(chain.HangPoint, wet * item.Volume, item.Mass);
                top -= item.Length;
            }
        }
        if (ledger.Leader is { } leader)
        {
            // A heavy leader lies under water; a light one floats until its line tie is drawn under, eased over 10 mm.
            double held = leader.Mass >= water * leader.Volume ? 1 : Math.Clamp(-plane.Height(leader.At) / 10, 0, 1);
            Add(leader.At, held * leader.Volume + (1 - held) * leader.Mass / water, leader.Mass);
        }
        return new Sum(lift, Vec3.Cross(first, plane.N), displaced, weight);
    }

    // Share of a ball of diameter e under water, its middle at height h: a spherical segment of depth t.
    private static double BallUnder(double h, double e)
    {
        double t = Math.Clamp(e / 2 - h, 0, e), r = e / 2;
        return Math.PI * t * t * (3 * r - t) / 3 / (4 * Math.PI / 3 * r * r * r);
    }

    private static (double Volume, Vec3 Centre) Under(ClosedMesh mesh, WaterPlane plane)
    {
        Vec3 middle = SolidProperties.Of(mesh).Centroid, origin = middle - plane.Height(middle) * plane.N;
        double volume = 0;
        Vec3 moment = Vec3.Zero;
        var polygon = new List<Vec3>(4);
        for (int t = 0; t < mesh.TriangleCount; t++)
        {
            Clip(mesh, t, plane, polygon);
            for (int k = 2; k < polygon.Count; k++)
            {
                Vec3 a = polygon[0] - origin, b = polygon[k - 1] - origin, c = polygon[k] - origin;
                double v = Vec3.Dot(a, Vec3.Cross(b, c)) / 6;
                volume += v;
                moment += v / 4 * (a + b + c);
            }
        }
        return (volume, volume > 0 ? origin + moment / volume : origin);
    }

    // Sutherland & Hodgman's clip of one triangle by one plane, the wet side kept.
    private static void Clip(ClosedMesh mesh, int triangle, WaterPlane plane, List<Vec3> polygon)
    {
        polygon.Clear();
        for (int k = 0; k < 3; k++)
        {
            Vec3 a = mesh.Vertex(mesh.Triangles[3 * triangle + k]), b = mesh.Vertex(mesh.Triangles[3 * triangle + (k + 1) % 3]);
            double ha = plane.Height(a), hb = plane.Height(b);
            if (ha <= 0) polygon.Add(a);
            if (ha < 0 != hb < 0 && ha != 0 && hb != 0) polygon.Add(a + ha / (ha - hb) * (b - a));
        }
    }
}
