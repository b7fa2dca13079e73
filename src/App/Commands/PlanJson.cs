using System.Text;
using System.Text.Json;
using Trimwright.App.Work;
using Trimwright.Core;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Doubt;
using Trimwright.Core.Quantities;
using Trimwright.Core.Telling;

namespace Trimwright.App.Commands;

/// <summary><c>plan --json</c>: one object; its keys are a contract.</summary>
internal static class PlanJson
{
    public static string Write(PlanMade made)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, PredictJson.Options)) Write(json, made);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    private static void Write(Utf8JsonWriter json, PlanMade made)
    {
        PlanAnswer answer = made.Answer;
        json.WriteStartObject();
        json.WriteString("name", made.Design.Name);
        json.WriteString("box", made.Box.Name);
        WriteWant(json, answer.Want);
        PredictJson.Number(json, "ways", answer.Offers);
        PredictJson.Number(json, "places", answer.Seats);
        json.WriteStartArray("plans");
        for (int i = 0; i < answer.Plans.Length; i++) WritePlan(json, answer, i);
        json.WriteEndArray();
        if (answer.WhyNot is { } why) WriteWhyNot(json, made, why);
        else json.WriteNull("why_not");
        json.WriteStartArray("trim_hole");
        foreach (RemedyEffect effect in made.TrimHole)
        {
            json.WriteStartObject();
            json.WriteString("plug", SwapWords.Of(effect.Remedy, Notation.Metric));
            PredictJson.Number(json, "spare_buoyancy_g", effect.Effect.Spare);
            PredictJson.NumberOrNull(json, "trim_deg", effect.Effect.Trim is { } trim ? Units.ToDegrees(trim) : null);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (made.Now is { } now) WriteNow(json, now);
        else json.WriteNull("now");
        json.WriteString("caution", PlanWords.Caution);
        PredictJson.WriteWarnings(json, made.Warnings);
        json.WriteEndObject();
    }

    private static void WriteNow(Utf8JsonWriter json, Now now)
    {
        json.WriteStartObject("now");
        json.WriteString("stage", Words.Of(now.Stage));
        PredictJson.Number(json, "readings", now.Readings);
        PredictJson.Number(json, "wanted_spare_g", now.Wanted);
        WriteOdds(json, "as_it_is", now.AsItIs);
        json.WriteStartArray("plans");
        foreach (Odds odds in now.Plans) WriteOdds(json, null, odds);
        json.WriteEndArray();
        json.WriteStartArray("remedies");
        foreach (RemedyOdds r in now.Remedies)
        {
            json.WriteStartObject();
            json.WriteString("remedy", SwapWords.Of(r.Remedy.Remedy, Notation.Metric));
            PredictJson.Number(json, "spare_buoyancy_g", r.Remedy.Effect.Spare);
            PredictJson.NumberOrNull(json, "trim_deg", r.Remedy.Effect.Trim is { } trim ? Units.ToDegrees(trim) : null);
            json.WriteBoolean("breaks_seal", r.Remedy.Remedy.BreaksSeal);
            WriteOdds(json, "odds", r.Odds);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteOdds(Utf8JsonWriter json, string? key, Odds odds)
    {
        if (key is null) json.WriteStartObject();
        else json.WriteStartObject(key);
        PredictJson.Number(json, "chance", odds.Chance);
        PredictJson.Number(json, "spare_low_95_g", odds.Spare.Low95);
        PredictJson.Number(json, "spare_high_95_g", odds.Spare.High95);
        PredictJson.Number(json, "trim_low_95_deg", Units.ToDegrees(odds.Trim.Low95));
        PredictJson.Number(json, "trim_high_95_deg", Units.ToDegrees(odds.Trim.High95));
        json.WriteEndObject();
    }

    private static void WriteWant(Utf8JsonWriter json, Want want)
    {
        json.WriteStartObject("wanted");
        json.WriteString("words", WantWords.Of(want, Notation.Metric));
        json.WriteString("does", want.Manner.ToString().ToLowerInvariant());
        PredictJson.Number(json, "trim_deg", Units.ToDegrees(want.Trim));
        PredictJson.NumberOrNull(json, "spare_g", want.Spare);
        PredictJson.NumberOrNull(json, "nose_out_mm", want.NoseOut);
        PredictJson.NumberOrNull(json, "seconds_per_metre", want.Manner == Manner.Falls ? want.SecondsPerMetre : null);
        PredictJson.Number(json, "weight_within_g", want.WeightWithin);
        PredictJson.Number(json, "trim_within_deg", Units.ToDegrees(want.TrimWithin));
        json.WriteString("stage", Words.Of(want.Circumstances.Stage));
        json.WriteString("rig", want.Circumstances.Rig.ToString().ToLowerInvariant());
        PredictJson.WriteWater(json, want.Circumstances.Water);
        json.WriteEndObject();
    }

    internal static void WritePlan(Utf8JsonWriter json, PlanAnswer answer, int index)
    {
        BallastPlan plan = answer.Plans[index];
        json.WriteStartObject();
        json.WriteString("name", PlanWords.Name(plan));
        json.WriteString("mark", PlanWords.Mark(plan, answer.Plans));
        json.WriteString("sentence", Sentence.Of(plan.Prediction, Notation.Metric));
        json.WriteStartArray("pieces");
        foreach (PlannedPiece piece in plan.Pieces) WritePiece(json, piece);
        json.WriteEndArray();
        json.WriteStartObject("miss");
        PredictJson.Number(json, "spare_buoyancy_g", plan.SpareMiss);
        PredictJson.Number(json, "trim_deg", Units.ToDegrees(plan.TrimMiss));
        json.WriteEndObject();
        PredictJson.Number(json, "cost", plan.Choice.Cost);
        // What is proved is the first plan's cost; the others are other ways.
        json.WriteBoolean("proved", index == 0 && answer.Proved);
        PredictJson.Number(json, "gap", index == 0 ? answer.Gap : plan.Choice.Cost - answer.Plans[0].Choice.Cost + answer.Gap);
        WriteAnswer(json, "one_mm_aft", plan.Aft);
        WriteAnswer(json, "one_gram_more", plan.Heavier);
        json.WriteBoolean("on_cliff", plan.OnCliff);
        json.WriteStartObject("tub_target");
        WriteTub(json, "dry_fit", plan.DryFit.Prediction);
        WriteTub(json, "sealed", plan.Sealed.Prediction);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WritePiece(Utf8JsonWriter json, PlannedPiece piece)
    {
        json.WriteStartObject();
        json.WriteString("box_id", piece.BoxId);
        json.WriteString("name", piece.Piece.Name);
        PredictJson.Point(json, "at_mm", piece.Piece.Middle);
        PredictJson.Number(json, "mass_g", piece.Piece.Mass);
        PredictJson.NumberOrNull(json, "cut_length_mm", piece.CutLengthMm);
        json.WriteString("axis", piece.Piece.Axis.ToString().ToLowerInvariant());
        json.WriteBoolean("on_wire", piece.Piece.OnWire);
        json.WriteString("pocket", PlanWords.Pocket(piece, Notation.Metric));
        PredictJson.Number(json, "pocket_depth_mm", piece.DepthMm);
        PredictJson.Number(json, "wall_mm", piece.WallMm);
        json.WriteBoolean("hard_by_hand", piece.Cut.HardByHand);
        json.WriteEndObject();
    }

    private static void WriteAnswer(Utf8JsonWriter json, string key, Answer answer)
    {
        json.WriteStartObject(key);
        PredictJson.Number(json, "spare_buoyancy_g", answer.Spare);
        PredictJson.Number(json, "trim_deg", Units.ToDegrees(answer.Trim));
        PredictJson.Number(json, "rate_mm_s", 1000 * answer.Rate);
        json.WriteBoolean("does_something_else", answer.Other);
        json.WriteEndObject();
    }

    private static void WriteTub(Utf8JsonWriter json, string key, Prediction p)
    {
        json.WriteStartObject(key);
        PredictJson.Number(json, "weight_g", p.Ledger.Weight);
        PredictJson.Number(json, "spare_buoyancy_g", p.SpareBuoyancy);
        PredictJson.Number(json, "trim_deg", Units.ToDegrees(p.Posture.Trim));
        PredictJson.Number(json, "nose_shows_along_mm", p.Posture.NoseShowsAlong);
        json.WriteString("sentence", Sentence.Of(p, Notation.Metric));
        json.WriteStartArray("stand_ins");
        foreach (Core.Ledger.Chain chain in p.Ledger.Chains)
        {
            if (chain.StandIn is not { } standIn) continue;
            json.WriteStartObject();
            json.WriteString("hangs_from", chain.Place);
            PredictJson.Number(json, "lead_g", standIn.Mass);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteWhyNot(Utf8JsonWriter json, PlanMade made, WhyNot why)
    {
        json.WriteStartObject("why_not");
        json.WriteString("limit", why.Limit.ToString().ToLowerInvariant());
        json.WriteString("sentence", PlanWords.Of(why, made.Answer, made.Design, Notation.Metric));
        PredictJson.Number(json, "relaxed_to", why.Relaxed);
        PredictJson.NumberOrNull(json, "weights_at_mm", why.Arm);
        json.WriteBoolean("proved", why.Proved);
        json.WriteEndObject();
    }
}
