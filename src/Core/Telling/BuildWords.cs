using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Finish;
using Trimwright.Core.Quantities;

namespace Trimwright.Core.Telling;

/// <summary>A build plan's steps in words: what is done, with which numbers, what is ticked off, what can hurt.</summary>
/// <param name="plan">The plan.</param>
/// <param name="notation">How numbers are shown.</param>
public sealed partial class BuildWords(BuildPlan plan, Notation notation) : IStepTeller<BuildWords.Said>
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
        Phase.Fishing => "Fishing",
    };

    /// <summary>A step in words.</summary>
    public ToldStep Of(BuildStep step)
    {
        Said said = step.Tell(this);
        return new(
            said.Title, [.. said.Do, .. Under(step)], [.. said.Rows, .. step.Weighings.SelectMany(Weighed)], [.. Ticks(step)],
            [.. step.Cautions.Select(c => plan.Steps.TakeWhile(s => !ReferenceEquals(s, step)).Any(s => s.Cautions.Contains(c)) ? CautionWords.Again(c) : CautionWords.Of(c))]);
    }

    /// <summary>A step's title, what is done, and with which numbers, by its kind.</summary>
    internal readonly record struct Said(string Title, IEnumerable<string> Do, IEnumerable<(string Name, string Value)> Rows);

    public string Title(BuildStep step) => step.Tell(this).Title;

    Said IStepTeller<Said>.Of(BoardsStep s) => new(
        s.Boards.OneBlock || s.Boards.Pieces == 1 ? "Cut one block" : "Cut and pair two boards",
        Boards(s),
        [("along the grain", notation.Length(s.Boards.Length)), ("side height", notation.Length(s.Boards.Width)), (s.Boards.Pieces == 1 ? "thick" : "thick, each", notation.Caliper(s.Boards.Thickness))]);

    Said IStepTeller<Said>.Of(PocketsStep s) => new(s.InSquareBoards ? "Cut the pockets in the square boards" : "Cut the pockets", Pockets(s), []);

    Said IStepTeller<Said>.Of(TackStep s) => new(s.OneBlock ? "Draw the outlines" : Tacked(s.Tack), Tacking(s), []);

    Said IStepTeller<Said>.Of(SawStep s) => new(
        "Saw the side, then the plan",
        Saw(),
        [("length", notation.Length(s.Length)), ($"height, most, at {notation.Length(s.HighestAt)}", notation.Caliper(s.Height)), ($"width, most, at {notation.Length(s.WidestAt)}", notation.Caliper(s.Breadth))]);

    Said IStepTeller<Said>.Of(FaceStep s) => new("Cut the face", Face(s), []);

    Said IStepTeller<Said>.Of(RoundStep s) => new(
        "Round and sand it",
        Rounding(s),
        s.Calipers.Select(c => ($"at {notation.Length(c.X)} from the nose: high, wide", $"{notation.Caliper(c.Height)}, {notation.Caliper(c.Breadth)}")));

    Said IStepTeller<Said>.Of(WeighBlankStep s) => new("Weigh the blank, dry and under water", Blank(s), []);

    Said IStepTeller<Said>.Of(SplitStep s) => new(s.Kerf > 0 ? "Saw the halves apart" : "Part the halves", Split(s), []);

    Said IStepTeller<Said>.Of(WireStep s) => new(
        "Bend the wire",
        Wire(s),
        [("cut", notation.Length(s.Cut)), ("of it along the bends", notation.Length(s.Length))]);

    Said IStepTeller<Said>.Of(SlotStep s) => new(
        "Cut the wire's slot",
        Slot(s),
        [("wide", notation.Caliper(s.Width)), ("deep, each half", notation.Caliper(s.DepthEach))]);

    Said IStepTeller<Said>.Of(WeightsStep s) => new("Cut and weigh the weights", Weights(s), []);

    Said IStepTeller<Said>.Of(DryFitStep s) => new("Dry-fit it and put it in the tub", DryFit(s), []);

    Said IStepTeller<Said>.Of(GateStep s) => new(
        "Last look before the glue",
        ["After this nothing inside can be reached. Tick every line, or don't glue yet."],
        []);

    Said IStepTeller<Said>.Of(GlueStep s) => new("Glue the halves", Glue(s), MixWords.Rows(s.Mix, plan.Box, notation));

    Said IStepTeller<Said>.Of(FairStep s) => new("Fill the gaps and sand the seam", Fair(s), []);

    Said IStepTeller<Said>.Of(SealStep s) => new("Seal it", Seal(s), s.Mix is { } mix ? MixWords.Rows(mix, plan.Box, notation) : []);

    Said IStepTeller<Said>.Of(SoakStep s) => new("Soak it for two days", Soak(s), []);

    Said IStepTeller<Said>.Of(TubStep s) => new(
        "Tub again, sealed",
        [$"The same stand-ins, tap water at {notation.Temperature(s.Target.Circumstances.Water.TemperatureC)}. It shows: {Lower(Sentence.Of(s.Target, notation))}", "Too light or too heavy can still be helped here, before the paint."],
        []);

    Said IStepTeller<Said>.Of(CoatStep s) => new(
        s.Film.Of > 1 ? $"{Capital(s.Film.Name)}, coat {s.Film.Number} of {s.Film.Of}" : Capital(s.Film.Name),
        Coat(s),
        MixWords.Rows(s.Mix, plan.Box, notation));

    Said IStepTeller<Said>.Of(EyesStep s) => new(
        "Set the eyes",
        ["Both sides at the same height: look from the front. A touch of epoxy under each; the clear coats lock them in."],
        []);

    Said IStepTeller<Said>.Of(CureStep s) => new(
        "Let it cure",
        [$"{Span(s.Left)} more at {notation.Temperature(plan.Conditions.TemperatureC)} before hooks or water{(plan.IsCold ? "; a warm room makes it fewer" : "")}. It is dry to the touch long before it is hard."],
        []);

    Said IStepTeller<Said>.Of(RigStep s) => new("Rig it and pull it", Rig(s), []);

    Said IStepTeller<Said>.Of(FishStep s) => new(
        "Fish it",
        [$"In the sea, rigged: {Lower(Sentence.Of(s.Prediction, notation))}", "Write down what it did. The next one starts from there."],
        []);

    private static string Tacked(Tack tack) => tack switch
    {
        Tack.Tape => "Tack the boards with tape",
        Tack.Paper => "Tack the boards with paper and thin glue",
        Tack.Spots => "Tack the boards with spots of super glue",
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
        WeighPoint.Rigged => "it with rings and hooks",
    };

    // The scale is told where it is another than at the weigh point before.
    private IEnumerable<string> Under(BuildStep step)
    {
        if (ScaleOf(step) is not { } scale) yield break;
        BuildStep? before = plan.Steps.TakeWhile(s => !ReferenceEquals(s, step)).LastOrDefault(s => ScaleOf(s) is not null);
        if (before is null || ScaleOf(before) != scale)
            yield return $"Weigh on the {scale.Name}: it shows {Digit(scale.ResolutionG)} and stops at {notation.Heap(scale.CapacityG)}.";
    }

    private static Box.BoxScale? ScaleOf(BuildStep step) => step.Weighings.IsEmpty ? null : step.Weighings.MaxBy(w => w.Expected)!.Scale;

    private string Digit(double grams) => notation.Weight(grams, grams < 0.0999 ? 2 : grams < 0.999 ? 1 : 0);

    /// <summary>A time as makers say it: hours up to two days, then days.</summary>
    public string Span(TimeSpan span) => Span(span, notation);

    internal static string Span(TimeSpan span, Notation notation) => span.TotalHours < 1 ? $"{notation.Number(span.TotalMinutes, 0)}\u00A0min"
        : span.TotalHours < 48.5 ? notation.Number(span.TotalHours, span.TotalHours < 9.95 && Math.Abs(span.TotalHours - Math.Round(span.TotalHours)) > 0.04 ? 1 : 0) + "\u00A0h"
        : notation.Number(span.TotalDays, span.TotalDays < 9.95 && Math.Abs(span.TotalDays - Math.Round(span.TotalDays)) > 0.04 ? 1 : 0) + "\u00A0days";

    /// <summary>A moment of the plan: a date where there is a start, else hours from it.</summary>
    public string Moment(TimeSpan elapsed) => elapsed == TimeSpan.Zero && plan.Conditions.Start is null ? "at the start" : plan.At(elapsed) is { } at
        ? at.ToString("ddd d MMM HH:mm", System.Globalization.CultureInfo.InvariantCulture).Replace(' ', '\u00A0')
        : $"{Span(elapsed)} in";

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string Lower(string text) => char.ToLowerInvariant(text[0]) + text[1..];
}
