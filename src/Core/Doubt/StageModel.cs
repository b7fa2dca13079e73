using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Doubt;

/// <summary>What hangs, clings or leaks beyond the design: of one reading only.</summary>
/// <param name="Mass">g taped on (a gram for inclining, lead), and where, mm.</param>
/// <param name="Volume">mm³ of it.</param>
/// <param name="At">mm, body axes.</param>
/// <param name="Air">mm³ of air held under film, spread over the body; negative: water that got into the gaps.</param>
/// <param name="Pull">g of weight at the body's middle without volume: what the water's skin holds up (negative) or down.</param>
public readonly record struct Extra(double Mass, double Volume, Vec3 At, double Air, double Pull);

/// <summary>One build as weighed: sums over all its parts, hung things at their hang points. mm, g, body axes.</summary>
public readonly record struct Weighed(
    double Weight, Vec3 WeightMoment, double Volume, Vec3 VolumeMoment, SolidProperties Skin, double FixedWeight, Vec3 FixedMoment)
{
    public Vec3 Cg => WeightMoment / Weight;

    public Vec3 Cb => VolumeMoment / Volume;

    /// <summary>Displacement less weight pushed fully under, g.</summary>
    public double Spare(double water) => water * Volume - Weight;
}

/// <summary>
/// The ledger at one stage, in one rig and water, as a function of the unknowns: the design's own ledger, from the
/// bookkeeper on the live mesh, with each line scaled or moved by what is unknown of it. At ξ = 0 it is the prediction.
/// </summary>
internal sealed class StageModel
{
    private readonly LureDesign design;
    private readonly Unknowns unknowns;
    private readonly double swelling;
    private readonly StageShape shape;
    private readonly double woodDensity;
    private readonly Part wood;
    private readonly double woodLength;
    private readonly Part wire;
    private readonly Part glueLine;
    private readonly Part filler;
    private readonly Part sealer;
    private readonly Part eyes;
    private readonly Part[] coats;

    public WeightLedger Ledger { get; }

    /// <summary>Effective density of the water, g/mm³.</summary>
    public double Water { get; }

    public StageShape Shape => shape;

    /// <summary>Room of the gaps (mm³) and its middle, of which wood cut too wide takes its share; 0 where nothing tells of it.</summary>
    public (double Room, Vec3 At) OverCut { get; init; }

    public StageModel(LureDesign design, Unknowns unknowns, Priors priors, StageShape shape, WeightLedger ledger, double water)
    {
        (this.design, this.unknowns, this.shape, Ledger, Water) = (design, unknowns, shape, ledger, water);
        swelling = priors.SwellingPerMoisture;
        Part Sum(Func<Part, bool> which) => ledger.Parts.Where(which)
            .Aggregate(Part.At(default, 0, "", 0, Vec3.Zero), (a, p) => a with
            {
                Mass = a.Mass + p.Mass, MassMoment = a.MassMoment + p.MassMoment, Displaces = a.Displaces + p.Displaces,
                VolumeMoment = a.VolumeMoment + p.VolumeMoment, Spread = a.Spread + p.Spread,
            });
        wood = Sum(p => p.Group == PartGroup.Wood);
        // What is threaded on the wire hangs in its chain, and has its own doubt.
        wire = Sum(p => p.Kind is PartKind.Wire or PartKind.Binding or PartKind.ScrewEye);
        glueLine = Sum(p => p.Kind is PartKind.GlueLine or PartKind.NoGlueInSlot);
        filler = Sum(p => p.Kind == PartKind.Filler);
        sealer = Sum(p => p.Group == PartGroup.Sealer);
        eyes = Sum(p => p.Group == PartGroup.Eyes);
        coats = [.. ledger.Parts.Where(p => p.Group == PartGroup.Coats)];
        woodLength = design.Body.LengthMm;
        woodDensity = design.Halves is { RightG: { } right, LeftG: { } left }
            ? (right + left) / shape.Wood.Volume : Units.FromGramsPerCm3(design.Wood.DensityGPerCm3);
    }

