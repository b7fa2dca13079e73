using System.Text;
using System.Text.Json;
using Trimwright.App.Work;
using Trimwright.Core.Box;
using Trimwright.Core.Doubt;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary>What <c>readings --json</c> and <c>next --json</c> print.</summary>
internal static class ReadingsJson
{
    public static string Write(ReadingsAnswer answer) => Text(json =>
    {
        Knowing k = answer.Knowing;
        Circumstances(json, k);
        json.WriteStartObject("before");
        Of(json, k.Before);
        json.WriteEndObject();
        json.WriteStartObject("after");
        Of(json, k.After);
        json.WriteEndObject();
        json.WriteStartArray("flags");
        foreach (Flag flag in k.Flags)
        {
            json.WriteStartObject();
            json.WriteNumber("reading", flag.Reading);
            json.WriteString("key", flag.Key);
            json.WriteNumber("read", Round(flag.Read));
            json.WriteNumber("expected", Round(flag.Expected));
            json.WriteNumber("sigmas", Round(flag.Sigmas));
            json.WriteBoolean("used", flag.IsKept);
            json.WriteString("says", DoubtWords.Of(flag, k.Log.Readings[flag.Reading], Notation.Metric));
            json.WriteEndObject();
        }
        if (k.Stretch > 1)
        {
            json.WriteStartObject();
            json.WriteNull("reading");
            json.WriteNumber("widened", Round(k.Stretch));
            json.WriteString("says", DoubtWords.Stretched(k.Stretch, Notation.Metric));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("causes");
        foreach (Share share in k.Causes)
        {
            json.WriteStartObject();
            json.WriteString("cause", share.Cause.ToString().ToLowerInvariant());
            json.WriteNumber("left_sd_g", Round(share.Left));
            json.WriteNumber("share", Round(share.Part));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("ladder");
        foreach (Rung rung in answer.Ladder)
        {
            json.WriteStartObject();
            json.WriteString("measured", rung.What);
            json.WriteNumber("spare_buoyancy_sd_g", Round(rung.Grams));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteString("sampling", k.Trust.ToString().ToLowerInvariant());
        PredictJson.WriteWarnings(json, answer.Warnings);
    });

    public static string Write(NextAnswer answer) => Text(json =>
    {
        Circumstances(json, answer.Knowing);
        json.WriteString("at", Words.Of(answer.Stage));
        json.WriteStartArray("candidates");
        foreach (Candidate c in answer.Candidates)
        {
            json.WriteStartObject();
            json.WriteString("kind", LogWords.Of(c.Reading.Kind));
            json.WriteString("measure", DoubtWords.Of(c.Reading));
            json.WriteNumber("minutes", c.Minutes);
            json.WriteStartArray("instruments");
            foreach (Instrument instrument in c.Instruments) json.WriteStringValue(LogWords.Of(instrument));
            json.WriteEndArray();
            if (c.Scale is { } scale) json.WriteString("scale", scale.Id);
            else json.WriteNull("scale");
            json.WriteNumber("spare_buoyancy_sd_g", Round(c.GramsAfter));
            json.WriteNumber("drop_g", Round(c.GramsBefore - c.GramsAfter));
            json.WriteNumber("trim_sd_deg", Round(c.DegreesAfter));
            json.WriteNumber("drop_deg", Round(c.DegreesBefore - c.DegreesAfter));
            json.WriteNumber("chance_before", Round(c.ChanceBefore));
            json.WriteNumber("chance_after", Round(c.ChanceAfter));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("lacking");
        foreach (Lacking lacking in answer.Lacking)
        {
            json.WriteStartObject();
            json.WriteString("kind", LogWords.Of(lacking.Reading.Kind));
            json.WriteString("measure", DoubtWords.Of(lacking.Reading));
            json.WriteString("says", DoubtWords.Of(lacking, Notation.Metric));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        PredictJson.WriteWarnings(json, answer.Warnings);
    });

    private static void Circumstances(Utf8JsonWriter json, Knowing k)
    {
        json.WriteString("stage", Words.Of(k.Where.Stage));
        json.WriteString("rig", k.Where.Rig.ToString().ToLowerInvariant());
        json.WriteStartObject("water");
        json.WriteNumber("salinity", k.Where.Water.Salinity);
        json.WriteNumber("temperature_c", k.Where.Water.TemperatureC);
        json.WriteEndObject();
        json.WriteNumber("readings", k.Log.Readings.Length);
    }

    private static void Of(Utf8JsonWriter json, Forecast f)
    {
        Number(json, "weight_g", f.Weight, 1);
        Number(json, "spare_buoyancy_g", f.Spare, 1);
        Number(json, "trim_deg", f.Trim, Units.ToDegrees(1));
        Number(json, "nose_shows_along_mm", f.NoseOut, 1);
        Number(json, "rate_mm_s", f.Rate, 1000);
        json.WriteStartObject("verdicts");
        foreach ((Core.Sinking.Verdict verdict, double chance) in f.Verdicts) json.WriteNumber(Words.Of(verdict), Round(chance));
        json.WriteEndObject();
        json.WriteStartArray("ways");
        foreach ((Sat way, double chance, Ranged trim) in f.Ways)
        {
            json.WriteStartObject();
            json.WriteString("sat", LogWords.Of(way));
            json.WriteNumber("chance", Round(chance));
            Number(json, "trim_deg", trim, Units.ToDegrees(1));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string key, Ranged? ranged, double unit)
    {
        if (ranged is not { } r)
        {
            json.WriteNull(key);
            return;
        }
        json.WriteStartObject(key);
        json.WriteNumber("median", Round(unit * r.Median));
        Pair("p80", r.Low80, r.High80);
        Pair("p95", r.Low95, r.High95);
        json.WriteEndObject();

        void Pair(string name, double low, double high)
        {
            json.WriteStartArray(name);
            json.WriteNumberValue(Round(unit * low));
            json.WriteNumberValue(Round(unit * high));
            json.WriteEndArray();
        }
    }

    // A sample's ranges have no more digits than these.
    private static double Round(double value) => double.IsFinite(value) ? Math.Round(value, 4) : 0;

    private static string Text(Action<Utf8JsonWriter> write)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, PredictJson.Options))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }
}
