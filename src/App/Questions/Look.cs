using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;
using Trimwright.Drawing;

namespace Trimwright.App.Questions;

/// <summary>What the page shows of a lure, whatever its maker is doing: the picture, its sentence and its numbers.</summary>
/// <param name="Design">The lure.</param>
/// <param name="Prediction">In the circumstances asked for.</param>
/// <param name="Picture">As it will sit or fall: a piece of a page.</param>
/// <param name="Sentence">In the maker's words.</param>
/// <param name="Others">The other ways in which it can sit.</param>
/// <param name="Numbers">Name and value.</param>
public sealed record Look(
    LureDesign Design, Prediction Prediction, string Picture, string Sentence, IReadOnlyList<string> Others, IReadOnlyList<(string Name, string Value)> Numbers)
{
    /// <summary>To which side its nose points.</summary>
    public Nose Nose { get; private init; }

    /// <summary>Where builds of the same drawing could lie, as pencil strokes around it.</summary>
    public Look With(Unsure unsure, Notation notation) =>
        this with { Picture = Svg.Piece(Afloat.Draw(Design, Prediction, notation, couldBe: unsure.CouldBe(Prediction), nose: Nose)) };

    public static Look At(LureDesign design, Circumstances circumstances, Notation notation, Nose nose = Nose.Left, bool card = false) =>
        Of(design, Prediction.Of(design, circumstances), notation, nose, card);

    /// <summary>While a point is in hand: a quarter of the triangles. Two hundredths of a gram off at most, until the hand rests.</summary>
    public static readonly MeshSize InHand = new(81, 48);

    /// <summary>While a point is in hand: the posture of the look before is followed on a lighter mesh, and the others are left out.</summary>
    public static Look Following(LureDesign design, Look before, Notation notation) =>
        Of(design, Prediction.Following(design, before.Prediction with { Circumstances = before.Prediction.Circumstances with { Mesh = InHand } }), notation, before.Nose, card: false);

    private static Look Of(LureDesign design, Prediction prediction, Notation notation, Nose nose, bool card) =>
        new(design, prediction, Svg.Piece(Afloat.Draw(design, prediction, notation, card, nose: nose)), Core.Telling.Sentence.Of(prediction, notation),
            [.. Core.Telling.Sentence.Others(prediction, notation)], [.. NumbersOf(prediction, notation)]) { Nose = nose };

    /// <summary>What changed from an earlier look to this one.</summary>
    public string Since(Look earlier, Notation notation) => Difference.Of(earlier.Prediction, Prediction, notation);

    private static IEnumerable<(string, string)> NumbersOf(Prediction p, Notation notation)
    {
        yield return ("weighs", notation.Weight(p.Ledger.Weight));
        yield return (p.SpareBuoyancy >= 0 ? "to spare" : "heavy in the water", notation.Weight(Math.Abs(p.SpareBuoyancy)));
        yield return ("takes up", notation.Volume(p.Ledger.Volume));
        if (p.Descent?.First is { } fall)
            yield return ("falls a metre in", $"{Core.Telling.Sentence.Seconds(fall.SecondsPerMetre, notation)}");
        else if (p.SpareBuoyancy > 0) yield return ("draft", notation.Length(p.Posture.Draft));
    }
}

/// <summary>What does a lure at rest look like?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Circumstances">Where it lies.</param>
/// <param name="Notation">The maker's units.</param>
/// <param name="Nose">To which side it is drawn.</param>
/// <param name="Card">Small, without what only a large picture shows.</param>
public sealed record LookAt(LureDesign Design, Circumstances Circumstances, Notation Notation, Nose Nose = Nose.Left, bool Card = false) : IQuestion<Look>
{
    public Look Answer(Pace pace) => Look.At(Design, Circumstances, Notation, Nose, Card);
}

/// <summary>And under a hand?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Before">The look before.</param>
/// <param name="Notation">The maker's units.</param>
public sealed record LookInHand(LureDesign Design, Look Before, Notation Notation) : IQuestion<Look>
{
    public Look Answer(Pace pace) => Look.Following(Design, Before, Notation);
}

/// <summary>And with what is known of how sure it is?</summary>
/// <param name="Of">The look without that.</param>
/// <param name="Unsure">How sure it is.</param>
/// <param name="Notation">The maker's units.</param>
public sealed record LookUnsure(Look Of, Unsure Unsure, Notation Notation) : IQuestion<Look>
{
    public Look Answer(Pace pace) => Of.With(Unsure, Notation);
}
