using Trimwright.Core.Floating;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// Check 8: the Wigley hull y = (B/2)(1 − (2x/L)²)(1 − (z/T)²), with L/B = 10 and B/T = 1.6, wall-sided above the water. Source:
/// closed forms by integration (block 4/9, waterplane 2/3, KB 5T/8, BM 3B²/35T and 3L²/40T); wetted surface 0.661292·L(2T + B)
/// by quadrature outside this project.
/// </summary>
public class WigleyTest
{
    private const double L = 200, B = 20, T = 12.5;
    private const int Stations = 240, Waterlines = 64;

    [Fact]
    public void A_wigley_hull_has_its_closed_forms()
    {
        const double Water = 1e-3;
        ClosedMesh hull = Hull();
        double weight = Water * 4.0 / 9 * L * B * T;
        var body = new FloatingBody(hull, weight, new Vec3(0, 0, -T / 2), Water);
        Balance b = body.At(Vec3.UnitZ, -body.Middle.Z);
        Tolerances.Check("Wigley hull, block coefficient", b.SkinVolume / (L * B * T), 4.0 / 9);
        Tolerances.Check("Wigley hull, waterplane coefficient", b.Area / (L * B), 2.0 / 3);
        double kb = T + body.Middle.Z + b.SkinMoment.Z / b.SkinVolume;
        Tolerances.Check("Wigley hull, KB", kb, 5 * T / 8);
        Balance afloat = Equilibrium.Afloat(body, Vec3.UnitZ);
        Tolerances.Check("Wigley hull, draft under its own weight", T + body.Middle.Z + afloat.Offset, T);
        (double heel, double trim) = Stability.MetacentricHeights(body, afloat);
        // GM = KB + BM − KG, and KG = T/2.
        Tolerances.Check("Wigley hull, BM transverse", heel - kb + T / 2, 3 * B * B / (35 * T));
        Tolerances.Check("Wigley hull, BM longitudinal", trim - kb + T / 2, 3 * L * L / (40 * T));
        Tolerances.Check("Wigley hull, wetted surface", Profile.WettedArea(hull, new WaterPlane(Vec3.UnitZ, 0)), 0.661292 * L * (2 * T + B));
    }

    private static ClosedMesh Hull()
    {
        const int Up = Waterlines + 1, Row = Up + 1;
        var points = new List<Vec3>();
        foreach (int side in new[] { 1, -1 })
            for (int i = 0; i <= Stations; i++)
                for (int j = 0; j <= Up; j++)
                {
                    double x = L * (i / (double)Stations - 0.5), z = j <= Waterlines ? T * (j / (double)Waterlines - 1) : T / 2;
                    double under = Math.Min(z, 0) / T, along = 2 * x / L;
                    points.Add(new Vec3(x, side * B / 2 * (1 - along * along) * (1 - under * under), z));
                }
        var triangles = new List<int>();
        void Quad(int a, int b, int c, int d) => triangles.AddRange([a, b, c, a, c, d]);
        int port = (Stations + 1) * Row;
        for (int i = 0; i < Stations; i++)
        {
            for (int j = 0; j < Up; j++)
            {
                int a = i * Row + j;
                Quad(a, a + 1, a + Row + 1, a + Row);
                Quad(port + a, port + a + Row, port + a + Row + 1, port + a + 1);
            }
            int deck = i * Row + Up;
            Quad(deck, port + deck, port + deck + Row, deck + Row);
        }
        var hull = new ClosedMesh(points, [.. triangles]);
        Assert.True(SolidProperties.Of(hull).Volume > 0);
        return hull;
    }
}
