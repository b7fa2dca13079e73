using System.Collections.Immutable;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Design;

/// <summary>From JSON to records: keys, types, ranges and defaults. What needs geometry is in <see cref="Soundness"/>.</summary>
internal static class LureReader
{
    internal const int MostPoints = 500;
    internal const int MostPieces = 200;
    internal const double Longest = 2000;
    internal const double Farthest = 1000;
    private const double Lightest = 0.01;
    private const double Densest = 25;
    private const double Strongest = 5000;

    public static LureDesign Read(ObjectReader file, Findings findings)
    {
        // A newer version has been refused before; the first one says less, and means the same.
        if (file.Number("trimwright", LureFile.OldestVersion, LureFile.Version) != LureFile.OldestVersion)
            file.Count("trimwright", LureFile.OldestVersion, LureFile.Version, LureFile.Version);
        var named = new NamedKinds(file, findings);
        var design = new LureDesign
        {
            Name = file.Text("name", "the lure's name"),
            Kind = file.TextOrNone("kind", "the kind of lure, in your own word"),
            Body = ReadBody(file.Object("body", "the body: length and outlines") ?? ObjectReader.Absent, findings),
            Wood = ReadWood(file.Object("wood", "the wood, with its density") ?? ObjectReader.Absent),
            Wire = file.ObjectOrNone("wire") is { } wire ? ReadWire(wire) : null,
            Ballast = file.Each("ballast", MostPieces, "a list of weights", ReadPiece),
            Finish = file.Each("finish", MostPieces, "a list of coats", coat => ReadCoat(coat, named)),
            Hardware = file.Each("hardware", MostPieces, "a list of rings, swivels and hooks", item => ReadHardware(item, named)),
            Leader = file.ObjectOrNone("leader") is { } leader ? ReadLeader(leader) : null,
            Halves = file.ObjectOrNone("halves") is { } halves ? ReadHalves(halves) : null,
            SoakedG = file.Number("soaked_g", 0, 10_000, 0),
            Joint = file.ObjectOrNone("joint") is { } joint ? ReadJoint(joint) : null,
            Eyes = file.ObjectOrNone("eyes") is { } eyes ? ReadEyes(eyes) : null,
            Kept = file.Close(),
        };
        named.Tell();
        return design;
    }

    private static BodyDesign ReadBody(ObjectReader body, Findings findings)
    {
        double length = body.Number("length_mm", 5, Longest);
        var kept = new Kept[3];
        Outline Of(string key, int i)
        {
            ObjectReader? outline = body.Object(key, "an outline: { \"points_mm\": [[x, value], …], \"nose\": …, \"tail\": … }");
            return outline is null ? new Outline([new(0, 0), new(length, 0)], EndForm.Round, EndForm.Round, [])
                : ReadOutline(outline, key == "plan" ? 0 : -Longest, findings, out kept[i]);
        }
        Outline back = Of("back", 0), belly = Of("belly", 1), plan = Of("plan", 2);
        var sectionKept = new List<Kept>();
        ImmutableArray<Fullness> section = body.Each("section", MostPoints, "a list of { \"x_mm\", \"above\", \"below\" }", station =>
        {
            var fullness = new Fullness(station.Number("x_mm", 0, Longest, 0), station.Number("above", 1, 20, 2),
                station.Number("below", 1, 20, 2), station.NumberOrNone("widest_mm", -Farthest, Farthest));
            sectionKept.Add(station.Close());
            return fullness;
        });
        return BodyDesign.CurveKey.Read(body, new BodyDesign
        {
            LengthMm = length,
            Back = back,
            Belly = belly,
            Plan = plan,
            Section = section.IsEmpty ? [new Fullness(0, 2, 2)] : section,
            SectionKept = [.. sectionKept],
            NoseFace = body.ObjectOrNone("nose_face") is { } face ? ReadFace(face) : null,
            OutlinesKept = [.. kept],
        }) with { Kept = body.Close() };
    }

    private static Outline ReadOutline(ObjectReader outline, double least, Findings findings, out Kept kept)
    {
        (string, EndForm)[] forms = [("round", EndForm.Round), ("pointed", EndForm.Pointed)];
        var points = outline.PairsNeeded("points_mm", MostPoints, (0, Longest), (least, Longest));
        var read = new Outline(
            [.. points.Select(p => new OutlinePoint(p.X, p.Value))],
            outline.Choice("nose", EndForm.Round, forms),
            outline.Choice("tail", EndForm.Round, forms),
            [.. outline.Items("corners_mm", MostPoints, "a list of x values")
                .Select(item => ObjectReader.Number(item, 0, Longest, findings) ?? -1)]);
        kept = outline.Close();
        return read;
    }

