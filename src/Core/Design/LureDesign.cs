using System.Collections.Immutable;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>
/// One lure as its maker describes it: what a <c>*.lure.json</c> file holds. Values are in the file's own units, which
/// their names say where they are not mm, g or degrees-free. Every mass and density is as weighed in air. A design that
/// came out of <see cref="LureFile.Read"/> is sound: everything below it may rely on that.
/// </summary>
public sealed record LureDesign
{
    public required string Name { get; init; }

    /// <summary>The maker's own word: stickbait, popper, pencil, swimmer …</summary>
    public string? Kind { get; init; }

    public required BodyDesign Body { get; init; }

    public required WoodDesign Wood { get; init; }

    public WireDesign? Wire { get; init; }

    public ImmutableArray<BallastPiece> Ballast { get; init; } = [];

    public ImmutableArray<Coat> Finish { get; init; } = [];

    /// <summary>In chain order at each place: ring, then hook.</summary>
    public ImmutableArray<HardwareItem> Hardware { get; init; } = [];

    public LeaderDesign? Leader { get; init; }

    public HalvesDesign? Halves { get; init; }

    /// <summary>Sealer soaked into the wood, g: weight without volume.</summary>
    public double SoakedG { get; init; }

    public JointDesign? Joint { get; init; }

    public EyesDesign? Eyes { get; init; }

    public Kept Kept { get; init; }

    /// <summary>
    /// Whether a thing is <em>captive</em>: a swivel threaded on the wire, before its last eye is closed, at a hanger that is a
    /// swivel. It can't come off after bending, so it belongs to the wire: it is weighed with it at every stage and in every rig,
    /// and a stand-in takes the place only of what unhooks.
    /// </summary>
    /// <param name="item">Its place in <see cref="Hardware"/>.</param>
    public bool IsCaptive(int item) => Hardware[item] is { Kind: HardwareKind.Swivel } swivel
        && Wire is { } wire && wire.Hangers.Any(h => h.Kind == HangerKind.Swivel && h.Name == swivel.HangsFrom)
        // One swivel goes on the wire at a hanger, the first of its chain; a second one hangs from it.
        && !Hardware.Take(item).Any(before => before.Kind == HardwareKind.Swivel && before.HangsFrom == swivel.HangsFrom);
}

public sealed record BodyDesign
{
    public required double LengthMm { get; init; }

    public required Outline Back { get; init; }

    public required Outline Belly { get; init; }

    public required Outline Plan { get; init; }

    public ImmutableArray<Fullness> Section { get; init; } = [new Fullness(0, 2, 2)];

    /// <summary>Of what curve its sections are.</summary>
    public SectionCurve Curve { get; init; } = SectionCurve.Superellipse;

    /// <summary>Its key in the file.</summary>
    internal static readonly FileKey<BodyDesign> CurveKey = new Choice<BodyDesign, SectionCurve>(
        "curve", "Curve of the sections", SectionCurve.Superellipse, [.. SectionCurve.All.Select(c => (c.Word, c))], b => b.Curve, (b, v) => b with { Curve = v });

    public NoseFaceDesign? NoseFace { get; init; }

    /// <summary>Keys kept of the body itself, and of back, belly and plan.</summary>
    public Kept Kept { get; init; }

    public ImmutableArray<Kept> OutlinesKept { get; init; } = [default, default, default];

    /// <summary>Keys kept of each entry of <see cref="Section"/>; may be shorter.</summary>
    public ImmutableArray<Kept> SectionKept { get; init; } = [];

    /// <summary>The surface that these numbers describe.</summary>
    public Body Surface() => new(Back, Belly, Plan, Section, NoseFace?.Face(), Curve);
}

public sealed record NoseFaceDesign
{
    public required NoseFaceKind Kind { get; init; }

    public double SlantDeg { get; init; }

    public double CupDiameterMm { get; init; }

    public double CupDepthMm { get; init; }

    public double CupAtZMm { get; init; }

    public Kept Kept { get; init; }

    public NoseFace Face() =>
        new(Kind, Quantities.Units.FromDegrees(SlantDeg), CupDiameterMm, CupDepthMm, CupAtZMm);
}

public sealed record WoodDesign
{
    public string? Name { get; init; }

    public required double DensityGPerCm3 { get; init; }

    public double? DensitySdGPerCm3 { get; init; }

    public Kept Kept { get; init; }
}

public enum EyePlane
{
    Upright,
    Flat,
}

/// <summary>A loop of the wire: at the nose (line tie), the tail, or a hanger.</summary>
public sealed record EyeDesign
{
    /// <summary>Height at which the wire leaves the body, mm.</summary>
    public double ZMm { get; init; }

    /// <summary>Where hardware hangs; null: square off the surface by <see cref="StandsOutMm"/>.</summary>
    public ImmutableArray<double>? HangAtMm { get; init; }

    public EyePlane Plane { get; init; }

    public double InsideMm { get; init; } = 5;

