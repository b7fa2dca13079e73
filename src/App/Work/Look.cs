using Trimwright.App.Scheduling;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;
using Trimwright.Core.Water;
using Trimwright.Drawing;

namespace Trimwright.App.Work;

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

/// <summary>The three switches on the picture, as the address names them.</summary>
/// <param name="Stage">How far the build is.</param>
/// <param name="Rig">What hangs on it.</param>
/// <param name="Water">One of <see cref="WaterState.Named"/>.</param>
public sealed record Switches(Stage Stage, Rig Rig, string Water)
{
    public static readonly Switches InTheSea = new(Stage.Finished, Rig.Rigged, "ocean");

    public static readonly IReadOnlyList<(string Word, string Shown, Stage Stage)> Stages =
    [
        ("blank", "blank", Stage.Blank), ("dry-fit", "dry-fit", Stage.DryFit), ("glued", "glued", Stage.Glued),
        ("sealed", "sealed", Stage.Sealed), ("finished", "finished", Stage.Finished),
    ];

    public static readonly IReadOnlyList<(string Word, string Shown, Rig Rig)> Rigs =
        [("bare", "bare", Rig.Bare), ("standins", "stand-ins", Rig.StandIns), ("rigged", "rigged", Rig.Rigged)];

    public static readonly IReadOnlyList<(string Word, string Shown)> Waters =
        [("tap", "tap"), ("lake", "lake"), ("brackish", "brackish"), ("ocean", "sea"), ("reef", "reef")];

    public Circumstances Circumstances => new(Stage, Rig, WaterState.Named.First(w => w.Name == Water).Water);

    public string StageWord => Stages.First(s => s.Stage == Stage).Word;

    public string RigWord => Rigs.First(r => r.Rig == Rig).Word;

    /// <summary>From an address; a word that is missing or unknown means the sea, finished, rigged.</summary>
    public static Switches From(string? stage, string? rig, string? water) => new(
        Stages.Where(s => s.Word == stage).Select(s => (Stage?)s.Stage).FirstOrDefault() ?? InTheSea.Stage,
        Rigs.Where(r => r.Word == rig).Select(r => (Rig?)r.Rig).FirstOrDefault() ?? InTheSea.Rig,
        WaterState.Named.Any(w => w.Name == water) ? water! : InTheSea.Water);

    /// <summary>As the tail of an address; empty in the usual circumstances.</summary>
    public string Query => this == InTheSea ? "" : $"?stage={StageWord}&rig={RigWord}&water={Water}";
}
