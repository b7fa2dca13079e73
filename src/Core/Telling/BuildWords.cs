using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Telling;

/// <summary>A build plan's steps in words: what is done, with which numbers, what is ticked off, what can hurt.</summary>
/// <param name="plan">The plan.</param>
/// <param name="notation">How numbers are shown.</param>
public sealed partial class BuildWords(BuildPlan plan, Notation notation)
{
    public static string Of(Phase phase) => phase switch
    {
        Phase.Boards => "Boards",
        Phase.Carving => "Carving",
        Phase.Halves => "Wire and weights",
        Phase.DryFit => "Before the glue",
        Phase.Gluing => "Glue",
        Phase.Sealing => "Seal",
        Phase.Coats => "Colour and clear",
        _ => "Fishing",
    };

    /// <summary>A step in words.</summary>
    public ToldStep Of(BuildStep step) => new(
        Title(step), [.. Sentences(step), .. Under(step)], [.. Rows(step), .. step.Weighings.SelectMany(Weighed)], [.. Ticks(step)],
        [.. step.Cautions.Select(c => plan.Steps.TakeWhile(s => !ReferenceEquals(s, step)).Any(s => s.Cautions.Contains(c)) ? CautionWords.Again(c) : CautionWords.Of(c))]);

    public string Title(BuildStep step) => step switch
    {
        BoardsStep { Boards.OneBlock: true } => "Cut one block",
        BoardsStep { Boards.Pieces: 1 } => "Cut one block",
        BoardsStep => "Cut and pair two boards",
        PocketsStep { InSquareBoards: true } => "Cut the pockets in the square boards",
        PocketsStep => "Cut the pockets",
        TackStep { OneBlock: true } => "Draw the outlines",
        TackStep tack => tack.Tack switch
        {
            Tack.Tape => "Tack the boards with tape",
            Tack.Paper => "Tack the boards with paper and thin glue",
            _ => "Tack the boards with spots of super glue",
        },
        SawStep => "Saw the side, then the plan",
        FaceStep => "Cut the face",
        RoundStep => "Round and sand it",
        WeighBlankStep => "Weigh the blank, dry and under water",
        SplitStep { Kerf: > 0 } => "Saw the halves apart",
        SplitStep => "Part the halves",
        WireStep => "Bend the wire",
        SlotStep => "Cut the wire's slot",
        WeightsStep => "Cut and weigh the weights",
        DryFitStep => "Dry-fit it and put it in the tub",
        GateStep => "Last look before the glue",
        GlueStep => "Glue the halves",
        FairStep => "Fill the gaps and sand the seam",
        SealStep => "Seal it",
        SoakStep => "Soak it for two days",
        TubStep => "Tub again, sealed",
        CoatStep coat => coat.Film.Of > 1 ? $"{Capital(coat.Film.Name)}, coat {coat.Film.Number} of {coat.Film.Of}" : Capital(coat.Film.Name),
        EyesStep => "Set the eyes",
        CureStep => "Let it cure",
        RigStep => "Rig it and pull it",
        _ => "Fish it",
    };

    private IEnumerable<string> Sentences(BuildStep step) => step switch
    {
        BoardsStep s => Boards(s),
        PocketsStep s => Pockets(s),
        TackStep s => Tacking(s),
        SawStep => Saw(),
        FaceStep s => Face(s),
        RoundStep s => Rounding(s),
        WeighBlankStep s => Blank(s),
        SplitStep s => Split(s),
        WireStep s => Wire(s),
        SlotStep s => Slot(s),
        WeightsStep s => Weights(s),
        DryFitStep s => DryFit(s),
        GateStep => ["After this nothing inside can be reached. Tick every line, or don't glue yet."],
        GlueStep s => Glue(s),
        FairStep s => Fair(s),
        SealStep s => Seal(s),
        SoakStep s => Soak(s),
        TubStep s => [$"The same stand-ins, tap water at {notation.Temperature(s.Target.Circumstances.Water.TemperatureC)}. It shows: {Lower(Sentence.Of(s.Target, notation))}", "Too light or too heavy can still be helped here, before the paint."],
        CoatStep s => Coat(s),
        EyesStep => ["Both sides at the same height: look from the front. A touch of epoxy under each; the clear coats lock them in."],
        CureStep s => [$"{Span(s.Left)} more in the warm before hooks or water. It is dry to the touch long before it is hard."],
        RigStep s => Rig(s),
        FishStep s => [$"In the sea, rigged: {Lower(Sentence.Of(s.Prediction, notation))}", "Write down what it did. The next one starts from there."],
        _ => [],
    };