    /// <summary>From the surface to the eye's far inner side, mm.</summary>
    public double StandsOutMm { get; init; } = 4;

    public EyeClosing Closing { get; init; } = EyeClosing.Wrapped;

    public double Wraps { get; init; } = 3;

    /// <summary>Thickness of the line of a whipped eye, mm.</summary>
    public double LineMm { get; init; } = 0.3;

    /// <summary>How far a whipping goes along the leg, mm.</summary>
    public double WhippedMm { get; init; } = 10;

    public Kept Kept { get; init; }

    // Its keys in the file: what is read, written and told to other programs. Leaving out the closing means another one in each place.
    private static ImmutableArray<FileKey<EyeDesign>> KeysWith(EyeClosing usual) =>
    [
        new UsualNumber<EyeDesign>("z_mm", "Height at which the wire leaves the body, mm", -LureReader.Farthest, LureReader.Farthest, 0, e => e.ZMm, (e, v) => e with { ZMm = v })
            { More = "From the axis, up positive.", IsAlwaysWritten = true },
        new NumbersOrNone<EyeDesign>("hang_at_mm", "Where hardware hangs, mm", 3, -LureReader.Longest, LureReader.Longest, e => e.HangAtMm, (e, v) => e with { HangAtMm = v })
            { More = "[x, y, z]: aft of the nose, to starboard, up. Left out: square off the surface by stands_out_mm." },
        new Choice<EyeDesign, EyePlane>("plane", "Plane of the eye", EyePlane.Upright, FileWords.Of<EyePlane>(), e => e.Plane, (e, v) => e with { Plane = v }),
        new UsualNumber<EyeDesign>("inside_mm", "Inside diameter of the eye, mm", 0.5, 60, 5, e => e.InsideMm, (e, v) => e with { InsideMm = v }),
        new UsualNumber<EyeDesign>("stands_out_mm", "How far the eye stands out, mm", 0, 100, 4, e => e.StandsOutMm, (e, v) => e with { StandsOutMm = v })
            { More = "From the surface to the eye's far inner side." },
        new Choice<EyeDesign, EyeClosing>("closing", "How the eye is closed", usual, [.. EyeClosing.All.Select(c => (c.Word, c))], e => e.Closing, (e, v) => e with { Closing = v })
            { More = "Left out: wrapped at the line tie and the tail loop, open at a hanger.", IsUsualSaid = true },
        new UsualNumber<EyeDesign>("wraps", "Turns of a wrapped eye", 0, 30, 3, e => e.Wraps, (e, v) => e with { Wraps = v }),
        new UsualNumber<EyeDesign>("line_mm", "Thickness of the line of a whipped eye, mm", 0.05, 2, 0.3, e => e.LineMm, (e, v) => e with { LineMm = v }),
        new UsualNumber<EyeDesign>("whipped_mm", "How far the whipping of a whipped eye goes along its leg, mm", 1, 100, 10, e => e.WhippedMm, (e, v) => e with { WhippedMm = v }),
    ];

    /// <summary>Keys of a line tie or a tail loop: wrapped unless the maker says otherwise.</summary>
    internal static readonly ImmutableArray<FileKey<EyeDesign>> EndKeys = KeysWith(EyeClosing.Wrapped);

    /// <summary>Keys of a hanger's loop, which is a bight of the run.</summary>
    internal static readonly ImmutableArray<FileKey<EyeDesign>> BightKeys = KeysWith(EyeClosing.Open);
}

public enum HangerKind
{
    Loop,
    Swivel,
    ScrewEye,
}

public sealed record Hanger
{
    public required string Name { get; init; }

    public HangerKind Kind { get; init; }

    public required double XMm { get; init; }

    public EyeDesign Eye { get; init; } = new() { Closing = EyeClosing.Open };

    /// <summary>Length and width of a swivel's open slot on the belly, mm; null: 12 × 4 mm.</summary>
    public ImmutableArray<double>? SlotMm { get; init; }

    /// <summary>Weight of a screw eye, g; null: by its wire.</summary>
    public double? MassG { get; init; }

    public Kept Kept { get; init; }
}

public sealed record WireDesign
{
    public required double DiameterMm { get; init; }

    public string? Grade { get; init; }

    public double DensityGPerCm3 { get; init; } = 7.9;

    public EyeDesign LineTie { get; init; } = new();

    /// <summary>Null: the wire ends inside the body.</summary>
    public EyeDesign? TailLoop { get; init; }

    public ImmutableArray<Hanger> Hangers { get; init; } = [];

    /// <summary>The wire's path in the glue face, (x, z) in mm from nose to tail; empty: straight, dipping at loops.</summary>
    public ImmutableArray<(double X, double Z)> RunMm { get; init; } = [];

    /// <summary>Side of the square slot that the wire lies in, mm; null: the wire and 0.4 mm.</summary>
    public double? SlotWidthMm { get; init; }

    public Kept Kept { get; init; }
}

/// <summary>A weight inside the body, in a pocket half in each half.</summary>
public sealed record BallastPiece
{
    public required string Name { get; init; }

