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
            Object(json, "wood", WoodDesign.Form, design.Wood);
            if (design.Wire is { } wire) WriteWire(json, wire);
            List(json, "ballast", design.Ballast, WritePiece);
            List(json, "finish", design.Finish, WriteCoat);
            List(json, "hardware", design.Hardware, WriteHardware);
            if (design.Leader is { } leader) Object(json, "leader", LeaderDesign.Form, leader);
            if (design.Halves is { } halves) Object(json, "halves", HalvesDesign.Form, halves);
            Unless(json, "soaked_g", design.SoakedG, 0);
            if (design.Joint is { } joint) Object(json, "joint", JointDesign.Form, joint);
            if (design.Eyes is { } eyes) Object(json, "eyes", EyesDesign.Form, eyes);
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

    private static void Object<T>(Utf8JsonWriter json, string key, FileObject<T> form, T from)
    {
        json.WriteStartObject(key);
        form.Write(json, from);
    }
}
