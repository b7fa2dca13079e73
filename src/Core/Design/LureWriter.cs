using System.Collections.Immutable;
using System.Text.Json;
using Trimwright.Core.Shape;
using static Trimwright.Core.Design.ObjectWriter;

namespace Trimwright.Core.Design;

/// <summary>From records to JSON, keys in the order in which a maker would think of them, lists of numbers on a line.</summary>
internal static class LureWriter
{
    public static byte[] Write(LureDesign design)
    {
        return File(json =>
        {
            json.WriteNumber("trimwright", LureFile.Version);
            json.WriteString("name", design.Name);
            Text(json, "kind", design.Kind);
            WriteBody(json, design.Body);
            WriteWood(json, design.Wood);
            if (design.Wire is { } wire) WriteWire(json, wire);
            List(json, "ballast", design.Ballast, WritePiece);
            List(json, "finish", design.Finish, WriteCoat);
            List(json, "hardware", design.Hardware, WriteHardware);
            if (design.Leader is { } leader) WriteLeader(json, leader);
            if (design.Halves is { } halves) WriteHalves(json, halves);
            Unless(json, "soaked_g", design.SoakedG, 0);
            if (design.Joint is { } joint) WriteJoint(json, joint);
            if (design.Eyes is { } eyes) WriteEyes(json, eyes);
            Close(json, design.Kept);
        });
    }

    private static void WriteBody(Utf8JsonWriter json, BodyDesign body)
    {
        json.WriteStartObject("body");
        json.WriteNumber("length_mm", body.LengthMm);
        WriteOutline(json, "back", body.Back, body.OutlinesKept[0]);
        WriteOutline(json, "belly", body.Belly, body.OutlinesKept[1]);
        WriteOutline(json, "plan", body.Plan, body.OutlinesKept[2]);
        BodyDesign.CurveKey.Write(json, body);
        json.WriteStartArray("section");
        for (int i = 0; i < body.Section.Length; i++)
        {
            Fullness f = body.Section[i];
            json.WriteStartObject();
            json.WriteNumber("x_mm", f.X);
            json.WriteNumber("above", f.Above);
            json.WriteNumber("below", f.Below);
            Number(json, "widest_mm", f.Widest);
            Close(json, i < body.SectionKept.Length ? body.SectionKept[i] : default);
        }
        json.WriteEndArray();
        if (body.NoseFace is { } face)
        {
            json.WriteStartObject("nose_face");
            json.WriteString("kind", Word(face.Kind));
            Unless(json, "slant_deg", face.SlantDeg, 0);
            Unless(json, "cup_diameter_mm", face.CupDiameterMm, 0);
            Unless(json, "cup_depth_mm", face.CupDepthMm, 0);
            Unless(json, "cup_at_z_mm", face.CupAtZMm, 0);
            Close(json, face.Kept);
        }
        Close(json, body.Kept);
    }

    private static void WriteOutline(Utf8JsonWriter json, string key, Outline outline, Kept kept)
    {
        json.WriteStartObject(key);
        Pairs(json, "points_mm", outline.Points.Select(p => (p.X, p.Value)));
        json.WriteString("nose", Word(outline.Nose));
        json.WriteString("tail", Word(outline.Tail));
        if (!outline.Corners.IsEmpty) Numbers(json, "corners_mm", outline.Corners);
        Close(json, kept);
    }

    private static void WriteWood(Utf8JsonWriter json, WoodDesign wood)
    {
        json.WriteStartObject("wood");
        Text(json, "name", wood.Name);
        json.WriteNumber("density_g_cm3", wood.DensityGPerCm3);
        Number(json, "density_sd_g_cm3", wood.DensitySdGPerCm3);
        Close(json, wood.Kept);
    }

    private static void WriteWire(Utf8JsonWriter json, WireDesign wire)
    {
        json.WriteStartObject("wire");
        json.WriteNumber("diameter_mm", wire.DiameterMm);
        Text(json, "grade", wire.Grade);
        json.WriteNumber("density_g_cm3", wire.DensityGPerCm3);
        json.WriteStartObject("line_tie");
        WriteEye(json, wire.LineTie, EyeDesign.EndKeys);
        Close(json, wire.LineTie.Kept);
        List(json, "hangers", wire.Hangers, WriteHanger);
        if (wire.TailLoop is { } tail)
        {
            json.WriteStartObject("tail_loop");
            WriteEye(json, tail, EyeDesign.EndKeys);
            Close(json, tail.Kept);
        }
        if (!wire.RunMm.IsEmpty) Pairs(json, "run_mm", wire.RunMm);
        Number(json, "slot_width_mm", wire.SlotWidthMm);
        Close(json, wire.Kept);
    }

    private static void WriteEye(Utf8JsonWriter json, EyeDesign eye, ImmutableArray<FileKey<EyeDesign>> keys)
    {
        foreach (FileKey<EyeDesign> key in keys) key.Write(json, eye);
    }

