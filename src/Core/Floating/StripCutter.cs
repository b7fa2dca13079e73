using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Floating;

/// <summary>
/// The water-plane cut of a mesh of rings, from sums prepared once: no allocation, any attitude, concave sections, planes
/// through vertices. <see cref="PlainCutter"/> is its oracle.
/// <para>
/// For a triangle (a, b, c) let A = ½(b−a)×(c−a), v = a·A/3 and s = a+b+c. From a point p₀ = c·e_k on the plane (k the
/// axis of the largest |n_k|, c = d/n_k) the wet triangles sum to
/// V = Σv − (c/3)ΣA_k and ∫p dV = ¼[Σvs − (c/3)ΣA_k s + p₀(Σv − (c/3)ΣA_k)]:
/// only (v, vs) and (A_k, A_k s) are read, eight numbers. They are kept as running sums along each strip between two
/// rings, for each of its two triangles a side, and over whole strips: a run of wet triangles is one difference.
/// </para>
/// <para>
/// Which are wet is found by bits: a mask of wet vertices per ring (rings wholly on one side are known by a bounding
/// radius), rotated by one for the next vertex. Triangles with two or three wet corners count whole; each crossed one
/// is put right by its lone corner, in the plane's own axes, by the formulas above <see cref="PlainCutter"/>.
/// </para>
/// A vertex is wet when its height is below 0, by the same order of operations everywhere.
/// One cutter belongs to one thread: it owns its scratch.
/// </summary>
public sealed class StripCutter : ICutter
{
    private const int Entry = 8;

    private readonly int sides;
    private readonly int rows;
    private readonly ulong full;
    private readonly ulong starboard;
    private Vec3 middle;

    // Vertices relative to the middle, row by row; the poles are rows of one point repeated.
    private readonly double[] x;
    private readonly double[] y;
    private readonly double[] z;

    // Bounding balls of the rows.
    private readonly Vec3[] centre;
    private readonly double[] radius;

    // Running sums per axis, made when an axis is first asked for: [strip][slot][side 0..sides][8], and over strips.
    private readonly double[]?[] alongStrip = new double[3][];
    private readonly double[]?[] overStrips = new double[3][];
    private readonly bool[] prepared = new bool[3];

    private readonly double[] height;
    private readonly ulong[] wet;

    // Rows whose heights have been worked out for the plane in hand.
    private readonly bool[] measured;

    /// <param name="mesh">A mesh of rings with at most 64 sides.</param>
    /// <exception cref="ArgumentException">The mesh has no rings: misuse; cut it plainly.</exception>
    public StripCutter(ClosedMesh mesh)
    {
        if (!Takes(mesh)) throw new ArgumentException("not a mesh of rings of 4 to 64 sides", nameof(mesh));
        sides = mesh.Sides;
        rows = mesh.Rings + 2;
        full = sides == 64 ? ulong.MaxValue : (1UL << sides) - 1;
        starboard = (1UL << (sides / 2)) - 1;
        (x, y, z, height) = (new double[rows * sides], new double[rows * sides], new double[rows * sides], new double[rows * sides]);
        wet = new ulong[rows];
        measured = new bool[rows];
        centre = new Vec3[rows];
        radius = new double[rows];
        Take(mesh);
    }

    /// <summary>A cutter of the same mesh with a workspace of its own: it shares what another has prepared.</summary>
    internal StripCutter(StripCutter other)
    {
        (sides, rows, full, starboard, middle) = (other.sides, other.rows, other.full, other.starboard, other.middle);
        (x, y, z, centre, radius) = (other.x, other.y, other.z, other.centre, other.radius);
        other.alongStrip.CopyTo(alongStrip, 0);
        other.overStrips.CopyTo(overStrips, 0);
        other.prepared.CopyTo(prepared, 0);
        height = new double[rows * sides];
        wet = new ulong[rows];
        measured = new bool[rows];
    }

