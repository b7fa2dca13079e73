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

    /// <summary>The file's top object, but for its version.</summary>
    internal static readonly FileObject<LureDesign> Form = new(
        new() { Name = "", Body = BodyDesign.None, Wood = WoodDesign.None }, d => d.Kept, (d, kept) => d with { Kept = kept },
    [
        new NeededText<LureDesign>("name", "The lure's name", "the lure's name", d => d.Name, (d, v) => d with { Name = v }),
        new TextOrNone<LureDesign>("kind", "Kind of lure", "the kind of lure, in your own word", d => d.Kind, (d, v) => d with { Kind = v })
            { More = "Your own word: stickbait, popper, pencil, swimmer." },
        new NeededObject<LureDesign, BodyDesign>("body", "The body as drawn", "the body: length and outlines", BodyDesign.Form,
            d => d.Body, (d, v) => d with { Body = v }),
        new NeededObject<LureDesign, WoodDesign>("wood", "The wood", "the wood, with its density", WoodDesign.Form,
            d => d.Wood, (d, v) => d with { Wood = v }),
        new ObjectOrNone<LureDesign, WireDesign>("wire", "The through-wire", WireDesign.Form, d => d.Wire, (d, v) => d with { Wire = v })
            { More = "Left out: no wire, and nothing to hang hardware on." },
        new ObjectList<LureDesign, BallastPiece>("ballast", "Weights in the wood", LureFile.MostPieces, "a list of weights", BallastPiece.InFile,
            d => d.Ballast, (d, v) => d with { Ballast = v }),
        new ObjectList<LureDesign, Coat>("finish", "Coats, from the wood outward", LureFile.MostPieces, "a list of coats", Coat.Form,
            d => d.Finish, (d, v) => d with { Finish = v }),
        new ObjectList<LureDesign, HardwareItem>("hardware", "Rings, swivels and hooks", LureFile.MostPieces, "a list of rings, swivels and hooks",
            HardwareItem.Form, d => d.Hardware, (d, v) => d with { Hardware = v })
            { More = "At each place in the order in which they hang: ring, then hook." },
        new ObjectOrNone<LureDesign, LeaderDesign>("leader", "The leader", LeaderDesign.Form,
            d => d.Leader, (d, v) => d with { Leader = v }),
        new ObjectOrNone<LureDesign, HalvesDesign>("halves", "The halves as weighed and measured", HalvesDesign.Form,
            d => d.Halves, (d, v) => d with { Halves = v })
            { More = "After splitting and cleaning, before anything is cut into them." },
        new UsualNumber<LureDesign>("soaked_g", "Sealer soaked into the wood, g", 0, 10_000, 0,
            d => d.SoakedG, (d, v) => d with { SoakedG = v })
            { More = "Weight without volume." },
        new ObjectOrNone<LureDesign, JointDesign>("joint", "What lies between the halves", JointDesign.Form,
            d => d.Joint, (d, v) => d with { Joint = v }),
        new ObjectOrNone<LureDesign, EyesDesign>("eyes", "A pair of eyes in sockets of their own size", EyesDesign.Form,
            d => d.Eyes, (d, v) => d with { Eyes = v }),
    ]);
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

    public NoseFaceDesign? NoseFace { get; init; }

    /// <summary>Keys kept of the body itself, and of back, belly and plan.</summary>
    public Kept Kept { get; init; }

    public ImmutableArray<Kept> OutlinesKept { get; init; } = [default, default, default];

    /// <summary>Keys kept of each entry of <see cref="Section"/>; may be shorter.</summary>
    public ImmutableArray<Kept> SectionKept { get; init; } = [];

    /// <summary>The surface that these numbers describe.</summary>
    public Body Surface() => new(Back, Belly, Plan, Section, NoseFace?.Face(), Curve);

    // An outline and a station of the file, with what their objects kept.
    private readonly record struct OutlineKept(Outline Outline, Kept Kept);

    private readonly record struct StationKept(Fullness Station, Kept Kept);

    private static readonly Outline NoOutline = new([], EndForm.Round, EndForm.Round, []);

    /// <summary>Before anything is read of it.</summary>
    internal static readonly BodyDesign None = new() { LengthMm = 0, Back = NoOutline, Belly = NoOutline, Plan = NoOutline };

    private static FileObject<OutlineKept> OutlineForm(string definition, double least, string values) => new(
        new(NoOutline, default), o => o.Kept, (o, kept) => o with { Kept = kept },
    [
        new NeededPairs<OutlineKept>("points_mm", "Points, mm", 2, LureFile.MostPoints, (0, LureFile.Longest), (least, LureFile.Longest),
            o => [.. o.Outline.Points.Select(p => (p.X, p.Value))],
            (o, v) => o with { Outline = o.Outline with { Points = [.. v.Select(p => new OutlinePoint(p.Item1, p.Item2))] } })
            { More = $"Pairs [x, value] from nose to tail: x rises from 0 to the body's length; values are {values}. A first or last value off the axis makes a flat end." },
        new Choice<OutlineKept, EndForm>("nose", "Form of the nose, where it closes", EndForm.Round, FileWords.Of<EndForm>(),
            o => o.Outline.Nose, (o, v) => o with { Outline = o.Outline with { Nose = v } }) { IsAlwaysWritten = true },
        new Choice<OutlineKept, EndForm>("tail", "Form of the tail, where it closes", EndForm.Round, FileWords.Of<EndForm>(),
            o => o.Outline.Tail, (o, v) => o with { Outline = o.Outline with { Tail = v } }) { IsAlwaysWritten = true },
        new NumberList<OutlineKept>("corners_mm", "Corners, mm", LureFile.MostPoints, "a list of x values", (0, LureFile.Longest),
            o => o.Outline.Corners, (o, v) => o with { Outline = o.Outline with { Corners = v } })
            { More = "The x of inner points at which the curve may break its direction." },
    ]) { Definition = definition };

    private static readonly FileObject<OutlineKept> Side = OutlineForm("side", -LureFile.Longest, "heights, up positive");

    private static readonly FileObject<OutlineKept> Above = OutlineForm("plan", 0, "half-breadths, 0 or more");

    private static readonly FileObject<StationKept> StationForm = new(new(new(0, 2, 2), default), s => s.Kept, (s, kept) => s with { Kept = kept },
    [
        new UsualNumber<StationKept>("x_mm", "Station, mm from the nose", 0, LureFile.Longest, 0,
            s => s.Station.X, (s, v) => s with { Station = s.Station with { X = v } }) { IsAlwaysWritten = true },
        new UsualNumber<StationKept>("above", "Fullness above the widest line", 1, 20, 2,
            s => s.Station.Above, (s, v) => s with { Station = s.Station with { Above = v } })
            { More = "Exponent of a superellipse: 1 diamond, 2 oval, larger boxier.", IsAlwaysWritten = true },
        new UsualNumber<StationKept>("below", "Fullness below the widest line", 1, 20, 2,
            s => s.Station.Below, (s, v) => s with { Station = s.Station with { Below = v } }) { IsAlwaysWritten = true },
        new NumberOrNone<StationKept>("widest_mm", "Height of the widest line, mm", -LureFile.Farthest, LureFile.Farthest,
            s => s.Station.Widest, (s, v) => s with { Station = s.Station with { Widest = v } })
            { More = "Left out: on the axis, or as near to it as the section reaches." },
    ]) { Definition = "station" };

    private static NeededObject<BodyDesign, OutlineKept> OutlineKey(
        string name, string title, int place, FileObject<OutlineKept> form, Func<BodyDesign, Outline> get, Func<BodyDesign, Outline, BodyDesign> with) =>
        new(name, title, "an outline: { \"points_mm\": [[x, value], …], \"nose\": …, \"tail\": … }", form, b => new(get(b), b.OutlinesKept[place]),
            (b, v) => with(b, v.Outline) with { OutlinesKept = b.OutlinesKept.SetItem(place, v.Kept) });

    /// <summary>The body in the file.</summary>
    internal static readonly FileObject<BodyDesign> Form = new(None, b => b.Kept, (b, kept) => b with { Kept = kept },
    [
        new NeededNumber<BodyDesign>("length_mm", "Length, mm", 5, LureFile.Longest, b => b.LengthMm, (b, v) => b with { LengthMm = v })
            { More = "Of the body alone, without eyes." },
        OutlineKey("back", "Outline of the back", 0, Side, b => b.Back, (b, v) => b with { Back = v }),
        OutlineKey("belly", "Outline of the belly", 1, Side, b => b.Belly, (b, v) => b with { Belly = v }),
        OutlineKey("plan", "Outline seen from above", 2, Above, b => b.Plan, (b, v) => b with { Plan = v }),
        new Choice<BodyDesign, SectionCurve>("curve", "Curve of the sections", SectionCurve.Superellipse,
            [.. SectionCurve.All.Select(c => (c.Word, c))], b => b.Curve, (b, v) => b with { Curve = v }),
        new ObjectList<BodyDesign, StationKept>("section", "Fullness of the sections", LureFile.MostPoints, "a list of { \"x_mm\", \"above\", \"below\" }", StationForm,
            b => [.. b.Section.Select((s, i) => new StationKept(s, i < b.SectionKept.Length ? b.SectionKept[i] : default))],
            (b, v) => b with { Section = v.IsEmpty ? None.Section : [.. v.Select(s => s.Station)], SectionKept = [.. v.Select(s => s.Kept)] })
            { More = "From nose to tail; between stations it runs straight, beyond them it holds. One entry holds for the whole body; left out: oval." },
        new ObjectOrNone<BodyDesign, NoseFaceDesign>("nose_face", "Face of a flat nose", NoseFaceDesign.Form,
            b => b.NoseFace, (b, v) => b with { NoseFace = v }),
    ]) { Definition = "body" };
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

    /// <summary>The face in the file. A cupped one needs its cup.</summary>
    internal static readonly FileObject<NoseFaceDesign> Form = new(new() { Kind = NoseFaceKind.Flat }, f => f.Kept, (f, kept) => f with { Kept = kept },
    [
        new Choice<NoseFaceDesign, NoseFaceKind>("kind", "Kind of face", NoseFaceKind.Flat, FileWords.Of<NoseFaceKind>(),
            f => f.Kind, (f, v) => f with { Kind = v })
            { IsAlwaysWritten = true },
        new UsualNumber<NoseFaceDesign>("slant_deg", "Slant, degrees", -60, 60, 0, f => f.SlantDeg, (f, v) => f with { SlantDeg = v })
            { More = "Positive: the upper lip is foremost and the face looks forward and down." },
        new NumberOfSome<NoseFaceDesign>("cup_diameter_mm", "Diameter of the cup's rim, mm", 1, LureFile.Farthest, f => f.Kind == NoseFaceKind.Cupped,
            f => f.CupDiameterMm == 0 ? null : f.CupDiameterMm, (f, v) => f with { CupDiameterMm = v ?? 0 })
            { More = "A cupped face needs it, 1 mm or more." },
        new NumberOfSome<NoseFaceDesign>("cup_depth_mm", "Depth of the cup, mm", 0.1, LureFile.Farthest, f => f.Kind == NoseFaceKind.Cupped,
            f => f.CupDepthMm == 0 ? null : f.CupDepthMm, (f, v) => f with { CupDepthMm = v ?? 0 })
            { More = "A cupped face needs it, 0.1 mm or more, at most the rim's radius." },
        new UsualNumber<NoseFaceDesign>("cup_at_z_mm", "Height of the cup's centre, mm", -LureFile.Farthest, LureFile.Farthest, 0,
            f => f.CupAtZMm, (f, v) => f with { CupAtZMm = v }),
    ])
    {
        Definition = "face",
        Conditions = """
            {
              "if": { "required": ["kind"], "properties": { "kind": { "const": "cupped" } } },
              "then": {
                "required": ["cup_diameter_mm", "cup_depth_mm"],
                "properties": { "cup_diameter_mm": { "type": "number", "minimum": 1 }, "cup_depth_mm": { "type": "number", "minimum": 0.1 } }
              }
            }
            """,
    };
}

