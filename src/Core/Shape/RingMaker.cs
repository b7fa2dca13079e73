using Trimwright.Core.Numerics;

namespace Trimwright.Core.Shape;

/// <summary>Draws the body's sections as rings of exact area, the seam's change of width included.</summary>
internal sealed class RingMaker
{
    private readonly Body body;
    private readonly int quarter;
    private readonly double lost;
    private readonly double gained;
    private readonly double right;
    private readonly double left;
    private readonly Dictionary<(SectionCurve Curve, double Fullness, double Cut), UnitQuadrant> quadrants = [];

    /// <summary>The growth of each ring added so far (<see cref="ClosedMesh.Growth"/>).</summary>
    public List<double> Growth { get; } = [];

    /// <summary>The stations between which anything is left of the body, mm.</summary>
    public double From { get; }

    public double To { get; }

    public RingMaker(Body body, int sides, Seam seam)
    {
        this.body = body;
        quarter = sides / 4;
        (lost, gained) = (seam.Lost, seam.Gained);
        double widest = Enumerable.Range(0, 129).Max(i => body.HalfBreadthAt(body.Length * i / 128));
        right = 1 + seam.RightWider / (2 * widest);
        left = 1 - seam.RightWider / (2 * widest);
        From = EndOfWood(0, body.Length, widest);
        To = EndOfWood(body.Length, 0, widest);
    }

    // Where a slab is lost at the seam, a thin tip goes with it.
    private double EndOfWood(double end, double otherEnd, double widest)
    {
        double narrow = Math.Min(right, left);
        double Left(double x) => body.HalfBreadthAt(x) * narrow - lost;
        if (lost == 0 || Left(end) > 0) return end;
        double peak = Enumerable.Range(0, 129).Select(i => body.Length * i / 128).MaxBy(body.HalfBreadthAt);
        return Roots.Between(Left, end, peak == end ? otherEnd : peak, 1e-9 * widest);
    }

    /// <summary>Adds the ring whose nominal station is x; near a slanted face it leans with the face.</summary>
    public void Add(List<Vec3> points, double x, double fade)
    {
        int sides = 4 * quarter;
        Ring ring = At(x);
        Growth.Add(ring.ScaleY);
        for (int j = 0; j < sides; j++)
        {
            Vec3 p = Point(ring, x, j);
            if (fade > 0 && x < fade)
            {
                // x of the vertex depends on its height and its height on x; the map contracts.
                for (int k = 0; k < 6; k++)
                {
                    double leaned = x + body.FacePlaneAt(p.Z) * (1 - x / fade);
                    p = Point(At(Math.Clamp(leaned, From, To)), leaned, j);
                }
            }
            points.Add(p);
        }
    }

    /// <summary>A section with the scales that give its polygon the section's area.</summary>
    private readonly record struct Ring(
        Section Section, UnitQuadrant Above, UnitQuadrant Below, double Breadth, double ScaleY, double ScaleAbove, double ScaleBelow);

    private Ring At(double x)
    {
        Section section = body.SectionAt(x);
        double half = section.HalfBreadth;
        double cut = half > 0 ? Math.Min(lost / (half * Math.Min(right, left)), 1 - 1e-9) : 0;
        UnitQuadrant above = Quadrant(section.Curve, section.FullAbove, cut), below = Quadrant(section.Curve, section.FullBelow, cut);
        // What is left of the half, and a slab as high as its cut face beside it.
        double breadth = (1 - cut) * half + gained;
        double Excess(UnitQuadrant q) =>
            q.Polygon <= 0 || breadth <= 0 ? 1 : (q.Exact * half + gained * q.S[^1]) * (1 - cut) / (q.Polygon * breadth);
        double up = section.RiseAbove > 0 ? Excess(above) : Excess(below);
        double down = section.RiseBelow > 0 ? Excess(below) : up;
        double scaleY = Math.Sqrt(0.5 * (up + down));
        return new Ring(section, above, below, breadth, scaleY, up / scaleY, down / scaleY);
    }

    private Vec3 Point(in Ring ring, double x, int j)
    {
        // Quadrants run from the widest line (0) to the seam (quarter): back, right side, belly, left side.
        int quadrant = j / quarter, within = j % quarter;
        bool above = quadrant is 0 or 3, starboard = quadrant is 0 or 1;
        int k = quadrant is 0 or 2 ? quarter - within : within;
        UnitQuadrant unit = above ? ring.Above : ring.Below;
        double side = starboard ? right : left;
        double y = (unit.C[k] - unit.Cut) / (1 - unit.Cut) * ring.Breadth * side * ring.ScaleY;
        double rise = above ? ring.Section.RiseAbove * ring.ScaleAbove : -ring.Section.RiseBelow * ring.ScaleBelow;
        return new Vec3(x, starboard ? y : -y, ring.Section.Widest + unit.S[k] * rise);
    }

    private UnitQuadrant Quadrant(SectionCurve curve, double fullness, double cut)
    {
        if (quadrants.TryGetValue((curve, fullness, cut), out UnitQuadrant? made)) return made;
        made = new UnitQuadrant(curve, fullness, cut, quarter);
        if (cut == 0) quadrants[(curve, fullness, cut)] = made;
        return made;
    }

    /// <summary>
    /// Points of the curve's quadrant at even polar angles (corners of a boxy section come out as vertices),
    /// from s = 0 to c = cut, with its exact area beyond the cut and its polygon's.
    /// </summary>
    private sealed class UnitQuadrant
    {
        public double[] C { get; }

        public double[] S { get; }

        public double Cut { get; }

        public double Exact { get; }

        public double Polygon { get; }

        public UnitQuadrant(SectionCurve curve, double n, double cut, int quarter)
        {
            Cut = cut;
            C = new double[quarter + 1];
            S = new double[quarter + 1];
            double end = cut == 0 ? Math.PI / 2 : Math.Atan2(curve.Height(cut, n), cut);
            for (int k = 0; k <= quarter; k++)
            {
                (double sin, double cos) = Math.SinCos(end * k / quarter);
                double r = curve.Radius(Math.Abs(cos), sin, n);
                C[k] = r * cos;
                S[k] = r * sin;
            }
            (C[0], S[0], C[quarter]) = (1, 0, cut);
            for (int k = 0; k < quarter; k++)
                Polygon += 0.5 * ((C[k] - cut) * S[k + 1] - (C[k + 1] - cut) * S[k]);
            Exact = curve.AreaBeyond(cut, n);
        }
    }
}
