using System.Collections.Immutable;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Finish;

/// <summary>One coat of the design's finish: what it puts on the lure.</summary>
/// <param name="Entry">Its entry in the design's finish.</param>
/// <param name="Name">As the design calls it.</param>
/// <param name="Number">The how-manieth coat of that entry, from 1.</param>
/// <param name="Of">Coats in that entry.</param>
/// <param name="Thickness">Dry, mm.</param>
/// <param name="Area">Of the film's middle, mm².</param>
/// <param name="Mass">Dry, g: what the scale gains.</param>
/// <param name="Use">Colour, clear …</param>
/// <param name="Product">From the box; null: it has none of that name.</param>
public sealed record CoatFilm(
    int Entry, string Name, int Number, int Of, double Thickness, double Area, double Mass, FinishUse Use, BoxFinish? Product)
{
    /// <summary>By which end it hangs while it sets, or that it is turned; null: nobody says.</summary>
    public HowHung? Hung { get; init; }

    /// <summary>It hangs by the other end than the coat before.</summary>
    public bool Turned { get; init; }

    /// <summary>
    /// Coat by coat, as the ledger adds them: each is the shell between the skin grown by all films before it and the skin
    /// grown by its own too, so the coats of an entry add up to the ledger's line.
    /// </summary>
    /// <param name="design">A sound design.</param>
    /// <param name="bare">The skin before any coat: the glued body.</param>
    /// <param name="box">Where products are looked up, or null.</param>
    public static ImmutableArray<CoatFilm> All(LureDesign design, ClosedMesh bare, MakersBox? box)
    {
        var coats = ImmutableArray.CreateBuilder<CoatFilm>();
        double under = SolidProperties.Of(bare).Volume, film = 0, lean = 0;
        Offset.Grown grown = Offset.From(bare);
        for (int entry = 0; entry < design.Finish.Length; entry++)
        {
            Coat coat = design.Finish[entry];
            (FinishUse use, BoxFinish? product) = Products.For(coat, box);
            for (int number = 1; number <= coat.Coats; number++)
            {
                film += coat.ThicknessMm;
                lean += coat.ThicknessMm * Hanging.Lean(coat, number);
                double over = SolidProperties.Of(grown.By(film, lean)).Volume, volume = over - under;
                coats.Add(new(entry, coat.Name, number, coat.Coats, coat.ThicknessMm, volume / coat.ThicknessMm,
                    Units.FromGramsPerCm3(coat.DensityGPerCm3) * volume, use, product) { Hung = Hanging.Side(coat, number), Turned = coat.Hung == HowHung.AlternateEnds && number > 1 });
                under = over;
            }
        }
        return coats.ToImmutable();
    }
}
