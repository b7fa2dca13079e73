using System.Collections.Immutable;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Floating;

/// <summary>
/// All that floating needs to know of a lure in a water: its skin, what is fixed to it, what hangs on it.
/// <para>
/// Energies are in g·mm: the weight in grams times a height, gravity left out. The water's density is effective, less
/// the air that every weight in the ledger was weighed in; the books then balance exactly, floating or sunk.
/// </para>
/// <para>
/// A lump or hung thing at point p acts through its height H = n·p − d above the water by a potential ε(H).
/// Fixed lump (volume v, extent e) with u = clamp((e/2 − H)/e): it goes under as a ball does, fraction 3u² − 2u³,
/// so ε = ρv·e(u³ − u⁴/2), and deeper ρv(−H). Hung thing (mass m, volume v, length ℓ, hanging s below its point) with
/// u = clamp((s + ℓ − H)/ℓ): fraction u, ε = mH + ρv·ℓu²/2, and deeper mH + ρv(ℓ/2 + s − H).
/// </para>
/// </summary>
public sealed class FloatingBody
{
    private readonly ICutter cutter;
    private readonly ImmutableArray<Lump> lumps;
    private readonly ImmutableArray<(Vec3 At, double Above, HungItem Item)> hung;
    private readonly LeaderPull? leader;

    /// <summary>The skin, closed, mm.</summary>
    public ClosedMesh Skin { get; }

    /// <summary>Effective density of the water, g/mm³.</summary>
    public double Water { get; }

    /// <summary>Weight of what is fixed to the body, g, and its centre, mm.</summary>
    public double FixedWeight { get; }

    public Vec3 FixedCg { get; }

    /// <summary>All weight, hung and leader included, g.</summary>
    public double Weight { get; }

    /// <summary>All outside volume, hung and leader included, mm³.</summary>
    public double Volume { get; }

    /// <summary>Centre of all weight, hung things at their hang points, leader included, mm.</summary>
    public Vec3 Cg { get; }

    /// <summary>Centre of all volume, likewise, mm.</summary>
    public Vec3 Cb { get; }

    /// <summary>Displacement less weight with everything under water, g.</summary>
    public double SpareBuoyancy => Water * Volume - Weight;

    /// <summary>A point in the middle of the body, from which moments are taken, mm.</summary>
    public Vec3 Middle { get; }

    /// <summary>The skin's greatest reach from <see cref="Middle"/>, mm.</summary>
    public double Reach { get; }

    /// <param name="ledger">The lure at its stage.</param>
    /// <param name="water">Effective density, g/mm³.</param>
    public FloatingBody(WeightLedger ledger, double water)
        : this(CutterFor(ledger.Skin), ledger.Skin, ledger.SkinProperties, water,
            ledger.Weight - ledger.Chains.Sum(c => c.Mass), FixedMoment(ledger), ledger.Lumps, ledger.Chains, ledger.Leader)
    {
    }

    /// <summary>The same skin with other weights: it takes over what was prepared for cutting, and has a workspace of its own.</summary>
    /// <param name="ledger">Of the same skin.</param>
    /// <param name="water">Effective density, g/mm³.</param>
    /// <param name="prepared">By <see cref="PrepareCuts"/>; it may serve several threads so, as long as none of them cuts it.</param>
    public FloatingBody(WeightLedger ledger, double water, FloatingBody prepared)
        : this(ReferenceEquals(ledger.Skin, prepared.Skin) && prepared.cutter is StripCutter strips ? new StripCutter(strips) : CutterFor(ledger.Skin),
            ledger.Skin, ledger.SkinProperties, water,
            ledger.Weight - ledger.Chains.Sum(c => c.Mass), FixedMoment(ledger), ledger.Lumps, ledger.Chains, ledger.Leader)
    {
    }

    /// <summary>Prepares cuts along every axis.</summary>
    public void PrepareCuts()
    {
        for (int axis = 0; cutter is StripCutter strips && axis < 3; axis++) strips.Prepare(axis);
    }

