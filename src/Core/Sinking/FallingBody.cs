using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Core.Sinking;

/// <summary>A slice of the body across its axis.</summary>
/// <param name="X">Its middle, mm.</param>
/// <param name="Z">Height of its middle, mm.</param>
/// <param name="Length">Along the axis, mm.</param>
/// <param name="HalfBreadth">mm.</param>
/// <param name="HalfHeight">mm.</param>
/// <param name="Shape">Drag of its section over a circle's.</param>
public readonly record struct Strip(double X, double Z, double Length, double HalfBreadth, double HalfHeight, double Shape);

/// <summary>Hardware as the flow sees it: a drag area at its hang point.</summary>
public readonly record struct Trailing(Vec3 At, double DragArea);

/// <summary>
/// All that falling needs to know of a lure in a water. Body axes, mm, g, ms. Masses as weighed in air; the water's
/// density for drag and added mass is the true one, for lift the effective one.
/// </summary>
public sealed record FallingBody
{
    public required ImmutableArray<Strip> Strips
    {
        get => strips;
        init
        {
            strips = value;
            LogBreadths = [.. value.Select(s => Math.Log(2 * s.HalfBreadth))];
        }
    }

    /// <summary>Logarithm of each strip's whole breadth, mm: what its Reynolds number needs when the water comes from straight below.</summary>
    internal ImmutableArray<double> LogBreadths { get; private init; }

    private readonly ImmutableArray<Strip> strips;

    public required ImmutableArray<Trailing> Hardware { get; init; }

    /// <summary>Weight with hardware, g, and its centre with hardware at its hang points, mm.</summary>
    public required double Weight { get; init; }

    public required Vec3 Cg { get; init; }

    /// <summary>Whole outside volume, mm³, and its centre.</summary>
    public required double Volume { get; init; }

    public required Vec3 Cb { get; init; }

    /// <summary>Of the skin alone: for added mass and friction.</summary>
    public required double SkinVolume { get; init; }

    public required double SkinArea { get; init; }

    public required double Length { get; init; }

    public required double Breadth { get; init; }

    public required double Height { get; init; }

    /// <summary>Largest section, mm².</summary>
    public required double Frontal { get; init; }

    /// <summary>Flat faces at the nose and the tail, and the cup's mouth, mm².</summary>
    public double NoseFace { get; init; }

    public double TailFace { get; init; }

    public double CupMouth { get; init; }

    /// <summary>Moments of inertia of the fixed parts about the centre of gravity's axes, g·mm².</summary>
    public required Vec3 Inertia { get; init; }

    /// <summary>True density of the water, g/mm³, and its kinematic viscosity, mm²/ms.</summary>
    public required double Water { get; init; }

    public required double Viscosity { get; init; }

    public DragModel Model { get; init; } = DragModel.Usual;

    /// <summary>Effective density for lift: the water's less the air's.</summary>
    public double Lift => Water - Units.AirDensity;

    /// <summary>Weight less lift with everything under water, g; positive sinks.</summary>
    public double Heavy => Weight - Lift * Volume;

    /// <summary>Share of the endless body's cross-flow drag, by its slenderness.</summary>
    public double FiniteLength => finite ??= CrossFlow.FiniteLength(Length / Math.Sqrt(Breadth * Height));

    /// <summary>Friction of a thick body over a flat plate's: 1 + 1.5(d/l)^1.5 + 7(d/l)³ (Hoerner 1965, ch. 6).</summary>
    public double FormFactor => form ??= 1 + 1.5 * Math.Pow(Thickness, 1.5) + 7 * Math.Pow(Thickness, 3);

    private double Thickness => Math.Sqrt(Breadth * Height) / Length;

    // Kept once worked out: a body changed by "with" keeps its shape, only its weights change.
    private double? finite;
    private double? form;
    private AddedMass? added;

    /// <summary>Added-mass shares of the ellipsoid of equal length, breadth and height.</summary>
    public AddedMass Added => added ??= AddedMass.Of(Length / 2, Breadth / 2, Height / 2);

    // So little of Munk's moment is left behind any wake.
    private const double LeastWake = 0.1;

    /// <summary>The same lure with other drag than the usual: factors on drag across its way, of hooks and rings, and end-on; and more of Munk's moment left.</summary>
    public FallingBody Dragging(double across, double hooks, double ends, double wake) => this with
    {
        Hardware = [.. Hardware.Select(h => h with { DragArea = hooks * h.DragArea })],
        Model = Model with { Across = across, Ends = ends * Model.Ends, Wake = Math.Clamp(Model.Wake + wake, LeastWake, 1) },
    };

