using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Tests.Floating;

/// <summary>
/// A second opinion that shares no method with the program: the body is drilled by thin upright columns, each found by asking "is this point inside?" of the section's formula; afloat, the water line is found by
/// bisection and the rest by comparing energies only (no mesh, no plane cut, no derivative). Weights other than the wood's
/// are taken from the ledger. For lures as glued: uncoated, halves as drawn.
/// </summary>
internal sealed class SecondOpinion
{
    private readonly record struct Column(Vec3 Middle, double Half, double Volume);

    private readonly record struct Slice(Vec3 At, double Below, double Volume);

    private readonly Column[] columns;
    private readonly List<(Vec3 At, double Mass)> weights = [];
    private readonly List<Slice> slices = [];
    private readonly double water;

    public double WoodVolume { get; }

    public Vec3 WoodCentre { get; }

    public double Weight => weights.Sum(w => w.Mass);

    public double Volume => WoodVolume + slices.Sum(s => s.Volume);

    public Vec3 Cg => weights.Aggregate(Vec3.Zero, (sum, w) => sum + w.Mass * w.At) / Weight;

    public Vec3 Cb => slices.Aggregate(WoodVolume * WoodCentre, (sum, s) => sum + s.Volume * s.At) / Volume;

    public SecondOpinion(LureDesign design, WeightLedger ledger, double water, int along, int across)
    {
        this.water = water;
        Body body = design.Body.Surface();
        columns = [.. Drill(design, body, along, across)];
        WoodVolume = columns.Sum(c => c.Volume);
        WoodCentre = columns.Aggregate(Vec3.Zero, (sum, c) => sum + c.Volume * c.Middle) / WoodVolume;
        weights.Add((WoodCentre, 1e-3 * design.Wood.DensityGPerCm3 * WoodVolume));
        // The tack's thickness comes off the wood and the glue line's goes in: small, as the ledger has them.
        foreach (Part part in ledger.Parts.Where(p => p.Mass != 0))
            if (part.Kind == PartKind.CarvedWood)
                weights[0] = (WoodCentre, weights[0].Mass * part.Mass / (1e-3 * design.Wood.DensityGPerCm3 * part.Displaces));
            else
                weights.Add((part.Centre, part.Mass));
        foreach (Lump lump in ledger.Lumps) AddBall(lump);
        foreach (Chain chain in ledger.Chains) AddRods(chain);
    }

    // A ball of the lump's extent, in 20 slices level with the water whatever the attitude.
    private void AddBall(Lump lump)
    {
        const int Count = 20;
        for (int k = 0; k < Count; k++)
        {
            double u = (k + 0.5) / Count;
            slices.Add(new Slice(lump.At, (0.5 - u) * lump.Extent, lump.Volume * 6 * u * (1 - u) / Count));
        }
    }

    private void AddRods(Chain chain)
    {
        const int Count = 40;
        double above = 0;
        foreach (HungItem item in chain.Items)
        {
            for (int k = 0; k < Count; k++)
                slices.Add(new Slice(chain.HangPoint, above + item.Length * (k + 0.5) / Count, item.Volume / Count));
            above += item.Length;
        }
    }

    // Stations crowd towards the ends and columns towards the side, where a body thins out (x = ½L(1 − cos πu), y = b sin t);
    // each row of columns starts elsewhere along the body, and each station's elsewhere across, so that no attitude sees
    // them in step.
    private static IEnumerable<Column> Drill(LureDesign design, Body body, int along, int across)
    {
        const double Golden = 0.6180339887498949, Silver = 0.4142135623730951;
        double length = body.Length;
        double[] stations = [.. Enumerable.Range(0, 401).Select(i => length * i / 400)];
        double top = stations.Max(body.BackAt) + 0.1, bottom = stations.Min(body.BellyAt) - 0.1;
        for (int i = 0; i < along; i++)
            for (int j = 0; j < across; j++)
            {
                double u = Math.PI * (i + (j + 0.5) * Golden % 1) / along, t = Math.PI / 2 * (j + (i + 0.5) * Silver % 1) / across;
                double x = length / 2 * (1 - Math.Cos(u)), dx = length / 2 * Math.Sin(u) * Math.PI / along;
                double back = body.BackAt(x), belly = body.BellyAt(x), half = body.HalfBreadthAt(x);
                double y = half * Math.Sin(t), dy = half * Math.Cos(t) * Math.PI / 2 / across;
                foreach ((double low, double high) in Intervals(z => Contains(design, x, y, z, back, belly, half), bottom, top))
                    // Halves are alike: every column has its mirror.
                    foreach (double side in new[] { y, -y })
                        yield return new Column(new Vec3(x, side, 0.5 * (low + high)), 0.5 * (high - low), dx * dy * (high - low));
            }
    }

    /// <summary>Where an upright line runs inside, by looking at even steps and halving between.</summary>
    private static IEnumerable<(double Low, double High)> Intervals(Func<double, bool> inside, double bottom, double top)
    {
        const int Looks = 60;
        double step = (top - bottom) / Looks, entered = bottom;
        for (int k = 0; k < Looks; k++)
        {
            double low = bottom + k * step, high = low + step;
            if (inside(low) == inside(high)) continue;
            double edge = Edge(inside, low, high);
            if (inside(high)) entered = edge;
            else yield return (entered, edge);
        }
    }

    private static double Edge(Func<double, bool> inside, double low, double high)
    {
        bool atLow = inside(low);
        for (int i = 0; i < 40; i++)
        {
            double middle = 0.5 * (low + high);
            if (inside(middle) == atLow) low = middle;
            else high = middle;
        }
        return 0.5 * (low + high);
    }