    public required BallastForm Form { get; init; }

    public Axis Axis { get; init; }

    public double DiameterMm { get; init; }

    public double LengthMm { get; init; }

    public double WidthMm { get; init; }

    public double ThicknessMm { get; init; }

    public double? DensityGPerCm3 { get; init; }

    /// <summary>As weighed; null: by form and density.</summary>
    public double? MassG { get; init; }

    /// <summary>Its middle, (x, y, z) mm.</summary>
    public required ImmutableArray<double> AtMm { get; init; }

    public double BoreMm { get; init; }

    /// <summary>Threaded on the wire through its bore.</summary>
    public bool OnWire { get; init; }

    /// <summary>How much wider and longer its pocket is, mm; null: 0.5 mm.</summary>
    public double? ClearanceMm { get; init; }

    public Kept Kept { get; init; }
}

/// <summary>Coats of one stuff: film that adds weight and volume.</summary>
public sealed record Coat
{
    public required string Name { get; init; }

    /// <summary>What it is there for; a product of that name in the box knows better. A file without it: as its name says.</summary>
    public FinishUse Use { get; init; } = FinishUse.Clear;

    public int Coats { get; init; } = 1;

    /// <summary>Dry film of each coat, mm.</summary>
    public required double ThicknessMm { get; init; }

    public double DensityGPerCm3 { get; init; } = 1.15;

    public Kept Kept { get; init; }
}

public sealed record HardwareItem
{
    public required string Name { get; init; }

    public required HardwareKind Kind { get; init; }

    /// <summary>As printed on the packet (3/0), which tells what stands in for what, never a weight; null: not known.</summary>
    public string? Size { get; init; }

    /// <summary><c>line_tie</c>, a hanger's name or <c>tail_loop</c>.</summary>
    public required string HangsFrom { get; init; }

    public required double MassG { get; init; }

    public double DensityGPerCm3 { get; init; } = 7.8;

    public double LengthMm { get; init; } = 10;

    public double? DragAreaMm2 { get; init; }

    /// <summary>What it holds, as its maker states or as tried, kgf; null: not known.</summary>
    public double? StrengthKgf { get; init; }

    public Kept Kept { get; init; }
}

public sealed record LeaderDesign
{
    public string? Material { get; init; }

    public double DiameterMm { get; init; }

    public double DensityGPerCm3 { get; init; } = 1.78;

    /// <summary>How much of it the lure carries at rest, mm.</summary>
    public double CarriedMm { get; init; }

    /// <summary>Breaking load as its spool states, kgf; null: by material and diameter.</summary>
    public double? StrengthKgf { get; init; }

    public Kept Kept { get; init; }
}

/// <summary>The halves as weighed and measured after splitting, before anything is cut into them.</summary>
public sealed record HalvesDesign
{
    public double? RightG { get; init; }

    public double? LeftG { get; init; }

    /// <summary>By how much the right half's greatest half-breadth exceeds the left's, mm.</summary>
    public double RightWiderMm { get; init; }

    public Kept Kept { get; init; }
}

public enum Tack
{
    Tape,
    Paper,
    Spots,
}

/// <summary>What lies between the halves, before and after gluing.</summary>
public sealed record JointDesign
{
    public Tack Tack { get; init; }

    /// <summary>Thickness of the tack between the boards while carving, mm; null: 0.1, spots 0.03.</summary>
    public double? TackMm { get; init; }

    /// <summary>Width lost to a saw, if the carved blank is sawn apart, mm.</summary>
    public double KerfMm { get; init; }

    /// <summary>Planed or sanded off each glue face, mm.</summary>
    public double CleanedOffMm { get; init; }

    public double GlueLineMm { get; init; } = 0.1;

    public double GlueDensityGPerCm3 { get; init; } = 1.15;

    /// <summary>Glue or sawdust filler in slots and clearances.</summary>
    public double FillerDensityGPerCm3 { get; init; } = 1.1;

    /// <summary>Locating pins, (x, z) mm.</summary>
    public ImmutableArray<(double X, double Z)> PinsMm { get; init; } = [];

    public Kept Kept { get; init; }

    public double TackThicknessMm => TackMm ?? (Tack == Tack.Spots ? 0.03 : 0.1);

    /// <summary>
    /// Width that each half loses in parting and cleaning, mm. A blank that is sawn apart was one piece; one that is split
    /// had a tack between its boards.
    /// </summary>
    public double LostPerHalf => (KerfMm > 0 ? KerfMm : TackThicknessMm) / 2 + CleanedOffMm;
}

/// <summary>A pair of eyes, let into sockets of their own size.</summary>
public sealed record EyesDesign
{
    public required double DiameterMm { get; init; }

    public double ThicknessMm { get; init; } = 2;

    /// <summary>Both together.</summary>
    public required double MassG { get; init; }

    public required double XMm { get; init; }

    public double ZMm { get; init; }

    public Kept Kept { get; init; }
}
