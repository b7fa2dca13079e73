using Trimwright.Core.Box;
using Trimwright.Core.Finish;

namespace Trimwright.Core.Telling;

/// <summary>Amounts to mix. Syringes are read in ml and scales for resin in g, whatever else is in inches.</summary>
public static class MixWords
{
    /// <summary>How much, where it goes, and the parts by syringe and by scale.</summary>
    public static IEnumerable<(string Name, string Value)> Rows(Mix mix, MakersBox? box, Notation notation)
    {
        double digit = Mixing.ResinDigitG(mix.MixedG, box);
        MixRatio? ratio = mix.Ratio;
        yield return (ratio is null ? "pour out" : "mix", notation.Weight(mix.MixedG));
        if (mix.Syringes(Mixing.SyringeStepMl(box)) is { } drawn)
            yield return ($"by syringe, {Ratio(mix.Product!.RatioByVolume, ratio!.ByVolume!.Value, notation)}", $"{Ml(drawn.Resin, box, notation)} resin + {Ml(drawn.Hardener, box, notation)} hardener");
        if (digit <= CoarsestDigit && mix.Weighed(digit) is { } weighed)
            yield return ($"or by scale, {Ratio(mix.Product!.RatioByWeight, ratio!.ByWeight!.Value, notation)}", $"{OnScale(weighed.Resin, digit, notation)} resin + {OnScale(weighed.Hardener, digit, notation)} hardener");
    }

    // A scale that shows no tenths spoils a cup of 10 g.
    private const double CoarsestDigit = 0.1;

    /// <summary>What becomes of it, and what is not known.</summary>
    public static IEnumerable<string> Sentences(Mix mix, MakersBox? box, Notation notation)
    {
        string lost = mix.LostG >= 0.05 ? $", {notation.Weight(mix.LostG)} stays in brush and cup" : "";
        string over = mix.LeftOverG >= 0.05 ? $", {notation.Weight(mix.LeftOverG)} is over because less than {notation.Weight(mix.PotMinimumG)} is not worth mixing" : "";
        yield return $"Of {(mix.Ratio is null ? "this" : "the mix")} {notation.Weight(mix.OnG)} goes on{lost}{over}.";
        if (mix.Solids < 0.995) yield return $"It dries to {notation.Weight(mix.FilmG)}.";
        if (mix.Product is null)
        {
            yield return box is null
                ? "No box says what you use: take ratio and times from its data sheet, and mix no less than it says."
                : "Your box names no such thing: take ratio and times from its data sheet, and mix no less than it says.";
            yield break;
        }
        if (mix.Ratio is null) yield break;
        if (mix.Ratio.ByVolume is null) yield return "Its ratio by volume is not in your box: weigh it, don't measure it by eye.";
        if (mix.Ratio.ByWeight is null) yield return "Its ratio by weight is not in your box: measure by syringe; by volume and by weight are not the same.";
        else if (Mixing.ResinDigitG(mix.MixedG, box) > CoarsestDigit) yield return "No scale in your box is fine enough to weigh it: measure by syringe.";
        yield return "Stir two minutes, scraping sides and bottom; never change the ratio to hurry it.";
    }

    private static string Ml(double ml, MakersBox? box, Notation notation) => notation.Number(ml, Mixing.SyringeStepMl(box) < 0.0999 ? 2 : 1) + "\u00A0ml";

    private static string OnScale(double grams, double digit, Notation notation) => notation.Weight(grams, digit < 0.0999 ? 2 : 1);

    // As the data sheet has it where it has it, else to one.
    private static string Ratio(IReadOnlyList<double>? stated, double ratio, Notation notation) =>
        stated is { Count: 2 } ? $"{Short(stated[0], notation)}:{Short(stated[1], notation)}"
        : ratio >= 1 ? $"{Short(100, notation)}:{Short(Math.Round(100 / ratio), notation)}" : $"{Short(Math.Round(100 * ratio), notation)}:{Short(100, notation)}";

    private static string Short(double value, Notation notation) => notation.Number(value, Math.Abs(value - Math.Round(value)) < 0.005 ? 0 : 2);
}