    /// <summary>
    /// Takes up the vertices of another mesh of as many rings and sides: for thousands of builds that differ by a hair. No other cutter may
    /// share what this one has prepared.
    /// </summary>
    internal void Take(ClosedMesh mesh)
    {
        middle = PlainCutter.LocalOrigin(mesh);
        Array.Clear(prepared);
        Rows(mesh.X, middle.X, x);
        Rows(mesh.Y, middle.Y, y);
        Rows(mesh.Z, middle.Z, z);
        double reach = 0;
        for (int row = 0; row < rows; row++)
        {
            ReadOnlySpan<double> px = x.AsSpan(row * sides, sides), py = y.AsSpan(row * sides, sides), pz = z.AsSpan(row * sides, sides);
            Vec3 sum = Vec3.Zero;
            for (int i = 0; i < px.Length; i++) sum += new Vec3(px[i], py[i], pz[i]);
            Vec3 c = sum / sides;
            double most = 0;
            for (int i = 0; i < px.Length; i++) most = Math.Max(most, (new Vec3(px[i], py[i], pz[i]) - c).LengthSquared);
            (centre[row], radius[row]) = (c, Math.Sqrt(most));
            reach = Math.Max(reach, c.Length + radius[row]);
        }
        // Rounding must not let a ball claim a vertex that its own height would not.
        for (int row = 0; row < rows; row++) radius[row] += 1e-12 * reach;
    }

    /// <summary>Whether a mesh has the order that this cutter needs.</summary>
    public static bool Takes(ClosedMesh mesh) => mesh.Sides is >= 4 and <= 64 && mesh.Sides % 4 == 0 && mesh.Rings > 0;

    private void Rows(double[] values, double origin, double[] all)
    {
        all.AsSpan(0, sides).Fill(values[0] - origin);
        all.AsSpan((rows - 1) * sides).Fill(values[^1] - origin);
        Vec3x4.Subtract(values.AsSpan(1, (rows - 2) * sides), origin, all.AsSpan(sides));
    }

    /// <summary>Prepares the sums of one axis, if they are not there yet.</summary>
    public void Prepare(int axis)
    {
        if (prepared[axis]) return;
        int strips = rows - 1, block = 2 * (sides + 1) * Entry;
        double[] along = alongStrip[axis] ??= new double[strips * block], over = overStrips[axis] ??= new double[(strips + 1) * Entry];
        // Eight numbers of four triangles each.
        Span<double> four = stackalloc double[4 * Entry];
        var strip = new Strip(stackalloc double[Strip.Room(sides)], sides);
        strip.Next(x, y, z, 0, isPole: false, Vec3.Zero);
        Vector256<double> total1 = Vector256<double>.Zero, total2 = Vector256<double>.Zero;
        ref double entry = ref MemoryMarshal.GetArrayDataReference(along), number = ref MemoryMarshal.GetReference(four);
        for (int s = 0; s < strips; s++)
        {
            strip.Next(x, y, z, (s + 1) * sides, isPole: false, Vec3.Zero);
            for (int slot = 0; slot < 2; slot++)
            {
                Vector256<double> sum1 = Vector256<double>.Zero, sum2 = Vector256<double>.Zero;
                nuint at = (nuint)(s * block + slot * (sides + 1) * Entry);
                for (int side = 0; side < sides; side += 4)
                {
                    strip.Corners(slot, side, out Vec3x4 a, out Vec3x4 b, out Vec3x4 c);
                    Numbers(a, b, c, axis, ref number);
                    for (int k = 0; k < 4; k++)
                    {
                        at += Entry;
                        Vector256<double> one1 = Vector256.Create(four[k], four[4 + k], four[8 + k], four[12 + k]);
                        Vector256<double> one2 = Vector256.Create(four[16 + k], four[20 + k], four[24 + k], four[28 + k]);
                        (sum1, sum2) = (sum1 + one1, sum2 + one2);
                        (total1, total2) = (total1 + one1, total2 + one2);
                        sum1.StoreUnsafe(ref entry, at);
                        sum2.StoreUnsafe(ref entry, at + 4);
                    }
                }
            }
            total1.CopyTo(over, (s + 1) * Entry);
            total2.CopyTo(over, (s + 1) * Entry + 4);
        }
        prepared[axis] = true;
    }