    private static NoseFaceDesign ReadFace(ObjectReader face)
    {
        NoseFaceKind kind = face.Choice("kind", NoseFaceKind.Flat,
            ("flat", NoseFaceKind.Flat), ("slanted", NoseFaceKind.Slanted), ("cupped", NoseFaceKind.Cupped));
        bool cupped = kind == NoseFaceKind.Cupped;
        return new NoseFaceDesign
        {
            Kind = kind,
            SlantDeg = face.Number("slant_deg", -60, 60, 0),
            CupDiameterMm = cupped ? face.Number("cup_diameter_mm", 1, Farthest) : face.Number("cup_diameter_mm", 0, Farthest, 0),
            CupDepthMm = cupped ? face.Number("cup_depth_mm", 0.1, Farthest) : face.Number("cup_depth_mm", 0, Farthest, 0),
            CupAtZMm = face.Number("cup_at_z_mm", -Farthest, Farthest, 0),
            Kept = face.Close(),
        };
    }

    private static WoodDesign ReadWood(ObjectReader wood) => new()
    {
        Name = wood.TextOrNone("name", "the wood's name"),
        DensityGPerCm3 = wood.Number("density_g_cm3", Lightest, Densest),
        DensitySdGPerCm3 = wood.NumberOrNone("density_sd_g_cm3", 0, Densest),
        Kept = wood.Close(),
    };

    private static WireDesign ReadWire(ObjectReader wire) => new()
    {
        DiameterMm = wire.Number("diameter_mm", 0.2, 6),
        Grade = wire.TextOrNone("grade", "the wire's grade"),
        DensityGPerCm3 = wire.Number("density_g_cm3", 0.5, Densest, 7.9),
        LineTie = wire.ObjectOrNone("line_tie") is { } tie ? ReadEnd(tie) : new EyeDesign(),
        TailLoop = wire.ObjectOrNone("tail_loop") is { } tail ? ReadEnd(tail) : null,
        Hangers = wire.Each("hangers", 20, "a list of hangers", ReadHanger),
        RunMm = wire.Pairs("run_mm", MostPoints, (-Longest, Longest), (-Longest, Longest)),
        SlotWidthMm = wire.NumberOrNone("slot_width_mm", 0.2, 20),
        Kept = wire.Close(),
    };

    private static EyeDesign ReadEnd(ObjectReader eye) => ReadEye(eye, EyeDesign.EndKeys) with { Kept = eye.Close() };

    private static EyeDesign ReadEye(ObjectReader eye, ImmutableArray<FileKey<EyeDesign>> keys) =>
        keys.Aggregate(new EyeDesign(), (read, key) => key.Read(eye, read));

    private static Hanger ReadHanger(ObjectReader hanger)
    {
        EyeDesign eye = ReadEye(hanger, EyeDesign.BightKeys);
        return new Hanger
        {
            Name = hanger.Text("name", "the hanger's name"),
            Kind = hanger.Choice("kind", HangerKind.Loop, ("loop", HangerKind.Loop), ("swivel", HangerKind.Swivel),
                ("screw_eye", HangerKind.ScrewEye)),
            XMm = hanger.Number("x_mm", 0, Longest),
            Eye = eye,
            SlotMm = hanger.Numbers("slot_mm", 2, 0.1, 100),
            MassG = hanger.NumberOrNone("mass_g", 0.01, 100),
            Kept = hanger.Close(),
        };
    }

    private static BallastPiece ReadPiece(ObjectReader piece)
    {
        BallastForm form = piece.Choice("form", BallastForm.Rod, [.. BallastForm.All.Select(f => (f.Word, f))]);
        FormSizes needs = form.Needs;
        double Size(string key, bool needed) => needed ? piece.Number(key, 0.1, 500) : piece.Number(key, 0, 500, 0);
        double? weighed = piece.NumberOrNone("mass_g", 0.001, 10_000);
        return new BallastPiece
        {
            Name = piece.Text("name", "what you call this weight"),
            Form = form,
            Axis = piece.Choice("axis", form.UsualAxis, ("x", Axis.X), ("y", Axis.Y), ("z", Axis.Z)),
            DiameterMm = Size("diameter_mm", needs.Diameter),
            LengthMm = Size("length_mm", needs.Length),
            WidthMm = Size("width_mm", needs.Sides),
            ThicknessMm = Size("thickness_mm", needs.Sides),
            DensityGPerCm3 = weighed is null ? piece.Number("density_g_cm3", Lightest, Densest) : piece.NumberOrNone("density_g_cm3", Lightest, Densest),
            MassG = weighed,
            AtMm = piece.NumbersNeeded("at_mm", 3, -Longest, Longest),
            BoreMm = piece.Number("bore_mm", 0, 100, 0),
            OnWire = piece.Truth("on_wire", false),
            ClearanceMm = piece.NumberOrNone("clearance_mm", 0, 20),
            Kept = piece.Close(),
        };
    }