    /// <summary>Carves, weighs and measures a build. The scratch then holds its skin.</summary>
    /// <param name="xi">Unit normals, at least as many as there are unknowns of the build.</param>
    /// <param name="scratch">Of this stage's shape.</param>
    /// <param name="extra">Beyond the design.</param>
    public Weighed Weigh(ReadOnlySpan<double> xi, StageShape.Scratch scratch, in Extra extra = default)
    {
        Span<double> mm = stackalloc double[Unknowns.Modes];
        for (int k = 0; k < mm.Length; k++) mm[k] = unknowns[k].At(xi[k]);
        double At(int i, ReadOnlySpan<double> v) => unknowns[i].At(v[i]);
        double taken = shape.IsGlued ? At(Unknowns.Moisture, xi) : 0, swell = 0.5 * swelling * taken;
        double film = 0, lean = 0;
        for (int c = 0; c < coats.Length; c++)
        {
            double thicker = At(unknowns.Coat(c), xi);
            film += Thickness(c) * (thicker - 1);
            if (unknowns.Lean(c) is >= 0 and var own && Hanging.Lean(design.Finish[c]) is var drawn)
                lean += Thickness(c) * (thicker * (drawn + At(own, xi)) - drawn);
        }
        double glue = At(Unknowns.GlueLine, xi);
        shape.Carve(scratch, mm, swell, film, lean, glue);
        SolidProperties bare = scratch.Bare, outer = scratch.Outside;

        // Wood carved away or left: swelling moves volume, not weight, and is taken back.
        double g = 1 + swell;
        Vec3 unswollen = new(bare.Moment.X / (g * g), bare.Moment.Y / (g * g * g), bare.Moment.Z / (g * g * g));
        double extraWood = woodDensity * (bare.Volume / (g * g) - shape.Wood.Volume);
        Vec3 extraMoment = woodDensity * (unswollen - shape.Wood.Moment);
        double density = At(Unknowns.Density, xi) * (1 + taken);
        double mass = density * (wood.Mass + extraWood);
        Vec3 moment = density * (wood.MassMoment + extraMoment);
        moment += density * woodDensity * new Vec3(
            At(Unknowns.TailHeavy, xi) * bare.Second.X / (woodLength / 2), 0.5 * At(Unknowns.RightHeavy, xi) * shape.Apart, 0);

        Vec3 lift = new(0, 0, At(Unknowns.WireHeight, xi));
        double f = At(Unknowns.WireMass, xi);
        Add(ref mass, ref moment, f * wire.Mass, f * (wire.MassMoment + wire.Mass * lift));
        Add(ref mass, ref moment, glue * glueLine.Mass, glue * glueLine.MassMoment);
        f = At(Unknowns.Filler, xi);
        Add(ref mass, ref moment, f * filler.Mass, f * filler.MassMoment);
        if (OverCut.Room > 0)
        {
            double gone = -density * woodDensity * OverCut.Room * (f - 1);
            Add(ref mass, ref moment, gone, gone * OverCut.At);
        }
        AddSealer(ref mass, ref moment, At(Unknowns.Sealer, xi));
        f = At(Unknowns.Eyes, xi);
        Add(ref mass, ref moment, f * eyes.Mass, f * eyes.MassMoment);
        if (coats.Length > 0) AddCoats(ref mass, ref moment, bare, shape.WithoutGlue(outer, glue), film, xi);
        if (Ledger.Stage >= Stage.DryFit) AddPieces(ref mass, ref moment, density * woodDensity, xi);

        double fixedMass = mass + extra.Mass + extra.Pull;
        Vec3 fixedMoment = moment + extra.Mass * extra.At + extra.Pull * outer.Centroid;
        Add(ref mass, ref moment, extra.Mass + extra.Pull, extra.Mass * extra.At + extra.Pull * outer.Centroid);
        double volume = outer.Volume + extra.Volume + extra.Air;
        Vec3 volumes = outer.Moment + extra.Volume * extra.At + extra.Air * outer.Centroid;
        foreach (Lump lump in Ledger.Lumps) (volume, volumes) = (volume + lump.Volume, volumes + lump.Volume * lump.At);
        for (int c = 0; c < Ledger.Chains.Length; c++)
        {
            Vec3 at = Ledger.Chains[c].HangPoint + lift;
            for (int k = 0; k < Ledger.Chains[c].Items.Length; k++)
            {
                HungItem item = Ledger.Chains[c].Items[k];
                double h = HardwareFactor(item, xi);
                Add(ref mass, ref moment, h * item.Mass, h * item.Mass * at);
                (volume, volumes) = (volume + h * item.Volume, volumes + h * item.Volume * at);
            }
        }
        return new Weighed(mass, moment, volume, volumes, outer, fixedMass, fixedMoment);
    }

    /// <summary>One half of the wood as parted, g.</summary>
    /// <param name="xi">The build.</param>
    /// <param name="scratch">Of this stage's shape.</param>
    /// <param name="right">Which.</param>
    /// <param name="cut">Cut into it, g of wood as designed.</param>
    public double HalfWeight(ReadOnlySpan<double> xi, StageShape.Scratch scratch, bool right, double cut)
    {
        Weigh(xi, scratch);
        SolidProperties half = SolidProperties.Of(scratch.Wood.Mapped((_, p) => p with { Y = right ? Math.Max(p.Y, 0) : Math.Min(p.Y, 0) }));
        double side = 0.5 * unknowns[Unknowns.RightHeavy].At(xi[Unknowns.RightHeavy]), factor = unknowns[Unknowns.Density].At(xi[Unknowns.Density]);
        return factor * (right ? 1 + side : 1 - side) * (woodDensity * half.Volume - cut);
    }