    // v, vs and A_k, A_k s of four triangles.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Numbers(in Vec3x4 a, in Vec3x4 b, in Vec3x4 c, int axis, ref double numbers)
    {
        Vec3x4 area = Vector256.Create(0.5) * Vec3x4.Cross(b - a, c - a), s = a + b + c;
        Vector256<double> v = Vec3x4.Dot(a, area) / Vector256.Create(3.0), ak = axis == 0 ? area.X : axis == 1 ? area.Y : area.Z;
        v.StoreUnsafe(ref numbers);
        (v * s.X).StoreUnsafe(ref numbers, 4);
        (v * s.Y).StoreUnsafe(ref numbers, 8);
        (v * s.Z).StoreUnsafe(ref numbers, 12);
        ak.StoreUnsafe(ref numbers, 16);
        (ak * s.X).StoreUnsafe(ref numbers, 20);
        (ak * s.Y).StoreUnsafe(ref numbers, 24);
        (ak * s.Z).StoreUnsafe(ref numbers, 28);
    }

    /// <summary>The three vertices of a strip's triangle, outward; diagonals mirrored left to right as in the mesh.</summary>
    private (int A, int B, int C) Corners(int strip, int slot, int side)
    {
        int next = side + 1 == sides ? 0 : side + 1;
        int a = strip * sides + side, a1 = strip * sides + next, b = a + sides, b1 = a1 + sides;
        if (2 * side < sides) return slot == 0 ? (a, b, a1) : (a1, b, b1);
        return slot == 0 ? (a, b, b1) : (a, b1, a1);
    }

    public Cut Cut(WaterPlane plane)
    {
        Vec3 n = plane.N;
        double d = plane.D - Vec3.Dot(n, middle);
        double nx = Math.Abs(n.X), ny = Math.Abs(n.Y), nz = Math.Abs(n.Z);
        int axis = nx >= ny && nx >= nz ? 0 : ny >= nz ? 1 : 2;
        double c = d / (axis == 0 ? n.X : axis == 1 ? n.Y : n.Z);
        Vec3 p0 = axis == 0 ? new(c, 0, 0) : axis == 1 ? new(0, c, 0) : new(0, 0, c);
        Prepare(axis);
        Mark(n, d);
        (Vec3 e1, Vec3 e2) = n.Frame();
        var crossing = new Crossing(this, n, e1, e2, p0);
        (Vector256<double> first, Vector256<double> second) = Whole(alongStrip[axis]!, overStrips[axis]!, n, d, ref crossing);
        double third = c / 3, volume = first[0] - third * second[0];
        Vec3 moment = 0.25 * (new Vec3(
            first[1] - third * second[1], first[2] - third * second[2], first[3] - third * second[3]) + volume * p0);
        // Both sums are taken from p₀; moments are reported from there too.
        return crossing.Finish(volume, moment - volume * p0, middle + p0);
    }

    /// <summary>A mask for every row; heights only for those that their bounding balls leave in question.</summary>
    private void Mark(Vec3 n, double d)
    {
        for (int row = 0; row < rows; row++)
        {
            double middleHeight = Vec3.Dot(n, centre[row]) - d;
            measured[row] = Math.Abs(middleHeight) <= radius[row];
            wet[row] = measured[row] ? Measure(row, n, d) : middleHeight > 0 ? 0 : full;
        }
    }