    /// <summary>A lure from its ledger, with the usual coefficients or given ones. The leader is left slack: it adds nothing here.</summary>
    public static FallingBody Of(LureDesign design, WeightLedger ledger, WaterState water, DragModel? model = null)
    {
        model ??= DragModel.Usual;
        ClosedMesh skin = ledger.Skin;
        ImmutableArray<Strip> strips = Slice(skin, design.Body.Surface());
        Body body = design.Body.Surface();
        Section nose = body.SectionAt(0), tail = body.SectionAt(body.Length);
        double cup = body.Face is { Kind: NoseFaceKind.Cupped } face ? Math.PI / 4 * face.CupDiameter * face.CupDiameter : 0;
        return new FallingBody
        {
            Strips = strips,
            Hardware = Trailings(design, ledger, model),
            Weight = ledger.Weight,
            Cg = ledger.Cg,
            Volume = ledger.Volume,
            Cb = ledger.Cb,
            SkinVolume = ledger.SkinProperties.Volume,
            SkinArea = ledger.SkinProperties.Area,
            Length = skin.X.Max() - skin.X.Min(),
            Breadth = 2 * strips.Max(s => s.HalfBreadth),
            Height = 2 * strips.Max(s => s.HalfHeight),
            Frontal = Enumerable.Range(0, 65).Max(i => body.SectionAt(body.Length * i / 64).Area),
            NoseFace = body.NoseCloses ? 0 : Math.Max(nose.Area - cup, 0),
            CupMouth = body.NoseCloses ? 0 : cup,
            TailFace = body.TailCloses ? 0 : tail.Area,
            Inertia = InertiaOf(ledger),
            Water = water.Density,
            Viscosity = water.KinematicViscosity,
            Model = model,
        };
    }

    // Rings in fours: forty strips follow the outline to a per mille.
    private static ImmutableArray<Strip> Slice(ClosedMesh skin, Body body)
    {
        const int Group = 4;
        var strips = ImmutableArray.CreateBuilder<Strip>();
        int first = skin.FaceRings, last = skin.Rings - 1;
        for (int ring = first; ring < last; ring += Group)
        {
            int to = Math.Min(ring + Group, last);
            double length = 0, breadth = 0, height = 0, z = 0;
            for (int i = ring; i < to; i++)
            {
                (double x0, double b0, double h0, double z0) = Measure(skin, i);
                (double x1, double b1, double h1, double z1) = Measure(skin, i + 1);
                double dx = x1 - x0;
                length += dx;
                breadth += dx * 0.5 * (b0 + b1);
                height += dx * 0.5 * (h0 + h1);
                z += dx * 0.5 * (z0 + z1);
            }
            if (length <= 0) continue;
            double middle = 0.5 * (Measure(skin, ring).X + Measure(skin, to).X);
            Section section = body.SectionAt(Math.Clamp(middle, 0, body.Length));
            double shape = 0.5 * (section.Curve.Drag(section.FullAbove) + section.Curve.Drag(section.FullBelow));
            strips.Add(new Strip(middle, z / length, length, breadth / length, height / length, shape));
        }
        return strips.ToImmutable();
    }

    private static (double X, double HalfBreadth, double HalfHeight, double Z) Measure(ClosedMesh skin, int ring)
    {
        Vec3 right = skin.OnSection(ring, skin.Sides / 4), left = skin.OnSection(ring, 3 * skin.Sides / 4);
        Vec3 back = skin.OnSection(ring, 0), belly = skin.OnSection(ring, skin.Sides / 2);
        return (0.5 * (right.X + left.X), 0.5 * (right.Y - left.Y), 0.5 * (back.Z - belly.Z), 0.5 * (back.Z + belly.Z));
    }

    // Counted on trebles and rings: bent from wire about 6 times as long as they hang down, of which about 3.2 times that
    // length is seen from any side, shanks and bends covering each other. Common practice, no source.
    private const double WirePerLength = 6;
    private const double SeenPerLength = 3.2;

    private static ImmutableArray<Trailing> Trailings(LureDesign design, WeightLedger ledger, DragModel model)
    {
        var list = ImmutableArray.CreateBuilder<Trailing>();
        foreach (Chain chain in ledger.Chains)
        {
            double area = 0;
            foreach (HungItem item in chain.Items)
            {
                double? given = item.Item is { } index ? design.Hardware[index].DragAreaMm2 : null;
                area += given ?? model.Hardware * Silhouette(item);
            }
            list.Add(new Trailing(chain.HangPoint, area));
        }
        return list.ToImmutable();
    }

    private static double Silhouette(HungItem item)
    {
        double thickness = Math.Sqrt(4 / Math.PI * item.Volume / (WirePerLength * item.Length));
        return SeenPerLength * item.Length * thickness;
    }

    private static Vec3 InertiaOf(WeightLedger ledger)
    {
        Vec3 cg = ledger.Cg, sum = Vec3.Zero;
        foreach (Part part in ledger.Parts)
        {
            Vec3 arm = part.Centre - cg;
            Vec3 second = part.Spread + part.Mass * new Vec3(arm.X * arm.X, arm.Y * arm.Y, arm.Z * arm.Z);
            sum += new Vec3(second.Y + second.Z, second.X + second.Z, second.X + second.Y);
        }
        double least = 1e-3 * ledger.Weight;
        return new Vec3(Math.Max(sum.X, least), Math.Max(sum.Y, least), Math.Max(sum.Z, least));
    }
}
