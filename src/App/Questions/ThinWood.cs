using System.Collections.Immutable;
using Trimwright.App.Scheduling;
using Trimwright.Core.Ballast;
using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;
using Trimwright.Core.Telling;

namespace Trimwright.App.Questions;

/// <summary>Where does a shape leave too little wood?</summary>
/// <param name="Design">Sound.</param>
/// <param name="Notation">The maker's units.</param>
internal sealed record WhereThin(LureDesign Design, Notation Notation) : IQuestion<ImmutableArray<string>>
{
    public ImmutableArray<string> Answer(Pace pace) => [.. ThinWood.Of(Design, Notation)];
}

/// <summary>Where a shape leaves too little wood: around a weight's pocket, and in the body itself.</summary>
internal static class ThinWood
{
    // Thinner than this between back and belly, or from side to side, it breaks in the hand that carves it; common practice, no source.
    private const double Slim = 6;

    // The ends run out to nothing by their nature.
    private const double Ends = 0.08;

    private const int Stations = 60;

    /// <summary>One sentence for each place, the thinnest first.</summary>
    public static IEnumerable<string> Of(LureDesign design, Notation notation) => Pockets(design, notation).Concat(Body(design.Body, notation));

    private static IEnumerable<string> Pockets(LureDesign design, Notation notation)
    {
        if (design.Ballast.IsEmpty) return [];
        var outside = new WoodOutside(design);
        double least = SoundWood.Usual.Wall;
        return design.Ballast.Select(piece => (piece, Wall: WallOf(piece, outside, design.Body))).Where(p => p.Wall < least).OrderBy(p => p.Wall)
            .Select(p => p.Wall <= 0
                ? $"the pocket of {p.piece.Name} comes through the wood's side; draw it fuller there, or move the weight."
                : $"only {notation.Caliper(p.Wall)} of wood outside the pocket of {p.piece.Name}; {notation.Caliper(least)} is the usual least.");
    }

    // A pocket whose middle lies outside has no wall at all.
    private static double WallOf(BallastPiece piece, WoodOutside outside, BodyDesign body) =>
        body.Surface().Contains(piece.Middle) ? outside.Of(piece) : 0;

    private static IEnumerable<string> Body(BodyDesign body, Notation notation)
    {
        Body surface = body.Surface();
        (double X, double High, double Wide) thinnest = Enumerable.Range(0, Stations + 1)
            .Select(i => body.LengthMm * (Ends + (1 - 2 * Ends) * i / Stations))
            .Select(x => (x, surface.BackAt(x) - surface.BellyAt(x), 2 * surface.HalfBreadthAt(x))).MinBy(s => Math.Min(s.Item2, s.Item3));
        if (Math.Min(thinnest.High, thinnest.Wide) >= Slim) yield break;
        yield return $"{notation.Length(thinnest.X)} from the nose it is only {(thinnest.High < thinnest.Wide ? $"{notation.Caliper(thinnest.High)} high" : $"{notation.Caliper(thinnest.Wide)} wide")}.";
    }
}