public sealed record WoodDesign
{
    public string? Name { get; init; }

    public required double DensityGPerCm3 { get; init; }

    public double? DensitySdGPerCm3 { get; init; }

    /// <summary>Id of a wood in the maker's box; with that box, density and scatter are what its boards say.</summary>
    public string? BoxId { get; init; }

    public Kept Kept { get; init; }

    /// <summary>Before anything is read of it.</summary>
    internal static readonly WoodDesign None = new() { DensityGPerCm3 = LureFile.Lightest };

    /// <summary>The wood in the file.</summary>
    internal static readonly FileObject<WoodDesign> Form = new(None, w => w.Kept, (w, kept) => w with { Kept = kept },
    [
        new TextOrNone<WoodDesign>("name", "The wood's name", "the wood's name", w => w.Name, (w, v) => w with { Name = v }),
        new NeededNumber<WoodDesign>("density_g_cm3", "Density, g/cm³", LureFile.Lightest, LureFile.Densest,
            w => w.DensityGPerCm3, (w, v) => w with { DensityGPerCm3 = v })
            { More = "Of the very board where it was weighed, else from a table." },
        new NumberOrNone<WoodDesign>("density_sd_g_cm3", "How well the density is known, g/cm³", 0, LureFile.Densest,
            w => w.DensitySdGPerCm3, (w, v) => w with { DensitySdGPerCm3 = v })
            { More = "Standard deviation." },
        new TextOrNone<WoodDesign>("box_id", "Id of a wood in your box", "the id of a wood in your box", w => w.BoxId, (w, v) => w with { BoxId = v })
            { More = "Plans from that box count on its boards, or on its table where none is weighed, instead of density_g_cm3." },
    ]) { Definition = "wood" };
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
        new UsualNumber<EyeDesign>("z_mm", "Height at which the wire leaves the body, mm", -LureFile.Farthest, LureFile.Farthest, 0,
            e => e.ZMm, (e, v) => e with { ZMm = v })
            { More = "From the axis, up positive.", IsAlwaysWritten = true },
        new NumbersOrNone<EyeDesign>("hang_at_mm", "Where hardware hangs, mm", 3, -LureFile.Longest, LureFile.Longest,
            e => e.HangAtMm, (e, v) => e with { HangAtMm = v })
            { More = "[x, y, z]: aft of the nose, to starboard, up. Left out: square off the surface by stands_out_mm." },
        new Choice<EyeDesign, EyePlane>("plane", "Plane of the eye", EyePlane.Upright, FileWords.Of<EyePlane>(),
            e => e.Plane, (e, v) => e with { Plane = v }),
        new UsualNumber<EyeDesign>("inside_mm", "Inside diameter of the eye, mm", 0.5, 60, 5,
            e => e.InsideMm, (e, v) => e with { InsideMm = v }),
        new UsualNumber<EyeDesign>("stands_out_mm", "How far the eye stands out, mm", 0, 100, 4,
            e => e.StandsOutMm, (e, v) => e with { StandsOutMm = v })
            { More = "From the surface to the eye's far inner side." },
        new Choice<EyeDesign, EyeClosing>("closing", "How the eye is closed", usual, [.. EyeClosing.All.Select(c => (c.Word, c))],
            e => e.Closing, (e, v) => e with { Closing = v })
            { More = "Left out: wrapped at the line tie and the tail loop, open at a hanger.", IsUsualSaid = true },
        new UsualNumber<EyeDesign>("wraps", "Turns of a wrapped eye", 0, 30, 3, e => e.Wraps, (e, v) => e with { Wraps = v }),
        new UsualNumber<EyeDesign>("line_mm", "Thickness of the line of a whipped eye, mm", 0.05, 2, 0.3,
            e => e.LineMm, (e, v) => e with { LineMm = v }),
        new UsualNumber<EyeDesign>("whipped_mm", "How far the whipping of a whipped eye goes along its leg, mm", 1, 100, 10,
            e => e.WhippedMm, (e, v) => e with { WhippedMm = v }),
    ];

    /// <summary>A line tie or a tail loop in the file: wrapped unless the maker says otherwise.</summary>
    internal static readonly FileObject<EyeDesign> Form = new(new(), e => e.Kept, (e, kept) => e with { Kept = kept }, KeysWith(EyeClosing.Wrapped)) { Definition = "eye" };

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

    /// <summary>A hanger in the file, with the keys of its eye among its own.</summary>
    internal static readonly FileObject<Hanger> Form = new(new() { Name = "", XMm = 0 }, h => h.Kept, (h, kept) => h with { Kept = kept },
    [
        new NeededText<Hanger>("name", "The hanger's name", "the hanger's name", h => h.Name, (h, v) => h with { Name = v })
            { More = "Hardware says it in hangs_from; not line_tie or tail_loop." },
        new Choice<Hanger, HangerKind>("kind", "Kind of hanger", HangerKind.Loop, FileWords.Of<HangerKind>(),
            h => h.Kind, (h, v) => h with { Kind = v }) { IsAlwaysWritten = true },
        new NeededNumber<Hanger>("x_mm", "Station, mm from the nose", 0, LureFile.Longest, h => h.XMm, (h, v) => h with { XMm = v }),
        .. EyeDesign.BightKeys.Select(key => new PartKey<Hanger, EyeDesign>(key, h => h.Eye, (h, v) => h with { Eye = v })),
        new NumbersOrNone<Hanger>("slot_mm", "A swivel's open slot, mm", 2, 0.1, 100, h => h.SlotMm, (h, v) => h with { SlotMm = v })
            { More = "[length, width]; it fills with water. Left out: 12 × 4." },
        new NumberOrNone<Hanger>("mass_g", "Weight of a screw eye, g", 0.01, 100, h => h.MassG, (h, v) => h with { MassG = v })
            { More = "Left out: by its wire." },
    ]) { Definition = "hanger" };
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

    /// <summary>The wire in the file.</summary>
    internal static readonly FileObject<WireDesign> Form = new(new() { DiameterMm = 0 }, w => w.Kept, (w, kept) => w with { Kept = kept },
    [
        new NeededNumber<WireDesign>("diameter_mm", "Diameter, mm", 0.2, 6, w => w.DiameterMm, (w, v) => w with { DiameterMm = v }),
        new TextOrNone<WireDesign>("grade", "Grade", "the wire's grade",
            w => w.Grade, (w, v) => w with { Grade = v }) { More = "Such as 304 half-hard." },
        new UsualNumber<WireDesign>("density_g_cm3", "Density, g/cm³", 0.5, LureFile.Densest, 7.9,
            w => w.DensityGPerCm3, (w, v) => w with { DensityGPerCm3 = v })
            { IsAlwaysWritten = true },
        new ObjectOrNone<WireDesign, EyeDesign>("line_tie", "Line tie, the eye at the nose", EyeDesign.Form,
            w => w.LineTie, (w, v) => w with { LineTie = v ?? new() }),
        new ObjectList<WireDesign, Hanger>("hangers", "Hangers", 20, "a list of hangers", Hanger.Form,
            w => w.Hangers, (w, v) => w with { Hangers = v }),
        new ObjectOrNone<WireDesign, EyeDesign>("tail_loop", "Tail loop", EyeDesign.Form,
            w => w.TailLoop, (w, v) => w with { TailLoop = v })
            { More = "Left out: the wire ends in the wood." },
        new PairList<WireDesign>("run_mm", "The wire's path, mm", LureFile.MostPoints, (-LureFile.Longest, LureFile.Longest), (-LureFile.Longest, LureFile.Longest),
            w => w.RunMm, (w, v) => w with { RunMm = v })
            { More = "Pairs [x, z] in the glue face from nose to tail, dips to hangers included. Left out: straight, dipping at loops." },
        new NumberOrNone<WireDesign>("slot_width_mm", "Side of the square slot for the wire, mm", 0.2, 20,
            w => w.SlotWidthMm, (w, v) => w with { SlotWidthMm = v })
            { More = "Left out: the wire and 0.4 mm." },
    ]) { Definition = "wire" };
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

    private static NumberOfSome<BallastPiece> Size(
        string name, string title, Func<BallastPiece, double> get, Func<BallastPiece, double, BallastPiece> with, string? more = null) =>
        new(name, title, BallastForm.Smallest, 500, p => p.Form.Needs.Has(name), p => get(p) is var size && size == 0 ? null : size, (p, v) => with(p, v ?? 0))
        { More = more };

    // Along the axis that its form says, where the file says none.
    private static BallastPiece Lie(ObjectReader from, BallastPiece piece) => from.Has("axis") ? piece : piece with { Axis = piece.Form.UsualAxis };

    /// <summary>A piece in the file. Which sizes it needs, its form says; without a weight it needs a density.</summary>
    internal static readonly FileObject<BallastPiece> InFile = new(
        new() { Name = "", Form = BallastForm.Rod, AtMm = [0, 0, 0] }, p => p.Kept, (p, kept) => p with { Kept = kept },
    [
        new NeededText<BallastPiece>("name", "What you call this weight", "what you call this weight",
            p => p.Name, (p, v) => p with { Name = v }),
        new Choice<BallastPiece, BallastForm>("form", "Form", BallastForm.Rod, [.. BallastForm.All.Select(f => (f.Word, f))],
            p => p.Form, (p, v) => p with { Form = v })
            { IsAlwaysWritten = true },
        new Choice<BallastPiece, Axis>("axis", "Along which axis it lies", Axis.X, FileWords.Of<Axis>(),
            p => p.Axis, (p, v) => p with { Axis = v })
            { More = "Left out: x, a plug y.", IsUsualSaid = true, IsAlwaysWritten = true },
        Size("diameter_mm", "Diameter, mm", p => p.DiameterMm, (p, v) => p with { DiameterMm = v }, "Every form but a strip needs it, 0.1 mm or more."),
        Size("length_mm", "Length, mm", p => p.LengthMm, (p, v) => p with { LengthMm = v }, "Every form but a ball needs it, 0.1 mm or more."),
        Size("width_mm", "Width of a strip, mm", p => p.WidthMm, (p, v) => p with { WidthMm = v }),
        Size("thickness_mm", "Thickness of a strip, mm", p => p.ThicknessMm, (p, v) => p with { ThicknessMm = v }),
        new NumberOrNone<BallastPiece>("density_g_cm3", "Density, g/cm³", LureFile.Lightest, LureFile.Densest,
            p => p.DensityGPerCm3, (p, v) => p with { DensityGPerCm3 = v })
            { More = "Needed where the piece was not weighed.", NeededWhere = (_, p) => p.MassG is null },
        new NumberOrNone<BallastPiece>("mass_g", "Weight as weighed, g", 0.001, 10_000, p => p.MassG, (p, v) => p with { MassG = v })
            { More = "Left out: by form and density.", Turn = -1 },
        new NeededNumbers<BallastPiece>("at_mm", "Its middle, mm", 3, -LureFile.Longest, LureFile.Longest,
            p => p.AtMm, (p, v) => p with { AtMm = v })
            { More = "[x, y, z]: aft of the nose, to starboard, up." },
        new UsualNumber<BallastPiece>("bore_mm", "Diameter of its bore, mm", 0, 100, 0, p => p.BoreMm, (p, v) => p with { BoreMm = v }),
        new YesOrNo<BallastPiece>("on_wire", "Threaded on the wire", p => p.OnWire, (p, v) => p with { OnWire = v }),
        new NumberOrNone<BallastPiece>("clearance_mm", "How much wider and longer its pocket is, mm", 0, 20,
            p => p.ClearanceMm, (p, v) => p with { ClearanceMm = v })
            { More = "Left out: 0.5." },
    ])
    {
        Definition = "piece",
        Then = Lie,
        Conditions = BallastForm.Conditions("form", "diameter_mm", "length_mm", "width_mm", "thickness_mm") + """
            ,
            {
              "if": { "not": { "required": ["mass_g"], "properties": { "mass_g": { "type": "number" } } } },
              "then": { "required": ["density_g_cm3"], "properties": { "density_g_cm3": { "type": "number", "minimum": 0.01 } } }
            }
            """,
    };
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

    /// <summary>How it hung while it set; null: nobody says, and it is taken as even.</summary>
    public HowHung? Hung { get; init; }

    public Kept Kept { get; init; }

    private static readonly Choice<Coat, FinishUse> UseKey = new("use", "What it is there for", FinishUse.Clear,
        [("sealer", FinishUse.Sealer), ("colour", FinishUse.Colour), ("clear", FinishUse.Clear)], c => c.Use, (c, v) => c with { Use = v })
        { More = "A product of the coat's name in the box knows better. Left out: taken by its name, and you are told for what.", IsUsualSaid = true, IsAlwaysWritten = true, Since = 2 };

    /// <summary>A coat in the file.</summary>
    internal static readonly FileObject<Coat> Form = new(new() { Name = "", ThicknessMm = 0 }, c => c.Kept, (c, kept) => c with { Kept = kept },
    [
        new NeededText<Coat>("name", "What the coat is", "what the coat is", c => c.Name, (c, v) => c with { Name = v }),
        UseKey,
        new UsualCount<Coat>("coats", "How many coats", 1, 50, 1, c => c.Coats, (c, v) => c with { Coats = v }),
        new NeededNumber<Coat>("thickness_mm", "Dry film of each coat, mm", 0.001, 5,
            c => c.ThicknessMm, (c, v) => c with { ThicknessMm = v }),
        new UsualNumber<Coat>("density_g_cm3", "Density of the dry film, g/cm³", 0.05, LureFile.Densest, 1.15,
            c => c.DensityGPerCm3, (c, v) => c with { DensityGPerCm3 = v })
            { IsAlwaysWritten = true },
        new ChoiceOrNone<Coat, HowHung>("hung", "How it hung while it set", FileWords.Of<HowHung>(), c => c.Hung, (c, v) => c with { Hung = v })
            { More = "By one end it sags, and comes out thicker towards the low one; by alternate ends the first coat hangs nose up. Left out: taken as even." },
    ]) { Definition = "coat", Then = TakeByName };

    private static Coat TakeByName(ObjectReader from, Coat coat)
    {
        if (UseKey.IsGiven(from)) return coat;
        FinishUse use = ByName.Coat(coat.Name);
        from.Named.Take(from, coat.Name, use);
        return coat with { Use = use };
    }
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

    private static readonly Choice<HardwareItem, HardwareKind> KindKey = new("kind", "What it is", HardwareKind.Other, FileWords.Of<HardwareKind>(),
        h => h.Kind, (h, v) => h with { Kind = v })
        {
            More = "A swivel at a hanger of kind swivel, the first there, is threaded on the wire and stays on it. Left out: taken by its name, and you are told for what.",
            IsUsualSaid = true, IsAlwaysWritten = true, Since = 2,
        };

    /// <summary>What hangs on the lure, in the file.</summary>
    internal static readonly FileObject<HardwareItem> Form = new(
        new() { Name = "", Kind = HardwareKind.Other, HangsFrom = "", MassG = 0 }, h => h.Kept, (h, kept) => h with { Kept = kept },
    [
        new NeededText<HardwareItem>("name", "What hangs there", "what hangs there", h => h.Name, (h, v) => h with { Name = v })
            { More = "Your own words; nothing is read out of them but where kind is left out." },
        KindKey,
        new TextOrNone<HardwareItem>("size", "Size on the packet, such as 3/0", "the size on the packet, such as 3/0",
            h => h.Size, (h, v) => h with { Size = v }) { Since = 2 },
        new NeededText<HardwareItem>("hangs_from", "Where it hangs", "line_tie, a hanger's name or tail_loop",
            h => h.HangsFrom, (h, v) => h with { HangsFrom = v })
            { More = "line_tie, a hanger's name or tail_loop." },
        new NeededNumber<HardwareItem>("mass_g", "Weight, g", 0.001, 2000, h => h.MassG, (h, v) => h with { MassG = v }),
        new UsualNumber<HardwareItem>("density_g_cm3", "Density, g/cm³", 0.05, LureFile.Densest, 7.8,
            h => h.DensityGPerCm3, (h, v) => h with { DensityGPerCm3 = v })
            { IsAlwaysWritten = true },
        new UsualNumber<HardwareItem>("length_mm", "Length when hanging, mm", 0.5, LureFile.Farthest, 10,
            h => h.LengthMm, (h, v) => h with { LengthMm = v })
            { More = "By this much it lowers what hangs from it.", IsAlwaysWritten = true },
        new NumberOrNone<HardwareItem>("drag_area_mm2", "Drag area, mm²", 0, 1_000_000,
            h => h.DragAreaMm2, (h, v) => h with { DragAreaMm2 = v })
            { More = "Left out: by its weight and length." },
        new NumberOrNone<HardwareItem>("strength_kgf", "What it holds, kgf", 0.1, LureFile.Strongest,
            h => h.StrengthKgf, (h, v) => h with { StrengthKgf = v })
            { More = "As its maker states or as tried. Left out: by its weight, or not known." },
    ]) { Definition = "hardware", Then = TakeByName };

    private static HardwareItem TakeByName(ObjectReader from, HardwareItem item)
    {
        if (KindKey.IsGiven(from)) return item;
        HardwareKind kind = ByName.Hardware(item.Name);
        item = item with { Kind = kind, Size = item.Size ?? (kind.IsHook() ? HookSize.In(item.Name) : null) };
        from.Named.Take(from, item.Name, kind, item.Size);
        return item;
    }
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

    /// <summary>The leader in the file.</summary>
    internal static readonly FileObject<LeaderDesign> Form = new(new(), l => l.Kept, (l, kept) => l with { Kept = kept },
    [
        new TextOrNone<LeaderDesign>("material", "What it is made of", "what the leader is made of",
            l => l.Material, (l, v) => l with { Material = v }),
        new NeededNumber<LeaderDesign>("diameter_mm", "Diameter, mm", 0.05, 10, l => l.DiameterMm, (l, v) => l with { DiameterMm = v }),
        new UsualNumber<LeaderDesign>("density_g_cm3", "Density, g/cm³", 0.5, LureFile.Densest, 1.78,
            l => l.DensityGPerCm3, (l, v) => l with { DensityGPerCm3 = v })
            { IsAlwaysWritten = true },
        new UsualNumber<LeaderDesign>("carried_mm", "How much of it the lure carries at rest, mm", 0, 100_000, 0,
            l => l.CarriedMm, (l, v) => l with { CarriedMm = v })
            { IsAlwaysWritten = true },
        new NumberOrNone<LeaderDesign>("strength_kgf", "Breaking load, kgf", 0.1, LureFile.Strongest,
            l => l.StrengthKgf, (l, v) => l with { StrengthKgf = v })
            { More = "As its spool states. Left out: by material and diameter." },
    ]) { Definition = "leader" };
}

