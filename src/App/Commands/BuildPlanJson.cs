using System.Globalization;
using System.Text;
using System.Text.Json;
using Trimwright.App.Work;
using Trimwright.Core.Finish;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary><c>buildplan --json</c>: one object; its keys are a contract.</summary>
internal static class BuildPlanJson
{
    public static string Write(BuildPlanAnswer answer)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, PredictJson.Options)) Write(json, answer);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void Write(Utf8JsonWriter json, BuildPlanAnswer answer)
    {
        BuildPlan plan = answer.Plan;
        var words = new BuildWords(plan, answer.Notation);
        json.WriteStartObject();
        json.WriteString("name", plan.Design.Name);
        Moment(json, "start", plan.Conditions.Start);
        Number(json, "temperature_c", plan.Conditions.TemperatureC);
        Maybe(json, "humidity_pct", 100 * plan.Conditions.Humidity);
        Maybe(json, "dew_point_c", plan.Dew);
        json.WriteBoolean("too_damp", plan.IsTooDamp);
        json.WriteString("pockets", plan.Conditions.PocketsBefore ? "before" : "after");
        Number(json, "hands_on_h", plan.Hands.TotalHours);
        Number(json, "lasts_h", plan.Lasts.TotalHours);
        json.WriteStartArray("steps");
        for (int i = 0; i < plan.Steps.Length; i++) Step(json, i + 1, plan.Steps[i], plan, words);
        json.WriteEndArray();
        Shopping(json, plan.Shopping);
        json.WriteString("caution", CautionWords.Last);
        PredictJson.WriteWarnings(json, answer.Warnings);
        json.WriteEndObject();
    }

    private static void Step(Utf8JsonWriter json, int number, BuildStep step, BuildPlan plan, BuildWords words)
    {
        ToldStep told = words.Of(step);
        json.WriteStartObject();
        json.WriteNumber("number", number);
        json.WriteString("kind", Word(step.GetType().Name[..^"Step".Length]));
        json.WriteString("phase", Word(step.Phase.ToString()));
        json.WriteString("title", told.Title);
        Number(json, "from_h", step.Visit.From.TotalHours);
        Number(json, "to_h", step.Visit.To.TotalHours);
        Moment(json, "from", plan.Conditions.Start + step.Visit.From);
        Moment(json, "to", plan.Conditions.Start + step.Visit.To);
        if (step is CoatStep coat)
        {
            Maybe(json, "window_opens_h", step.Visit.Opens?.TotalHours);
            Maybe(json, "window_closes_h", step.Visit.Closes?.TotalHours);
            json.WriteBoolean("sand_first", coat.SandFirst);
            Number(json, "dry_mm", coat.Film.Thickness);
            Number(json, "area_cm2", coat.Film.Area / 100);
            Number(json, "dry_g", coat.Film.Mass);
        }
        if (MixOf(step) is { } mix) WriteMix(json, mix, plan);
        json.WriteStartArray("weigh");
        foreach (Weighing weighing in step.Weighings) Weigh(json, weighing);
        json.WriteEndArray();
        Strings(json, "do", told.Do);
        Strings(json, "ticks", told.Ticks);
        json.WriteStartArray("cautions");
        foreach (Caution caution in step.Cautions) json.WriteStringValue(Word(caution.ToString()));
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static Mix? MixOf(BuildStep step) => step switch
    {
        CoatStep coat => coat.Mix,
        GlueStep glue => glue.Mix,
        SealStep seal => seal.Mix,
        _ => null,
    };

    private static void WriteMix(Utf8JsonWriter json, Mix mix, BuildPlan plan)
    {
        json.WriteStartObject("mix");
        json.WriteString("product", mix.Product?.Id);
        Number(json, "mixed_g", mix.MixedG);
        Number(json, "on_g", mix.OnG);
        Number(json, "lost_g", mix.LostG);
        Number(json, "left_over_g", mix.LeftOverG);
        Number(json, "dry_g", mix.FilmG);
        Number(json, "solids", mix.Solids);
        Parts(json, "syringes_ml", mix.Syringes(plan.SyringeStepMl));
        Parts(json, "scale_g", mix.Weighed(plan.ResinDigitG(mix.MixedG)));
        json.WriteEndObject();
    }

    private static void Parts(Utf8JsonWriter json, string key, Portions? portions)
    {
        if (portions is null)
        {
            json.WriteNull(key);
            return;
        }
        json.WriteStartObject(key);
        Number(json, "resin", portions.Resin);
        Number(json, "hardener", portions.Hardener);
        json.WriteEndObject();
    }

    private static void Weigh(Utf8JsonWriter json, Weighing weighing)
    {
        json.WriteStartObject();
        json.WriteString("what", Word(weighing.Point.ToString()));
        json.WriteString("name", weighing.Name);
        Number(json, "expected_g", weighing.Expected);
        Maybe(json, "gain_g", weighing.Gain);
        json.WriteString("scale", weighing.Scale?.Id);
        json.WriteEndObject();
    }

    private static void Shopping(Utf8JsonWriter json, ShoppingList list)
    {
        json.WriteStartObject("shopping");
        json.WriteStartArray("needs");
        foreach (Need need in list.Needs)
        {
            json.WriteStartObject();
            json.WriteString("name", need.Name);
            json.WriteString("box_id", need.Item?.Id);
            json.WriteString("in", need.In switch { Counted.Millimetres => "mm", Counted.Grams => "g", Counted.Boards => "boards", _ => "pieces" });
            Number(json, "needed", need.Needed);
            Number(json, "to_buy", need.ToBuy);
            Maybe(json, "cost", need.Cost);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteString("currency", list.Currency);
        Maybe(json, "materials", list.Materials);
        Maybe(json, "labour", list.Labour);
        json.WriteEndObject();
    }

    private static void Strings(Utf8JsonWriter json, string key, IEnumerable<string> lines)
    {
        json.WriteStartArray(key);
        foreach (string line in lines) json.WriteStringValue(line.Replace('\u00A0', ' '));
        json.WriteEndArray();
    }

    private static void Moment(Utf8JsonWriter json, string key, DateTimeOffset? moment)
    {
        if (moment is { } at) json.WriteString(key, at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
        else json.WriteNull(key);
    }

    private static void Maybe(Utf8JsonWriter json, string key, double? value)
    {
        if (value is { } number) Number(json, key, number);
        else json.WriteNull(key);
    }

    private static string Word(string name) => JsonNamingPolicy.SnakeCaseLower.ConvertName(name);

    private static void Number(Utf8JsonWriter json, string key, double value) => json.WriteNumber(key, Math.Round(value, 6) + 0.0);
}