    /// <summary>A solid by itself: a mesh with a weight and a centre of gravity.</summary>
    public FloatingBody(ClosedMesh mesh, double weight, Vec3 cg, double water)
        : this(CutterFor(mesh), mesh, SolidProperties.Of(mesh), water, weight, weight * cg, [], [], null)
    {
    }

    /// <summary>With a cutter of the caller's and the solid already measured: for thousands of builds that differ by a hair.</summary>
    internal FloatingBody(
        ICutter cutter, ClosedMesh skin, SolidProperties solid, double water, double weight, Vec3 moment,
        ImmutableArray<Lump> lumps, ImmutableArray<Chain> chains, LeaderPull? leader)
    {
        this.cutter = cutter;
        this.lumps = lumps;
        this.leader = leader;
        Skin = skin;
        Water = water;
        FixedWeight = weight;
        FixedCg = moment / weight;
        Middle = solid.Centroid;
        double reach = 0;
        for (int i = 0; i < skin.VertexCount; i++) reach = Math.Max(reach, (skin.Vertex(i) - Middle).LengthSquared);
        Reach = Math.Sqrt(reach);
        var list = ImmutableArray.CreateBuilder<(Vec3, double, HungItem)>();
        foreach (Chain chain in chains)
        {
            double above = 0;
            foreach (HungItem item in chain.Items)
            {
                list.Add((chain.HangPoint, above, item));
                above += item.Length;
            }
        }
        hung = list.ToImmutable();
        Weight = weight + chains.Sum(c => c.Mass) + (leader?.Mass ?? 0);
        Volume = solid.Volume + lumps.Sum(l => l.Volume) + chains.Sum(c => c.Volume) + (leader?.Volume ?? 0);
        Vec3 weights = chains.Aggregate(moment, (sum, c) => sum + c.Mass * c.HangPoint);
        Vec3 volumes = lumps.Aggregate(solid.Moment, (sum, l) => sum + l.Volume * l.At);
        volumes = chains.Aggregate(volumes, (sum, c) => sum + c.Volume * c.HangPoint);
        if (leader is { } pull) (weights, volumes) = (weights + pull.Mass * pull.At, volumes + pull.Volume * pull.At);
        Cg = weights / Weight;
        Cb = volumes / Volume;
    }

    private static ICutter CutterFor(ClosedMesh mesh) => StripCutter.Takes(mesh) ? new StripCutter(mesh) : new PlainCutter(mesh);

    private static Vec3 FixedMoment(WeightLedger ledger) =>
        ledger.Weight * ledger.Cg - ledger.Chains.Aggregate(Vec3.Zero, (sum, c) => sum + c.Mass * c.HangPoint);

    /// <summary>
    /// Energy and its first and second derivatives in the water plane's offset d and in n, at a plane. Moments are taken
    /// about <see cref="Middle"/>; the plane's offset is from there too.
    /// </summary>
    public Balance At(Vec3 n, double offset)
    {
        Cut cut = cutter.Cut(new WaterPlane(n, offset + Vec3.Dot(n, Middle)));
        Vec3 shift = cut.Origin - Middle;
        double o1 = Vec3.Dot(shift, cut.E1), o2 = Vec3.Dot(shift, cut.E2);
        Vec3 moment = cut.Moment + cut.Volume * shift;
        Vec3 g = FixedCg - Middle;
        var b = new Balance
        {
            N = n,
            Offset = offset,
            E1 = cut.E1,
            E2 = cut.E2,
            SkinVolume = cut.Volume,
            SkinMoment = moment,
            Area = cut.Area,
            Energy = FixedWeight * (Vec3.Dot(n, g) - offset) + Water * (offset * cut.Volume - Vec3.Dot(n, moment)),
            ForceUp = Water * cut.Volume - FixedWeight,
            Pull = FixedWeight * g - Water * moment,
            Kdd = Water * cut.Area,
            Kd1 = -Water * (cut.S1 + o1 * cut.Area),
            Kd2 = -Water * (cut.S2 + o2 * cut.Area),
            K11 = Water * (cut.I11 + 2 * o1 * cut.S1 + o1 * o1 * cut.Area),
            K12 = Water * (cut.I12 + o1 * cut.S2 + o2 * cut.S1 + o1 * o2 * cut.Area),
            K22 = Water * (cut.I22 + 2 * o2 * cut.S2 + o2 * o2 * cut.Area),
            Submerged = cut.Volume,
        };
        foreach (Lump lump in lumps) AddLump(ref b, lump);
        foreach ((Vec3 at, double above, HungItem item) in hung) AddHung(ref b, at, above, item);
        if (leader is { } pull) AddLeader(ref b, pull);
        return b;
    }