    /// <summary>The bent wire as designed, with what binds its eyes, g.</summary>
    public double WireWeight => Ledger.Parts.Where(p => p.Kind is PartKind.Wire or PartKind.Binding).Sum(p => p.Mass);

    /// <summary>The weighed build as the water sees it; the scratch must still hold its skin.</summary>
    public FloatingBody Float(in Weighed weighed, ReadOnlySpan<double> xi, StageShape.Scratch scratch, in Extra extra = default)
    {
        ImmutableArray<Lump> lumps = Ledger.Lumps;
        if (extra.Volume != 0) lumps = lumps.Add(new Lump(extra.At, extra.Volume, Math.Max(Math.Cbrt(Math.Abs(extra.Volume)), 1)));
        if (extra.Air != 0) lumps = lumps.Add(new Lump(weighed.Skin.Centroid, extra.Air, 10));
        Vec3 lift = new(0, 0, unknowns[Unknowns.WireHeight].At(xi[Unknowns.WireHeight]));
        var chains = ImmutableArray.CreateBuilder<Chain>(Ledger.Chains.Length);
        for (int c = 0; c < Ledger.Chains.Length; c++)
        {
            Chain chain = Ledger.Chains[c];
            var items = new HungItem[chain.Items.Length];
            for (int k = 0; k < items.Length; k++)
            {
                double h = HardwareFactor(chain.Items[k], xi);
                items[k] = chain.Items[k] with { Mass = h * chain.Items[k].Mass, Volume = h * chain.Items[k].Volume };
            }
            chains.Add(chain with { HangPoint = chain.HangPoint + lift, Items = AsImmutable(items) });
        }
        return new FloatingBody(scratch.Cutter(), scratch.Outer, weighed.Skin, Water, weighed.FixedWeight, weighed.FixedMoment,
            lumps, chains.MoveToImmutable(), Ledger.Leader);
    }

    private static ImmutableArray<HungItem> AsImmutable(HungItem[] items) =>
        System.Runtime.InteropServices.ImmutableCollectionsMarshal.AsImmutableArray(items);

    private static void Add(ref double mass, ref Vec3 moment, double more, Vec3 itsMoment) => (mass, moment) = (mass + more, moment + itsMoment);

    private double Thickness(int coat) => design.Finish[coat].Coats * design.Finish[coat].ThicknessMm;

    private void AddSealer(ref double mass, ref Vec3 moment, double value)
    {
        if (Ledger.Stage < Stage.Sealed) return;
        if (sealer.Mass > 0) Add(ref mass, ref moment, value * sealer.Mass, value * sealer.MassMoment);
        // None planned: what soaks in all the same, or what the sealer's sanding took off.
        else Add(ref mass, ref moment, value, value * shape.Wood.Centroid);
    }

    // Each coat's mass goes with its own thickness and with the area that it covers; their common centre with the shell's.
    private void AddCoats(ref double mass, ref Vec3 moment, in SolidProperties bare, in SolidProperties outer, double film, ReadOnlySpan<double> xi)
    {
        double shell = outer.Volume - bare.Volume, designed = shape.Outer.Volume - shape.Wood.Volume;
        double area = shell / designed * shape.Film / (shape.Film + film);
        Vec3 moved = (outer.Moment - bare.Moment) / shell - (shape.Outer.Moment - shape.Wood.Moment) / designed;
        for (int c = 0; c < coats.Length; c++)
        {
            double own = area * unknowns[unknowns.Coat(c)].At(xi[unknowns.Coat(c)]) * coats[c].Mass;
            Add(ref mass, ref moment, own, own * (coats[c].Centre + moved));
        }
    }

    private void AddPieces(ref double mass, ref Vec3 moment, double woodNow, ReadOnlySpan<double> xi)
    {
        for (int i = 0; i < design.Ballast.Length; i++)
        {
            BallastPiece piece = design.Ballast[i];
            double own = unknowns[unknowns.PieceMass(i)].At(xi[unknowns.PieceMass(i)]) * piece.Mass;
            Vec3 moved = new(
                unknowns[unknowns.PieceX(i)].At(xi[unknowns.PieceX(i)]), unknowns[unknowns.PieceY(i)].At(xi[unknowns.PieceY(i)]),
                unknowns[unknowns.PieceZ(i)].At(xi[unknowns.PieceZ(i)]));
            // The wood that its pocket takes away goes along with it.
            Add(ref mass, ref moment, own, own * (piece.Middle + moved) - woodNow * piece.Pocket * moved);
        }
    }

    private double HardwareFactor(in HungItem item, ReadOnlySpan<double> xi)
    {
        // Stand-ins are weighed out of lead for the design's own hooks; how well is a matter of the reading.
        if (item.Item is not { } index) return 1;
        int i = unknowns.Hardware(index);
        return unknowns[i].At(xi[i]);
    }
}
