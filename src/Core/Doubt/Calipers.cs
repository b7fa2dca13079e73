using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Doubt;

/// <summary>What calipers read off a skin at a station: right and left of the seam, and back to belly, mm.</summary>
internal static class Calipers
{
    public static (double Right, double Left, double Height) Girth(ClosedMesh skin, double x)
    {
        double Line(int side, Func<Vec3, double> of)
        {
            Vec3 before = skin.Vertex(0);
            for (int ring = skin.FaceRings; ring < skin.Rings; ring++)
            {
                Vec3 here = skin.OnSection(ring, side);
                if (here.X >= x) return here.X > before.X ? of(before) + (of(here) - of(before)) * (x - before.X) / (here.X - before.X) : of(here);
                before = here;
            }
            return 0;
        }
        int q = skin.Sides / 4;
        return (Line(q, p => p.Y), Line(3 * q, p => -p.Y), Line(0, p => p.Z) - Line(2 * q, p => p.Z));
    }
}