    private static Coat ReadCoat(ObjectReader coat, NamedKinds named)
    {
        string name = coat.Text("name", "what the coat is");
        return new()
        {
            Name = name,
            Use = named.Coat(coat, name),
            Coats = coat.Count("coats", 1, 50, 1),
            ThicknessMm = coat.Number("thickness_mm", 0.001, 5),
            DensityGPerCm3 = coat.Number("density_g_cm3", 0.05, Densest, 1.15),
            Kept = named.Close(coat, "use"),
        };
    }

    private static HardwareItem ReadHardware(ObjectReader item, NamedKinds named)
    {
        string name = item.Text("name", "what hangs there");
        (HardwareKind kind, string? size) = named.Hardware(item, name);
        return new()
        {
            Name = name,
            Kind = kind,
            Size = size,
            HangsFrom = item.Text("hangs_from", "line_tie, a hanger's name or tail_loop"),
            MassG = item.Number("mass_g", 0.001, 2000),
            DensityGPerCm3 = item.Number("density_g_cm3", 0.05, Densest, 7.8),
            LengthMm = item.Number("length_mm", 0.5, Farthest, 10),
            DragAreaMm2 = item.NumberOrNone("drag_area_mm2", 0, 1_000_000),
            StrengthKgf = item.NumberOrNone("strength_kgf", 0.1, Strongest),
            Kept = named.Close(item, "kind", "size"),
        };
    }

    private static LeaderDesign ReadLeader(ObjectReader leader) => new()
    {
        Material = leader.TextOrNone("material", "what the leader is made of"),
        DiameterMm = leader.Number("diameter_mm", 0.05, 10),
        DensityGPerCm3 = leader.Number("density_g_cm3", 0.5, Densest, 1.78),
        CarriedMm = leader.Number("carried_mm", 0, 100_000, 0),
        StrengthKgf = leader.NumberOrNone("strength_kgf", 0.1, Strongest),
        Kept = leader.Close(),
    };

    private static HalvesDesign ReadHalves(ObjectReader halves) => new()
    {
        RightG = halves.NumberOrNone("right_g", 0.01, 10_000),
        LeftG = halves.NumberOrNone("left_g", 0.01, 10_000),
        RightWiderMm = halves.Number("right_wider_mm", -Farthest, Farthest, 0),
        Kept = halves.Close(),
    };

    private static JointDesign ReadJoint(ObjectReader joint) => new()
    {
        Tack = joint.Choice("tack", Tack.Tape, ("tape", Tack.Tape), ("paper", Tack.Paper), ("spots", Tack.Spots)),
        TackMm = joint.NumberOrNone("tack_mm", 0, 5),
        KerfMm = joint.Number("kerf_mm", 0, 20, 0),
        CleanedOffMm = joint.Number("cleaned_off_mm", 0, 10, 0),
        GlueLineMm = joint.Number("glue_line_mm", 0, 5, 0.1),
        GlueDensityGPerCm3 = joint.Number("glue_density_g_cm3", 0.05, Densest, 1.15),
        FillerDensityGPerCm3 = joint.Number("filler_density_g_cm3", 0.05, Densest, 1.1),
        PinsMm = joint.Pairs("pins_mm", 50, (-Longest, Longest), (-Longest, Longest)),
        Kept = joint.Close(),
    };

    private static EyesDesign ReadEyes(ObjectReader eyes) => new()
    {
        DiameterMm = eyes.Number("diameter_mm", 0.5, 100),
        ThicknessMm = eyes.Number("thickness_mm", 0.1, 20, 2),
        MassG = eyes.Number("mass_g", 0.001, 200),
        XMm = eyes.Number("x_mm", 0, Longest),
        ZMm = eyes.Number("z_mm", -Farthest, Farthest, 0),
        Kept = eyes.Close(),
    };
}
