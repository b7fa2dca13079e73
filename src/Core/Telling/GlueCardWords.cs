using System.Collections.Immutable;
using Trimwright.Core.Finish;

namespace Trimwright.Core.Telling;

/// <summary>One weight on the glue card.</summary>
/// <param name="Number">By which the sheets know it.</param>
/// <param name="Name">The maker's.</param>
/// <param name="Weight">Of the piece, with its unit.</param>
/// <param name="FromNose">Its middle, with its unit.</param>
/// <param name="Height">Over or under the axis, with its unit; and how far into one half, where it is off the seam.</param>
public sealed record CardWeight(string Number, string Name, string Weight, string FromNose, string Height);

/// <summary>The glue-up in the fewest words, to be read from where both hands are in glue.</summary>
/// <param name="Before">What is done before the weights go in.</param>
/// <param name="Weights">In the order of their numbers.</param>
/// <param name="After">What is done then.</param>
/// <param name="Caution">In one line.</param>
public sealed record GlueCardWords(ImmutableArray<string> Before, ImmutableArray<CardWeight> Weights, ImmutableArray<string> After, string Caution)
{
    /// <summary>In the maker's units; amounts and places are the build plan's.</summary>
    public static GlueCardWords Of(GlueUp glue, Notation notation)
    {
        GlueStep step = glue.Step;
        string bed = glue.Pockets.IsEmpty ? "Fill the slot, bed the wire." : "Fill slot and pockets. Bed wire and weights:";
        return new GlueCardWords(
            [.. Mixed(glue, notation), bed],
            [.. glue.Pockets.Select((p, i) => new CardWeight(
                (i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), p.Piece, notation.Weight(p.Mass), notation.Caliper(p.At.X), Height(p, notation)))],
            [
                "A thin coat on both faces. Close. Bands, middle to ends.",
                "Line up seam, noses, tails, eyes. Wipe.",
                $"Look again at ten minutes. Bands off after {BuildWords.Span(step.Times.SandFrom, notation)}.",
            ],
            Sentence(string.Join("; ", step.Cautions.Select(CautionWords.OnCard))));
    }

    // What is measured out, as the build plan's rows have it; without a ratio there is room to write it in.
    private static IEnumerable<string> Mixed(GlueUp glue, Notation notation)
    {
        (string Name, string Value)[] rows = [.. MixWords.Rows(glue.Step.Mix, glue.Box, notation)];
        yield return rows.Length > 1 ? $"Mix {rows[0].Value}: {rows[1].Value}" : $"Mix {rows[0].Value} by its data sheet: ____ resin + ____ hardener";
        foreach ((string name, string value) in rows.Skip(2)) yield return $"   {(name.StartsWith("or ", StringComparison.Ordinal) ? "or " : "")}{value}";
        string pot = glue.Step.Times.PotLife is { } life ? $" Use it within {BuildWords.Span(life, notation)}." : "";
        yield return $"   Stir two minutes, sides and bottom.{pot}";
    }

    private static string Height(Pocket p, Notation notation)
    {
        string height = Math.Abs(p.At.Z) < 0.05 ? "on the axis" : $"{notation.Caliper(Math.Abs(p.At.Z))} {(p.At.Z < 0 ? "under" : "over")}";
        return Math.Abs(p.At.Y) < 0.05 ? height : $"{height}, {notation.Caliper(Math.Abs(p.At.Y))} {(p.At.Y > 0 ? "right" : "left")}";
    }

    private static string Sentence(string text) => text.Length == 0 ? "" : char.ToUpperInvariant(text[0]) + text[1..] + ".";
}