    private static void WriteHanger(Utf8JsonWriter json, Hanger hanger)
    {
        json.WriteString("name", hanger.Name);
        json.WriteString("kind", Word(hanger.Kind));
        json.WriteNumber("x_mm", hanger.XMm);
        WriteEye(json, hanger.Eye, EyeDesign.BightKeys);
        if (hanger.SlotMm is { } slot) Numbers(json, "slot_mm", slot);
        Number(json, "mass_g", hanger.MassG);
        Close(json, hanger.Kept);
    }

    private static void WritePiece(Utf8JsonWriter json, BallastPiece piece)
    {
        json.WriteString("name", piece.Name);
        json.WriteString("form", piece.Form.Word);
        json.WriteString("axis", Word(piece.Axis));
        Unless(json, "diameter_mm", piece.DiameterMm, 0);
        Unless(json, "length_mm", piece.LengthMm, 0);
        Unless(json, "width_mm", piece.WidthMm, 0);
        Unless(json, "thickness_mm", piece.ThicknessMm, 0);
        Number(json, "density_g_cm3", piece.DensityGPerCm3);
        Number(json, "mass_g", piece.MassG);
        Numbers(json, "at_mm", piece.AtMm);
        Unless(json, "bore_mm", piece.BoreMm, 0);
        if (piece.OnWire) json.WriteBoolean("on_wire", true);
        Number(json, "clearance_mm", piece.ClearanceMm);
        Close(json, piece.Kept);
    }

    private static void WriteCoat(Utf8JsonWriter json, Coat coat)
    {
        json.WriteString("name", coat.Name);
        json.WriteString("use", Word(coat.Use));
        json.WriteNumber("coats", coat.Coats);
        json.WriteNumber("thickness_mm", coat.ThicknessMm);
        json.WriteNumber("density_g_cm3", coat.DensityGPerCm3);
        Close(json, coat.Kept);
    }

    private static void WriteHardware(Utf8JsonWriter json, HardwareItem item)
    {
        json.WriteString("name", item.Name);
        json.WriteString("kind", Word(item.Kind));
        Text(json, "size", item.Size);
        json.WriteString("hangs_from", item.HangsFrom);
        json.WriteNumber("mass_g", item.MassG);
        json.WriteNumber("density_g_cm3", item.DensityGPerCm3);
        json.WriteNumber("length_mm", item.LengthMm);
        Number(json, "drag_area_mm2", item.DragAreaMm2);
        Number(json, "strength_kgf", item.StrengthKgf);
        Close(json, item.Kept);
    }

    private static void WriteLeader(Utf8JsonWriter json, LeaderDesign leader)
    {
        json.WriteStartObject("leader");
        Text(json, "material", leader.Material);
        json.WriteNumber("diameter_mm", leader.DiameterMm);
        json.WriteNumber("density_g_cm3", leader.DensityGPerCm3);
        json.WriteNumber("carried_mm", leader.CarriedMm);
        Number(json, "strength_kgf", leader.StrengthKgf);
        Close(json, leader.Kept);
    }

    private static void WriteHalves(Utf8JsonWriter json, HalvesDesign halves)
    {
        json.WriteStartObject("halves");
        Number(json, "right_g", halves.RightG);
        Number(json, "left_g", halves.LeftG);
        Unless(json, "right_wider_mm", halves.RightWiderMm, 0);
        Close(json, halves.Kept);
    }

    private static readonly JointDesign UsualJoint = new();

    private static void WriteJoint(Utf8JsonWriter json, JointDesign joint)
    {
        json.WriteStartObject("joint");
        json.WriteString("tack", Word(joint.Tack));
        Number(json, "tack_mm", joint.TackMm);
        Unless(json, "kerf_mm", joint.KerfMm, 0);
        Unless(json, "cleaned_off_mm", joint.CleanedOffMm, 0);
        json.WriteNumber("glue_line_mm", joint.GlueLineMm);
        Unless(json, "glue_density_g_cm3", joint.GlueDensityGPerCm3, UsualJoint.GlueDensityGPerCm3);
        Unless(json, "filler_density_g_cm3", joint.FillerDensityGPerCm3, UsualJoint.FillerDensityGPerCm3);
        if (!joint.PinsMm.IsEmpty) Pairs(json, "pins_mm", joint.PinsMm);
        Close(json, joint.Kept);
    }

    private static void WriteEyes(Utf8JsonWriter json, EyesDesign eyes)
    {
        json.WriteStartObject("eyes");
        json.WriteNumber("diameter_mm", eyes.DiameterMm);
        json.WriteNumber("thickness_mm", eyes.ThicknessMm);
        json.WriteNumber("mass_g", eyes.MassG);
        json.WriteNumber("x_mm", eyes.XMm);
        json.WriteNumber("z_mm", eyes.ZMm);
        Close(json, eyes.Kept);
    }
}
