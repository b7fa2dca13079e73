using System.Collections.Immutable;
using System.Text.Json;
using Trimwright.Core.Design;
using static Trimwright.Core.Design.ObjectWriter;

namespace Trimwright.Core.Box;

/// <summary>From records to JSON: of each item first what it is, then its numbers, then where they come from.</summary>
internal static class BoxWriter
{
    public static byte[] Write(MakersBox box) => File(json =>
    {
        json.WriteNumber(BoxFile.VersionKey, BoxFile.Version);
        json.WriteString("name", box.Name);
        Text(json, "currency", box.Currency);
        Number(json, "labour_per_h", box.LabourPerHour);
        if (box.NoLead) json.WriteBoolean("no_lead", true);
        Number(json, "syringe_step_ml", box.SyringeStepMl);
        List(json, "woods", box.Woods, Item);
        List(json, "wires", box.Wires, Item);
        List(json, "weights", box.Weights, Item);
        List(json, "stock", box.Stock, Item);
        List(json, "hooks", box.Hooks, Item);
        List(json, "rings", box.Rings, Item);
        List(json, "swivels", box.Swivels, Item);
        List(json, "snaps", box.Snaps, Item);
        List(json, "leaders", box.Leaders, Item);
        List(json, "finishes", box.Finishes, Item);
        List(json, "cutters", box.Cutters, Item);
        List(json, "scales", box.Scales, Item);
        if (box.Instruments is { } instruments)
        {
            json.WriteStartArray("instruments");
            foreach (Instrument instrument in instruments) json.WriteStringValue(Word(instrument));
            json.WriteEndArray();
        }
        Close(json, box.Kept);
    });

    private static void Item(Utf8JsonWriter json, BoxItem item)
    {
        json.WriteString("id", item.Id);
        json.WriteString("name", item.Name);
        item.WriteOwn(json);
        foreach ((string key, double? value) in item.Numbers) Number(json, key, value);
        if (item is CountedItem { Count: { } count }) json.WriteNumber("count", count);
        json.WriteString("source", Word(item.Source));
        Words(json, "measured", item.Measured);
        Words(json, "published", item.Published);
        Number(json, "price", item.Price);
        Close(json, item.Kept);
    }

    internal static void WriteBoard(Utf8JsonWriter json, Board board)
    {
        Text(json, "name", board.Name);
        json.WriteNumber("length_mm", board.LengthMm);
        json.WriteNumber("width_mm", board.WidthMm);
        json.WriteNumber("thickness_mm", board.ThicknessMm);
        json.WriteNumber("mass_g", board.MassG);
        Close(json, board.Kept);
    }

    private static void Words(Utf8JsonWriter json, string key, ImmutableArray<string> words)
    {
        if (words.IsEmpty) return;
        json.WriteStartArray(key);
        foreach (string word in words) json.WriteStringValue(word);
        json.WriteEndArray();
    }
}