/// <summary>The halves as weighed and measured after splitting, before anything is cut into them.</summary>
public sealed record HalvesDesign
{
    public double? RightG { get; init; }

    public double? LeftG { get; init; }

    /// <summary>By how much the right half's greatest half-breadth exceeds the left's, mm.</summary>
    public double RightWiderMm { get; init; }

    public Kept Kept { get; init; }

    /// <summary>The halves in the file; that both are weighed or neither, <see cref="Soundness"/> says.</summary>
    internal static readonly FileObject<HalvesDesign> Form = new(new(), h => h.Kept, (h, kept) => h with { Kept = kept },
    [
        new NumberOrNone<HalvesDesign>("right_g", "Weight of the right half, g", 0.01, 10_000,
            h => h.RightG, (h, v) => h with { RightG = v })
            { More = "Weigh both halves, or neither." },
        new NumberOrNone<HalvesDesign>("left_g", "Weight of the left half, g", 0.01, 10_000, h => h.LeftG, (h, v) => h with { LeftG = v }),
        new UsualNumber<HalvesDesign>("right_wider_mm", "By how much the right half is wider, mm", -LureFile.Farthest, LureFile.Farthest, 0,
            h => h.RightWiderMm, (h, v) => h with { RightWiderMm = v })
            { More = "At its widest; negative: narrower." },
    ])
    {
        Definition = "halves",
        Conditions = """
            {
              "if": { "required": ["right_g"], "properties": { "right_g": { "type": "number" } } },
              "then": { "required": ["left_g"], "properties": { "left_g": { "type": "number", "minimum": 0.01 } } }
            },
            {
              "if": { "required": ["left_g"], "properties": { "left_g": { "type": "number" } } },
              "then": { "required": ["right_g"], "properties": { "right_g": { "type": "number", "minimum": 0.01 } } }
            }
            """,
    };
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

