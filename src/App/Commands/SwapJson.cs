using System.Text;
using System.Text.Json;
using Trimwright.App.Work;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;
using static Trimwright.App.Commands.PredictJson;

namespace Trimwright.App.Commands;

/// <summary><c>swap --json</c>: one object; its keys are a contract.</summary>
internal static class SwapJson
{
    public static string Write(SwapAnswer answer)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Options)) Write(json, answer);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void Write(Utf8JsonWriter json, SwapAnswer answer)
    {
        json.WriteStartObject();
        json.WriteString("name", answer.Design.Name);
        if (answer.IsOwnBox) json.WriteString("box", answer.Box.Name);
        else json.WriteNull("box");
        json.WriteStartArray("swaps");
        foreach (SwapRow row in answer.Rows) WriteRow(json, row, answer);
        json.WriteEndArray();
        json.WriteStartObject("as_it_is");
        WriteWater(json, answer.AsItIs.Circumstances.Water);
        WriteOutcome(json, answer.AsItIs);
        json.WriteEndObject();
        json.WriteStartArray("remedies");
        foreach (RemedyEffect remedy in answer.Remedies) WriteRemedy(json, remedy);
        json.WriteEndArray();
        json.WriteStartArray("cautions");
        json.WriteStringValue(SwapWords.DrillCaution);
        if (!answer.Box.NoLead) json.WriteStringValue(SwapWords.LeadCaution);
        json.WriteEndArray();
        WriteWarnings(json, answer.Warnings);
        json.WriteEndObject();
    }

    private static void WriteRow(Utf8JsonWriter json, SwapRow row, SwapAnswer answer)
    {
        json.WriteStartObject();
        json.WriteStartObject("hooks");
        json.WriteString("change", Word(row.Case.Hooks.Change));
        json.WriteStartArray("at");
        foreach (string place in row.Case.Hooks.Changed) json.WriteStringValue(place);
        json.WriteEndArray();
        json.WriteStartArray("set");
        foreach (HookAt hook in row.Case.Hooks.Hooks)
        {
            json.WriteStartObject();
            json.WriteString("hangs_from", hook.Place);
            json.WriteString("hook", hook.Hook);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("reach");
        if (answer.Reach.GetValueOrDefault(row.Case.Hooks) is { } reach)
            foreach (string sentence in StrengthWords.Of(reach, Notation.Metric)) json.WriteStringValue(sentence);
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteString("water_name", row.Case.WaterName);
        WriteWater(json, row.Case.Water);
        WriteLeader(json, row.Case.Leader);
        WriteOutcome(json, row.Prediction);
        WriteEffect(json, row.Effect);
        json.WriteEndObject();
    }

    private static void WriteLeader(Utf8JsonWriter json, LeaderChoice choice)
    {
        if (choice is not { Name: { } name, Leader: { } leader })
        {
            json.WriteNull("leader");
            return;
        }
        json.WriteStartObject("leader");
        json.WriteString("name", name);
        Number(json, "diameter_mm", leader.DiameterMm);
        Number(json, "density_g_cm3", leader.DensityGPerCm3);
        Number(json, "carried_mm", leader.CarriedMm);
        json.WriteEndObject();
    }

    private static void WriteOutcome(Utf8JsonWriter json, Prediction p)
    {
        json.WriteString("does", SwapWords.Does(p, Notation.Metric));
        json.WriteString("verdict", Words.Of(p.Verdict));
        Number(json, "weight_g", p.Ledger.Weight);
        Number(json, "spare_buoyancy_g", p.SpareBuoyancy);
        json.WriteStartObject("posture");
        WritePosture(json, p.Posture);
        json.WriteEndObject();
        if (p.Descent is not { } descent)
        {
            json.WriteNull("sink");
            return;
        }
        json.WriteStartObject("sink");
        if (descent.First is { } fall) WriteFall(json, fall);
        json.WriteBoolean("steady", descent.First is not null);
        json.WriteEndObject();
    }

    private static void WriteEffect(Utf8JsonWriter json, SwapEffect effect)
    {
        json.WriteStartObject("change");
        Number(json, "weight_g", effect.Weight);
        Number(json, "spare_buoyancy_g", effect.Spare);
        NumberOrNull(json, "trim_deg", effect.Trim is { } trim ? Units.ToDegrees(trim) : null);
        NumberOrNull(json, "rest_trim_deg", effect.RestTrim is { } rest ? Units.ToDegrees(rest) : null);
        NumberOrNull(json, "rate_mm_s", effect.Rate is { } rate ? 1000 * rate : null);
        json.WriteString("text", SwapWords.Change(effect, Notation.Metric));
        json.WriteString("plainly", SwapWords.Plainly(effect.Turned));
        json.WriteEndObject();
    }

    private static void WriteRemedy(Utf8JsonWriter json, RemedyEffect effect)
    {
        Remedy remedy = effect.Remedy;
        json.WriteStartObject();
        json.WriteString("kind", Word(remedy.Kind));
        json.WriteString("text", SwapWords.Of(remedy, Notation.Metric));
        json.WriteString("hangs_from", remedy.Place);
        json.WriteString("item", remedy.Item);
        json.WriteString("instead_of", remedy.Instead);
        Number(json, "item_g", remedy.Grams);
        if (remedy.Kind == RemedyKind.ShankWire) json.WriteNumber("turns", remedy.Turns);
        json.WriteBoolean("breaks_seal", remedy.BreaksSeal);
        if (remedy.Spot is { } spot) WriteHole(json, remedy, spot);
        else json.WriteNull("hole");
        WriteOutcome(json, effect.Prediction);
        WriteEffect(json, effect.Effect);
        json.WriteStartObject("good_for");
        foreach (RemedyUse use in Enum.GetValues<RemedyUse>()) Number(json, Word(use), effect.For(use));
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteHole(Utf8JsonWriter json, Remedy remedy, SafeSpot spot)
    {
        json.WriteStartObject("hole");
        json.WriteString("from", Word(spot.From));
        Point(json, "at_mm", spot.Mouth);
        Point(json, "into", spot.Into);
        Number(json, "diameter_mm", spot.Bit.Diameter);
        Number(json, "depth_mm", remedy.DrillDepth);
        Number(json, "deepest_mm", spot.Depth);
        Number(json, "filling_mm", remedy.Filling!.LengthMm);
        Number(json, "stopper_mm", spot.FillingFrom - spot.Rim);
        json.WriteString("next_is", spot.StoppedBy ?? "skin");
        json.WriteEndObject();
    }

    private static string Word(Enum value) => JsonNamingPolicy.SnakeCaseLower.ConvertName(value.ToString());
}