    private IEnumerable<(string Name, string Value)> Rows(BuildStep step) => step switch
    {
        BoardsStep s => [("along the grain", notation.Length(s.Boards.Length)), ("side height", notation.Length(s.Boards.Width)), (s.Boards.Pieces == 1 ? "thick" : "thick, each", notation.Caliper(s.Boards.Thickness))],
        SawStep s => [("length", notation.Length(s.Length)), ($"height, most, at {notation.Length(s.HighestAt)}", notation.Caliper(s.Height)), ($"width, most, at {notation.Length(s.WidestAt)}", notation.Caliper(s.Breadth))],
        RoundStep s => s.Calipers.Select(c => ($"at {notation.Length(c.X)} from the nose: high, wide", $"{notation.Caliper(c.Height)}, {notation.Caliper(c.Breadth)}")),
        WireStep s => [("cut", notation.Length(s.Cut)), ("of it along the bends", notation.Length(s.Length))],
        SlotStep s => [("wide", notation.Caliper(s.Width)), ("deep, each half", notation.Caliper(s.DepthEach))],
        GlueStep s => MixWords.Rows(s.Mix, plan, notation),
        SealStep { Mix: { } mix } => MixWords.Rows(mix, plan, notation),
        CoatStep s => MixWords.Rows(s.Mix, plan, notation),
        _ => [],
    };

    private IEnumerable<(string, string)> Weighed(Weighing weighing)
    {
        string gain = weighing.Gain is { } g && Math.Abs(g) >= 0.05 ? $", gained {notation.Weight(g)}" : "";
        yield return ($"weigh {What(weighing)}", notation.Weight(weighing.Expected) + gain);
    }

    private static string What(Weighing weighing) => weighing.Point switch
    {
        WeighPoint.Boards => "what you cut, square",
        WeighPoint.Blank => "the blank",
        WeighPoint.RightHalf => "the right half",
        WeighPoint.LeftHalf => "the left half",
        WeighPoint.BothHalves => "both halves",
        WeighPoint.Wire => $"the bent wire {weighing.Name}".TrimEnd(),
        WeighPoint.Piece => weighing.Name,
        WeighPoint.StandIn => $"the stand-in for the {StrengthWords.Place(weighing.Name)}",
        WeighPoint.DryFit => "it taped up, without stand-ins",
        WeighPoint.Glued => "it glued",
        WeighPoint.Sealed => "it sealed and dry",
        WeighPoint.Coat => "it once the coat is dry",
        WeighPoint.Eyes => "it with its eyes",
        _ => "it with rings and hooks",
    };

    // The scale is told where it is another than at the weigh point before.
    private IEnumerable<string> Under(BuildStep step)
    {
        if (ScaleOf(step) is not { } scale) yield break;
        BuildStep? before = plan.Steps.TakeWhile(s => !ReferenceEquals(s, step)).LastOrDefault(s => ScaleOf(s) is not null);
        if (before is null || ScaleOf(before) != scale)
            yield return $"Weigh on the {scale.Name}: it shows {Digit(scale.ResolutionG)} and stops at {notation.Number(scale.CapacityG, 0)}\u00A0g.";
    }

    private static Box.BoxScale? ScaleOf(BuildStep step) => step.Weighings.IsEmpty ? null : step.Weighings.MaxBy(w => w.Expected)!.Scale;

    private string Digit(double grams) => notation.Number(grams, grams < 0.0999 ? 2 : grams < 0.999 ? 1 : 0) + "\u00A0g";

    /// <summary>A time as makers say it: hours up to two days, then days.</summary>
    public string Span(TimeSpan span) => span.TotalHours < 1 ? $"{notation.Number(span.TotalMinutes, 0)}\u00A0min"
        : span.TotalHours < 48.5 ? notation.Number(span.TotalHours, span.TotalHours < 9.95 && Math.Abs(span.TotalHours - Math.Round(span.TotalHours)) > 0.04 ? 1 : 0) + "\u00A0h"
        : notation.Number(span.TotalDays, span.TotalDays < 9.95 && Math.Abs(span.TotalDays - Math.Round(span.TotalDays)) > 0.04 ? 1 : 0) + "\u00A0days";

    /// <summary>A moment of the plan: a date where there is a start, else hours from it.</summary>
    public string Moment(TimeSpan elapsed) => elapsed == TimeSpan.Zero && plan.Conditions.Start is null ? "at the start" : plan.At(elapsed) is { } at
        ? at.ToString("ddd d MMM HH:mm", System.Globalization.CultureInfo.InvariantCulture).Replace(' ', '\u00A0')
        : $"{Span(elapsed)} in";

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string Lower(string text) => char.ToLowerInvariant(text[0]) + text[1..];
}
