using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Trimwright.App.Work;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Floating;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Quantities;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;

namespace Trimwright.App.Commands;

/// <summary><c>predict --json</c>: one object; its keys are a contract.</summary>
internal static class PredictJson
{
    public static readonly JsonWriterOptions Options = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Write(PredictAnswer answer)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Options)) Write(json, answer);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void Write(Utf8JsonWriter json, PredictAnswer answer)
    {
        Prediction p = answer.Prediction;
        json.WriteStartObject();
        json.WriteString("name", answer.Design.Name);
        json.WriteString("sentence", Sentence.Of(p, Notation.Metric));
        json.WriteString("stage", Words.Of(p.Ledger.Stage));
        json.WriteString("rig", p.Ledger.Rig.ToString().ToLowerInvariant());
        WriteWater(json, p.Circumstances.Water);
        Number(json, "weight_g", p.Ledger.Weight);
        Number(json, "volume_cm3", p.Ledger.Volume / Units.CubicCentimetre);
        Number(json, "spare_buoyancy_g", p.SpareBuoyancy);
        Number(json, "wetted_area_cm2", p.Posture.WettedArea / 100);
        Point(json, "cg_mm", p.Ledger.Cg);
        Point(json, "cb_mm", p.Ledger.Cb);
        json.WriteString("verdict", Words.Of(p.Verdict));
        json.WriteStartObject("posture");
        WritePosture(json, p.Posture);
        json.WriteEndObject();
        json.WriteStartArray("other_postures");
        foreach (Posture other in p.Postures.Skip(1))
        {
            json.WriteStartObject();
            WritePosture(json, other);
            Number(json, "energy_mj", other.Energy);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        WriteTipping(json, p.Tipping);
        WriteSink(json, answer);
        json.WriteStartArray("ledger");
        foreach (Part part in p.Ledger.Parts) WritePart(json, part);
        json.WriteEndArray();
        WriteWarnings(json, answer.Warnings);
        json.WriteEndObject();
    }

    public static void WriteWarnings(Utf8JsonWriter json, IEnumerable<Warning> warnings)
    {
        json.WriteStartArray("warnings");
        foreach (Warning warning in warnings)
        {
            json.WriteStartObject();
            json.WriteString("path", warning.Path);
            json.WriteString("text", warning.Text);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    internal static void WriteWater(Utf8JsonWriter json, WaterState water)
    {
        json.WriteStartObject("water");
        Number(json, "salinity", water.Salinity);
        Number(json, "temperature_c", water.TemperatureC);
        Number(json, "density_g_cm3", Units.ToGramsPerCm3(water.Density));
        json.WriteEndObject();
    }

    internal static void WritePosture(Utf8JsonWriter json, Posture posture)
    {
        Number(json, "trim_deg", Units.ToDegrees(posture.Trim));
        if (posture.Heel is { } heel) Number(json, "heel_deg", Units.ToDegrees(heel));
        else json.WriteNull("heel_deg");
        Number(json, "submerged_cm3", posture.Submerged / Units.CubicCentimetre);
        Number(json, "draft_mm", posture.Draft);
        Number(json, "nose_shows_mm", posture.NoseShows);
        Number(json, "tail_shows_mm", posture.TailShows);
        Number(json, "nose_shows_along_mm", posture.NoseShowsAlong);
        Number(json, "tail_shows_along_mm", posture.TailShowsAlong);
        NumberOrNull(json, "waterline_back_mm", posture.WaterlineBack);
        NumberOrNull(json, "waterline_belly_mm", posture.WaterlineBelly);
        Number(json, "back_proud_mm", posture.BackProud);
        json.WriteBoolean("heel_is_free", posture.HeelIsFree);
        json.WriteBoolean("mirror", posture.Mirror);
        NumberOrNull(json, "barrier_mj", double.IsFinite(posture.Barrier) ? posture.Barrier : null);
    }

    private static void WriteTipping(Utf8JsonWriter json, Tipping? tipping)
    {
        if (tipping is null)
        {
            json.WriteNull("tipping");
            return;
        }
        json.WriteStartObject("tipping");
        Number(json, "gm_heel_mm", tipping.HeelGm);
        Number(json, "gm_trim_mm", tipping.TrimGm);
        NumberOrNull(json, "roll_period_s", tipping.RollPeriod is { } period ? Units.ToSeconds(period) : null);
        json.WriteStartArray("righting");
        foreach (RightingPoint point in tipping.Curve)
        {
            json.WriteStartObject();
            Number(json, "angle_deg", Units.ToDegrees(point.Angle));
            Number(json, "arm_mm", point.Arm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteSink(Utf8JsonWriter json, PredictAnswer answer)
    {
        Prediction p = answer.Prediction;
        if (p.Descent is not { } descent)
        {
            json.WriteNull("sink");
            return;
        }
        json.WriteStartObject("sink");
        if (descent.First is { } fall)
        {
            WriteFall(json, fall);
            json.WriteBoolean("steady", true);
            json.WriteBoolean("holds_course", fall.Kind == FallKind.Steady);
            Number(json, "seconds_per_metre", fall.SecondsPerMetre);
            Number(json, "rate_sd_mm_s", 1000 * fall.Rate * fall.Doubt);
            Number(json, "metre_from_rest_s", Units.ToSeconds(descent.TimeTo(1000)));
        }
        else
        {
            json.WriteBoolean("steady", false);
            json.WriteString("why", descent.RollsOnTheFall ? "rolls on the fall" : "flutters");
        }
        json.WriteStartArray("falls");
        foreach (Fall any in descent.All)
        {
            json.WriteStartObject();
            WriteFall(json, any);
            json.WriteString("kind", any.Kind.ToString().ToLowerInvariant());
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("touches");
        foreach (Touch touch in answer.Touches)
        {
            json.WriteStartObject();
            json.WriteString("change", touch.Change);
            NumberOrNull(json, "rate_mm_s", double.IsFinite(touch.Rate) ? 1000 * touch.Rate : null);
            NumberOrNull(json, "trim_deg", double.IsFinite(touch.Trim) ? Units.ToDegrees(touch.Trim) : null);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    internal static void WriteFall(Utf8JsonWriter json, Fall fall)
    {
        Number(json, "rate_mm_s", 1000 * fall.Rate);
        Number(json, "trim_deg", Units.ToDegrees(fall.Trim));
        Number(json, "glide_mm_s", 1000 * fall.Glide);
        json.WriteBoolean("belly_up", fall.BellyUp);
    }

    private static void WritePart(Utf8JsonWriter json, Part part)
    {
        json.WriteStartObject();
        json.WriteString("part", part.Name);
        Number(json, "weight_g", part.Mass);
        Point(json, "at_mm", part.Centre);
        Number(json, "displaces_cm3", part.Displaces / Units.CubicCentimetre);
        json.WriteEndObject();
    }

    // Six decimals are far below any scale or ruler; rounding keeps the text the same on every machine.
    private static double Rounded(double value) => Math.Round(value, 6) + 0.0;

    internal static void Number(Utf8JsonWriter json, string key, double value) => json.WriteNumber(key, Rounded(value));

    internal static void NumberOrNull(Utf8JsonWriter json, string key, double? value)
    {
        if (value is { } v) Number(json, key, v);
        else json.WriteNull(key);
    }

    internal static void Point(Utf8JsonWriter json, string key, Vec3 p)
    {
        json.WriteStartArray(key);
        json.WriteNumberValue(Rounded(p.X));
        json.WriteNumberValue(Rounded(p.Y));
        json.WriteNumberValue(Rounded(p.Z));
        json.WriteEndArray();
    }
}