    /// <summary>The joint in the file.</summary>
    internal static readonly FileObject<JointDesign> Form = new(new(), j => j.Kept, (j, kept) => j with { Kept = kept },
    [
        new Choice<JointDesign, Tack>("tack", "What held the halves while carving", Tack.Tape, FileWords.Of<Tack>(),
            j => j.Tack, (j, v) => j with { Tack = v }) { IsAlwaysWritten = true },
        new NumberOrNone<JointDesign>("tack_mm", "Thickness of the tack, mm", 0, 5,
            j => j.TackMm, (j, v) => j with { TackMm = v }) { More = "Left out: 0.1, spots of glue 0.03." },
        new UsualNumber<JointDesign>("kerf_mm", "Width lost to the saw, mm", 0, 20, 0,
            j => j.KerfMm, (j, v) => j with { KerfMm = v }) { More = "If the carved blank is sawn apart." },
        new UsualNumber<JointDesign>("cleaned_off_mm", "Planed or sanded off each glue face, mm", 0, 10, 0,
            j => j.CleanedOffMm, (j, v) => j with { CleanedOffMm = v }),
        new UsualNumber<JointDesign>("glue_line_mm", "Thickness of the glue line, mm", 0, 5, 0.1,
            j => j.GlueLineMm, (j, v) => j with { GlueLineMm = v }) { IsAlwaysWritten = true },
        new UsualNumber<JointDesign>("glue_density_g_cm3", "Density of the glue, g/cm³", 0.05, LureFile.Densest, 1.15,
            j => j.GlueDensityGPerCm3, (j, v) => j with { GlueDensityGPerCm3 = v }),
        new UsualNumber<JointDesign>("filler_density_g_cm3", "Density of the filler in slots and pockets, g/cm³", 0.05, LureFile.Densest, 1.1,
            j => j.FillerDensityGPerCm3, (j, v) => j with { FillerDensityGPerCm3 = v }),
        new PairList<JointDesign>("pins_mm", "Locating pins, mm", 50, (-LureFile.Longest, LureFile.Longest), (-LureFile.Longest, LureFile.Longest),
            j => j.PinsMm, (j, v) => j with { PinsMm = v })
            { More = "Pairs [x, z] in the glue face." },
    ]) { Definition = "joint" };

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

