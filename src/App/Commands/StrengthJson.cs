using System.Text;
using System.Text.Json;
using Trimwright.App.Work;
using Trimwright.Core.Quantities;
using Trimwright.Core.Strength;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary><c>strength --json</c>: one object; its keys are a contract.</summary>
internal static class StrengthJson
{
    public static string Write(StrengthAnswer answer)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, PredictJson.Options)) Write(json, answer);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void Write(Utf8JsonWriter json, StrengthAnswer answer)
    {
        LureStrength strength = answer.Strength;
        json.WriteStartObject();
        json.WriteString("name", answer.Design.Name);
        if (answer.Drag is { } drag) Number(json, "drag_kgf", drag / Units.KilogramForce);
        else json.WriteNull("drag_kgf");
        WriteWeakest(json, strength);
        WriteFigure(json, "leader", strength.Leader);
        WriteWire(json, answer);
        json.WriteStartArray("paths");
        foreach (LoadPath path in strength.Paths) WritePath(json, path, answer.Drag);
        json.WriteEndArray();
        json.WriteStartObject("reach");
        WriteMeetings(json, "hooks", strength.Reach.Hooks);
        WriteMeetings(json, "back", strength.Reach.Back);
        WriteMeetings(json, "leader", strength.Reach.Leader);
        json.WriteEndObject();
        json.WriteString("caution", StrengthWords.Caution);
        PredictJson.WriteWarnings(json, answer.Warnings);
        json.WriteEndObject();
    }

    private static void WriteWeakest(Utf8JsonWriter json, LureStrength strength)
    {
        if (strength.Weakest is not { } weakest)
        {
            json.WriteNull("weakest");
            return;
        }
        json.WriteStartObject("weakest");
        json.WriteString("hangs_from", weakest.Path.HangsFrom);
        json.WriteString("link", StrengthWords.Of(weakest.Link));
        Number(json, "lets_go_kgf", weakest.Link.LetsGo!.Kgf);
        json.WriteEndObject();
    }

    private static void WriteWire(Utf8JsonWriter json, StrengthAnswer answer)
    {
        json.WriteStartObject("wire");
        Number(json, "diameter_mm", answer.Design.Wire!.DiameterMm);
        json.WriteString("grade", answer.Design.Wire.Grade);
        if (answer.Strength.Wire is { } wire)
        {
            json.WriteString("taken_as", StrengthWords.Of(wire.Grade.Temper));
            json.WriteString("assumption", StrengthWords.Of(wire.Grade));
            Number(json, "tensile_mpa", wire.Tensile);
            json.WriteString("tensile_source", wire.Source);
            json.WriteString("tensile_basis", Word(wire.TensileBasis));
            Number(json, "yield_mpa", wire.Yield);
            json.WriteString("yield_basis", Word(Basis.FromMemory));
            Number(json, "plastic_moment_nmm", wire.PlasticMoment);
        }
        Number(json, "length_mm", answer.Strength.WireLength);
        Number(json, "cut_mm", answer.Strength.CutLength);
        json.WriteEndObject();
    }

    private static void WritePath(Utf8JsonWriter json, LoadPath path, double? drag)
    {
        json.WriteStartObject();
        json.WriteString("hangs_from", path.HangsFrom);
        json.WriteString("hook", path.Hook);
        json.WriteStartArray("links");
        foreach (Link link in path.WeakestFirst) WriteLink(json, link, drag);
        json.WriteEndArray();
        json.WriteStartArray("wood");
        foreach (WoodBearing wood in path.Wood)
        {
            json.WriteStartObject();
            json.WriteString("at", wood.Place);
            WriteFigure(json, "cuts_in", wood.Figure);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteLink(Utf8JsonWriter json, Link link, double? drag)
    {
        json.WriteStartObject();
        json.WriteString("link", StrengthWords.Of(link));
        json.WriteString("kind", JsonNamingPolicy.SnakeCaseLower.ConvertName(link.Kind.ToString()));
        json.WriteNumber("place", link.Place);
        WriteFigure(json, "lets_go", link.LetsGo);
        WriteFigure(json, "out_of_shape", link.OutOfShape);
        if (link.Otherwise is { } other)
        {
            json.WriteStartObject("otherwise");
            json.WriteString("if", JsonNamingPolicy.SnakeCaseLower.ConvertName(other.Condition.ToString()));
            WriteFigure(json, "figure", other.Figure);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("otherwise");
        }
        if (drag is { } set && link.LetsGo is { } lets) Number(json, "times_drag", lets.Newtons / set);
        else json.WriteNull("times_drag");
        json.WriteEndObject();
    }

    private static void WriteFigure(Utf8JsonWriter json, string key, Figure? figure)
    {
        if (figure is null)
        {
            json.WriteNull(key);
            return;
        }
        json.WriteStartObject(key);
        Number(json, "kgf", figure.Kgf);
        Number(json, "n", figure.Newtons);
        json.WriteString("formula", figure.Formula);
        json.WriteString("source", figure.Source);
        json.WriteString("basis", Word(figure.Basis));
        json.WriteEndObject();
    }

    private static void WriteMeetings(Utf8JsonWriter json, string key, IEnumerable<Meeting> meetings)
    {
        json.WriteStartArray(key);
        foreach (Meeting meeting in meetings)
        {
            json.WriteStartObject();
            json.WriteString("hangs_from", meeting.Hook.HangsFrom);
            if (meeting.Other is { } other) json.WriteString("other_hangs_from", other.HangsFrom);
            Number(json, "way_mm", meeting.Way);
            Number(json, "reach_mm", meeting.Reach);
            json.WriteBoolean("meets", meeting.Meets);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static string Word(Basis basis) => JsonNamingPolicy.SnakeCaseLower.ConvertName(basis.ToString());

    private static void Number(Utf8JsonWriter json, string key, double value) => json.WriteNumber(key, Math.Round(value, 6) + 0.0);
}