    private void AddLump(ref Balance b, Lump lump)
    {
        double e = lump.Extent, weight = Water * lump.Volume, height = Vec3.Dot(b.N, lump.At - Middle) - b.Offset;
        double u = Math.Clamp((e / 2 - height) / e, 0, 1);
        double fraction = u * u * (3 - 2 * u);
        double energy = weight * (u < 1 ? e * u * u * u * (1 - u / 2) : -height);
        b.Add(lump.At - Middle, energy, -weight * fraction, weight * 6 * u * (1 - u) / e);
        b.Submerged += lump.Volume * fraction;
    }

    private void AddHung(ref Balance b, Vec3 at, double above, in HungItem item)
    {
        double height = Vec3.Dot(b.N, at - Middle) - b.Offset, lift = Water * item.Volume, length = item.Length;
        double u = Math.Clamp((above + length - height) / length, 0, 1);
        double water = u < 1 ? length * u * u / 2 : length / 2 + above - height;
        double stiffness = u is > 0 and < 1 ? lift / length : 0;
        b.Add(at - Middle, item.Mass * height + lift * water, item.Mass - lift * u, stiffness);
        b.Submerged += item.Volume * u;
    }

    // A leader heavier than water pulls down by its wet weight wherever the line tie is; a lighter one floats, and pulls
    // up only on a line tie that is under water (over a few mm, so that the force has no jump).
    private void AddLeader(ref Balance b, LeaderPull pull)
    {
        const double Ease = 10;
        double wet = pull.Mass - Water * pull.Volume, height = Vec3.Dot(b.N, pull.At - Middle) - b.Offset;
        if (wet >= 0)
        {
            b.Add(pull.At - Middle, wet * height, wet, 0);
            b.Submerged += pull.Volume;
            return;
        }
        double u = Math.Clamp(-height / Ease, 0, 1);
        // What is not held down floats by itself and displaces its own weight.
        b.Submerged += (1 - u) * pull.Mass / Water + u * pull.Volume;
        double energy = -wet * (u < 1 ? Ease * u * u / 2 : Ease / 2 - height - Ease);
        b.Add(pull.At - Middle, energy, wet * u, u is > 0 and < 1 ? -wet / Ease : 0);
    }

    /// <summary>
    /// The plane offsets between which equilibrium must lie for up direction n, if there is spare buoyancy: all clear of
    /// the water, and all under it.
    /// </summary>
    public (double Low, double High) Range(Vec3 n)
    {
        (double low, double high) = Skin.Along(n);
        foreach (Lump lump in lumps)
        {
            double h = Vec3.Dot(n, lump.At);
            (low, high) = (Math.Min(low, h - lump.Extent), Math.Max(high, h + lump.Extent));
        }
        foreach ((Vec3 at, double above, HungItem item) in hung)
        {
            double h = Vec3.Dot(n, at);
            (low, high) = (Math.Min(low, h - above - item.Length), Math.Max(high, h));
        }
        if (leader is { } pull) high = Math.Max(high, Vec3.Dot(n, pull.At) + 20);
        double middle = Vec3.Dot(n, Middle), slack = 1e-6 * Reach;
        return (low - middle - slack, high - middle + slack);
    }
}