    /// <summary>The pair of eyes in the file.</summary>
    internal static readonly FileObject<EyesDesign> Form = new(new() { DiameterMm = 0.5, MassG = 0.001, XMm = 0 }, e => e.Kept, (e, kept) => e with { Kept = kept },
    [
        new NeededNumber<EyesDesign>("diameter_mm", "Diameter, mm", 0.5, 100, e => e.DiameterMm, (e, v) => e with { DiameterMm = v }),
        new UsualNumber<EyesDesign>("thickness_mm", "Thickness, mm", 0.1, 20, 2,
            e => e.ThicknessMm, (e, v) => e with { ThicknessMm = v }) { IsAlwaysWritten = true },
        new NeededNumber<EyesDesign>("mass_g", "Weight of both together, g", 0.001, 200, e => e.MassG, (e, v) => e with { MassG = v }),
        new NeededNumber<EyesDesign>("x_mm", "Station, mm from the nose", 0, LureFile.Longest, e => e.XMm, (e, v) => e with { XMm = v }),
        new UsualNumber<EyesDesign>("z_mm", "Height, mm from the axis", -LureFile.Farthest, LureFile.Farthest, 0,
            e => e.ZMm, (e, v) => e with { ZMm = v }) { IsAlwaysWritten = true },
    ]) { Definition = "eyes" };
}