    /// <summary>Membership by the section's formula |y/b|ⁿ + |ζ/h|ⁿ ≤ 1, the nose face cut away.</summary>
    private static bool Contains(LureDesign design, double x, double y, double z, double back, double belly, double half)
    {
        if (half <= 0 || back <= belly) return false;
        (double above, double below, double? given) = Fullness(design, x);
        double widest = Math.Min(Math.Max(given ?? 0, belly), back);
        double rise = z >= widest ? back - widest : widest - belly, n = z >= widest ? above : below;
        if (rise <= 0) return false;
        if (Math.Pow(Math.Abs(y) / half, n) + Math.Pow(Math.Abs(z - widest) / rise, n) > 1) return false;
        if (design.Body.NoseFace is not { } face) return true;
        if (face.SlantDeg != 0) throw new NotSupportedException("the second opinion knows square faces only");
        if (face.Kind != NoseFaceKind.Cupped) return true;
        // A ball of radius (r² + d²)/2d that stands in front of the face, d deep in it.
        double r = face.CupDiameterMm / 2, d = face.CupDepthMm, ball = (r * r + d * d) / (2 * d), cx = d - ball;
        double dz = z - face.CupAtZMm;
        return (x - cx) * (x - cx) + y * y + dz * dz > ball * ball;
    }

    private static (double Above, double Below, double? Widest) Fullness(LureDesign design, double x)
    {
        Fullness[] list = [.. design.Body.Section];
        Fullness before = list.LastOrDefault(f => f.X <= x, list[0]), after = list.FirstOrDefault(f => f.X > x, list[^1]);
        double t = after.X > before.X ? Math.Clamp((x - before.X) / (after.X - before.X), 0, 1) : 0;
        double? widest = before.Widest is null && after.Widest is null ? null
            : (before.Widest ?? 0) + t * ((after.Widest ?? 0) - (before.Widest ?? 0));
        return (before.Above + t * (after.Above - before.Above), before.Below + t * (after.Below - before.Below), widest);
    }

    /// <summary>Afloat with up direction n: energy, g·mm, the water's offset d in n·p = d, and the wood under water.</summary>
    public (double Energy, double Offset, double Submerged) Afloat(Vec3 n)
    {
        double[] middle = new double[columns.Length], half = new double[columns.Length];
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int i = 0; i < columns.Length; i++)
        {
            middle[i] = Vec3.Dot(n, columns[i].Middle);
            half[i] = Math.Max(Math.Abs(n.Z) * columns[i].Half, 1e-9);
            (low, high) = (Math.Min(low, middle[i] - half[i]), Math.Max(high, middle[i] + half[i]));
        }
        double[] hung = [.. slices.Select(s => Vec3.Dot(n, s.At) - s.Below)];
        if (hung.Length > 0) (low, high) = (Math.Min(low, hung.Min()), Math.Max(high, hung.Max()));
        double weight = Weight;
        for (int step = 0; step < 48; step++)
        {
            double d = 0.5 * (low + high);
            if (water * Under(d) > weight) high = d;
            else low = d;
        }
        double offset = 0.5 * (low + high), energy = weights.Sum(w => w.Mass * (Vec3.Dot(n, w.At) - offset));
        for (int i = 0; i < columns.Length; i++)
        {
            double bottom = middle[i] - half[i] - offset;
            if (bottom >= 0) continue;
            double wet = Math.Min(-bottom, 2 * half[i]);
            energy -= water * columns[i].Volume * wet / (2 * half[i]) * (bottom + wet / 2);
        }
        for (int k = 0; k < hung.Length; k++) energy -= water * slices[k].Volume * Math.Min(hung[k] - offset, 0);
        return (energy, offset, Under(offset));

        double Under(double d)
        {
            double sum = 0;
            for (int i = 0; i < middle.Length; i++)
            {
                double wet = d - middle[i] + half[i];
                if (wet > 0) sum += wet >= 2 * half[i] ? columns[i].Volume : columns[i].Volume * wet / (2 * half[i]);
            }
            for (int k = 0; k < hung.Length; k++)
                if (hung[k] < d) sum += slices[k].Volume;
            return sum;
        }
    }

    /// <summary>The rest below a direction, by walking to whichever neighbour has less energy with ever smaller steps.</summary>
    public Vec3 RestBelow(Vec3 start)
    {
        Vec3 here = start.Unit();
        double energy = Afloat(here).Energy;
        for (double step = 0.2; step > 1e-4;)
        {
            (Vec3 e1, Vec3 e2) = here.Frame();
            Vec3 best = here;
            for (int k = 0; k < 8; k++)
            {
                (double sin, double cos) = Math.SinCos(Math.PI / 4 * k);
                Vec3 there = here.Turned(cos * e1 + sin * e2, step);
                double e = Afloat(there).Energy;
                if (e < energy) (energy, best) = (e, there);
            }
            if (best == here) step /= 2;
            else here = best;
        }
        return here;
    }

    /// <summary>The lowest rest, from starts spread over the sphere.</summary>
    public Vec3 LowestRest()
    {
        const int Starts = 48;
        IEnumerable<Vec3> spread = Enumerable.Range(0, Starts).Select(k =>
        {
            double z = 1 - 2 * (k + 0.5) / Starts, r = Math.Sqrt(1 - z * z);
            (double sin, double cos) = Math.SinCos(k * Math.PI * (3 - Math.Sqrt(5)));
            return new Vec3(z, r * sin, r * cos);
        });
        Vec3[] lowest = [.. spread.OrderBy(n => Afloat(n).Energy).Take(3)];
        return lowest.Select(RestBelow).MinBy(n => Afloat(n).Energy);
    }
}
