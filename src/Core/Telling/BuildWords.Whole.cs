using Trimwright.Core.Finish;

namespace Trimwright.Core.Telling;

public sealed partial class BuildWords
{
    /// <summary>What it will be, when, how long, and in which air.</summary>
    public IEnumerable<string> Opening()
    {
        yield return Sentence.Of(plan.InTheSea, notation);
        string hands = $"About {notation.Number(plan.Hands.TotalHours, 0)}\u00A0h of work in {plan.Steps.Length} steps, over {Span(plan.Lasts)}.";
        string when = plan.At(TimeSpan.Zero) is { } start
            ? $" It begins on {start.ToString("ddd d MMM yyyy, HH:mm zzz", System.Globalization.CultureInfo.InvariantCulture)} and is fished from {plan.At(plan.Lasts)!.Value.ToString("ddd d MMM yyyy", System.Globalization.CultureInfo.InvariantCulture)}."
            : " Without a start, hours are counted from the first cut.";
        yield return hands + when;
        string humidity = plan.Conditions.Humidity is { } h ? $" and {notation.Number(100 * h, 0)}\u00A0% humidity" : "";
        yield return $"Times are for {notation.Temperature(plan.Conditions.TemperatureC)}{humidity} in the shop.";
        foreach (string line in Air()) yield return line;
        yield return $"Pockets are cut {(plan.Conditions.PocketsBefore ? "in the square boards, before carving" : "in the carved halves")}.";
    }

    /// <summary>An amount of something to have.</summary>
    public string Amount(Need need, double amount) => need.In switch
    {
        Counted.Millimetres => notation.Length(amount),
        Counted.Grams => notation.Heap(amount),
        Counted.Pieces or Counted.Boards => notation.Number(amount, 0),
    };

    /// <summary>What it costs, as far as prices are known.</summary>
    public IEnumerable<string> Costs()
    {
        ShoppingList list = plan.Shopping;
        string currency = list.Currency is { } c ? " " + c : "";
        if (list.Materials is { } materials)
            yield return $"Materials {notation.Number(materials, 2)}{currency}{(list.Unpriced > 0 ? $", and {(list.Unpriced == 1 ? "one thing" : $"{list.Unpriced} things")} without a price" : "")}.";
        if (list.Labour is { } labour)
            yield return $"Your {notation.Number(plan.Hands.TotalHours, 0)}\u00A0h at {notation.Number(plan.Box!.LabourPerHour!.Value, 2)} an hour: {notation.Number(labour, 2)}{currency}.";
        if (plan.Box is null) yield return "Give it your box, and it says what you have, what to buy and what it costs.";
        yield return "Besides: abrasive paper, tape, mixing cups, brushes, nitrile gloves, a mask, wax paper, bands.";
    }
}