    /// <summary>Works out a row's heights over the plane; returns its wet vertices.</summary>
    private ulong Measure(int row, Vec3 n, double d)
    {
        Vector256<double> vx = Vector256.Create(n.X), vy = Vector256.Create(n.Y), vz = Vector256.Create(n.Z), vd = Vector256.Create(d);
        ref double px = ref MemoryMarshal.GetArrayDataReference(x), py = ref MemoryMarshal.GetArrayDataReference(y);
        ref double pz = ref MemoryMarshal.GetArrayDataReference(z), ph = ref MemoryMarshal.GetArrayDataReference(height);
        ulong mask = 0;
        nuint start = (nuint)(row * sides);
        for (nuint i = 0; i < (nuint)sides; i += 4)
        {
            nuint at = start + i;
            Vector256<double> h = Vector256.LoadUnsafe(ref px, at) * vx + Vector256.LoadUnsafe(ref py, at) * vy
                + Vector256.LoadUnsafe(ref pz, at) * vz - vd;
            h.StoreUnsafe(ref ph, at);
            mask |= (ulong)Vector256.LessThan(h, Vector256<double>.Zero).ExtractMostSignificantBits() << (int)i;
        }
        return mask;
    }

    private (Vector256<double>, Vector256<double>) Whole(
        double[] along, double[] over, Vec3 n, double d, ref Crossing crossing)
    {
        Vector256<double> first = Vector256<double>.Zero, second = Vector256<double>.Zero;
        ref double entries = ref MemoryMarshal.GetArrayDataReference(along);
        ref double totals = ref MemoryMarshal.GetArrayDataReference(over);
        int strips = rows - 1, block = 2 * (sides + 1) * Entry, run = -1;
        for (int strip = 0; strip <= strips; strip++)
        {
            bool whole = strip < strips && wet[strip] == full && wet[strip + 1] == full;
            if (whole)
            {
                if (run < 0) run = strip;
                continue;
            }
            if (run >= 0)
            {
                Add(ref totals, (nuint)(strip * Entry), (nuint)(run * Entry), ref first, ref second);
                run = -1;
            }
            if (strip == strips || (wet[strip] | wet[strip + 1]) == 0) continue;
            // A strip between a wet row and a dry one is crossed though neither row is.
            for (int row = strip; row <= strip + 1; row++)
            {
                if (measured[row]) continue;
                Measure(row, n, d);
                measured[row] = true;
            }
            ulong a = wet[strip], b = wet[strip + 1], a1 = Next(a), b1 = Next(b);
            // Slot 0 is (a, b, a₁) to starboard and (a, b, b₁) to port; slot 1 (a₁, b, b₁) and (a, b₁, a₁).
            ulong third0 = (a1 & starboard) | (b1 & ~starboard), third1 = (b & starboard) | (a & ~starboard);
            Slot(strip, 0, a, b, third0, ref entries, (nuint)(strip * block), ref first, ref second, ref crossing);
            Slot(strip, 1, a1, b1, third1, ref entries, (nuint)(strip * block + (sides + 1) * Entry), ref first, ref second, ref crossing);
        }
        return (first, second);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Slot(
        int strip, int slot, ulong p, ulong q, ulong r, ref double entries, nuint at,
        ref Vector256<double> first, ref Vector256<double> second, ref Crossing crossing)
    {
        ulong both = p & q, either = p | q;
        ulong most = both | (either & r), crossed = (either | r) & ~(both & r) & full;
        // Runs of wet triangles, each one difference of running sums.
        while (most != 0)
        {
            int from = BitOperations.TrailingZeroCount(most);
            ulong rest = ~(most >> from);
            int length = rest == 0 ? 64 - from : BitOperations.TrailingZeroCount(rest);
            int to = from + length;
            Add(ref entries, at + (nuint)(to * Entry), at + (nuint)(from * Entry), ref first, ref second);
            most = to >= 64 ? 0 : most & (ulong.MaxValue << to);
        }
        while (crossed != 0)
        {
            int side = BitOperations.TrailingZeroCount(crossed);
            crossed &= crossed - 1;
            (int i, int j, int k) = Corners(strip, slot, side);
            crossing.Add(i, j, k);
        }
    }

    private ulong Next(ulong mask) => (mask >> 1) | ((mask & 1) << (sides - 1));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(ref double sums, nuint to, nuint from, ref Vector256<double> first, ref Vector256<double> second)
    {
        first += Vector256.LoadUnsafe(ref sums, to) - Vector256.LoadUnsafe(ref sums, from);
        second += Vector256.LoadUnsafe(ref sums, to + 4) - Vector256.LoadUnsafe(ref sums, from + 4);
    }

    /// <summary>The lone corners of crossed triangles, summed in the plane's own axes from p₀.</summary>
    private ref struct Crossing
    {
        private readonly ref double x;
        private readonly ref double y;
        private readonly ref double z;
        private readonly ref double height;
        private readonly Vec3 n;
        private readonly Vec3 e1;
        private readonly Vec3 e2;
        private readonly double o1;
        private readonly double o2;
        private double volume, m1, m2, m3, area, s1, s2, i11, i12, i22;

        public Crossing(StripCutter owner, Vec3 n, Vec3 e1, Vec3 e2, Vec3 p0)
        {
            x = ref MemoryMarshal.GetArrayDataReference(owner.x);
            y = ref MemoryMarshal.GetArrayDataReference(owner.y);
            z = ref MemoryMarshal.GetArrayDataReference(owner.z);
            height = ref MemoryMarshal.GetArrayDataReference(owner.height);
            (this.n, this.e1, this.e2) = (n, e1, e2);
            (o1, o2) = (Vec3.Dot(e1, p0), Vec3.Dot(e2, p0));
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Add(int a, int b, int c)
        {
            double ha = Unsafe.Add(ref height, a), hb = Unsafe.Add(ref height, b), hc = Unsafe.Add(ref height, c);
            bool wetA = ha < 0, wetB = hb < 0, wetC = hc < 0;
            // Turn the triangle until the lone corner is c.
            if (wetB == wetC) (a, b, c, ha, hb, hc) = (b, c, a, hb, hc, ha);
            else if (wetA == wetC) (a, b, c, ha, hb, hc) = (c, a, b, hc, ha, hb);
            (double c1, double c2) = InPlane(c);
            (double a1, double a2) = InPlane(a);
            (double b1, double b2) = InPlane(b);
            double t = hc / (hc - ha), u = hc / (hc - hb);
            double p1 = c1 + t * (a1 - c1), p2 = c2 + t * (a2 - c2);
            double q1 = c1 + u * (b1 - c1), q2 = c2 + u * (b2 - c2);
            double cr = p1 * q2 - p2 * q1;
            if (!(hc < 0)) cr = -cr;
            double v = hc * cr, sum1 = p1 + q1, sum2 = p2 + q2;
            volume += v;
            m1 += v * (c1 + sum1);
            m2 += v * (c2 + sum2);
            m3 += v * hc;
            area += cr;
            s1 += cr * sum1;
            s2 += cr * sum2;
            // P₁² + P₁Q₁ + Q₁² = (P₁+Q₁)² − P₁Q₁, and 2P₁P₂ + P₁Q₂ + Q₁P₂ + 2Q₁Q₂ = (P₁+Q₁)(P₂+Q₂) + P₁P₂ + Q₁Q₂.
            i11 += cr * (sum1 * sum1 - p1 * q1);
            i22 += cr * (sum2 * sum2 - p2 * q2);
            i12 += cr * (sum1 * sum2 + p1 * p2 + q1 * q2);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private readonly (double, double) InPlane(int i)
        {
            double px = Unsafe.Add(ref x, i), py = Unsafe.Add(ref y, i), pz = Unsafe.Add(ref z, i);
            return (e1.X * px + e1.Y * py + e1.Z * pz - o1, e2.X * px + e2.Y * py + e2.Z * pz - o2);
        }

        public readonly Cut Finish(double whole, Vec3 wholeMoment, Vec3 origin) => new(
            whole + volume / 6, wholeMoment + (m1 * e1 + m2 * e2 + m3 * n) / 24, -area / 2, -s1 / 6, -s2 / 6,
            -i11 / 12, -i12 / 24, -i22 / 12, origin, e1, e2);
    }
}
